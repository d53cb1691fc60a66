"""What was ordered, what was paid, issued and written for it, and which sizes sell."""

from orders.models.corrections import CorrectedLine, Correction, CorrectionTold
from orders.models.documents import IssuedDocument, IssuedDocumentQuerySet
from orders.models.hashed import hashed
from orders.models.keeping import KeepingRun
from orders.models.letters import Letter, LetterQuerySet
from orders.models.links import LinksAsked, LinksAskedQuerySet, OrderLink
from orders.models.local_charges import LocalCharge
from orders.models.order import Order, OrderLine
from orders.models.passes import DownloadPass, DownloadPassQuerySet
from orders.models.payments import Dispute, Payment, PaymentEvent, ProviderLook, Refund
from orders.models.sizes_sold import SizeSold, SizeSoldQuerySet
from orders.models.tax import TaxRate

__all__ = (
    "CorrectedLine",
    "Correction",
    "CorrectionTold",
    "Dispute",
    "DownloadPass",
    "DownloadPassQuerySet",
    "IssuedDocument",
    "IssuedDocumentQuerySet",
    "KeepingRun",
    "Letter",
    "LetterQuerySet",
    "LinksAsked",
    "LinksAskedQuerySet",
    "LocalCharge",
    "Order",
    "OrderLine",
    "OrderLink",
    "Payment",
    "PaymentEvent",
    "ProviderLook",
    "Refund",
    "SizeSold",
    "SizeSoldQuerySet",
    "TaxRate",
    "hashed",
)
