"""Writing letters: rows in the transaction of what they tell about, with marks where links will stand.

Nothing that a customer typed goes into a letter: whoever orders in a stranger's name could write to them.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from django.conf import settings
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone

from orders.models import Letter, Order
from studio.models import Shop

Kind = Letter.Kind


def mark(order: Order) -> str:
    """Return what stands in a kept letter for the link of the order."""
    return f"⟨link of order {order.number}⟩"


def order_placed(order: Order, now: datetime) -> Letter:
    """Write to the customer what was ordered and where it is."""
    shop = Shop.objects.current()
    return _write(Kind.ORDER_PLACED, order.email, [order], f"Order {order.number} at {shop}", {}, now)


def payment_received(order: Order, now: datetime) -> Letter:
    """Write to the customer that the money has come, and where the files are."""
    subject = f"Order {order.number} at {Shop.objects.current()} is paid"
    return _write(Kind.PAYMENT_RECEIVED, order.email, [order], subject, {}, now)


def links_again(to: str, orders: Sequence[Order], left_out: int, now: datetime) -> Letter:
    """Write to the customer where their orders are. left_out: how many older ones are not among them."""
    subject = f"The links to your orders at {Shop.objects.current()}"
    return _write(Kind.LINKS_AGAIN, to, orders, subject, {"left_out": left_out}, now)


def _write(
    kind: Letter.Kind, to: str, orders: Sequence[Order], subject: str, more: dict[str, Any], now: datetime
) -> Letter:
    shop = Shop.objects.current()
    context = {
        "shop": shop,
        "orders": [(order, order.lines.all(), mark(order)) for order in orders],
        "subject": subject,
        "links_again": settings.SITE_URL + reverse("orders:links-again"),
        **more,
    }
    # Whoever sends letters has no request that would set the shop's time zone.
    with timezone.override(shop.zone):
        text = render_to_string(f"letters/{kind}.txt", context)
        html = render_to_string(f"letters/{kind}.html", context)
    letter = Letter.objects.create(
        kind=kind,
        to=to,
        # A header is one line, whatever was typed.
        subject=" ".join(subject.split()),
        text=text.strip() + "\n",
        html=html.strip() + "\n",
        created_at=now,
        due_at=now,
    )
    letter.orders.set(orders)
    return letter
