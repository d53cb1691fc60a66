"""Messages that never came: what was begun and not heard of is asked for, and refunds are sent again.

A refund that the provider has begun is asked after until it is done or has failed, and a dispute until it is
decided, however long that takes. What was begun there and not here, a dispute or a refund, is found by asking
for all of them.
"""

import logging
from collections.abc import Callable
from datetime import datetime, timedelta

from django.db.models import F

from orders.models import Dispute, Payment, PaymentEvent, ProviderLook, Refund
from orders.paying import take
from orders.providers import NAMES, NoProviderError, provider
from orders.providers.interface import Message, Provider, ProviderError
from orders.refunding import send_refund

logger = logging.getLogger(__name__)

# Messages usually come within seconds; a provider sends again for days what was not taken.
PATIENCE = timedelta(minutes=10)
LONGEST_PAUSE = timedelta(hours=6)
# A payment page closes after a day, and the slowest ways to pay are through within two weeks.
GIVEN_UP_AFTER = timedelta(days=15)
AT_ONCE = 20
# How often all refunds and disputes are asked for, and from how long before the last answer: a refund that
# was begun elsewhere may take so long to its end.
LISTED_EVERY = timedelta(minutes=30)
LISTED_FROM = timedelta(days=30)


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
    found = sum(_ask_for_all(name, now) for name in NAMES)
    return len(payments) + len(refunds) + len(pending) + len(disputes) + found


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


def _ask_for_all(name: str, now: datetime) -> int:
    """Ask a provider for what it or a bank began, if that is due; return how much of it was not known."""
    look = ProviderLook.objects.filter(provider=name).first()
    if look is not None and now - look.asked_at < LISTED_EVERY:
        return 0
    try:
        chosen = provider(name)
    except NoProviderError:
        return 0
    ProviderLook.objects.update_or_create(provider=name, defaults={"asked_at": now})
    answered_at = look.answered_at if look else None
    since = (answered_at or now) - LISTED_FROM
    try:
        unheard = [each for each in chosen.gone_back_since(since) if _is_unheard(name, each)]
    except ProviderError as error:
        logger.warning("Refunds and disputes at %s could not be looked up: %s", name, error)
        return 0
    for message in unheard:
        take(name, message, now)
    ProviderLook.objects.filter(provider=name).update(answered_at=now)
    return len(unheard)


def _is_unheard(name: str, message: Message) -> bool:
    """Whether it is about a payment of this shop, and has not been said before, in whatever message."""
    said = {"refund_reference": message.refund_reference, "dispute_reference": message.dispute_reference}
    heard = PaymentEvent.objects.filter(provider=name, kind=message.kind, **said)
    ours = Payment.objects.filter(provider=name, charge=message.charge)
    return bool(message.charge) and ours.exists() and not heard.exists()


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
