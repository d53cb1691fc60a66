"""What a provider, and whoever pretends to be one, can send to the shop."""

import json
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
import stripe
from django.test import Client
from django.utils import timezone

from orders.models import LocalCharge, Order, Payment, PaymentEvent
from orders.paying import begin_card
from orders.payment_views import MOST_BYTES
from orders.placing import Placed
from orders.providers.interface import Kind, Message
from orders.providers.local import message_of, signed
from studio.models import Shop

PLACE = "/payments/local/messages/"


@pytest.fixture
def paid(buy: Callable[..., Placed]) -> Message:
    """What the local provider says when the customer has paid, not sent yet."""
    order = buy().order
    begin_card(order, "local", timezone.now())
    charge = LocalCharge.objects.get()
    charge.state = LocalCharge.State.PAID
    return message_of(charge)


def send(client: Client, body: bytes, signature: str, place: str = PLACE) -> Any:
    return client.post(place, body, content_type="application/json", headers={"Local-Signature": signature})


def test_signed_message_is_taken_once(paid: Message) -> None:
    client = Client(enforce_csrf_checks=True)
    for _ in range(3):
        assert send(client, *signed(paid, timezone.now())).status_code == 200
    assert PaymentEvent.objects.get().outcome == PaymentEvent.Outcome.APPLIED
    assert Order.objects.get().is_paid


def test_recorded_message_is_refused_later(client: Client, paid: Message) -> None:
    recorded = signed(paid, timezone.now() - timedelta(minutes=6))
    assert send(client, *recorded).status_code == 400
    assert not PaymentEvent.objects.exists()


def test_message_with_a_changed_amount_is_not_signed(client: Client, paid: Message) -> None:
    body, signature = signed(paid, timezone.now())
    assert send(client, body.replace(b"650", b"001"), signature).status_code == 400
    assert not Order.objects.get().is_paid


@pytest.mark.parametrize("signature", ["", "t=1,v1=0", "ä", "t=1" * 5000])
def test_unsigned_message_changes_nothing(client: Client, paid: Message, signature: str) -> None:
    body, _ = signed(paid, timezone.now())
    assert send(client, body, signature).status_code == 400
    assert not PaymentEvent.objects.exists()


@pytest.mark.parametrize("body", [b"\xff\xfe", b"", b"{", b"[]", b'{"event_id": 3}', b'{"kind": "paid"}'])
def test_body_that_is_none_gets_400(client: Client, paid: Message, body: bytes) -> None:
    from orders.providers import local
    from orders.providers.signatures import sign

    assert send(client, body, sign(body, local._secret(), timezone.now())).status_code == 400
    assert not PaymentEvent.objects.exists()


def test_body_that_is_too_long_is_not_read_on(client: Client, paid: Message) -> None:
    assert send(client, b" " * (MOST_BYTES + 1), "t=1,v1=0").status_code == 413
    assert send(client, b" " * MOST_BYTES, "t=1,v1=0").status_code == 400


@pytest.mark.parametrize("name", ["stripe", "transfer", "nobody"])
def test_provider_that_is_not_set_up_gets_404(client: Client, paid: Message, name: str) -> None:
    assert send(client, *signed(paid, timezone.now()), place=f"/payments/{name}/messages/").status_code == 404


def test_local_provider_is_not_believed_by_a_real_shop(client: Client, paid: Message) -> None:
    Shop.objects.update(is_demo=False)
    assert send(client, *signed(paid, timezone.now())).status_code == 404
    assert not Order.objects.get().is_paid


@pytest.mark.parametrize("method", ["get", "put", "delete"])
def test_wrong_method_gets_405(client: Client, db: None, method: str) -> None:
    assert getattr(client, method)(PLACE).status_code == 405


def test_stripe_message_makes_an_order_paid(client: Client, paid: Message, settings: Any) -> None:
    settings.STRIPE_SECRET_KEY, settings.STRIPE_WEBHOOK_SECRETS = "sk_test_1", ["whsec_1"]
    Payment.objects.update(provider="stripe", reference="cs_1")
    order = Order.objects.get()
    session = {
        "id": "cs_1",
        "amount_total": 650,
        "currency": "gbp",
        "client_reference_id": str(order.pk),
        "metadata": {"payment": paid.key},
        "payment_intent": "pi_1",
        "payment_status": "paid",
        "customer_details": {"address": {"country": "FR"}},
    }
    body = json.dumps({"id": "evt_1", "type": "checkout.session.completed", "data": {"object": session}})
    header = stripe.WebhookSignature.generate_signature_header(body, "whsec_1")
    answer = client.post(
        "/payments/stripe/messages/",
        body,
        content_type="application/json",
        headers={"Stripe-Signature": header},
    )
    assert answer.status_code == 200
    payment = Payment.objects.get()
    assert Order.objects.get().is_paid
    assert (payment.charge, payment.country) == ("pi_1", "FR")


def test_kinds_that_are_not_about_an_end_are_kept(client: Client, paid: Message) -> None:
    other = Message(event_id="le_other", kind=Kind.OTHER)
    assert send(client, *signed(other, timezone.now())).status_code == 200
    assert PaymentEvent.objects.get().outcome == PaymentEvent.Outcome.UNCHANGED
