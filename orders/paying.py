"""Paying for an order: a payment is begun here, and what is heard of it is applied here.

A message grants nothing by itself. It is stored once; in the same transaction it is compared with the payment
that it names, and moves that payment forwards or changes nothing; then the order's figures are added up anew
from its rows. So messages that come twice, late or in another order lead to the same end, and one that does
not fit leaves everything as it is and waits for the owner.
"""

import secrets
from dataclasses import asdict
from datetime import datetime, timedelta

from django.conf import settings
from django.db import transaction
from django.urls import reverse

from orders import letters
from orders.errors import AlreadyPaidError
from orders.models import Dispute, Order, Payment, PaymentEvent, Refund
from orders.providers import provider
from orders.providers.interface import Asked, Kind, Message
from orders.settling import settle

Outcome = PaymentEvent.Outcome
# A payment that was begun is gone on with for so long; the provider lets go of it after a day.
STAYS_OPEN = timedelta(hours=23)


def begin_transfer(order: Order, now: datetime) -> Payment:
    """Note that an order waits for a bank transfer. Called in the transaction that places it."""
    return _new_payment(order, Payment.TRANSFER, now)


def begin_card(order: Order, name: str, now: datetime) -> str:
    """Begin a payment at a provider, or go on with the one that is open; return where the customer pays.

    The row is there first and carries the key: whatever breaks off, the same payment is found again, here and
    at the provider. The provider is asked outside a transaction.
    Raises AlreadyPaidError, NoProviderError, ProviderError.
    """
    chosen = provider(name)
    payment = _open_payment(order, name, now)
    if payment.address:
        return payment.address
    begun = chosen.begin(_asked(payment))
    unnamed = Payment.objects.filter(pk=payment.pk, reference="")
    unnamed.update(reference=begun.reference, address=begun.address)
    return begun.address


def _open_payment(order: Order, name: str, now: datetime) -> Payment:
    with transaction.atomic():
        order = Order.objects.select_for_update().get(pk=order.pk)
        if order.total_minor == 0 or order.paid_at is not None:
            raise AlreadyPaidError(order)
        begun = order.payments.filter(provider=name, state=Payment.State.BEGUN)
        return begun.filter(begun_at__gt=now - STAYS_OPEN).last() or _new_payment(order, name, now)


def _new_payment(order: Order, name: str, now: datetime) -> Payment:
    return Payment.objects.create(
        order=order,
        provider=name,
        key=secrets.token_urlsafe(32),
        amount_minor=order.total_minor,
        currency=order.currency,
        begun_at=now,
    )


def _asked(payment: Payment) -> Asked:
    order = payment.order
    titles = list(order.lines.filter(is_included=False).values_list("title", flat=True))
    more = f" and {len(titles) - 1} more" if len(titles) > 1 else ""
    return Asked(
        key=payment.key,
        order_number=order.number,
        title=f"Order {order.number}: {titles[0]}{more}",
        amount_minor=payment.amount_minor,
        currency=payment.currency,
        email=order.email,
        # Without the order's secret link: a provider keeps what it is told.
        back=settings.SITE_URL + reverse("orders:payment-back", args=[order.number]),
    )


def receive(name: str, body: bytes, signature: str, now: datetime) -> PaymentEvent:
    """Take a provider's message as it came over the network.

    Raises NoProviderError, UnsignedError, UnreadableError; then nothing is stored.
    """
    return take(name, provider(name).read(body, signature, now), now)


def take(name: str, message: Message, now: datetime, seen_by: str = "") -> PaymentEvent:
    """Store a message and apply it, both or neither; one that is stored already changes nothing."""
    values = asdict(message)
    values["payment_key"] = values.pop("key")
    # A signed message is believed, and yet its texts must find room.
    values |= {"order_number": message.order_number[:40], "currency": message.currency[:10]}
    event_id = values.pop("event_id")
    with transaction.atomic():
        event, is_new = PaymentEvent.objects.get_or_create(
            provider=name, event_id=event_id, defaults={**values, "received_at": now, "seen_by": seen_by}
        )
        if is_new:
            _apply(event, now)
    return event


def _apply(event: PaymentEvent, now: datetime) -> None:
    """Apply a stored message, and keep what came of it."""
    payment = _payment_of(event)
    if event.kind == Kind.OTHER:
        event.outcome, event.why = Outcome.UNCHANGED, "It says nothing of how a payment ended."
    elif payment is None:
        event.outcome, event.why = Outcome.WAITS, "No payment of this shop is known by what it names."
    else:
        event.payment = payment
        event.why = _misfit(event, payment)
        is_changed = not event.why and CHANGES[Kind(event.kind)](event, payment, now)
        event.outcome = Outcome.WAITS if event.why else Outcome.APPLIED if is_changed else Outcome.UNCHANGED
        if settle(payment.order, now):
            letters.payment_received(payment.order, now)
        if is_changed and event.kind == Kind.REFUNDED:
            letters.money_back(Order.objects.get(pk=payment.order_id), event.amount, now)
    event.save()
    if payment and event.outcome == Outcome.APPLIED and event.charge:
        _apply_those_that_waited(event, now)


def _payment_of(event: PaymentEvent) -> Payment | None:
    """The payment that a message names: by our key, else by the provider's own names for it."""
    payments = Payment.objects.select_related("order").filter(provider=event.provider)
    if event.payment_key:
        return payments.filter(key=event.payment_key).first()
    if event.reference:
        return payments.filter(reference=event.reference).first()
    return payments.filter(charge=event.charge).first() if event.charge else None


def _apply_those_that_waited(event: PaymentEvent, now: datetime) -> None:
    """Apply what named only the charge, and came before it was known whose charge that is."""
    early = PaymentEvent.objects.filter(provider=event.provider, charge=event.charge, payment=None)
    for each in early.filter(outcome=Outcome.WAITS):
        _apply(each, now)


def _misfit(event: PaymentEvent, payment: Payment) -> str:
    """What in a message is not as it is here, in a sentence for the owner; nothing where all of it fits."""
    if event.order_number and event.order_number != str(payment.order_id):
        return f"It names order {event.order_number}; the payment is for order {payment.order_id}."
    if event.kind == Kind.FAILED:
        return ""
    if event.currency != payment.currency:
        return f"It is in {event.currency or 'no currency'}; the payment is in {payment.currency}."
    if event.kind == Kind.PAID:
        return _misfit_of_paid(event, payment)
    if event.kind in DISPUTES:
        return _misfit_of_dispute(event, payment)
    return _misfit_of_refund(event, payment)


def _misfit_of_paid(event: PaymentEvent, payment: Payment) -> str:
    if event.amount_minor != payment.amount_minor:
        return f"It is of {event.amount}; {payment.amount} is to be paid."
    if not event.order_number:
        return "It names no order."
    if payment.reference and event.reference != payment.reference:
        return "It is about another payment at the provider than the one that was begun."
    return ""


def _misfit_of_refund(event: PaymentEvent, payment: Payment) -> str:
    if not 0 < (event.amount_minor or 0) <= payment.amount_minor:
        return f"It gives back {event.amount}; the payment is of {payment.amount}."
    if event.refund_key:
        ours = payment.refunds.filter(key=event.refund_key).first()
        if ours is None:
            return "It names a refund that this shop has not asked for."
        if ours.amount_minor != event.amount_minor:
            return f"It gives back {event.amount}; {ours.amount} was asked for."
    elif not event.refund_reference:
        return "It names no refund."
    return ""


def _misfit_of_dispute(event: PaymentEvent, payment: Payment) -> str:
    if not 0 < (event.amount_minor or 0) <= payment.amount_minor:
        return f"It is about {event.amount}; the payment is of {payment.amount}."
    return "" if event.dispute_reference else "It names no dispute."


def _paid(event: PaymentEvent, payment: Payment, now: datetime) -> bool:
    known = {"reference": event.reference, "charge": event.charge, "country": event.country}
    return payment.go_on(
        Payment.State.PAID, paid_at=now, **{name: value for name, value in known.items() if value}
    )


def _failed(event: PaymentEvent, payment: Payment, now: datetime) -> bool:
    return payment.go_on(Payment.State.FAILED)


def _refunded(event: PaymentEvent, payment: Payment, now: datetime) -> bool:
    return _refund_of(event, payment, now).go_on(
        Refund.State.DONE, done_at=now, reference=event.refund_reference
    )


def _refund_failed(event: PaymentEvent, payment: Payment, now: datetime) -> bool:
    return _refund_of(event, payment, now).go_on(Refund.State.FAILED, reference=event.refund_reference)


def _refund_of(event: PaymentEvent, payment: Payment, now: datetime) -> Refund:
    """The refund that a message names; one that was made at the provider's own site gets its row now."""
    if event.refund_key:
        return payment.refunds.get(key=event.refund_key)
    found = payment.refunds.filter(reference=event.refund_reference).first()
    return found or Refund.objects.create(
        payment=payment,
        key=secrets.token_urlsafe(32),
        reference=event.refund_reference,
        amount_minor=event.amount_minor or 0,
        currency=payment.currency,
        reason="Given back at the provider's own site.",
        asked_at=now,
    )


def _disputed(event: PaymentEvent, payment: Payment, now: datetime) -> bool:
    return _dispute_of(event, payment, now)[1]


def _dispute_closed(event: PaymentEvent, payment: Payment, now: datetime) -> bool:
    return _dispute_of(event, payment, now)[0].go_on(DISPUTES[Kind(event.kind)], closed_at=now)


def _dispute_of(event: PaymentEvent, payment: Payment, now: datetime) -> tuple[Dispute, bool]:
    """The dispute that a message names, and whether this is the first that is heard of it."""
    return Dispute.objects.get_or_create(
        payment=payment,
        reference=event.dispute_reference,
        defaults={
            "amount_minor": event.amount_minor or 0,
            "currency": payment.currency,
            "opened_at": now,
        },
    )


# Where a dispute is brought by what is said of it.
DISPUTES = {
    Kind.DISPUTED: Dispute.State.OPEN,
    Kind.DISPUTE_WON: Dispute.State.WON,
    Kind.DISPUTE_LOST: Dispute.State.LOST,
}
CHANGES = {
    Kind.PAID: _paid,
    Kind.FAILED: _failed,
    Kind.REFUNDED: _refunded,
    Kind.REFUND_FAILED: _refund_failed,
    Kind.DISPUTED: _disputed,
    Kind.DISPUTE_WON: _dispute_closed,
    Kind.DISPUTE_LOST: _dispute_closed,
}


def mark_paid(payment: Payment, reference: str, owner: str, now: datetime) -> PaymentEvent:
    """Take the owner's word that a transfer has come, with the bank's reference: a message like any other."""
    message = Message(
        event_id=f"owner-{payment.key}",
        kind=Kind.PAID,
        key=payment.key,
        reference=reference,
        order_number=str(payment.order_id),
        amount_minor=payment.amount_minor,
        currency=payment.currency,
    )
    return take(Payment.TRANSFER, message, now, seen_by=owner)
