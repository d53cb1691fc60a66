from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from django.db import connections

from orders.errors import RefundTooMuchError
from orders.models import IssuedDocument, LocalCharge, Order, Payment, PaymentEvent, Refund
from orders.paying import begin_card, mark_paid, take
from orders.placing import Placed
from orders.providers.interface import GivenBack, Kind, Message, ProviderError
from orders.providers.local import LocalProvider, message_of
from orders.refunding import ask_refund, left_of, mark_sent, send_refund
from tests.orders.conftest import NOW


@pytest.fixture
def payment(buy: Callable[..., Placed]) -> Payment:
    """A payment of 6.50 by card that has been made."""
    order = buy().order
    begin_card(order, "local", NOW)
    LocalCharge.objects.update(state=LocalCharge.State.PAID)
    take("local", message_of(LocalCharge.objects.get()), NOW)
    return order.payments.get()


def ask(payment: Payment, amount: int, key: str = "k" * 43) -> Refund:
    return ask_refund(payment, amount, reason="A slip", key=key, owner="owner", now=NOW)


def test_part_given_back_leaves_the_files(payment: Payment) -> None:
    send_refund(ask(payment, 200), NOW)
    order = Order.objects.get()
    assert (order.paid_minor, order.refunded_minor, order.is_paid) == (650, 200, True)
    assert order.payment_words == "Paid, £2.00 given back"
    assert left_of(payment) == 450


def test_all_given_back_takes_the_files_back(payment: Payment) -> None:
    send_refund(ask(payment, 650), NOW)
    order = Order.objects.get()
    assert (order.is_paid, order.payment_words) == (False, "Given back")
    assert not IssuedDocument.objects.granted().exists()
    assert Refund.objects.get().state == Refund.State.DONE


def test_same_key_is_one_refund(payment: Payment) -> None:
    for _ in range(3):
        send_refund(ask(payment, 200), NOW)
    assert Refund.objects.count() == 1
    assert Order.objects.get().refunded_minor == 200


@pytest.mark.parametrize("amount", [0, -1, 651])
def test_never_more_than_was_paid(payment: Payment, amount: int) -> None:
    with pytest.raises(RefundTooMuchError, match=r"At most £6\.50 can be given back\."):
        ask(payment, amount)


def test_never_more_together_than_was_paid(payment: Payment) -> None:
    ask(payment, 400, "a" * 43)
    with pytest.raises(RefundTooMuchError, match=r"At most £2\.50"):
        ask(payment, 300, "b" * 43)


def test_row_is_first_and_trouble_is_kept(payment: Payment, monkeypatch: Any) -> None:
    def fail(self: object, *_: object) -> GivenBack:
        assert Refund.objects.filter(state=Refund.State.ASKED).exists()
        raise ProviderError("no answer")

    monkeypatch.setattr(LocalProvider, "give_back", fail)
    send_refund(ask(payment, 200), NOW)
    refund = Refund.objects.get()
    assert (refund.state, refund.trouble, refund.tries) == ("asked", "no answer", 1)
    assert Order.objects.get().refunded_minor == 0
    monkeypatch.undo()
    send_refund(refund, NOW)
    assert Refund.objects.get().state == Refund.State.DONE


def test_refund_that_is_only_begun_waits_for_its_message(payment: Payment, monkeypatch: Any) -> None:
    monkeypatch.setattr(LocalProvider, "give_back", lambda *_: GivenBack("re_1", is_done=False))
    refund = ask(payment, 200)
    send_refund(refund, NOW)
    assert Order.objects.get().refunded_minor == 0
    told = {"key": payment.key, "refund_key": refund.key, "refund_reference": "re_1"}
    take("local", Message("e1", Kind.REFUNDED, amount_minor=200, currency="GBP", **told), NOW)
    assert Order.objects.get().refunded_minor == 200
    # A bank may send it back days later: then it was not given after all.
    take("local", Message("e2", Kind.REFUND_FAILED, amount_minor=200, currency="GBP", **told), NOW)
    take("local", Message("e3", Kind.REFUNDED, amount_minor=200, currency="GBP", **told), NOW)
    assert Order.objects.get().refunded_minor == 0
    assert left_of(payment) == 650


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({"amount_minor": 1}, "It gives back £0.01; £2.00 was asked for."),
        ({"amount_minor": 651}, "It gives back £6.51; the payment is of £6.50."),
        ({"currency": "EUR"}, "It is in EUR;"),
        ({"refund_key": "x"}, "It names a refund that this shop has not asked for."),
        ({"refund_key": "", "refund_reference": ""}, "It names no refund."),
    ],
)
def test_refund_that_does_not_fit_waits(payment: Payment, changed: dict[str, Any], why: str) -> None:
    fields = {
        "key": payment.key,
        "amount_minor": 200,
        "currency": "GBP",
        "refund_key": ask(payment, 200).key,
        "refund_reference": "re_1",
        **changed,
    }
    event = take("local", Message("odd", Kind.REFUNDED, **fields), NOW)
    assert event.outcome == PaymentEvent.Outcome.WAITS
    assert event.why.startswith(why)
    assert Order.objects.get().refunded_minor == 0


def test_transfer_is_sent_back_by_the_owner(buy: Callable[..., Placed]) -> None:
    order = buy(way="transfer").order
    mark_paid(order.payments.get(), "BANK 1", "owner", NOW)
    refund = ask(order.payments.get(), 650)
    send_refund(refund, NOW)
    assert Order.objects.get().is_paid
    mark_sent(refund, "BACK 1", "owner", NOW)
    assert not Order.objects.get().is_paid
    assert Refund.objects.get().reference == "BACK 1"


@pytest.mark.django_db(transaction=True)
def test_two_refunds_at_the_same_moment_are_not_more_than_was_paid(make_order: Callable[..., Placed]) -> None:
    values = {"amount_minor": 650, "currency": "GBP", "begun_at": NOW, "paid_at": NOW}
    payment = Payment.objects.create(
        order=make_order().order, provider="transfer", key="key", state=Payment.State.PAID, **values
    )

    def give(key: str) -> bool:
        try:
            ask(payment, 650, key * 43)
        except RefundTooMuchError:
            return False
        finally:
            connections.close_all()
        return True

    with ThreadPoolExecutor(4) as threads:
        assert sorted(threads.map(give, "abcd")) == [False, False, False, True]
