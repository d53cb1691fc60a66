"""What was ordered, what was issued and written for it, and which sizes sell."""

from orders.models.documents import IssuedDocument, IssuedDocumentQuerySet
from orders.models.hashed import hashed
from orders.models.letters import Letter, LetterQuerySet
from orders.models.links import LinksAsked, LinksAskedQuerySet, OrderLink
from orders.models.order import Order, OrderLine
from orders.models.passes import DownloadPass, DownloadPassQuerySet
from orders.models.sizes_sold import SizeSold, SizeSoldQuerySet

__all__ = (
    "DownloadPass",
    "DownloadPassQuerySet",
    "IssuedDocument",
    "IssuedDocumentQuerySet",
    "Letter",
    "LetterQuerySet",
    "LinksAsked",
    "LinksAskedQuerySet",
    "Order",
    "OrderLine",
    "OrderLink",
    "SizeSold",
    "SizeSoldQuerySet",
    "hashed",
)
