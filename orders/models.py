"""What was ordered, what was issued for it, and which sizes sell. Money is integer minor units."""

from __future__ import annotations

import hashlib
from datetime import datetime, timedelta
from fractions import Fraction
from typing import Any

from django.db import models
from django.db.models import F, Min, Prefetch, Q, Sum
from django.db.models.functions import Lower

from orders.money import money
from orders.sizes import in_words
from patterns.documents.names import MOST_CHARACTERS
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sized_json import from_json
from patterns.models import Pattern, Revision

# A download that breaks off and goes on, or is asked for in ranges, is one download.
ONE_DOWNLOAD = timedelta(minutes=10)


def hashed(secret: str) -> str:
    """Return the only form in which a link's token or a form's key is kept.

    Neither can be guessed, so neither can a plain hash of it.
    """
    return hashlib.sha256(secret.encode()).hexdigest()


class OrderQuerySet(models.QuerySet["Order"]):
    def behind(self, token: str) -> OrderQuerySet:
        """The order whose link holds the token: none, or one."""
        return self.filter(link_hash=hashed(token))

    def placed_with(self, key: str) -> OrderQuerySet:
        """The order that the form with this key has placed: none, or one."""
        return self.filter(key_hash=hashed(key))

    def free_since(self, moment: datetime) -> OrderQuerySet:
        return self.filter(total_minor=0, placed_at__gt=moment)

    def from_email(self, email: str) -> OrderQuerySet:
        """Orders with the address, in whatever letters it was typed."""
        return self.alias(small_email=Lower("email")).filter(small_email=email.lower())

    def from_source(self, source: str) -> OrderQuerySet:
        return self.filter(source=source)

    def newest_first(self) -> OrderQuerySet:
        return self.order_by("-number")

    def matching(self, words: str) -> OrderQuerySet:
        """Orders whose number is what was typed, or whose name, address or pattern holds it."""
        if not words:
            return self
        found = Q(name__icontains=words) | Q(email__icontains=words)
        found |= Q(pk__in=OrderLine.objects.filter(title__icontains=words).values("order"))
        digits = words.removeprefix("#").strip()
        if digits.isascii() and digits.isdigit() and len(digits) <= 18:
            found |= Q(number=int(digits))
        return self.filter(found)

    def with_lines(self) -> OrderQuerySet:
        """Each order with its lines, their sizes and files; the drawings' data stay in the table."""
        lines = OrderLine.objects.without_data().prefetch_related("sizes", "documents")
        return self.prefetch_related(Prefetch("lines", queryset=lines))


class Order(models.Model):
    """One order. Neither its link's token nor its form's key can be read back from the row.

    source: a keyed hash of the network address that it came from, which is counted and never shown.
    """

    number = models.BigAutoField(primary_key=True)
    key_hash = models.CharField(max_length=64, unique=True)
    link_hash = models.CharField(max_length=64, unique=True)
    name = models.CharField("name on the book", max_length=MOST_CHARACTERS)
    email = models.EmailField("e-mail", max_length=254)
    source = models.CharField(max_length=64)
    placed_at = models.DateTimeField()
    currency = models.CharField(max_length=3)
    total_minor = models.PositiveBigIntegerField()

    objects = OrderQuerySet.as_manager()

    class Meta:
        indexes = (
            models.Index(Lower("email"), "placed_at", name="order_email_placed"),
            models.Index(fields=("source", "placed_at"), name="order_source_placed"),
        )

    def __str__(self) -> str:
        return f"Order {self.number}"

    @property
    def total(self) -> str:
        return money(self.total_minor, self.currency)


class OrderLineQuerySet(models.QuerySet["OrderLine"]):
    def without_data(self) -> OrderLineQuerySet:
        """The lines without their sized patterns, which are some 50 KB each, and without their layouts."""
        return self.defer("sized", "layouts")


class OrderLine(models.Model):
    """One pattern at one size. `sized` is kept for good and never written again.

    wish: what the customer said of the cloth, as JSON of `patterns.cutting.wish`; null where nothing.
    layouts: the shopping list, as JSON of `patterns.cutting.listing_json`; null until `orders.cloth` has
    made it, then never written again.
    """

    order = models.ForeignKey(Order, on_delete=models.PROTECT, related_name="lines")
    position = models.PositiveSmallIntegerField(default=1)
    revision = models.ForeignKey(Revision, on_delete=models.PROTECT, related_name="+")
    title = models.CharField(max_length=200)
    sized = models.JSONField()
    wish = models.JSONField(null=True, blank=True)
    layouts = models.JSONField(null=True, blank=True)
    quantity = models.PositiveSmallIntegerField(default=1)
    price_minor = models.PositiveBigIntegerField()
    currency = models.CharField(max_length=3)

    objects = OrderLineQuerySet.as_manager()

    class Meta:
        ordering = ("order", "position")
        constraints = (
            models.UniqueConstraint(fields=("order", "position"), name="line_position_once"),
            models.CheckConstraint(condition=Q(quantity__gte=1), name="line_quantity_positive"),
        )

    def __str__(self) -> str:
        return f"{self.title}, line {self.position} of order {self.order_id}"

    @property
    def price(self) -> str:
        return money(self.price_minor, self.currency)

    @property
    def size_words(self) -> str:
        """Its measures in the recipe's order. A query, unless `Order.objects.with_lines` brought them."""
        return ", ".join(str(size) for size in self.sizes.all())

    @property
    def download_count(self) -> int:
        """Of all its documents. A query, unless `Order.objects.with_lines` brought them."""
        return sum(document.downloads for document in self.documents.all())

    @property
    def has_templates(self) -> bool:
        """Whether templates come with it. A query, unless its documents were brought."""
        return any(document.kind == IssuedDocument.Kind.TEMPLATES for document in self.documents.all())

    @property
    def sized_pattern(self) -> SizedPattern:
        return from_json(self.sized)


class IssuedDocumentQuerySet(models.QuerySet["IssuedDocument"]):
    def behind(self, token: str) -> IssuedDocumentQuerySet:
        """The documents of the order whose link holds the token."""
        return self.filter(line__order__link_hash=hashed(token))

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

    line = models.ForeignKey(OrderLine, on_delete=models.PROTECT, related_name="documents")
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


class SizeSoldQuerySet(models.QuerySet["SizeSold"]):
    def of(self, pattern: Pattern | None) -> SizeSoldQuerySet:
        """The sizes sold of one pattern, or of all."""
        return self if pattern is None else self.filter(pattern=pattern)

    def by_value(self) -> models.QuerySet[SizeSold, dict[str, Any]]:
        """One row for each value of each measure of each pattern, smallest first, and how many were sold.

        first: the oldest row of the value; rows are kept in the order of the recipe's measures.
        """
        values = self.values("pattern_id", "measure", "units", "nanometres", "millionths", "text")
        return values.annotate(sold=Sum("line__quantity"), first=Min("pk")).order_by(
            "pattern_id", "measure", "units", "nanometres", "millionths", "text"
        )


class SizeSold(models.Model):
    """One measure of one order line, so that reports are plain SQL.

    text: exact, in lowest terms and in `units` (empty for a bare number): `17/2`.
    nanometres: of a length; 1/64 in is 396,875 of them exactly. millionths: of a bare number.
    What falls between two of these is rounded to the nearest; only sorting and grouping read them.
    """

    line = models.ForeignKey(OrderLine, on_delete=models.PROTECT, related_name="sizes")
    pattern = models.ForeignKey(Pattern, on_delete=models.PROTECT, related_name="+")
    measure = models.CharField(max_length=200)
    text = models.CharField(max_length=60)
    units = models.CharField(max_length=2, blank=True, choices=(("in", "in"), ("cm", "cm"), ("", "")))
    nanometres = models.BigIntegerField(null=True, blank=True)
    millionths = models.BigIntegerField(null=True, blank=True)

    objects = SizeSoldQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        verbose_name_plural = "sizes sold"
        indexes = (
            models.Index(
                fields=("pattern", "measure", "units", "nanometres", "millionths", "text"),
                name="sold_by_value",
            ),
        )
        constraints = (
            models.UniqueConstraint(fields=("line", "measure"), name="size_sold_once"),
            models.CheckConstraint(
                condition=Q(nanometres__isnull=False, millionths=None) & ~Q(units="")
                | Q(nanometres=None, millionths__isnull=False, units=""),
                name="size_sold_length_or_number",
            ),
        )

    def __str__(self) -> str:
        return f"{self.measure} {self.words}"

    @property
    def words(self) -> str:
        """As a person reads it: `8 1⁄2 in`."""
        return f"{in_words(Fraction(self.text), self.units)} {self.units}".rstrip()
