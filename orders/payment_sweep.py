"""Messages that never came: what was begun and not heard of is asked for, and refunds are sent again."""

import logging
from datetime import datetime, timedelta

from django.db.models import F

from orders.models import Payment, Refund
from orders.paying import take
from orders.providers import NoProviderError, provider
from orders.providers.interface import ProviderError
from orders.refunding import send_refund

logger = logging.getLogger(__name__)

# Messages usually come within seconds; a provider sends again for days what was not taken.
PATIENCE = timedelta(minutes=10)
LONGEST_PAUSE = timedelta(hours=6)
# A payment page closes after a day, and the slowest ways to pay are through within two weeks.
GIVEN_UP_AFTER = timedelta(days=15)
AT_ONCE = 20


def sweep_payments(now: datetime) -> int:
    """Ask after some payments that nothing was heard of, and send some refunds again; return how many.

    A bounded piece of work; the pauses grow from one look to the next. Twice at once is harmless.
    """
    payments = [each for each in _unheard(now) if _is_due(each.looked_at, each.looks, now)][:AT_ONCE]
    for payment in payments:
        _look_up(payment, now)
    refunds = [each for each in _unsent(now) if _is_due(each.tried_at, each.tries, now)][:AT_ONCE]
    for refund in refunds:
        send_refund(refund, now)
    return len(payments) + len(refunds)


def _unheard(now: datetime) -> list[Payment]:
    unheard = Payment.objects.unheard(now - PATIENCE).filter(begun_at__gt=now - GIVEN_UP_AFTER)
    return list(unheard.order_by(F("looked_at").asc(nulls_first=True))[: 10 * AT_ONCE])


def _unsent(now: datetime) -> list[Refund]:
    unsent = Refund.objects.asked().exclude(payment__provider=Payment.TRANSFER)
    unsent = unsent.filter(asked_at__lt=now - PATIENCE, asked_at__gt=now - GIVEN_UP_AFTER, reference="")
    return list(
        unsent.select_related("payment").order_by(F("tried_at").asc(nulls_first=True))[: 10 * AT_ONCE]
    )


def _is_due(last: datetime | None, times: int, now: datetime) -> bool:
    return last is None or now - last >= min(PATIENCE * 2 ** min(times, 10), LONGEST_PAUSE)


def _look_up(payment: Payment, now: datetime) -> None:
    Payment.objects.filter(pk=payment.pk).update(looks=F("looks") + 1, looked_at=now)
    try:
        message = provider(payment.provider).look_up(payment.reference)
    except (ProviderError, NoProviderError) as error:
        logger.warning(
            "Payment %s of order %s could not be looked up: %s", payment.pk, payment.order_id, error
        )
        return
    if message is not None:
        take(payment.provider, message, now)
