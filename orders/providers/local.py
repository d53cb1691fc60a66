"""A provider that is only a demonstration: it signs as a real one does, and no money moves.

Whoever holds the shop's secret could sign for it, so it is refused unless the shop is the invented one.
"""

import hashlib
import json
from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.urls import reverse
from django.utils.crypto import salted_hmac

from orders.models.local_charges import LocalCharge
from orders.providers.interface import (
    Asked,
    Begun,
    GivenBack,
    Kind,
    Message,
    ProviderError,
    UnreadableError,
)
from orders.providers.signatures import sign, verify

NAME = "local"
DISPUTE = "dispute-"
KINDS = {LocalCharge.State.PAID.value: Kind.PAID, LocalCharge.State.DECLINED.value: Kind.FAILED}
DISPUTE_KINDS = {
    LocalCharge.Dispute.OPEN.value: Kind.DISPUTED,
    LocalCharge.Dispute.WON.value: Kind.DISPUTE_WON,
    LocalCharge.Dispute.LOST.value: Kind.DISPUTE_LOST,
}


class LocalProvider:
    name = NAME
    words = "By card, as a demonstration: no money moves"

    def begin(self, asked: Asked) -> Begun:
        charge, _ = LocalCharge.objects.get_or_create(
            payment_key=asked.key,
            defaults={
                "reference": f"lc_{_short(asked.key)}",
                "order_number": asked.order_number,
                "title": asked.title,
                "amount_minor": asked.amount_minor,
                "currency": asked.currency,
            },
        )
        # Its page is one of the shop's own, at whatever address the shop is looked at.
        return Begun(charge.reference, reverse("orders:local-checkout", args=[charge.reference]))

    def read(self, body: bytes, signature: str, now: datetime) -> Message:
        verify(body, signature, _secret(), now)
        try:
            return Message(**_fields(json.loads(body)))
        except (ValueError, TypeError) as error:
            raise UnreadableError(str(error)) from error

    def look_up(self, reference: str) -> Message | None:
        charge = LocalCharge.objects.filter(reference=reference).first()
        if charge is None:
            raise ProviderError(f"The local provider knows no payment {reference}.")
        return None if charge.state == LocalCharge.State.OPEN else message_of(charge)

    def give_back(
        self, charge: str, payment_key: str, key: str, amount_minor: int, currency: str
    ) -> GivenBack:
        known = LocalCharge.objects.filter(reference=charge, state=LocalCharge.State.PAID).first()
        if known is None or known.currency != currency or amount_minor > known.amount_minor:
            raise ProviderError(f"The local provider holds no such money under {charge}.")
        return GivenBack(f"lr_{_short(key)}", is_done=True)

    def look_up_refund(self, reference: str) -> Message | None:
        """Every refund here is done at once, so that there is none to ask after."""
        raise ProviderError(f"The local provider has no refund {reference} under way.")

    def look_up_dispute(self, reference: str) -> Message | None:
        charge = LocalCharge.objects.filter(reference=reference.removeprefix(DISPUTE)).first()
        is_over = charge and charge.dispute in (LocalCharge.Dispute.WON, LocalCharge.Dispute.LOST)
        return dispute_message_of(charge) if charge and is_over else None

    def gone_back_since(self, moment: datetime) -> Iterable[Message]:
        """Its disputes. Its refunds are done when they are asked for, and none is made elsewhere."""
        return [dispute_message_of(each) for each in LocalCharge.objects.filter(disputed_at__gte=moment)]


def message_of(charge: LocalCharge) -> Message:
    """Return what the local provider says of a payment that has come to an end."""
    return Message(
        event_id=f"le_{charge.reference}_{charge.state}",
        kind=KINDS[charge.state],
        key=charge.payment_key,
        reference=charge.reference,
        charge=charge.reference,
        order_number=str(charge.order_number),
        amount_minor=charge.amount_minor,
        currency=charge.currency,
    )


def dispute_message_of(charge: LocalCharge) -> Message:
    """Return what the local provider says of a payment that the payer's bank has called back."""
    return Message(
        event_id=f"le_{charge.reference}_dispute_{charge.dispute}",
        kind=DISPUTE_KINDS[charge.dispute],
        charge=charge.reference,
        amount_minor=charge.amount_minor,
        currency=charge.currency,
        dispute_reference=f"{DISPUTE}{charge.reference}",
    )


def signed(message: Message, now: datetime) -> tuple[bytes, str]:
    """Return a message as it is sent: its body and its signature."""
    fields = {name: getattr(message, name) for name in Message.__slots__}
    body = json.dumps(fields, sort_keys=True).encode()
    return body, sign(body, _secret(), now)


def _fields(data: Any) -> dict[str, Any]:
    """The fields of a message, each of its own type: what is signed may still be a slip."""
    if not isinstance(data, dict):
        raise TypeError("The message is no table.")
    texts = {name: value for name, value in data.items() if name != "amount_minor"}
    amount = data.get("amount_minor")
    if not all(isinstance(value, str) and len(value) <= 255 for value in texts.values()):
        raise TypeError("A text of the message is none.")
    if amount is not None and (type(amount) is not int or abs(amount) >= 2**62):
        raise TypeError("The amount is not a whole number.")
    return {**texts, "amount_minor": amount, "kind": Kind(texts.get("kind", ""))}


def _secret() -> str:
    return salted_hmac("orders.providers.local", "messages", algorithm="sha256").hexdigest()


def _short(key: str) -> str:
    return hashlib.sha256(key.encode()).hexdigest()[:24]
