"""Writing letters: rows in the transaction of what they tell about, with marks where links will stand.

Nothing that a customer typed goes into a letter: whoever orders in a stranger's name could write to them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.conf import settings
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone

from orders.models import Letter, Order
from studio.models import Shop

Kind = Letter.Kind
# A letter lists so many changes of a line; the order's page lists all.
MOST_CHANGES = 20


@dataclass(frozen=True, slots=True)
class Told:
    """What a letter says of one line that is corrected. line: its name and size. reasons: the owner's words.

    changes: what is another in it, in sentences.
    """

    line: str
    reasons: tuple[str, ...]
    changes: tuple[str, ...]

    @property
    def first_changes(self) -> tuple[str, ...]:
        return self.changes[:MOST_CHANGES]

    @property
    def left_out(self) -> int:
        return len(self.changes) - len(self.first_changes)


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


def files_ready(order: Order, now: datetime) -> Letter:
    """Write to the customer that all files have been made."""
    subject = f"Your files of order {order.number} at {Shop.objects.current()} are ready"
    return _write(Kind.FILES_READY, order.email, [order], subject, {}, now)


def money_back(order: Order, amount: str, now: datetime) -> Letter:
    """Write to the customer that an amount is given back, and what that means for the files.

    order: with what it comes to after that. amount: in words.
    """
    subject = f"Money back for order {order.number} at {Shop.objects.current()}"
    return _write(Kind.MONEY_BACK, order.email, [order], subject, {"amount": amount}, now)


def corrected(order: Order, told: Sequence[Told], now: datetime) -> Letter:
    """Write to the customer what a corrected revision changes in what they bought."""
    subject = f"A correction to your order {order.number} at {Shop.objects.current()}"
    return _write(Kind.CORRECTED, order.email, [order], subject, {"told": told}, now)


def corrected_words(order: Order, told: Sequence[Told]) -> str:
    """Return the text that `corrected` would write, for the owner to read before."""
    context = _context([order], "", {"told": told})
    return _rendered(Kind.CORRECTED, context)[0].replace(mark(order), "(the link of the order)")


def _write(
    kind: Letter.Kind, to: str, orders: Sequence[Order], subject: str, more: dict[str, Any], now: datetime
) -> Letter:
    text, html = _rendered(kind, _context(orders, subject, more))
    letter = Letter.objects.create(
        kind=kind,
        to=to,
        # A header is one line, whatever was typed.
        subject=" ".join(subject.split()),
        text=text,
        html=html,
        created_at=now,
        # An order whose address is no longer kept has nobody to send it to.
        due_at=now if to else None,
    )
    letter.orders.set(orders)
    return letter


def _context(orders: Sequence[Order], subject: str, more: dict[str, Any]) -> dict[str, Any]:
    return {
        "shop": Shop.objects.current(),
        "orders": [(order, order.lines.all(), mark(order)) for order in orders],
        "subject": subject,
        "links_again": settings.SITE_URL + reverse("orders:links-again"),
        **more,
    }


def _rendered(kind: Letter.Kind, context: dict[str, Any]) -> tuple[str, str]:
    # Whoever sends letters has no request that would set the shop's time zone.
    with timezone.override(context["shop"].zone):
        text = render_to_string(f"letters/{kind}.txt", context)
        html = render_to_string(f"letters/{kind}.html", context)
    return text.strip() + "\n", html.strip() + "\n"
