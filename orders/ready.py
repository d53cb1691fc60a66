"""Telling customers that their files are ready, where they did not stay to see it."""

from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import Exists, OuterRef, QuerySet

from orders import letters
from orders.models import IssuedDocument, Order
from orders.models.payments import granted

# Whoever is still looking at the page sees them within seconds, and needs no letter.
PATIENCE = timedelta(minutes=2)
AT_ONCE = 20


def sweep_ready(now: datetime) -> int:
    """Write to some customers that all files of their order have been made; return to how many.

    Each order once. Files that could not be made keep the letter back.
    """
    return sum(_tell(order, now) for order in _all_made(now)[:AT_ONCE])


def saw_ready(order: Order, now: datetime) -> None:
    """Note that whoever has the order's link was shown that all files are there, if they are."""
    if order.ready_at is None and order.is_paid and not _wanted().filter(line__order=order).exists():
        Order.objects.filter(pk=order.pk, ready_at=None).update(ready_at=now)


def _tell(order: Order, now: datetime) -> bool:
    with transaction.atomic():
        if not Order.objects.filter(pk=order.pk, ready_at=None).update(ready_at=now):
            return False
        letters.files_ready(order, now)
    return True


def _all_made(now: datetime) -> QuerySet[Order]:
    """Paid orders of which nobody knows yet that all is made, and has been for a while."""
    of_order = {"line__order": OuterRef("pk")}
    made_just_now = IssuedDocument.objects.filter(**of_order, issued_at__gt=now - PATIENCE)
    unready = Order.objects.filter(granted(), ready_at=None)
    unready = unready.exclude(Exists(_wanted().filter(**of_order))).exclude(Exists(made_just_now))
    return unready.order_by("placed_at")  # in the order of the index, which holds these orders alone


def _wanted() -> QuerySet[IssuedDocument]:
    return IssuedDocument.objects.filter(issued_at=None)
