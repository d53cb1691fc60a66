"""The owner's front page says what waits for her, and where."""

from collections.abc import Callable

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from orders.models import Dispute, IssuedDocument, Letter, Payment, PaymentEvent
from orders.models.documents import MOST_ATTEMPTS
from orders.placing import Placed
from patterns.models import Draft, Offer, Pattern
from tests.orders.conftest import NOW, text_of, words_of

PAGE = reverse("orders:workroom")


def test_nothing_waits(owner_client: Client) -> None:
    page = words_of(owner_client.get(PAGE))
    assert "What waits for you today No pattern is shown in your shop yet." in page
    assert "Nothing. Orders come in" in page
    assert "No orders in the last 7 days." in page


def test_each_with_the_way_to_it(owner_client: Client, buy: Callable[..., Placed]) -> None:
    order = buy(way="transfer", now=timezone.now()).order
    payment = order.payments.get()
    Dispute.objects.create(payment=payment, reference="dp", amount_minor=650, currency="GBP", opened_at=NOW)
    PaymentEvent.objects.create(
        provider="local", event_id="e", kind="paid", outcome="waits", why="It does not fit.", received_at=NOW
    )
    other = buy(now=timezone.now()).order
    type(other).objects.filter(pk=other.pk).update(total_minor=0)
    IssuedDocument.objects.filter(line__order=other).update(attempts=MOST_ATTEMPTS, failure="a full disk")
    Letter.objects.update(due_at=None)
    Draft.objects.create(pattern=Pattern.objects.get(), text="", kept_at=NOW)
    Offer.objects.filter(is_on_sale=True).update(currency="EUR")
    response = owner_client.get(PAGE)
    words, page = words_of(response), text_of(response)
    for waits in (
        "1 disputed payment to answer",
        "2 files that could not be made",
        "2 letters that could not be sent",
        "1 message about a payment that does not fit",
        "1 bank transfer to look for",
        "1 offer priced in another currency",
        "1 draft of a revision, not published yet",
    ):
        assert waits in words
    assert "2 orders in the last 7 days." in words
    assert f'href="{reverse("orders:owner-payments")}#disputes"' in page
    for address in set(owner_client.get(PAGE).context["waiting"]):
        there, _, part = address.address.partition("#")
        assert not part or f'id="{part}"' in text_of(owner_client.get(there)), address
    assert Payment.objects.waiting_for_transfer().count() == 1


def test_stranger_is_sent_to_the_login(client: Client, db: None) -> None:
    assert client.get(PAGE).headers["Location"].startswith(reverse("admin:login"))
