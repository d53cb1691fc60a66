"""Whatever happens in whatever order, money and grants are what one delivery in order gives."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from django.db import transaction
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from orders.errors import AlreadyPaidError, RefundTooMuchError
from orders.keys import new_key
from orders.models import Dispute, IssuedDocument, Letter, LocalCharge, Order, Payment, PaymentEvent, Refund
from orders.paying import begin_card, mark_paid, take
from orders.payment_sweep import sweep_payments
from orders.placing import Placed
from orders.providers.interface import GivenBack, Kind, Message
from orders.providers.local import LocalProvider, dispute_message_of, message_of
from orders.refunding import ask_refund, mark_sent, send_refund
from tests.orders.conftest import NOW

ANY = st.integers(0, 50)
# As many as one customer may leave unpaid.
MOST_ORDERS = 8


class Shop(RuleBasedStateMachine):
    """Orders by card and by transfer: two and one at first, and some more.

    messages: all that was ever sent, which may come at any time and again. given: refunds by their key, and
    lost disputes. under_way: refunds at the provider that take their time; ended: what became of them.
    listed: what the provider has given back by itself, whether it was sent to the shop or lost on the way.
    """

    place: Callable[..., Placed]
    first_orders: list[Order] = []
    under_way: dict[str, Message] = {}
    ended: dict[str, Message] = {}
    listed: list[Message] = []

    def __init__(self) -> None:
        super().__init__()
        self.whole = transaction.atomic()
        self.whole.__enter__()
        self.orders = [*self.first_orders]
        self.messages: list[Message] = []
        self.given: dict[str, tuple[int, int]] = {}
        self.moment = NOW
        self.refunds = 0
        self.under_way.clear()
        self.ended.clear()
        self.listed.clear()

    def teardown(self) -> None:
        """Let all that is under way arrive, in whatever order it happens to be in; then look."""
        try:
            for message in reversed(self.messages):
                take("local", message, self.moment)
            for _ in range(3):
                self.sweep()
            self.assert_as_in_order()
        finally:
            transaction.set_rollback(True)
            self.whole.__exit__(None, None, None)

    def payment(self, at: int) -> Payment | None:
        payments = list(Payment.objects.all())
        return payments[at % len(payments)] if payments else None

    def paid_by(self, way: str) -> list[Order]:
        return [order for order in self.orders if order.way == way]

    @rule(way=st.sampled_from(["local", "transfer"]), clicks=st.integers(1, 2))
    def customer_orders(self, way: str, clicks: int) -> None:
        if len(self.orders) < MOST_ORDERS:
            key = new_key()
            placed = {Shop.place(way=way, key=key).order for _ in range(clicks)}
            assert len(placed) == 1
            self.orders += placed

    @rule(at=ANY)
    def begin(self, at: int) -> None:
        by_card = self.paid_by("local")
        order = by_card[at % len(by_card)]
        try:
            begin_card(order, "local", self.moment)
        except AlreadyPaidError:
            assert Order.objects.get(pk=order.pk).paid_at

    @rule(at=ANY, state=st.sampled_from(["paid", "paid", "declined"]), arrives=st.booleans())
    def customer_ends(self, at: int, state: str, arrives: bool) -> None:
        if not LocalCharge.objects.filter(state="open").exists():
            self.begin(at)
        charges = list(LocalCharge.objects.filter(state="open"))
        if charges:
            charge = charges[at % len(charges)]
            charge.state = state
            charge.save()
            self.messages.append(message_of(charge))
            if arrives:
                take("local", self.messages[-1], self.moment)

    @rule(at=ANY)
    def message_comes(self, at: int) -> None:
        if self.messages:
            take("local", self.messages[at % len(self.messages)], self.moment)

    @rule(at=ANY, changed=st.sampled_from([("amount_minor", 1), ("currency", "JPY"), ("order_number", "0")]))
    def odd_message_comes(self, at: int, changed: tuple[str, Any]) -> None:
        charge = LocalCharge.objects.first()
        if charge:
            charge.state = "paid"
            odd = message_of(charge)
            fields = {name: getattr(odd, name) for name in odd.__slots__}
            event = take("local", Message(**{**fields, changed[0]: changed[1], "event_id": f"odd{at}"}), NOW)
            assert event.outcome == PaymentEvent.Outcome.WAITS

    @rule(at=ANY)
    def owner_marks_transfer(self, at: int) -> None:
        by_transfer = self.paid_by("transfer")
        mark_paid(by_transfer[at % len(by_transfer)].payments.get(), "BANK", "owner", self.moment)

    @rule(at=ANY, amount=st.sampled_from([1, 200, 650]), sends=st.booleans())
    def owner_gives_back(self, at: int, amount: int, sends: bool) -> None:
        payment = self.payment(at)
        if payment is None:
            return
        self.refunds += 1
        try:
            refund = ask_refund(
                payment, amount, reason="", key=f"{self.refunds:043}", owner="owner", now=self.moment
            )
        except RefundTooMuchError:
            return
        self.given[refund.key] = (payment.order_id, amount)
        if sends:
            send_refund(refund, self.moment)

    @rule(at=ANY)
    def owner_sends_back(self, at: int) -> None:
        asked = list(Refund.objects.asked().filter(payment__provider=Payment.TRANSFER))
        if asked:
            mark_sent(asked[at % len(asked)], "BACK", "owner", self.moment)

    @rule(at=ANY, arrives=st.booleans())
    def provider_gives_back_by_itself(self, at: int, arrives: bool) -> None:
        """At its own site: the message names the charge alone, and may come before the payment's."""
        charges = list(LocalCharge.objects.filter(state="paid"))
        key = f"own-{charges[at % len(charges)].reference}" if charges else ""
        if charges and key not in self.given:
            charge = charges[at % len(charges)]
            self.given[key] = (charge.order_number, 50)
            message = Message(key, Kind.REFUNDED, charge=charge.reference, amount_minor=50, currency="GBP")
            fields = {name: getattr(message, name) for name in message.__slots__}
            self.listed.append(Message(**{**fields, "refund_reference": key}))
            if arrives:
                self.messages.append(self.listed[-1])

    @rule(at=ANY, kind=st.sampled_from([Kind.REFUNDED, Kind.REFUND_FAILED]), arrives=st.booleans())
    def provider_ends_refund(self, at: int, kind: Kind, arrives: bool) -> None:
        waiting = [each for each in self.under_way if each not in self.ended]
        if waiting:
            reference = waiting[at % len(waiting)]
            begun = self.under_way[reference]
            self.ended[reference] = replace(begun, kind=kind, event_id=f"{reference}-{kind}")
            if kind == Kind.REFUND_FAILED:
                del self.given[begun.refund_key]
            if arrives:
                self.messages.append(self.ended[reference])

    @rule(at=ANY, ends=st.sampled_from([["open"], ["open", "won"], ["open", "lost"]]), arrives=st.booleans())
    def bank_calls_it_back(self, at: int, ends: list[str], arrives: bool) -> None:
        """What is said of a dispute comes in any order, perhaps before that of the payment, or never."""
        charges = list(LocalCharge.objects.filter(state="paid", dispute=""))
        if not charges:
            return
        charge = charges[at % len(charges)]
        charge.disputed_at = self.moment
        for charge.dispute in ends:
            charge.save()
            if arrives:
                self.messages.append(dispute_message_of(charge))
        if charge.dispute == "lost":
            self.given[f"dispute of {charge.reference}"] = (charge.order_number, 650)

    @rule()
    def sweep(self) -> None:
        self.moment += timedelta(hours=7)
        sweep_payments(self.moment)

    @invariant()
    def grants_follow_the_money(self) -> None:
        for order in Order.objects.filter(pk__in=[each.pk for each in self.orders]):
            payments = order.payments.filter(state=Payment.State.PAID)
            assert order.paid_minor == 650 * payments.count()
            granted = IssuedDocument.objects.granted().filter(line__order=order).exists()
            assert granted == order.is_paid == (order.paid_minor > order.refunded_minor)
            told = Letter.objects.filter(orders=order, kind=Letter.Kind.PAYMENT_RECEIVED).count()
            assert told == (order.paid_at is not None)

    def assert_as_in_order(self) -> None:
        """All that was truly paid and given back is known, and nothing else."""
        for order in Order.objects.filter(pk__in=[each.pk for each in self.orders]):
            charged = LocalCharge.objects.filter(order_number=order.pk, state="paid").count()
            marked = order.payments.filter(provider=Payment.TRANSFER, state=Payment.State.PAID).count()
            assert order.paid_minor == 650 * (charged + marked)
            back = sum(amount for number, amount in self.given.values() if number == order.pk)
            asked = Refund.objects.asked().filter(payment__order=order)
            waiting = [each for each in asked if each.payment.provider == Payment.TRANSFER or each.reference]
            assert order.refunded_minor == back - sum(each.amount_minor for each in waiting)
            assert all(each.reference not in self.ended for each in waiting)
        disputes = LocalCharge.objects.exclude(dispute="").values_list("reference", "dispute")
        known = Dispute.objects.values_list("payment__charge", "state")
        assert sorted(disputes) == sorted(known)


def give_back_slowly(
    self: LocalProvider, charge: str, payment_key: str, key: str, amount_minor: int, currency: str
) -> GivenBack:
    """As some banks do: every other refund is only begun, and ends some day."""
    given = give_back_at_once(self, charge, payment_key, key, amount_minor, currency)
    if int(key) % 2:
        return given
    told = {"key": payment_key, "refund_key": key, "refund_reference": given.reference}
    begun = Message("", Kind.OTHER, amount_minor=amount_minor, currency=currency, **told)
    Shop.under_way.setdefault(given.reference, begun)
    return GivenBack(given.reference, is_done=False)


give_back_at_once = LocalProvider.give_back


def test_any_order_of_events_comes_to_the_same(
    buy: Callable[..., Placed], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(LocalProvider, "give_back", give_back_slowly)
    monkeypatch.setattr(LocalProvider, "look_up_refund", lambda _, reference: Shop.ended.get(reference))
    disputes_since = LocalProvider.gone_back_since
    monkeypatch.setattr(
        LocalProvider,
        "gone_back_since",
        lambda self, moment: [*disputes_since(self, moment), *Shop.listed],
    )
    monkeypatch.setattr(Shop, "place", staticmethod(buy), raising=False)
    Shop.first_orders = [buy(query=f"units=in&width={width}").order for width in (7, 8)]
    Shop.first_orders.append(buy(way="transfer").order)
    run_state_machine_as_test(Shop, settings=settings(max_examples=8, stateful_step_count=20, deadline=None))
