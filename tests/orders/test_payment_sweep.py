from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from orders.models import Dispute, LocalCharge, Order, Payment, PaymentEvent, Refund
from orders.paying import begin_card, take
from orders.payment_sweep import AT_ONCE, LISTED_EVERY, sweep_payments
from orders.placing import Placed
from orders.providers.interface import GivenBack, Kind, Message, ProviderError
from orders.providers.local import LocalProvider, dispute_message_of, message_of
from orders.refunding import ask_refund, send_refund
from studio.models import Shop
from tests.orders.conftest import NOW

LATER = NOW + timedelta(minutes=11)


@pytest.fixture
def charge(buy: Callable[..., Placed]) -> LocalCharge:
    """What the provider knows of a payment that was begun."""
    begin_card(buy().order, "local", NOW)
    return LocalCharge.objects.get()


def test_lost_message_is_found(charge: LocalCharge) -> None:
    LocalCharge.objects.update(state=LocalCharge.State.PAID)
    assert sweep_payments(NOW + timedelta(minutes=9)) == 0
    assert sweep_payments(LATER) == 1
    assert Order.objects.get().is_paid
    assert sweep_payments(LATER + timedelta(days=1)) == 0
    charge.refresh_from_db()
    assert take("local", message_of(charge), LATER).pk == PaymentEvent.objects.get().pk


def test_pauses_grow_and_end(charge: LocalCharge) -> None:
    often, seldom = range(0, 200, 5), range(360, 16 * 24 * 60, 360)
    looked = [minutes for minutes in (*often, *seldom) if sweep_payments(NOW + timedelta(minutes=minutes))]
    assert looked[:4] == [15, 35, 75, 155]
    assert looked[-1] == 15 * 24 * 60 - 360
    assert looked[-1] - looked[-2] == 360
    assert Payment.objects.get().state == Payment.State.BEGUN


def test_trouble_stops_nobody_else(charge: LocalCharge, monkeypatch: Any, caplog: Any) -> None:
    def fail(self: object, reference: str) -> None:
        raise ProviderError("no answer")

    monkeypatch.setattr(LocalProvider, "look_up", fail)
    assert sweep_payments(LATER) == 1
    assert "could not be looked up: no answer" in caplog.text
    Shop.objects.update(is_demo=False)
    assert sweep_payments(LATER + timedelta(hours=1)) == 1


def test_refund_that_was_not_sent_is_sent(charge: LocalCharge) -> None:
    LocalCharge.objects.update(state=LocalCharge.State.PAID)
    charge.refresh_from_db()
    take("local", message_of(charge), NOW)
    ask_refund(Payment.objects.get(), 650, reason="", key="k" * 43, owner="owner", now=NOW)
    assert sweep_payments(NOW + timedelta(minutes=5)) == 0
    assert sweep_payments(LATER) == 1
    assert Refund.objects.get().state == Refund.State.DONE
    assert not Order.objects.get().is_paid


def test_one_sweep_is_a_bounded_piece_of_work(charge: LocalCharge) -> None:
    first = Payment.objects.get()
    Payment.objects.bulk_create(
        Payment(
            order=first.order,
            provider="local",
            key=f"key{at}",
            reference=charge.reference,
            amount_minor=650,
            currency="GBP",
            begun_at=NOW,
        )
        for at in range(AT_ONCE + 5)
    )
    assert [sweep_payments(LATER) for _ in range(3)] == [AT_ONCE, 6, 0]


def test_refund_under_way_is_asked_after_until_it_ends(charge: LocalCharge, monkeypatch: Any) -> None:
    """However long that takes: a bank may need weeks."""
    LocalCharge.objects.update(state=LocalCharge.State.PAID)
    charge.refresh_from_db()
    take("local", message_of(charge), NOW)
    payment = Payment.objects.get()
    monkeypatch.setattr(LocalProvider, "give_back", lambda *_: GivenBack("re_1", is_done=False))
    refund = ask_refund(payment, 200, reason="", key="k" * 43, owner="owner", now=NOW)
    send_refund(refund, NOW)
    ends: list[Message] = []
    monkeypatch.setattr(LocalProvider, "look_up_refund", lambda *_: ends[0] if ends else None)
    assert sweep_payments(NOW + timedelta(minutes=9)) == 0
    assert sweep_payments(NOW + timedelta(days=1)) == 1
    assert sweep_payments(NOW + timedelta(days=1, minutes=10)) == 0
    told = {"key": payment.key, "refund_key": refund.key, "refund_reference": "re_1"}
    ends.append(Message("looked-up", Kind.REFUNDED, amount_minor=200, currency="GBP", **told))
    assert sweep_payments(NOW + timedelta(days=40)) == 1
    assert Order.objects.get().refunded_minor == 200
    assert sweep_payments(NOW + timedelta(days=41)) == 0


def test_dispute_is_asked_after_until_it_is_decided(charge: LocalCharge, monkeypatch: Any) -> None:
    LocalCharge.objects.update(state=LocalCharge.State.PAID)
    charge.refresh_from_db()
    take("local", message_of(charge), NOW)
    said = {"charge": charge.reference, "amount_minor": 650, "currency": "GBP", "dispute_reference": "dp_1"}
    take("local", Message("e1", Kind.DISPUTED, **said), NOW)
    assert sweep_payments(NOW + timedelta(days=1)) == 1
    lost = Message("looked-up", Kind.DISPUTE_LOST, **said)
    monkeypatch.setattr(LocalProvider, "look_up_dispute", lambda *_: lost)
    assert sweep_payments(NOW + timedelta(days=1, minutes=10)) == 0
    assert sweep_payments(NOW + timedelta(days=40)) == 1
    assert not Order.objects.get().is_paid
    assert sweep_payments(NOW + timedelta(days=41)) == 0


@pytest.fixture
def paid(charge: LocalCharge) -> LocalCharge:
    """A payment that the shop has heard of."""
    charge.state = LocalCharge.State.PAID
    charge.save()
    take("local", message_of(charge), NOW)
    return charge


def test_dispute_is_found_though_every_message_about_it_was_lost(paid: LocalCharge) -> None:
    paid.dispute, paid.disputed_at = "open", NOW
    paid.save()
    assert sweep_payments(LATER) == 1
    assert Dispute.objects.get().state == Dispute.State.OPEN
    paid.dispute = "lost"
    paid.save()
    assert sweep_payments(LATER + LISTED_EVERY) == 1
    assert not Order.objects.get().is_paid
    assert sweep_payments(LATER + 2 * LISTED_EVERY) == 0
    take("local", dispute_message_of(paid), LATER)
    assert (Dispute.objects.count(), PaymentEvent.objects.count()) == (1, 3)


def test_what_is_listed_is_asked_for_now_and_then_and_not_said_twice(
    paid: LocalCharge, monkeypatch: Any
) -> None:
    """A refund made at the provider's own site is found; what belongs to another shop is not ours."""
    asked: list[Any] = []
    said = {"amount_minor": 650, "currency": "GBP"}
    ours = Message("listed-1", Kind.REFUNDED, charge=paid.reference, refund_reference="re_1", **said)
    strangers = Message("listed-2", Kind.REFUNDED, charge="theirs", refund_reference="re_2", **said)
    nobodys = Message("listed-3", Kind.REFUNDED, refund_reference="re_3", **said)
    monkeypatch.setattr(
        LocalProvider,
        "gone_back_since",
        lambda _, moment: asked.append(moment) or [strangers, nobodys, ours],
    )
    take("local", replace(strangers, event_id="sent"), NOW)
    assert [sweep_payments(NOW + timedelta(minutes=each)) for each in (0, 29, 30)] == [1, 0, 0]
    assert asked == [NOW - timedelta(days=30), NOW - timedelta(days=30)]
    assert not Order.objects.get().is_paid
    assert PaymentEvent.objects.count() == 3


def test_list_that_cannot_be_had_is_asked_for_from_where_it_ended(
    paid: LocalCharge, monkeypatch: Any, caplog: Any
) -> None:
    """However long the shop or the provider was away."""
    asked: list[Any] = []

    def fail(self: object, moment: Any) -> None:
        asked.append(moment)
        raise ProviderError("no answer")

    sweep_payments(NOW)
    monkeypatch.setattr(LocalProvider, "gone_back_since", fail)
    for days in (50, 90):
        assert sweep_payments(NOW + timedelta(days=days)) == 0
    assert asked == [NOW - timedelta(days=30)] * 2
    assert "Refunds and disputes at local could not be looked up: no answer" in caplog.text
