"""The books of the provider that is only a demonstration: no money moves."""

from django.db import models


class LocalCharge(models.Model):
    """What the local provider knows of one payment, kept apart from what the shop knows of it."""

    class State(models.TextChoices):
        OPEN = "open"
        PAID = "paid"
        DECLINED = "declined"

    class Dispute(models.TextChoices):
        NONE = ""
        OPEN = "open"
        WON = "won"
        LOST = "lost"

    reference = models.CharField(max_length=64, unique=True)
    payment_key = models.CharField(max_length=64, unique=True)
    order_number = models.BigIntegerField()
    title = models.CharField(max_length=300)
    amount_minor = models.PositiveBigIntegerField()
    currency = models.CharField(max_length=3)
    state = models.CharField(max_length=10, choices=State, default=State.OPEN)
    dispute = models.CharField(max_length=10, choices=Dispute, blank=True, default=Dispute.NONE)
    disputed_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.reference}, {self.state}"
