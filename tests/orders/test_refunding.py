from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from django.db import connections

from orders.errors import RefundTooMuchError
from orders.models import (
    Dispute,
    IssuedDocument,
    Letter,
    LocalCharge,
    Order,
    Payment,
    PaymentEvent,
    Refund,
)
from orders.paying import begin_card, mark_paid, take
from orders.placing import Placed
from orders.providers.interface import GivenBack, Kind, Message, ProviderError
from orders.providers.local import LocalProvider, message_of
from orders.refunding import ask_refund, left_of, mark_sent, send_refund
from studio.models import Shop
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


def disputed(payment: Payment, kind: Kind, event_id: str, amount: int = 650) -> PaymentEvent:
    """What the provider says of a dispute: it names the charge alone."""
    said = {"charge": payment.charge, "amount_minor": amount, "currency": "GBP", "dispute_reference": "dp_1"}
    return take("local", Message(event_id, kind, **said), NOW)


def test_dispute_waits_and_keeps_the_money_from_being_given_twice(payment: Payment) -> None:
    for _ in range(2):
        disputed(payment, Kind.DISPUTED, "e1")
    assert Dispute.objects.open().count() == 1
    assert Order.objects.get().is_paid
    assert left_of(payment) == 0


def test_dispute_that_is_lost_is_money_given_back(payment: Payment) -> None:
    """And it may be heard of before it is heard that there is one."""
    disputed(payment, Kind.DISPUTE_LOST, "e2")
    assert disputed(payment, Kind.DISPUTED, "e1").outcome == PaymentEvent.Outcome.UNCHANGED
    order = Order.objects.get()
    assert (order.is_paid, order.refunded_minor, Dispute.objects.get().state) == (False, 650, "lost")
    assert not IssuedDocument.objects.granted().exists()
    assert not Letter.objects.filter(kind=Letter.Kind.MONEY_BACK).exists()


def test_dispute_that_is_won_changes_nothing(payment: Payment) -> None:
    disputed(payment, Kind.DISPUTED, "e1")
    disputed(payment, Kind.DISPUTE_WON, "e2")
    assert Order.objects.get().is_paid
    assert left_of(payment) == 650


def test_dispute_that_does_not_fit_waits(payment: Payment) -> None:
    event = disputed(payment, Kind.DISPUTED, "e1", amount=651)
    assert (event.outcome, event.why) == ("waits", "It is about £6.51; the payment is of £6.50.")
    assert not Dispute.objects.exists()


def money_back() -> list[Letter]:
    return list(Letter.objects.filter(kind=Letter.Kind.MONEY_BACK).order_by("pk"))


def test_customer_is_written_to_once_for_each_refund(payment: Payment) -> None:
    for _ in range(2):
        send_refund(ask(payment, 200), NOW)
    (letter,) = money_back()
    assert letter.subject == f"Money back for order {payment.order_id} at {Shop.objects.current()}"
    assert "£2.00 has been given back for your order" in letter.text
    assert "You paid £6.50; £4.50 of it stays with the shop." in letter.text
    assert "Your files stay yours." in letter.text
    assert not any(wrong in letter.text for wrong in ("None", "  ", "\n\n\n"))
    send_refund(ask(payment, 450, "b" * 43), NOW)
    last = money_back()[-1]
    assert len(money_back()) == 2
    for words in (last.text, last.html):
        assert "£4.50" in words
        assert "the files are no longer yours" in words
        assert "stays with the shop" not in words


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
