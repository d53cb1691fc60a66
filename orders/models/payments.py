"""What was paid, what providers said of it, and what was given back. Money is integer minor units.

Every state here only goes forwards, along its own list: a payment that is known to be paid stays paid,
whatever is heard later. So it does not matter in which order, how late or how often messages come.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django.db import models
from django.db.models import F, Q

from patterns.money import money

LONGEST_REFERENCE = 255


class Steps(models.TextChoices):
    """States in the order in which they follow on each other."""

    @classmethod
    def before(cls, state: str) -> list[str]:
        """The states that may still go on to this one."""
        return cls.values[: cls.values.index(state)]


class PaymentQuerySet(models.QuerySet["Payment"]):
    def waiting_for_transfer(self) -> PaymentQuerySet:
        """Bank transfers that the owner has not found on her account yet, oldest first."""
        return self.filter(provider=Payment.TRANSFER, state=Payment.State.BEGUN).order_by("begun_at")

    def unheard(self, moment: datetime) -> PaymentQuerySet:
        """Those at a provider that were begun before the moment and of which no end is known."""
        begun = self.filter(state=Payment.State.BEGUN, begun_at__lt=moment).exclude(reference="")
        return begun.exclude(provider=Payment.TRANSFER)


class Payment(models.Model):
    """One attempt to pay for an order.

    key: ours, unguessable; it travels to the provider and comes back with each message.
    reference: the provider's name for it, or for a transfer the bank's; empty until it is known.
    charge: the provider's name for the money once it has moved. address: where the customer pays.
    country: where the payer's bank or card is, as the provider says it: the second piece of evidence.
    """

    TRANSFER = "transfer"

    class State(Steps):
        BEGUN = "begun", "Not paid yet"
        FAILED = "failed", "Came to nothing"
        PAID = "paid", "Paid"

    order = models.ForeignKey("orders.Order", on_delete=models.PROTECT, related_name="payments")
    provider = models.CharField(max_length=20)
    key = models.CharField(max_length=64, unique=True)
    reference = models.CharField(max_length=LONGEST_REFERENCE, blank=True, default="")
    charge = models.CharField(max_length=LONGEST_REFERENCE, blank=True, default="", db_index=True)
    address = models.CharField(max_length=2000, blank=True, default="")
    amount_minor = models.PositiveBigIntegerField()
    currency = models.CharField(max_length=3)
    country = models.CharField(max_length=2, blank=True, default="")
    state = models.CharField(max_length=10, choices=State, default=State.BEGUN)
    begun_at = models.DateTimeField()
    paid_at = models.DateTimeField(null=True, blank=True)
    looks = models.PositiveIntegerField(default=0)
    looked_at = models.DateTimeField(null=True, blank=True)

    objects = PaymentQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.CheckConstraint(condition=Q(amount_minor__gte=1), name="payment_of_something"),
            models.CheckConstraint(
                condition=Q(state="paid", paid_at__isnull=False) | ~Q(state="paid") & Q(paid_at=None),
                name="payment_paid_with_its_time",
            ),
        )

    def __str__(self) -> str:
        return f"{self.amount} for order {self.order_id}"

    @property
    def amount(self) -> str:
        return money(self.amount_minor, self.currency)

    def go_on(self, state: str, **values: Any) -> bool:
        """Go forwards to a state; whether it was not there, or past it, already."""
        moved = Payment.objects.filter(pk=self.pk, state__in=Payment.State.before(state))
        if not moved.update(state=state, **values):
            return False
        self.refresh_from_db()
        return True


class PaymentEventQuerySet(models.QuerySet["PaymentEvent"]):
    def waiting_for_owner(self) -> PaymentEventQuerySet:
        """What did not fit, and which the owner has not looked at."""
        return self.filter(outcome=PaymentEvent.Outcome.WAITS, seen_at=None)


class PaymentEvent(models.Model):
    """One message about a payment, stored once however often it comes, with what came of it."""

    class Kind(models.TextChoices):
        PAID = "paid", "Paid"
        FAILED = "failed", "Came to nothing"
        REFUNDED = "refunded", "Given back"
        REFUND_FAILED = "refund-failed", "Could not be given back"
        DISPUTED = "disputed", "Disputed"
        DISPUTE_WON = "dispute-won", "Dispute won"
        DISPUTE_LOST = "dispute-lost", "Dispute lost"
        OTHER = "other", "About something else"

    class Outcome(models.TextChoices):
        APPLIED = "applied", "Applied"
        UNCHANGED = "unchanged", "Known already"
        WAITS = "waits", "Does not fit"

    provider = models.CharField(max_length=20)
    event_id = models.CharField(max_length=LONGEST_REFERENCE)
    kind = models.CharField(max_length=20, choices=Kind)
    payment = models.ForeignKey(
        Payment, on_delete=models.PROTECT, null=True, blank=True, related_name="events"
    )
    payment_key = models.CharField(max_length=200, blank=True, default="")
    reference = models.CharField(max_length=LONGEST_REFERENCE, blank=True, default="")
    charge = models.CharField(max_length=LONGEST_REFERENCE, blank=True, default="", db_index=True)
    order_number = models.CharField(max_length=40, blank=True, default="")
    amount_minor = models.BigIntegerField(null=True, blank=True)
    currency = models.CharField(max_length=10, blank=True, default="")
    country = models.CharField(max_length=2, blank=True, default="")
    refund_key = models.CharField(max_length=200, blank=True, default="")
    refund_reference = models.CharField(max_length=LONGEST_REFERENCE, blank=True, default="")
    dispute_reference = models.CharField(max_length=LONGEST_REFERENCE, blank=True, default="")
    received_at = models.DateTimeField()
    outcome = models.CharField(max_length=10, choices=Outcome, default=Outcome.WAITS)
    why = models.CharField(max_length=500, blank=True, default="")
    seen_at = models.DateTimeField(null=True, blank=True)
    seen_by = models.CharField(max_length=150, blank=True, default="")

    objects = PaymentEventQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=("provider", "event_id"), name="event_stored_once"),)

    def __str__(self) -> str:
        return f"{self.get_kind_display()} by {self.provider}: {self.event_id}"

    @property
    def amount(self) -> str:
        """As it was said, whether it fits or not."""
        if self.amount_minor is None or self.amount_minor < 0 or len(self.currency) != 3:
            return f"{self.amount_minor} {self.currency}" if self.amount_minor is not None else "no amount"
        return money(self.amount_minor, self.currency) if self.amount_minor else f"0 {self.currency}"


class ProviderLook(models.Model):
    """When a provider was last asked for all refunds and disputes, and last answered."""

    provider = models.CharField(max_length=20, unique=True)
    asked_at = models.DateTimeField()
    answered_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.provider}, asked at {self.asked_at}"


class RefundQuerySet(models.QuerySet["Refund"]):
    def asked(self) -> RefundQuerySet:
        """Those that the provider has not confirmed, oldest first."""
        return self.filter(state=Refund.State.ASKED).order_by("asked_at")

    def pending(self) -> RefundQuerySet:
        """Those that a provider has begun, and not brought to an end."""
        begun = self.filter(state=Refund.State.ASKED).exclude(reference="")
        return begun.exclude(payment__provider=Payment.TRANSFER)

    def standing(self) -> RefundQuerySet:
        """All but those that failed: money that is given back, or on its way."""
        return self.exclude(state=Refund.State.FAILED)


class Refund(models.Model):
    """Money given back. The row is there first, and its key keeps the provider from doing it twice.

    A refund that was made at the provider's own site has no `asked_by`.
    """

    class State(Steps):
        ASKED = "asked", "On its way"
        DONE = "done", "Given back"
        FAILED = "failed", "Could not be given back"

    payment = models.ForeignKey(Payment, on_delete=models.PROTECT, related_name="refunds")
    key = models.CharField(max_length=64, unique=True)
    reference = models.CharField(max_length=LONGEST_REFERENCE, blank=True, default="", db_index=True)
    amount_minor = models.PositiveBigIntegerField()
    currency = models.CharField(max_length=3)
    reason = models.CharField(max_length=300, blank=True, default="")
    state = models.CharField(max_length=10, choices=State, default=State.ASKED)
    asked_at = models.DateTimeField()
    asked_by = models.CharField(max_length=150, blank=True, default="")
    done_at = models.DateTimeField(null=True, blank=True)
    tries = models.PositiveIntegerField(default=0)
    tried_at = models.DateTimeField(null=True, blank=True)
    trouble = models.CharField(max_length=300, blank=True, default="")

    objects = RefundQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = (models.CheckConstraint(condition=Q(amount_minor__gte=1), name="refund_of_something"),)

    def __str__(self) -> str:
        return f"{self.amount} back for order {self.payment.order_id}"

    @property
    def amount(self) -> str:
        return money(self.amount_minor, self.currency)

    def go_on(self, state: str, **values: Any) -> bool:
        """As `Payment.go_on`."""
        moved = Refund.objects.filter(pk=self.pk, state__in=Refund.State.before(state))
        if not moved.update(state=state, **values):
            return False
        self.refresh_from_db()
        return True


class DisputeQuerySet(models.QuerySet["Dispute"]):
    def open(self) -> DisputeQuerySet:
        """Those that the owner has to answer at the provider, oldest first."""
        return self.filter(state=Dispute.State.OPEN).order_by("opened_at")

    def standing(self) -> DisputeQuerySet:
        """All but those that were won: money that the payer's bank has taken back, or may keep."""
        return self.exclude(state=Dispute.State.WON)


class Dispute(models.Model):
    """A payment that the payer's bank has called back. One that is lost counts as money given back.

    reference: the provider's name for it.
    """

    class State(Steps):
        OPEN = "open", "Not decided"
        WON = "won", "Decided for the shop"
        LOST = "lost", "Decided for the payer"

    payment = models.ForeignKey(Payment, on_delete=models.PROTECT, related_name="disputes")
    reference = models.CharField(max_length=LONGEST_REFERENCE)
    amount_minor = models.PositiveBigIntegerField()
    currency = models.CharField(max_length=3)
    state = models.CharField(max_length=10, choices=State, default=State.OPEN)
    opened_at = models.DateTimeField()
    closed_at = models.DateTimeField(null=True, blank=True)
    looks = models.PositiveIntegerField(default=0)
    looked_at = models.DateTimeField(null=True, blank=True)

    objects = DisputeQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("payment", "reference"), name="dispute_once"),
            models.CheckConstraint(condition=Q(amount_minor__gte=1), name="dispute_of_something"),
        )

    def __str__(self) -> str:
        return f"{self.amount} of order {self.payment.order_id}, disputed"

    @property
    def amount(self) -> str:
        return money(self.amount_minor, self.currency)

    def go_on(self, state: str, **values: Any) -> bool:
        """As `Payment.go_on`."""
        moved = Dispute.objects.filter(pk=self.pk, state__in=Dispute.State.before(state))
        if not moved.update(state=state, **values):
            return False
        self.refresh_from_db()
        return True


def granted(order: str = "") -> Q:
    """What `Order.is_paid` says of one order, as a condition of a query. order: the path to it."""
    is_kept = Q(**{f"{order}refunded_minor__lt": F(f"{order}paid_minor")})
    return Q(**{f"{order}total_minor": 0}) | Q(**{f"{order}paid_at__isnull": False}) & is_kept
