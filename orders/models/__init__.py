"""What was ordered, what was issued for it, and which sizes sell."""

from orders.models.documents import IssuedDocument, IssuedDocumentQuerySet
from orders.models.hashed import hashed
from orders.models.order import Order, OrderLine
from orders.models.sizes_sold import SizeSold, SizeSoldQuerySet

__all__ = (
    "IssuedDocument",
    "IssuedDocumentQuerySet",
    "Order",
    "OrderLine",
    "SizeSold",
    "SizeSoldQuerySet",
    "hashed",
)
