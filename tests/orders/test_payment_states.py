"""Whatever happens in whatever order, money and grants are what one delivery in order gives."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

from django.db import transaction
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from orders.errors import AlreadyPaidError, RefundTooMuchError
from orders.models import IssuedDocument, LocalCharge, Order, Payment, PaymentEvent, Refund
from orders.paying import begin_card, mark_paid, take
from orders.payment_sweep import sweep_payments
from orders.placing import Placed
from orders.providers.interface import Kind, Message
from orders.providers.local import message_of
from orders.refunding import ask_refund, mark_sent, send_refund
from tests.orders.conftest import NOW

ANY = st.integers(0, 50)


class Shop(RuleBasedStateMachine):
    """Two orders by card and one by transfer. paid: what customers have truly paid, by order, in any attempt.

    messages: all that was ever sent, which may come at any time and again. given: refunds by their key.
    """

    orders: list[Order] = []

    def __init__(self) -> None:
        super().__init__()
        self.whole = transaction.atomic()
        self.whole.__enter__()
        self.messages: list[Message] = []
        self.given: dict[str, tuple[int, int]] = {}
        self.moment = NOW
        self.refunds = 0

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

    @rule(at=ANY)
    def begin(self, at: int) -> None:
        order = self.orders[at % 2]
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

    @rule()
    def owner_marks_transfer(self) -> None:
        mark_paid(self.orders[2].payments.get(), "BANK", "owner", self.moment)

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

    @rule(at=ANY)
    def provider_gives_back_by_itself(self, at: int) -> None:
        """At its own site: the message names the charge alone, and may come before the payment's."""
        charges = list(LocalCharge.objects.filter(state="paid"))
        key = f"own-{charges[at % len(charges)].reference}" if charges else ""
        if charges and key not in self.given:
            charge = charges[at % len(charges)]
            self.given[key] = (charge.order_number, 50)
            message = Message(key, Kind.REFUNDED, charge=charge.reference, amount_minor=50, currency="GBP")
            fields = {name: getattr(message, name) for name in message.__slots__}
            self.messages.append(Message(**{**fields, "refund_reference": key}))

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

    def assert_as_in_order(self) -> None:
        """All that was truly paid and given back is known, and nothing else."""
        for order in Order.objects.filter(pk__in=[each.pk for each in self.orders]):
            charged = LocalCharge.objects.filter(order_number=order.pk, state="paid").count()
            marked = order.payments.filter(provider=Payment.TRANSFER, state=Payment.State.PAID).count()
            assert order.paid_minor == 650 * (charged + marked)
            unsent = order.payments.filter(provider=Payment.TRANSFER, refunds__state=Refund.State.ASKED)
            back = sum(amount for number, amount in self.given.values() if number == order.pk)
            waiting = sum(unsent.values_list("refunds__amount_minor", flat=True))
            assert order.refunded_minor == back - waiting


def test_any_order_of_events_comes_to_the_same(buy: Callable[..., Placed]) -> None:
    Shop.orders = [buy(query=f"units=in&width={width}").order for width in (7, 8)]
    Shop.orders.append(buy(way="transfer").order)
    run_state_machine_as_test(Shop, settings=settings(max_examples=8, stateful_step_count=20, deadline=None))
