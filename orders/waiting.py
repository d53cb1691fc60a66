"""What waits for the owner, gathered from all her pages."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.db.models import QuerySet
from django.urls import reverse

from orders.models import (
    CorrectedLine,
    Dispute,
    IssuedDocument,
    Letter,
    Order,
    Payment,
    PaymentEvent,
    Refund,
)
from patterns.models import Draft, Offer


@dataclass(frozen=True, slots=True)
class Waits:
    """So many things of one kind: what they are, in words, and where they are seen to."""

    count: int
    words: str
    address: str


def waiting(currency: str, now: datetime) -> list[Waits]:
    """Return what waits for her, most urgent first. currency: the shop's."""
    found = ((rows.count(), one, more, address) for rows, one, more, address in _kinds(currency, now))
    return [
        Waits(count, one if count == 1 else more, address) for count, one, more, address in found if count
    ]


def _kinds(currency: str, now: datetime) -> Iterator[tuple[QuerySet, str, str, str]]:
    """What may wait: its rows, its words for one and for more, and where it is."""
    orders, payments = reverse("orders:owner-orders"), reverse("orders:owner-payments")
    corrections = reverse("orders:owner-corrections")
    yield (
        Dispute.objects.open(),
        "disputed payment to answer",
        "disputed payments to answer",
        f"{payments}#disputes",
    )
    yield (
        IssuedDocument.objects.given_up(now),
        "file that could not be made",
        "files that could not be made",
        f"{orders}#files-given-up",
    )
    yield (
        IssuedDocument.objects.overdue(now),
        "file that should long be made: the worker seems not to run",
        "files that should long be made: the worker seems not to run",
        f"{orders}#files-given-up",
    )
    yield (
        Letter.objects.given_up(),
        "letter that could not be sent",
        "letters that could not be sent",
        f"{orders}#letters-unsent",
    )
    yield (
        PaymentEvent.objects.waiting_for_owner(),
        "message about a payment that does not fit",
        "messages about payments that do not fit",
        f"{payments}#misfits",
    )
    yield (
        Order.objects.paid_too_much(),
        "order that was paid more than once",
        "orders that were paid more than once",
        f"{payments}#too-much",
    )
    yield (
        Payment.objects.waiting_for_transfer(),
        "bank transfer to look for",
        "bank transfers to look for",
        f"{payments}#transfers",
    )
    yield (
        Refund.objects.asked().filter(payment__provider=Payment.TRANSFER),
        "transfer to send back",
        "transfers to send back",
        f"{payments}#refunds",
    )
    yield (
        CorrectedLine.objects.waiting_for_owner(),
        "sold size that a correction refuses",
        "sold sizes that a correction refuses",
        f"{corrections}#refused",
    )
    yield (
        Offer.objects.filter(is_on_sale=True).exclude(currency__in=("", currency)),
        "offer priced in another currency than the shop’s",
        "offers priced in another currency than the shop’s",
        reverse("patterns:offer-list"),
    )
    yield (
        Draft.objects.all(),
        "draft of a revision, not published yet",
        "drafts of revisions, not published yet",
        f"{corrections}#patterns",
    )
