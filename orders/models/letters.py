"""Mail as rows: what is to be sent, and what became of it."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import models
from django.db.models import F, Q

# A sender that took a letter has it to itself for so long. Whole batches end within minutes, so an hour
# that has passed means that the sender was stopped in the middle.
LEASE = timedelta(hours=1)
# After each failed try the next waits longer; after the last of these, some three days on, the owner is told.
PAUSES = (
    timedelta(minutes=1),
    timedelta(minutes=5),
    timedelta(minutes=20),
    timedelta(hours=1),
    timedelta(hours=3),
    timedelta(hours=6),
    timedelta(hours=12),
    timedelta(hours=24),
    timedelta(hours=24),
)
LONGEST_ERROR = 500


class LetterQuerySet(models.QuerySet["Letter"]):
    def due(self, now: datetime) -> LetterQuerySet:
        """What is to be sent now, the longest overdue first."""
        return self.waiting().filter(due_at__lte=now).order_by("due_at", "pk")

    def waiting(self) -> LetterQuerySet:
        """What will be sent without anybody's help: not tried yet, or to be tried again."""
        return self.filter(sent_at=None, due_at__isnull=False)

    def given_up(self) -> LetterQuerySet:
        """What could not be sent and waits for the owner, the newest first; not what was wiped since."""
        return self.filter(sent_at=None, due_at=None).exclude(to="").order_by("-pk")


class Letter(models.Model):
    """One mail, written as a row in the transaction of what it tells about, and sent later.

    text, html: each link stands in them as its mark (`orders.letters.mark`); the link itself is made when the
    letter is sent, and kept nowhere.
    due_at: when it is to be tried; null once it was sent, or given up.
    """

    class Kind(models.TextChoices):
        ORDER_PLACED = "order_placed", "Order placed"
        LINKS_AGAIN = "links_again", "Links again"
        PAYMENT_RECEIVED = "payment_received", "Payment received"
        FILES_READY = "files_ready", "Files ready"
        MONEY_BACK = "money_back", "Money back"
        CORRECTED = "corrected", "Corrected"

    kind = models.CharField(max_length=30, choices=Kind)
    to = models.EmailField(max_length=254)
    orders = models.ManyToManyField("orders.Order", related_name="letters")
    subject = models.CharField(max_length=200)
    text = models.TextField()
    html = models.TextField()
    created_at = models.DateTimeField()
    due_at = models.DateTimeField(null=True, blank=True)
    tries = models.PositiveIntegerField(default=0)
    sent_at = models.DateTimeField(null=True, blank=True)
    last_error = models.CharField(max_length=LONGEST_ERROR, blank=True, default="")

    objects = LetterQuerySet.as_manager()

    class Meta:
        indexes = (models.Index(fields=("sent_at", "due_at"), name="letter_sent_due"),)
        constraints = (
            models.CheckConstraint(condition=Q(sent_at=None) | Q(due_at=None), name="letter_sent_is_not_due"),
        )

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, to {self.to}"

    def claim(self, now: datetime) -> bool:
        """Take the letter to send it; False where another sender has taken it since it was read."""
        as_read = Letter.objects.waiting().filter(pk=self.pk, due_at=self.due_at, tries=self.tries)
        until = now + LEASE
        if not as_read.update(due_at=until, tries=F("tries") + 1):
            return False
        self.due_at, self.tries = until, self.tries + 1
        return True

    def keep_sent(self, now: datetime) -> None:
        """Note that the mail server has taken it."""
        Letter.objects.filter(pk=self.pk).update(sent_at=now, due_at=None, last_error="")

    def keep_failure(self, reason: str, now: datetime) -> None:
        """Note why it was not sent, and when to try again; after the last pause it waits for the owner."""
        due = now + PAUSES[self.tries - 1] if self.tries <= len(PAUSES) else None
        waiting = Letter.objects.waiting().filter(pk=self.pk)
        waiting.update(due_at=due, last_error=reason[:LONGEST_ERROR])

    def try_again(self, now: datetime) -> bool:
        """Let a letter that was given up be sent, with all its tries before it; whether it was."""
        return Letter.objects.given_up().filter(pk=self.pk).update(due_at=now, tries=0) == 1
