from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from orders.models import LocalCharge, Order, Payment, PaymentEvent, Refund, TaxRate
from orders.paying import begin_card, take
from orders.placing import Placed
from orders.providers.interface import Kind, Message
from orders.providers.local import message_of
from studio.models import Shop
from tests.orders.conftest import NOW, text_of, words_of

Buy = Callable[..., Placed]
KEY = "k" * 43


@pytest.fixture
def transfer(buy: Buy) -> Payment:
    return buy(way="transfer").order.payments.get()


@pytest.fixture
def card(buy: Buy) -> Payment:
    """A payment by card that has been made."""
    order = buy().order
    begin_card(order, "local", NOW)
    LocalCharge.objects.update(state=LocalCharge.State.PAID)
    take("local", message_of(LocalCharge.objects.get()), NOW)
    return order.payments.get()


def address(name: str, pk: int) -> str:
    return reverse(f"orders:{name}", args=[pk])


def test_transfer_is_marked_with_the_banks_reference(owner_client: Client, transfer: Payment) -> None:
    waiting = words_of(owner_client.get(reverse("orders:owner-payments")))
    assert f"Order {transfer.order_id} Ada Example" in waiting
    page = words_of(owner_client.get(address("owner-order", transfer.order_id)))
    assert f"Mark order {transfer.order_id} as paid" in page
    place = address("payment-paid", transfer.pk)
    assert "There is no reference." in words_of(owner_client.post(place, {"reference": " "}))
    assert not Order.objects.get().is_paid
    for _ in range(2):
        assert owner_client.post(place, {"reference": "BANK 1"}).status_code == 303
    assert Order.objects.get().is_paid
    page = words_of(owner_client.get(address("owner-order", transfer.order_id)))
    assert "BANK 1" in page
    assert "Mark order" not in page


def test_card_payment_cannot_be_marked(owner_client: Client, card: Payment) -> None:
    assert owner_client.post(address("payment-paid", card.pk), {"reference": "x"}).status_code == 404


def test_money_is_given_back_once(owner_client: Client, card: Payment) -> None:
    place = address("payment-refund", card.pk)
    form = {"amount": "2.00", "reason": "A slip in the order", "key": KEY}
    for _ in range(2):
        assert owner_client.post(place, form).status_code == 303
    assert Refund.objects.get().asked_by == "owner"
    assert Order.objects.get().refunded_minor == 200
    page = words_of(owner_client.get(address("owner-order", card.order_id)))
    assert "£2.00: given back. A slip in the order" in page
    assert page.count("is noted") == 1


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"amount": "6.51"}, "At most £6.50 can be given back."),
        ({"amount": "0"}, "At most £6.50 can be given back."),
        ({"amount": "all"}, "“all” is not an amount."),
        ({"amount": ""}, "There is no amount."),
        ({"reason": ""}, "There is no reason."),
        ({"key": "short"}, "This form was not complete."),
    ],
)
def test_refund_with_a_mistake_gives_nothing(
    owner_client: Client, card: Payment, changed: dict[str, str], says: str
) -> None:
    form = {"amount": "2.00", "reason": "A slip", "key": KEY, **changed}
    response = owner_client.post(address("payment-refund", card.pk), form)
    assert response.status_code == 200
    assert says in words_of(response)
    assert not Refund.objects.exists()


def test_transfer_is_sent_back_by_herself(owner_client: Client, transfer: Payment) -> None:
    owner_client.post(address("payment-paid", transfer.pk), {"reference": "BANK 1"})
    form = {"amount": "6.50", "reason": "Changed their mind", "key": KEY}
    owner_client.post(address("payment-refund", transfer.pk), form)
    assert "Send it from your bank" in words_of(owner_client.get(reverse("orders:owner-payments")))
    refund = Refund.objects.get()
    owner_client.post(address("refund-sent", refund.pk), {"reference": "BACK 1"})
    assert not Order.objects.get().is_paid
    assert "£6.50: given back." in words_of(owner_client.get(address("owner-order", transfer.order_id)))


def test_message_that_does_not_fit_is_put_away(owner_client: Client, card: Payment) -> None:
    odd = Message("odd-1", Kind.PAID, key=card.key, order_number="1", amount_minor=1, currency="GBP")
    take("local", odd, NOW)
    place = reverse("orders:owner-payments")
    event = PaymentEvent.objects.get(event_id="odd-1")
    assert "odd-1" in words_of(owner_client.get(place))
    assert owner_client.get(address("event-seen", event.pk)).status_code == 303
    assert "odd-1" in words_of(owner_client.get(place))
    owner_client.post(address("event-seen", event.pk))
    assert "Messages that do not fit" not in words_of(owner_client.get(place))
    assert PaymentEvent.objects.get(pk=event.pk).seen_by == "owner"


def test_paid_twice_is_shown(owner_client: Client, card: Payment) -> None:
    Order.objects.update(paid_minor=1300)
    assert "Paid more than once" in words_of(owner_client.get(reverse("orders:owner-payments")))


def test_country_that_the_payers_bank_contradicts(owner_client: Client, card: Payment) -> None:
    Payment.objects.update(country="FR")
    page = words_of(owner_client.get(address("owner-order", card.order_id)))
    assert "The payer’s bank says FR; the customer said GB. They differ." in page


def test_owner_is_told_that_nobody_can_pay(owner_client: Client, demo_shop: Shop) -> None:
    place = reverse("orders:owner-payments")
    assert "Nobody can pay yet" not in words_of(owner_client.get(place))
    Shop.objects.update(is_demo=False, transfer_details="")
    assert "Nobody can pay yet" in words_of(owner_client.get(place))


def test_owner_is_told_that_tax_has_no_rate(owner_client: Client, demo_shop: Shop) -> None:
    place = reverse("orders:owner-payments")
    assert "VAT" not in words_of(owner_client.get(place))
    Shop.objects.update(charges_tax=True)
    assert "No VAT is charged yet" in words_of(owner_client.get(place))
    TaxRate.objects.create(country="GB", milli_percent=20_000, valid_from=NOW.date())
    assert "Rates of VAT, by country" in words_of(owner_client.get(place))


@pytest.mark.parametrize(
    "name", ["owner-order", "payment-paid", "payment-refund", "refund-sent", "event-seen"]
)
def test_stranger_and_unknown(client: Client, owner_client: Client, db: None, name: str) -> None:
    place = address(name, 99)
    assert owner_client.get(place).status_code == 404
    stranger = Client()
    assert stranger.post(place).status_code in (302, 405)
    stranger.force_login(User.objects.create_user("helper", is_staff=True))
    assert stranger.get(place).status_code == 403


def test_hostile_name_stays_text(owner_client: Client, transfer: Payment) -> None:
    Order.objects.update(name="<script>alert(1)</script>")
    for place in (reverse("orders:owner-payments"), address("owner-order", transfer.order_id)):
        assert "<script>alert" not in text_of(owner_client.get(place))


def test_queries_do_not_grow(
    owner_client: Client, buy: Buy, transfer: Payment, django_assert_num_queries: Any
) -> None:
    place = reverse("orders:owner-payments")
    with CaptureQueriesContext(connection) as one:
        owner_client.get(place)
    for width in range(7, 12):
        buy(way="transfer", query=f"units=in&width={width}")
    with django_assert_num_queries(len(one)):
        owner_client.get(place)
