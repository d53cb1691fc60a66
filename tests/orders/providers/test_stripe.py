"""The provider's messages, in the shape it sends them, signed by its library's own helper. No network."""

import json
from datetime import UTC, datetime
from typing import Any

import pytest
import stripe
import time_machine

from orders.providers import NoProviderError, card_provider, provider
from orders.providers.interface import (
    Asked,
    Begun,
    GivenBack,
    Kind,
    Message,
    ProviderError,
    UnreadableError,
    UnsignedError,
)
from orders.providers.stripe import StripeProvider
from studio.models import SHOP_PK, Shop

NOW = datetime(2026, 11, 28, 9, 0, tzinfo=UTC)
SECRETS = ("whsec_old", "whsec_new")
ASKED = Asked(
    key="our-key",
    order_number=12,
    title="Order 12: Boxed tote",
    amount_minor=650,
    currency="GBP",
    email="ada@example.org",
    back="https://shop.example/payments/back/12/",
)
SESSION = {
    "id": "cs_test_1",
    "object": "checkout.session",
    "amount_total": 650,
    "client_reference_id": "12",
    "currency": "gbp",
    "customer_details": {"address": {"country": "GB", "postal_code": "AB1 2CD"}, "email": "ada@example.org"},
    "metadata": {"order": "12", "payment": "our-key"},
    "payment_intent": "pi_1",
    "payment_status": "paid",
    "status": "complete",
    "url": "https://checkout.stripe.com/c/pay/cs_test_1",
}
REFUND = {
    "id": "re_1",
    "object": "refund",
    "amount": 200,
    "currency": "gbp",
    "metadata": {"refund": "refund-key", "payment": "our-key"},
    "payment_intent": "pi_1",
    "status": "succeeded",
}
PAID = Message(
    event_id="evt_1",
    kind=Kind.PAID,
    key="our-key",
    reference="cs_test_1",
    charge="pi_1",
    order_number="12",
    amount_minor=650,
    currency="GBP",
    country="GB",
)


def event(kind: str, thing: dict[str, Any], name: str = "evt_1") -> bytes:
    return json.dumps({"id": name, "object": "event", "type": kind, "data": {"object": thing}}).encode()


def signature(body: bytes, secret: str = SECRETS[1]) -> str:
    return stripe.WebhookSignature.generate_signature_header(
        body.decode(), secret, timestamp=int(NOW.timestamp())
    )


def read(body: bytes, header: str | None = None) -> Message:
    with time_machine.travel(NOW, tick=False):
        chosen = StripeProvider("sk_test_1", SECRETS)
        return chosen.read(body, signature(body) if header is None else header, NOW)


@pytest.mark.parametrize("secret", SECRETS)
def test_paid_session_with_either_secret(secret: str) -> None:
    body = event("checkout.session.completed", SESSION)
    assert read(body, signature(body, secret)) == PAID


@pytest.mark.parametrize(
    ("kind", "changed", "expected"),
    [
        ("checkout.session.async_payment_succeeded", {}, Kind.PAID),
        ("checkout.session.completed", {"payment_status": "unpaid"}, Kind.OTHER),
        (
            "checkout.session.async_payment_failed",
            {"payment_status": "unpaid"},
            Kind.FAILED,
        ),
        ("checkout.session.expired", {"payment_status": "unpaid", "status": "expired"}, Kind.FAILED),
        ("customer.created", {}, Kind.OTHER),
    ],
)
def test_session_in_its_other_states(kind: str, changed: dict[str, str], expected: Kind) -> None:
    assert read(event(kind, {**SESSION, **changed})).kind == expected


@pytest.mark.parametrize(
    ("status", "expected"),
    [
        ("succeeded", Kind.REFUNDED),
        ("failed", Kind.REFUND_FAILED),
        ("canceled", Kind.REFUND_FAILED),
        ("pending", Kind.OTHER),
    ],
)
def test_refund(status: str, expected: Kind) -> None:
    message = read(event("refund.updated", {**REFUND, "status": status}))
    assert message == Message(
        event_id="evt_1",
        kind=expected,
        key="our-key",
        charge="pi_1",
        amount_minor=200,
        currency="GBP",
        refund_key="refund-key",
        refund_reference="re_1",
    )


@pytest.mark.parametrize(
    ("status", "expected"),
    [
        ("needs_response", Kind.DISPUTED),
        ("warning_under_review", Kind.DISPUTED),
        ("won", Kind.DISPUTE_WON),
        ("warning_closed", Kind.DISPUTE_WON),
        ("lost", Kind.DISPUTE_LOST),
        ("a word of tomorrow", Kind.OTHER),
    ],
)
def test_dispute(status: str, expected: Kind) -> None:
    dispute = {"id": "dp_1", "object": "dispute", "amount": 650, "currency": "gbp", "payment_intent": "pi_1"}
    message = read(event("charge.dispute.closed", {**dispute, "charge": "ch_1", "status": status}))
    assert message == Message(
        "evt_1", expected, charge="pi_1", amount_minor=650, currency="GBP", dispute_reference="dp_1"
    )


def test_refund_made_at_the_providers_own_site_names_the_charge_alone() -> None:
    message = read(event("refund.created", {**REFUND, "metadata": {}}))
    assert (message.key, message.refund_key, message.charge) == ("", "", "pi_1")


@pytest.mark.parametrize("header", ["", "t=1,v1=abc", "t=ä,v1=ö", "v1=" + "a" * 64, "t=1795856400,v1=é"])
def test_unsigned_message_is_refused(header: str) -> None:
    with pytest.raises(UnsignedError):
        read(event("checkout.session.completed", SESSION), header)


def test_old_signature_is_refused() -> None:
    body = event("checkout.session.completed", SESSION)
    old = stripe.WebhookSignature.generate_signature_header(
        body.decode(), "whsec_new", timestamp=int(NOW.timestamp()) - 301
    )
    with pytest.raises(UnsignedError):
        read(body, old)


def test_body_that_is_not_utf_8_is_refused() -> None:
    with pytest.raises(UnreadableError, match="not UTF-8"):
        read(b"\xff\xfe{}", "t=1,v1=abc")


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"[]",
        b"null",
        b'{"id": 1}',
        b'{"type": "checkout.session.completed", "id": "e", "data": {"object": 3}}',
        event("checkout.session.completed", {**SESSION, "amount_total": "650"}),
        event("checkout.session.completed", {**SESSION, "amount_total": 6.5}),
        event("checkout.session.completed", {**SESSION, "currency": None, "amount_total": True}),
        event("checkout.session.completed", {**SESSION, "id": "x" * 5000}),
        event("checkout.session.completed", {**SESSION, "metadata": "none"}),
        event("refund.created", {"id": "re_1"}),
    ],
)
def test_signed_message_of_another_shape_is_unreadable(body: bytes) -> None:
    with pytest.raises(UnreadableError):
        read(body)


def test_currency_that_the_provider_counts_in_another_unit() -> None:
    kroner = {**SESSION, "currency": "isk", "amount_total": 65_000}
    assert read(event("checkout.session.completed", kroner)).amount_minor == 650
    with pytest.raises(UnreadableError):
        read(event("checkout.session.completed", {**kroner, "amount_total": 65_001}))


class Calls:
    """Stands in for the library's requests: keeps what was asked, and answers or fails."""

    def __init__(self, answer: Any, kind: Any = stripe.StripeObject) -> None:
        self.answer, self.kind, self.asked = answer, kind, []

    def __call__(self, *args: Any) -> Any:
        self.asked.append(args)
        if isinstance(self.answer, Exception):
            raise self.answer
        return self.kind.construct_from(self.answer, "sk_test_1")


@pytest.fixture
def chosen() -> StripeProvider:
    return StripeProvider("sk_test_1", SECRETS)


def test_begin_sends_our_key_and_never_the_orders_link(chosen: StripeProvider, monkeypatch: Any) -> None:
    calls = Calls(SESSION)
    monkeypatch.setattr(chosen.client.v1.checkout.sessions, "create", calls)
    assert chosen.begin(ASKED) == Begun("cs_test_1", SESSION["url"])
    ((params, options),) = calls.asked
    assert options == {"idempotency_key": "payment-our-key"}
    assert params["line_items"][0]["price_data"]["unit_amount"] == 650
    assert params["line_items"][0]["price_data"]["currency"] == "gbp"
    assert params["metadata"] == params["payment_intent_data"]["metadata"]
    assert params["metadata"] == {"payment": "our-key", "order": "12"}
    assert "/orders/" not in json.dumps(params)


def test_give_back_is_asked_for_with_the_refunds_key(chosen: StripeProvider, monkeypatch: Any) -> None:
    calls = Calls({**REFUND, "status": "pending"})
    monkeypatch.setattr(chosen.client.v1.refunds, "create", calls)
    assert chosen.give_back("pi_1", "our-key", "refund-key", 200, "GBP") == GivenBack("re_1", is_done=False)
    ((params, options),) = calls.asked
    assert options == {"idempotency_key": "refund-refund-key"}
    assert (params["payment_intent"], params["amount"]) == ("pi_1", 200)


@pytest.mark.parametrize(
    ("changed", "kind"),
    [
        ({}, Kind.PAID),
        ({"payment_status": "unpaid", "status": "expired"}, Kind.FAILED),
        ({"payment_status": "unpaid", "status": "open"}, None),
    ],
)
def test_look_up(
    chosen: StripeProvider, monkeypatch: Any, changed: dict[str, str], kind: Kind | None
) -> None:
    monkeypatch.setattr(chosen.client.v1.checkout.sessions, "retrieve", Calls({**SESSION, **changed}))
    message = chosen.look_up("cs_test_1")
    assert (message and message.kind) == kind
    assert message is None or message.event_id == f"looked-up-cs_test_1-{kind}"


def test_trouble_with_the_provider_is_told_as_such(chosen: StripeProvider, monkeypatch: Any) -> None:
    trouble = Calls(stripe.APIConnectionError("no route"))
    monkeypatch.setattr(chosen.client.v1.checkout.sessions, "create", trouble)
    monkeypatch.setattr(chosen.client.v1.checkout.sessions, "retrieve", trouble)
    monkeypatch.setattr(chosen.client.v1.refunds, "create", trouble)
    for call in (
        lambda: chosen.begin(ASKED),
        lambda: chosen.look_up("cs_test_1"),
        lambda: chosen.give_back("pi_1", "our-key", "refund-key", 200, "GBP"),
    ):
        with pytest.raises(ProviderError, match=r"^APIConnectionError"):
            call()


def test_provider_is_there_with_its_key_alone(db: None, settings: Any) -> None:
    with pytest.raises(NoProviderError):
        provider("stripe")
    assert card_provider(Shop()) is None
    settings.STRIPE_SECRET_KEY, settings.STRIPE_WEBHOOK_SECRETS = "sk_test_1", ["whsec_1"]
    assert provider("stripe").name == "stripe"
    assert card_provider(Shop(is_demo=True)).name == "stripe"


def test_local_provider_is_the_demos_alone(db: None) -> None:
    with pytest.raises(NoProviderError):
        provider("local")
    Shop.objects.create(pk=SHOP_PK, is_demo=True)
    assert provider("local").name == "local"
    assert card_provider(Shop(is_demo=True)).name == "local"


def test_refund_is_looked_up(chosen: StripeProvider, monkeypatch: Any) -> None:
    found = {"status": "pending"}
    theirs = stripe.Refund.construct_from
    monkeypatch.setattr(
        chosen.client.v1.refunds, "retrieve", lambda reference: theirs({**REFUND, **found}, None)
    )
    assert chosen.look_up_refund("re_1") is None
    for status, kind in (("succeeded", Kind.REFUNDED), ("failed", Kind.REFUND_FAILED)):
        found["status"] = status
        message = chosen.look_up_refund("re_1")
        assert message is not None
        assert (message.kind, message.refund_key, message.amount_minor) == (kind, "refund-key", 200)
        assert message.event_id == f"looked-up-re_1-{status}"


def test_dispute_is_looked_up(chosen: StripeProvider, monkeypatch: Any) -> None:
    found = {
        "id": "dp_1",
        "amount": 650,
        "currency": "gbp",
        "payment_intent": "pi_1",
        "status": "under_review",
    }
    theirs = stripe.Dispute.construct_from
    monkeypatch.setattr(chosen.client.v1.disputes, "retrieve", lambda reference: theirs(found, None))
    assert chosen.look_up_dispute("dp_1") is None
    found["status"] = "lost"
    message = chosen.look_up_dispute("dp_1")
    assert message is not None
    assert (message.kind, message.dispute_reference) == (Kind.DISPUTE_LOST, "dp_1")


def test_all_that_has_gone_back_is_listed(chosen: StripeProvider, monkeypatch: Any, caplog: Any) -> None:
    """What has no end yet says nothing, and one that cannot be read keeps none of the others from it."""
    dispute = {"id": "dp_1", "amount": 650, "currency": "gbp", "payment_intent": "pi_1", "status": "lost"}
    told = [{**REFUND, "amount": None}, {**REFUND, "status": "pending"}, REFUND]
    refunds, disputes = (
        Calls({"object": "list", "has_more": False, "url": "/v1/x", "data": data}, stripe.ListObject)
        for data in (told, [dispute])
    )
    monkeypatch.setattr(chosen.client.v1.refunds, "list", refunds)
    monkeypatch.setattr(chosen.client.v1.disputes, "list", disputes)
    refund, lost = chosen.gone_back_since(NOW)
    assert refunds.asked == disputes.asked == [({"created": {"gte": int(NOW.timestamp())}, "limit": 100},)]
    assert (refund.kind, refund.event_id) == (Kind.REFUNDED, "looked-up-re_1-succeeded")
    assert (lost.kind, lost.event_id) == (Kind.DISPUTE_LOST, "looked-up-dp_1-lost")
    assert "Something in the provider's list cannot be read" in caplog.text
    refunds.answer = stripe.APIConnectionError("no route")
    with pytest.raises(ProviderError, match=r"^APIConnectionError"):
        chosen.gone_back_since(NOW)
