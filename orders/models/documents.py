"""What was issued for an order."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import models
from django.db.models import F, Q

from orders.models.links import opened_by

# A download that breaks off and goes on, or is asked for in ranges, is one download.
ONE_DOWNLOAD = timedelta(minutes=10)


class IssuedDocumentQuerySet(models.QuerySet["IssuedDocument"]):
    def behind(self, token: str) -> IssuedDocumentQuerySet:
        """The documents of the order one of whose links holds the token."""
        return self.filter(opened_by(token, "line__order__"))

    def wanted(self) -> IssuedDocumentQuerySet:
        """Documents that were promised and have not been made yet."""
        return self.filter(checksum="")


class IssuedDocument(models.Model):
    """A document promised with an order line: wanted from the start, issued once it has been made.

    body_address: where the unstamped body is kept. checksum: sha256 of the stamped file as first issued.
    The file itself is not kept: body and licence line make it again.
    """

    class Kind(models.TextChoices):
        BOOK = "book", "Instruction book"
        TEMPLATES = "templates", "Full-size templates"

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
    downloads = models.PositiveIntegerField(default=0)
    downloaded_at = models.DateTimeField("last downloaded at", null=True, blank=True)

    objects = IssuedDocumentQuerySet.as_manager()

    class Meta:
        ordering = ("line", "kind", "paper")
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
        """What the customer's computer calls it: the pattern, the paper and the order."""
        pattern = self.line.sized["recipe"]
        return f"{pattern}-{self.kind}-{self.paper}-order-{self.line.order_id}.pdf"

    @property
    def is_issued(self) -> bool:
        return self.checksum != ""

    def count_download(self, now: datetime) -> None:
        """Count one more download, unless the last one was only minutes ago."""
        recent = Q(downloaded_at__gt=now - ONE_DOWNLOAD)
        counted = IssuedDocument.objects.filter(~recent | Q(downloaded_at=None), pk=self.pk)
        counted.update(downloads=F("downloads") + 1, downloaded_at=now)
