"""Messages that never came: what was begun and not heard of is asked for, and refunds are sent again.

A refund that the provider has begun is asked after until it is done or has failed, and a dispute until it is
decided, however long that takes.
"""

import logging
from collections.abc import Callable
from datetime import datetime, timedelta

from django.db.models import F

from orders.models import Dispute, Payment, Refund
from orders.paying import take
from orders.providers import NoProviderError, provider
from orders.providers.interface import Message, Provider, ProviderError
from orders.refunding import send_refund

logger = logging.getLogger(__name__)

# Messages usually come within seconds; a provider sends again for days what was not taken.
PATIENCE = timedelta(minutes=10)
LONGEST_PAUSE = timedelta(hours=6)
# A payment page closes after a day, and the slowest ways to pay are through within two weeks.
GIVEN_UP_AFTER = timedelta(days=15)
AT_ONCE = 20


def sweep_payments(now: datetime) -> int:
    """Ask after some payments, refunds and disputes that have no end, and send some refunds again.

    A bounded piece of work; the pauses grow from one look to the next. Twice at once is harmless. Returns how
    many there were.
    """
    payments = [each for each in _unheard(now) if _is_due(each.looked_at, each.looks, now)][:AT_ONCE]
    for payment in payments:
        _look_up(payment, now)
    refunds = [each for each in _unsent(now) if _is_due(each.tried_at, each.tries, now)][:AT_ONCE]
    for refund in refunds:
        send_refund(refund, now)
    pending = [each for each in _pending(now) if _is_due(each.tried_at, each.tries, now)][:AT_ONCE]
    for refund in pending:
        _look_up_refund(refund, now)
    disputes = [each for each in _undecided(now) if _is_due(each.looked_at, each.looks, now)][:AT_ONCE]
    for dispute in disputes:
        _look_up_dispute(dispute, now)
    return len(payments) + len(refunds) + len(pending) + len(disputes)


def _unheard(now: datetime) -> list[Payment]:
    unheard = Payment.objects.unheard(now - PATIENCE).filter(begun_at__gt=now - GIVEN_UP_AFTER)
    return list(unheard.order_by(F("looked_at").asc(nulls_first=True))[: 10 * AT_ONCE])


def _unsent(now: datetime) -> list[Refund]:
    unsent = Refund.objects.asked().exclude(payment__provider=Payment.TRANSFER)
    unsent = unsent.filter(asked_at__lt=now - PATIENCE, asked_at__gt=now - GIVEN_UP_AFTER, reference="")
    return list(
        unsent.select_related("payment").order_by(F("tried_at").asc(nulls_first=True))[: 10 * AT_ONCE]
    )


def _pending(now: datetime) -> list[Refund]:
    pending = Refund.objects.pending().filter(asked_at__lt=now - PATIENCE).select_related("payment")
    return list(pending.order_by(F("tried_at").asc(nulls_first=True))[: 10 * AT_ONCE])


def _undecided(now: datetime) -> list[Dispute]:
    undecided = Dispute.objects.open().filter(opened_at__lt=now - PATIENCE).select_related("payment")
    return list(undecided.order_by(F("looked_at").asc(nulls_first=True))[: 10 * AT_ONCE])


def _is_due(last: datetime | None, times: int, now: datetime) -> bool:
    return last is None or now - last >= min(PATIENCE * 2 ** min(times, 10), LONGEST_PAUSE)


def _look_up(payment: Payment, now: datetime) -> None:
    Payment.objects.filter(pk=payment.pk).update(looks=F("looks") + 1, looked_at=now)
    _ask(payment, "Payment", lambda chosen: chosen.look_up(payment.reference), now)


def _look_up_refund(refund: Refund, now: datetime) -> None:
    Refund.objects.filter(pk=refund.pk).update(tries=F("tries") + 1, tried_at=now)
    _ask(refund.payment, "A refund of payment", lambda chosen: chosen.look_up_refund(refund.reference), now)


def _look_up_dispute(dispute: Dispute, now: datetime) -> None:
    Dispute.objects.filter(pk=dispute.pk).update(looks=F("looks") + 1, looked_at=now)
    _ask(
        dispute.payment, "A dispute of payment", lambda chosen: chosen.look_up_dispute(dispute.reference), now
    )


def _ask(payment: Payment, what: str, ask: Callable[[Provider], Message | None], now: datetime) -> None:
    """Ask the payment's provider, and take what it says; trouble is logged, and it is asked again."""
    try:
        message = ask(provider(payment.provider))
    except (ProviderError, NoProviderError) as error:
        logger.warning(
            "%s %s of order %s could not be looked up: %s", what, payment.pk, payment.order_id, error
        )
        return
    if message is not None:
        take(payment.provider, message, now)
