"""Applying what is heard of a payment: once, forwards only, and only where all of it fits."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from orders import paying
from orders.errors import AlreadyPaidError, NotPaidError
from orders.issuing import issue
from orders.models import IssuedDocument, Letter, LocalCharge, Order, Payment, PaymentEvent, SizeSold
from orders.paying import begin_card, mark_paid, take
from orders.placing import Placed
from orders.providers.interface import Kind, Message, ProviderError
from orders.providers.local import LocalProvider, message_of
from tests.orders.conftest import NOW

Buy = Callable[..., Placed]


@pytest.fixture
def payment(buy: Buy) -> Payment:
    """A payment of 6.50 that was begun at the local provider."""
    order = buy().order
    begin_card(order, "local", NOW)
    return order.payments.get()


def paid(payment: Payment, **changed: Any) -> Message:
    """What the provider says when the customer has paid."""
    charge = LocalCharge.objects.get(payment_key=payment.key)
    charge.state = LocalCharge.State.PAID
    return replace(message_of(charge), **changed)


def stand(order: Order) -> tuple[int, int, bool, int]:
    """The money, the grant and the files that are granted."""
    order = Order.objects.get(pk=order.pk)
    granted = IssuedDocument.objects.granted().filter(line__order=order).count()
    assert order.is_paid == bool(granted) == bool(SizeSold.objects.of(None).filter(line__order=order))
    return order.paid_minor, order.refunded_minor, order.is_paid, granted


def test_order_is_not_paid_before_it_is(buy: Buy, blank_book: object) -> None:
    placed = buy()
    assert stand(placed.order) == (0, 0, False, 0)
    assert not IssuedDocument.objects.wanted().exists()
    with pytest.raises(NotPaidError):
        issue(IssuedDocument.objects.first())


def test_message_that_fits_makes_it_paid(payment: Payment, blank_book: object) -> None:
    event = take("local", paid(payment), NOW)
    assert event.outcome == PaymentEvent.Outcome.APPLIED
    assert stand(payment.order) == (650, 0, True, 2)
    order = Order.objects.get()
    assert (order.invoice_number, order.paid_at, order.payment_words) == (1, NOW, "Paid")
    assert issue(IssuedDocument.objects.first()).startswith(b"%PDF-")


def test_message_that_comes_again_changes_nothing(payment: Payment) -> None:
    for hours in range(3):
        take("local", paid(payment), NOW + timedelta(hours=hours))
    assert PaymentEvent.objects.count() == 1
    assert stand(payment.order) == (650, 0, True, 2)
    assert Order.objects.get().paid_at == NOW


def test_failure_that_comes_late_does_not_undo_it(payment: Payment) -> None:
    take("local", paid(payment), NOW)
    late = take("local", paid(payment, event_id="late", kind=Kind.FAILED), NOW)
    assert late.outcome == PaymentEvent.Outcome.UNCHANGED
    assert stand(payment.order) == (650, 0, True, 2)


def test_payment_that_came_late_counts_after_a_failure(payment: Payment) -> None:
    take("local", paid(payment, event_id="first", kind=Kind.FAILED), NOW)
    assert stand(payment.order) == (0, 0, False, 0)
    take("local", paid(payment), NOW)
    assert stand(payment.order) == (650, 0, True, 2)


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({"amount_minor": 1}, "It is of £0.01; £6.50 is to be paid."),
        ({"amount_minor": 65_000}, "It is of £650.00; £6.50 is to be paid."),
        ({"amount_minor": 0}, "It is of 0 GBP; £6.50 is to be paid."),
        ({"amount_minor": -650}, "It is of -650 GBP; £6.50 is to be paid."),
        ({"amount_minor": None}, "It is of no amount; £6.50 is to be paid."),
        ({"currency": "JPY"}, "It is in JPY; the payment is in GBP."),
        ({"currency": ""}, "It is in no currency; the payment is in GBP."),
        ({"order_number": "999"}, "It names order 999;"),
        ({"order_number": ""}, "It names no order."),
        ({"reference": "another"}, "It is about another payment at the provider"),
        ({"key": "nobody's"}, "No payment of this shop is known by what it names."),
    ],
)
def test_what_does_not_fit_grants_nothing_and_waits(
    payment: Payment, changed: dict[str, Any], why: str
) -> None:
    event = take("local", paid(payment, event_id="odd", **changed), NOW)
    assert event.outcome == PaymentEvent.Outcome.WAITS
    assert event.why.startswith(why)
    assert stand(payment.order) == (0, 0, False, 0)
    assert PaymentEvent.objects.waiting_for_owner().get() == event
    take("local", paid(payment), NOW)
    assert stand(payment.order) == (650, 0, True, 2)


def test_message_of_another_provider_is_not_for_this_payment(payment: Payment) -> None:
    event = take("stripe", paid(payment), NOW)
    assert event.outcome == PaymentEvent.Outcome.WAITS
    assert stand(payment.order) == (0, 0, False, 0)


def test_refund_that_is_heard_of_before_the_payment(payment: Payment) -> None:
    """It names only the charge, which is not known before the payment is."""
    early = Message(
        event_id="early",
        kind=Kind.REFUNDED,
        charge=payment.reference,
        amount_minor=650,
        currency="GBP",
        refund_reference="re_1",
    )
    assert take("local", early, NOW).outcome == PaymentEvent.Outcome.WAITS
    take("local", paid(payment), NOW)
    assert stand(payment.order) == (650, 650, False, 0)
    assert PaymentEvent.objects.get(event_id="early").outcome == PaymentEvent.Outcome.APPLIED


def test_invoice_numbers_have_no_gap(buy: Buy) -> None:
    orders = [buy(query=f"units=in&width={width}").order for width in (7, 8, 9)]
    for order in (orders[2], orders[0]):
        begin_card(order, "local", NOW)
        take("local", paid(order.payments.get()), NOW)
    numbers = [Order.objects.get(pk=order.pk).invoice_number for order in orders]
    assert numbers == [2, None, 1]


# Beginning


def test_payment_is_gone_on_with(buy: Buy) -> None:
    order = buy().order
    addresses = {begin_card(order, "local", NOW + timedelta(hours=hours)) for hours in (0, 1, 22)}
    assert len(addresses) == 1
    assert (Payment.objects.count(), LocalCharge.objects.count()) == (1, 1)


def test_payment_is_begun_anew_when_the_old_one_is_over(buy: Buy) -> None:
    order = buy().order
    first = begin_card(order, "local", NOW)
    assert begin_card(order, "local", NOW + timedelta(hours=24)) != first
    take("local", paid(order.payments.first(), kind=Kind.FAILED), NOW)
    take("local", paid(order.payments.last(), kind=Kind.FAILED), NOW)
    assert begin_card(order, "local", NOW + timedelta(hours=25)) != first
    assert Payment.objects.count() == 3


def test_row_is_there_before_the_provider_is_asked(buy: Buy, monkeypatch: Any) -> None:
    order = buy().order

    def fail(self: object, asked: object) -> None:
        assert Payment.objects.filter(order=order, reference="").exists()
        raise ProviderError("no answer")

    monkeypatch.setattr(LocalProvider, "begin", fail)
    with pytest.raises(ProviderError):
        begin_card(order, "local", NOW)
    monkeypatch.undo()
    begin_card(order, "local", NOW + timedelta(minutes=1))
    assert Payment.objects.get().key == LocalCharge.objects.get().payment_key


def test_what_is_paid_is_not_begun_again(payment: Payment) -> None:
    take("local", paid(payment), NOW)
    with pytest.raises(AlreadyPaidError):
        begin_card(payment.order, "local", NOW)


def test_paid_twice_is_shown_to_the_owner(payment: Payment) -> None:
    begin_card(payment.order, "local", NOW + timedelta(hours=24))
    for each in payment.order.payments.all():
        take("local", paid(each), NOW)
    assert stand(payment.order) == (1300, 0, True, 2)
    assert Order.objects.paid_too_much().get() == payment.order


# Transfers


def test_transfer_waits_until_the_owner_marks_it(buy: Buy) -> None:
    order = buy(way="transfer").order
    (payment,) = Payment.objects.waiting_for_transfer()
    assert stand(order) == (0, 0, False, 0)
    for reference in ("BANK 77", "BANK 78"):
        mark_paid(payment, reference, "owner", NOW)
    assert stand(order) == (650, 0, True, 2)
    assert (Payment.objects.get().reference, PaymentEvent.objects.get().seen_by) == ("BANK 77", "owner")
    assert not Payment.objects.waiting_for_transfer().exists()


def test_what_breaks_half_way_leaves_nothing(payment: Payment, monkeypatch: Any) -> None:
    def break_off(*_: object) -> None:
        raise OSError("the disk is full")

    monkeypatch.setattr(paying, "settle", break_off)
    with pytest.raises(OSError, match="the disk is full"):
        take("local", paid(payment), NOW)
    assert not PaymentEvent.objects.exists()
    assert Payment.objects.get().state == Payment.State.BEGUN


def test_customer_is_written_to_when_the_order_is_placed_and_when_it_is_paid(buy: Buy) -> None:
    order = buy(way="transfer").order
    (placed,) = Letter.objects.filter(orders=order)
    assert "To pay: £6.50" in placed.text
    assert f"write “Order {order.number}” as what it is for:\nAn account at an invented bank" in placed.text
    for _ in range(2):
        mark_paid(order.payments.get(), "BANK 77", "owner", NOW)
    paid = Letter.objects.get(orders=order, kind=Letter.Kind.PAYMENT_RECEIVED)
    assert paid.text.startswith(f"Your order {order.number} at The pattern room is paid: £6.50.")
    assert paid.html
