"""Giving money back: a row first, then the provider is asked with the row's key, as often as it takes."""

from datetime import datetime

from django.db import transaction
from django.db.models import F, Sum

from orders.errors import RefundTooMuchError
from orders.models import Order, Payment, PaymentEvent, Refund
from orders.paying import take
from orders.providers import NoProviderError, provider
from orders.providers.interface import GivenBack, Kind, Message, ProviderError
from patterns.money import priced


def left_of(payment: Payment) -> int:
    """Return what can be given back still, in minor units: what was paid, less what goes back already.

    What the payer's bank has called back is not the shop's to give, unless the dispute is won.
    """
    if payment.state != Payment.State.PAID:
        return 0
    given = payment.refunds.standing().aggregate(total=Sum("amount_minor"))["total"] or 0
    disputed = payment.disputes.standing().aggregate(total=Sum("amount_minor"))["total"] or 0
    return max(payment.amount_minor - int(given) - int(disputed), 0)


def ask_refund(
    payment: Payment, amount_minor: int, *, reason: str, key: str, owner: str, now: datetime
) -> Refund:
    """Keep that an amount is to be given back; the same key again is the same refund.

    Raises RefundTooMuchError.
    """
    with transaction.atomic():
        # One at a time for an order, so that two refunds together are not more than was paid.
        Order.objects.select_for_update().get(pk=payment.order_id)
        kept = Refund.objects.filter(key=key, payment=payment).first()
        if kept is not None:
            return kept
        left = left_of(payment)
        if not 0 < amount_minor <= left:
            raise RefundTooMuchError(priced(left, payment.currency))
        return Refund.objects.create(
            payment=payment,
            key=key,
            amount_minor=amount_minor,
            currency=payment.currency,
            reason=reason,
            asked_at=now,
            asked_by=owner,
        )


def send_refund(refund: Refund, now: datetime) -> None:
    """Ask the provider for it, outside a transaction. What goes wrong is kept and tried again by the sweep.

    A transfer has no provider: the owner sends it herself, and says so with `mark_sent`.
    """
    payment = refund.payment
    if payment.provider == Payment.TRANSFER or refund.state != Refund.State.ASKED:
        return
    Refund.objects.filter(pk=refund.pk).update(tries=F("tries") + 1, tried_at=now)
    try:
        given = provider(payment.provider).give_back(
            payment.charge, payment.key, refund.key, refund.amount_minor, refund.currency
        )
    except (ProviderError, NoProviderError) as error:
        trouble = str(error) if isinstance(error, ProviderError) else "The provider is not set up any more."
        Refund.objects.filter(pk=refund.pk).update(trouble=trouble[:300])
        return
    _keep_answer(refund, given, now)


def _keep_answer(refund: Refund, given: GivenBack, now: datetime) -> None:
    Refund.objects.filter(pk=refund.pk).update(trouble="")
    if given.is_done:
        take(refund.payment.provider, _done(refund, f"answer-{refund.key}", given.reference), now)
    else:
        Refund.objects.filter(pk=refund.pk, reference="").update(reference=given.reference)


def mark_sent(refund: Refund, reference: str, owner: str, now: datetime) -> PaymentEvent:
    """Take the owner's word that she has sent a transfer back, with the bank's reference."""
    message = _done(refund, f"owner-{refund.key}", reference)
    return take(Payment.TRANSFER, message, now, seen_by=owner)


def _done(refund: Refund, event_id: str, reference: str) -> Message:
    return Message(
        event_id=event_id,
        kind=Kind.REFUNDED,
        key=refund.payment.key,
        order_number=str(refund.payment.order_id),
        amount_minor=refund.amount_minor,
        currency=refund.currency,
        refund_key=refund.key,
        refund_reference=reference,
    )
