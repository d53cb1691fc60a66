"""What was issued for an order."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import models
from django.db.models import F, Q

from orders.models.payments import granted

# A download that breaks off and goes on, or is asked for in ranges, is one download.
ONE_DOWNLOAD = timedelta(minutes=10)
# What could not be made is tried again after these pauses; after the last attempt it waits for the owner.
PAUSES = (timedelta(seconds=10), timedelta(minutes=1), timedelta(minutes=10), timedelta(hours=1))
MOST_ATTEMPTS = len(PAUSES) + 1
# Longer than an attempt can last: what was begun and never finished is begun again then.
CLAIMED_FOR = timedelta(seconds=90)
OVERDUE_AFTER = timedelta(minutes=15)
UNFINISHED = "It was begun and not finished: the worker was ended."
LONGEST_FAILURE = 300


class IssuedDocumentQuerySet(models.QuerySet["IssuedDocument"]):
    def granted(self) -> IssuedDocumentQuerySet:
        """Documents of orders that are paid, or were free."""
        return self.filter(granted("line__order__"))

    def wanted(self) -> IssuedDocumentQuerySet:
        """Documents that were promised and have not been made yet; not before they are paid."""
        return self.granted().filter(issued_at=None)

    def due(self, now: datetime) -> IssuedDocumentQuerySet:
        """Wanted documents that may be tried now, the oldest first."""
        return self.wanted().filter(_may_be_tried(now), attempts__lt=MOST_ATTEMPTS).order_by("pk")

    def given_up(self, now: datetime) -> IssuedDocumentQuerySet:
        """Wanted documents whose last attempt failed: they wait for the owner."""
        return self.wanted().filter(_may_be_tried(now), attempts__gte=MOST_ATTEMPTS).order_by("pk")

    def overdue(self, now: datetime) -> IssuedDocumentQuerySet:
        """Documents that have been due for so long that no worker can be at work."""
        return self.due(now - OVERDUE_AFTER).filter(line__order__placed_at__lt=now - OVERDUE_AFTER)

    def try_again(self) -> int:
        """Let the worker begin with them afresh; return how many there are."""
        return self.update(attempts=0, try_after=None)


def _may_be_tried(now: datetime) -> Q:
    return Q(try_after=None) | Q(try_after__lte=now)


class IssuedDocument(models.Model):
    """A document of an order line, promised with it or asked for later; issued once it has been made.

    body_address: where the unstamped body is kept. checksum: sha256 of the stamped file as first issued.
    The file itself is not kept: body and licence line make it again.
    attempts: how often it was begun. try_after: not to be tried before then. failure: why it is not there.
    """

    class Kind(models.TextChoices):
        BOOK = "book", "Instruction book"
        TEMPLATES = "templates", "Full-size templates"
        SHORT = "short", "Short form"
        PLAIN = "plain", "Book in black and white"

    class Paper(models.TextChoices):
        A4 = "a4", "A4"
        LETTER = "letter", "US Letter"
        LARGE = "large", "one large sheet"

    line = models.ForeignKey("orders.OrderLine", on_delete=models.PROTECT, related_name="documents")
    kind = models.CharField(max_length=20, choices=Kind)
    paper = models.CharField(max_length=10, choices=Paper)
    licence_line = models.CharField(max_length=200)
    body_address = models.CharField(max_length=64, blank=True, default="")
    checksum = models.CharField(max_length=64, blank=True, default="")
    issued_at = models.DateTimeField(null=True, blank=True)
    pages = models.PositiveIntegerField(null=True, blank=True)
    size_bytes = models.PositiveBigIntegerField(null=True, blank=True)
    attempts = models.PositiveSmallIntegerField(default=0)
    try_after = models.DateTimeField(null=True, blank=True)
    failure = models.CharField("why it could not be made", max_length=LONGEST_FAILURE, blank=True, default="")
    downloads = models.PositiveIntegerField(default=0)
    downloaded_at = models.DateTimeField("last downloaded at", null=True, blank=True)

    objects = IssuedDocumentQuerySet.as_manager()

    class Meta:
        ordering = ("line", "kind", "paper")
        # The worker asks every second; an index of what is wanted only is nearly empty.
        indexes = (models.Index(fields=("try_after",), condition=Q(issued_at=None), name="document_wanted"),)
        constraints = (
            models.UniqueConstraint(fields=("line", "kind", "paper"), name="document_once"),
            models.CheckConstraint(
                condition=Q(checksum="", issued_at=None) | ~Q(checksum="") & Q(issued_at__isnull=False),
                name="document_issued_with_checksum",
            ),
        )

    def __str__(self) -> str:
        return f"{self.get_kind_display()} on {self.get_paper_display()} for {self.line}"

    @property
    def file_name(self) -> str:
        """What the customer's computer calls it: the pattern, the paper, the order; units, if the second.

        What is corrected names its revision, so that it never takes the place of the file before.
        """
        line = self.line
        units = f"-in-{line.sized['units']}" if line.is_in_other_system else ""
        corrected = f"-revision-{line.revision.number}" if line.corrects_id else ""
        return f"{line.sized['recipe']}-{self.kind}-{self.paper}{units}{corrected}-order-{line.order_id}.pdf"

    @property
    def is_further(self) -> bool:
        """Whether it was not promised with the order, but asked for later."""
        return self.kind in (self.Kind.SHORT, self.Kind.PLAIN)

    @property
    def is_issued(self) -> bool:
        return self.checksum != ""

    @property
    def has_failed(self) -> bool:
        """Whether an attempt failed, or more than one was never finished: no web process tries it then."""
        return not self.is_issued and self.failure != "" and (self.failure != UNFINISHED or self.attempts > 1)

    def is_given_up(self, now: datetime) -> bool:
        """Whether it waits for the owner, as `given_up` finds it."""
        may_be_tried = self.try_after is None or self.try_after <= now
        return not self.is_issued and self.attempts >= MOST_ATTEMPTS and may_be_tried

    def claim(self, now: datetime) -> bool:
        """Begin an attempt, unless somebody else has begun one; it counts even if it is never finished."""
        due = IssuedDocument.objects.due(now).filter(pk=self.pk).order_by()
        begun = due.update(attempts=F("attempts") + 1, try_after=now + CLAIMED_FOR, failure=UNFINISHED)
        if begun:
            self.attempts += 1
        return begun == 1

    def put_off(self, failure: str, now: datetime) -> None:
        """Say why an attempt failed, and when the next one may be; after the last there is none."""
        is_last = self.attempts >= MOST_ATTEMPTS
        IssuedDocument.objects.wanted().filter(pk=self.pk).update(
            failure=failure[:LONGEST_FAILURE],
            try_after=None if is_last else now + PAUSES[self.attempts - 1],
        )

    def is_same_download(self, now: datetime) -> bool:
        """Whether what is asked for now goes on with the last download."""
        return self.downloaded_at is not None and self.downloaded_at > now - ONE_DOWNLOAD

    def count_download(self, now: datetime) -> None:
        IssuedDocument.objects.filter(pk=self.pk).update(downloads=F("downloads") + 1, downloaded_at=now)
