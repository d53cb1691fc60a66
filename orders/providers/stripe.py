"""Card payments by Stripe's hosted checkout: no card number ever comes near the shop.

The library is used for its requests and its signatures; what it sends and receives is plain data here.
"""

import json
import logging
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import datetime
from itertools import islice
from typing import Any

import stripe

from orders.providers.interface import (
    Asked,
    Begun,
    GivenBack,
    Kind,
    Message,
    ProviderError,
    UnreadableError,
    UnsignedError,
)
from orders.providers.signatures import TOLERANCE_SECONDS

logger = logging.getLogger(__name__)

NAME = "stripe"
# Seconds that a customer's browser waits at the most for a payment to be begun.
TIMEOUT_SECONDS = 15
# Of refunds, and of disputes, so many are read at the most when all are asked for, the newest first.
MOST_LISTED = 1000
# Currencies whose amounts are sent in another unit than ours (the provider's list, from memory):
# so many of its units are so many of ours.
UNITS = {"ISK": (100, 1), "UGX": (100, 1), "MGA": (1, 100)}
SESSION_EVENTS = frozenset(
    f"checkout.session.{what}"
    for what in ("completed", "async_payment_succeeded", "async_payment_failed", "expired")
)
REFUND_EVENTS = frozenset(("refund.created", "refund.updated", "refund.failed", "charge.refund.updated"))
REFUND_KINDS = {
    "succeeded": Kind.REFUNDED,
    "failed": Kind.REFUND_FAILED,
    "canceled": Kind.REFUND_FAILED,
}
DISPUTE_EVENTS = frozenset(f"charge.dispute.{what}" for what in ("created", "updated", "closed"))
# An inquiry (“warning”) that is closed took no money; while it is open it is answered like a dispute.
DISPUTE_KINDS = {
    **dict.fromkeys(("needs_response", "under_review"), Kind.DISPUTED),
    **dict.fromkeys(("warning_needs_response", "warning_under_review"), Kind.DISPUTED),
    **dict.fromkeys(("won", "warning_closed", "prevented"), Kind.DISPUTE_WON),
    "lost": Kind.DISPUTE_LOST,
}


class StripeProvider:
    name = NAME
    words = "By card, on the payment page of our provider"

    def __init__(self, secret_key: str, webhook_secrets: Sequence[str]) -> None:
        """webhook_secrets: all that are good now; there are two while one is being changed."""
        self.webhook_secrets = tuple(webhook_secrets)
        self.client = stripe.StripeClient(
            secret_key, max_network_retries=2, http_client=stripe.RequestsClient(timeout=TIMEOUT_SECONDS)
        )

    def begin(self, asked: Asked) -> Begun:
        told = {"payment": asked.key, "order": str(asked.order_number)}
        item = {
            "quantity": 1,
            "price_data": {
                "currency": asked.currency.lower(),
                "unit_amount": _to_theirs(asked.amount_minor, asked.currency),
                "product_data": {"name": asked.title},
            },
        }
        params: Any = {
            "mode": "payment",
            "line_items": [item],
            "client_reference_id": str(asked.order_number),
            "customer_email": asked.email,
            "success_url": asked.back,
            "cancel_url": asked.back,
            "metadata": told,
            "payment_intent_data": {"metadata": told},
        }
        try:
            session = self.client.v1.checkout.sessions.create(
                params, {"idempotency_key": f"payment-{asked.key}"}
            )
        except stripe.StripeError as error:
            raise ProviderError(_told(error)) from error
        if not session.url:
            raise ProviderError("The provider gave no address to pay at.")
        return Begun(session.id, session.url)

    def read(self, body: bytes, signature: str, now: datetime) -> Message:
        try:
            text = body.decode()
        except UnicodeDecodeError as error:
            raise UnreadableError("The message is not UTF-8.") from error
        self._verify(text, signature)
        try:
            event = json.loads(text)
            return _message(event)
        except (ValueError, TypeError, KeyError, AttributeError) as error:
            raise UnreadableError(f"The message is not one of theirs: {error!r}") from error

    def _verify(self, text: str, signature: str) -> None:
        # The library compares texts, and fails on a header with other letters.
        for secret in self.webhook_secrets if signature.isascii() else ():
            try:
                stripe.WebhookSignature.verify_header(text, signature, secret, TOLERANCE_SECONDS)
            except stripe.SignatureVerificationError:
                continue
            return
        raise UnsignedError("No secret of ours has signed this.")

    def look_up(self, reference: str) -> Message | None:
        try:
            session = self.client.v1.checkout.sessions.retrieve(reference).to_dict()
        except stripe.StripeError as error:
            raise ProviderError(_told(error)) from error
        return _of_session(f"looked-up-{reference}", session)

    def give_back(
        self, charge: str, payment_key: str, key: str, amount_minor: int, currency: str
    ) -> GivenBack:
        params: Any = {
            "payment_intent": charge,
            "amount": _to_theirs(amount_minor, currency),
            "metadata": {"refund": key, "payment": payment_key},
        }
        try:
            refund = self.client.v1.refunds.create(params, {"idempotency_key": f"refund-{key}"})
        except stripe.StripeError as error:
            raise ProviderError(_told(error)) from error
        return GivenBack(refund.id, is_done=refund.status == "succeeded")

    def look_up_refund(self, reference: str) -> Message | None:
        try:
            refund = self.client.v1.refunds.retrieve(reference).to_dict()
        except stripe.StripeError as error:
            raise ProviderError(_told(error)) from error
        # It ends in one of two ways, and each is a message of its own.
        found = _of_refund(f"looked-up-{reference}-{refund.get('status')}", refund)
        return None if found.kind == Kind.OTHER else found

    def look_up_dispute(self, reference: str) -> Message | None:
        try:
            dispute = self.client.v1.disputes.retrieve(reference).to_dict()
        except stripe.StripeError as error:
            raise ProviderError(_told(error)) from error
        found = _of_dispute(f"looked-up-{reference}-{dispute.get('status')}", dispute)
        return found if found.kind in (Kind.DISPUTE_WON, Kind.DISPUTE_LOST) else None

    def gone_back_since(self, moment: datetime) -> list[Message]:
        asked: Any = {"created": {"gte": int(moment.timestamp())}, "limit": 100}
        found: list[Message] = []
        try:
            for room, read in ((self.client.v1.refunds, _of_refund), (self.client.v1.disputes, _of_dispute)):
                listed: Iterator[Any] = islice(room.list(asked).auto_paging_iter(), MOST_LISTED)
                found += _readable((each.to_dict() for each in listed), read)
        except stripe.StripeError as error:
            raise ProviderError(_told(error)) from error
        return found


def _message(event: Mapping[str, Any]) -> Message:
    kind, thing = _text(event["type"]), event["data"]["object"]
    if kind in SESSION_EVENTS:
        found = _of_session(_text(event["id"]), thing, is_failed=kind.endswith("payment_failed"))
        return found or Message(_text(event["id"]), Kind.OTHER, reference=_text(thing["id"]))
    if kind in REFUND_EVENTS:
        return _of_refund(_text(event["id"]), thing)
    if kind in DISPUTE_EVENTS:
        return _of_dispute(_text(event["id"]), thing)
    return Message(_text(event["id"]), Kind.OTHER)


def _of_session(event_id: str, session: Mapping[str, Any], *, is_failed: bool = False) -> Message | None:
    """What a checkout session says; None while it has no end. A session may be complete and not paid yet."""
    if session.get("payment_status") == "paid":
        kind = Kind.PAID
    elif is_failed or session.get("status") == "expired":
        kind = Kind.FAILED
    else:
        return None
    told = session.get("metadata") or {}
    currency = _text(session["currency"]).upper()
    address = (session.get("customer_details") or {}).get("address") or {}
    return Message(
        # A session that was looked up ends in one of two ways, and each is a message of its own.
        event_id=f"{event_id}-{kind}" if event_id.startswith("looked-up-") else event_id,
        kind=kind,
        key=_text(told.get("payment")),
        reference=_text(session["id"]),
        charge=_text(session.get("payment_intent")),
        order_number=_text(session.get("client_reference_id")),
        amount_minor=_to_ours(session["amount_total"], currency),
        currency=currency,
        country=_text(address.get("country"))[:2],
    )


def _of_refund(event_id: str, refund: Mapping[str, Any]) -> Message:
    told = refund.get("metadata") or {}
    currency = _text(refund["currency"]).upper()
    return Message(
        event_id=event_id,
        kind=REFUND_KINDS.get(_text(refund.get("status")), Kind.OTHER),
        key=_text(told.get("payment")),
        charge=_text(refund.get("payment_intent")),
        amount_minor=_to_ours(refund["amount"], currency),
        currency=currency,
        refund_key=_text(told.get("refund")),
        refund_reference=_text(refund["id"]),
    )


def _of_dispute(event_id: str, dispute: Mapping[str, Any]) -> Message:
    """What a dispute says. It names the charge alone: nothing of ours comes back with it."""
    currency = _text(dispute["currency"]).upper()
    return Message(
        event_id=event_id,
        kind=DISPUTE_KINDS.get(_text(dispute.get("status")), Kind.OTHER),
        charge=_text(dispute.get("payment_intent")),
        amount_minor=_to_ours(dispute["amount"], currency),
        currency=currency,
        dispute_reference=_text(dispute["id"]),
    )


def _readable(
    things: Iterator[Mapping[str, Any]], read: Callable[[str, Mapping[str, Any]], Message]
) -> Iterator[Message]:
    """What listed refunds or disputes say; one that cannot be read keeps none of the others from it."""
    for thing in things:
        try:
            message = read(f"looked-up-{thing['id']}-{thing.get('status')}", thing)
        except (ValueError, TypeError, KeyError) as error:
            logger.warning("Something in the provider's list cannot be read: %r", error)
            continue
        if message.kind != Kind.OTHER:
            yield message


def _text(value: Any) -> str:
    """A text of theirs; an object that stands in for its name gives the name."""
    if isinstance(value, Mapping):
        value = value.get("id")
    if value is None:
        return ""
    if not isinstance(value, str) or len(value) > 200:
        raise TypeError(f"{type(value).__name__} where a short text belongs")
    return value


def _to_theirs(minor: int, currency: str) -> int:
    theirs, ours = UNITS.get(currency, (1, 1))
    amount, rest = divmod(minor * theirs, ours)
    if rest:
        raise ProviderError(f"The provider cannot charge {minor} minor units of {currency}.")
    return amount


def _to_ours(amount: Any, currency: str) -> int:
    if type(amount) is not int:
        raise TypeError("The amount is not a whole number.")
    theirs, ours = UNITS.get(currency, (1, 1))
    minor, rest = divmod(amount * ours, theirs)
    if rest:
        raise ValueError(f"{amount} is no whole amount of {currency}.")
    return minor


def _told(error: stripe.StripeError) -> str:
    return f"{type(error).__name__}: {error.user_message or 'no answer that can be shown'}"
