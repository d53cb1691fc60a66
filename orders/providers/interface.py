"""What a provider of payments is to the shop: seven acts, and the words they are done with."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from orders.models.payments import PaymentEvent

Kind = PaymentEvent.Kind


class ProviderError(Exception):
    """The provider could not be reached, or refused; the text says which, for the owner."""


class UnsignedError(ValueError):
    """A message is not signed by the provider, or was signed too long ago."""


class UnreadableError(ValueError):
    """A message is signed, and yet it is not one that can be read."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a payment is begun with. key: ours; the same key twice is the same payment at the provider.

    title: what is paid for, in the customer's words. back: where the customer's browser is sent afterwards.
    """

    key: str
    order_number: int
    title: str
    amount_minor: int
    currency: str
    email: str
    back: str


@dataclass(frozen=True, slots=True)
class Begun:
    """A payment at the provider. reference: its name there. address: where the customer pays."""

    reference: str
    address: str


@dataclass(frozen=True, slots=True)
class GivenBack:
    """A refund at the provider. is_done: whether it is certain already; a message says so otherwise."""

    reference: str
    is_done: bool


@dataclass(frozen=True, slots=True)
class Message:
    """What a provider says of a payment, as far as the shop reads it; what it does not say is empty.

    event_id: the provider's name for the message, the same whenever it is sent again.
    key, order_number, refund_key: what we gave the provider, come back. dispute_reference: its name there.
    """

    event_id: str
    kind: Kind
    key: str = ""
    reference: str = ""
    charge: str = ""
    order_number: str = ""
    amount_minor: int | None = None
    currency: str = ""
    country: str = ""
    refund_key: str = ""
    refund_reference: str = ""
    dispute_reference: str = ""


class Provider(Protocol):
    """name: in addresses and in records. words: what a customer reads beside the choice."""

    name: str
    words: str

    def begin(self, asked: Asked) -> Begun:
        """Begin a payment; with a key that was used, return the one begun with it. Raises ProviderError."""

    def read(self, body: bytes, signature: str, now: datetime) -> Message:
        """Read a message that was sent to us. Raises UnsignedError, UnreadableError."""

    def look_up(self, reference: str) -> Message | None:
        """Ask how a payment stands; None while it has no end. Raises ProviderError."""

    def give_back(
        self, charge: str, payment_key: str, key: str, amount_minor: int, currency: str
    ) -> GivenBack:
        """Give money back; with a key that was used, nothing more is given. Raises ProviderError."""

    def look_up_refund(self, reference: str) -> Message | None:
        """Ask how a refund stands; None while it has no end. Raises ProviderError."""

    def look_up_dispute(self, reference: str) -> Message | None:
        """Ask how a dispute stands; None while it has no end. Raises ProviderError."""

    def gone_back_since(self, moment: datetime) -> Iterable[Message]:
        """Ask for every refund and dispute begun since, as far as each is. Raises ProviderError."""
