"""What was ordered. Money is integer minor units."""

from __future__ import annotations

from datetime import datetime

from django.db import models
from django.db.models import F, Prefetch, Q
from django.db.models.functions import Lower

from orders.countries import country_name
from orders.models.documents import IssuedDocument
from orders.models.hashed import hashed
from orders.models.links import opened_by
from orders.models.payments import Payment, granted
from orders.models.tax import percent
from patterns.documents.names import MOST_CHARACTERS
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sized_json import from_json
from patterns.models import Offer, Revision
from patterns.money import money, priced


class OrderQuerySet(models.QuerySet["Order"]):
    def behind(self, token: str) -> OrderQuerySet:
        """The order one of whose links holds the token: none, or one."""
        return self.filter(opened_by(token))

    def placed_with(self, key: str) -> OrderQuerySet:
        """The order that the form with this key has placed: none, or one."""
        return self.filter(key_hash=hashed(key))

    def free_since(self, moment: datetime) -> OrderQuerySet:
        return self.filter(total_minor=0, placed_at__gt=moment)

    def unpaid_since(self, moment: datetime) -> OrderQuerySet:
        return self.filter(placed_at__gt=moment).exclude(granted())

    def never_paid(self, before: datetime) -> OrderQuerySet:
        """Orders that something was to be paid for, placed before a moment, for which nothing ever came."""
        return self.filter(placed_at__lt=before, total_minor__gt=0, paid_minor=0, paid_at=None)

    def paid_too_much(self) -> OrderQuerySet:
        """Orders for which more came in than they cost, and which keep more than that still."""
        return self.filter(paid_minor__gt=F("total_minor") + F("refunded_minor"))

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
        """Each order with what was sold, its sizes and files; the drawings' data stay in the table."""
        others = OrderLine.objects.without_data().prefetch_related("documents")
        lines = OrderLine.objects.sold().without_data()
        lines = lines.prefetch_related("sizes", "documents", Prefetch("other_system", queryset=others))
        return self.prefetch_related(Prefetch("lines", queryset=lines))


class Order(models.Model):
    """One order. Neither its link's token nor its form's key can be read back from the row.

    source: a keyed hash of the network address that it came from, which is counted and never shown.
    total_minor: what is to be paid; tax_minor: the tax in it, by the rate that stood on that day.
    paid_minor, refunded_minor, paid_at: what `orders.settling` makes of its payments, and nobody else writes.
    consent_text: the very words that the customer agreed to, and when.
    ready_at: when the customer saw that all files are there, or was written so.
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
    way = models.CharField("way to pay", max_length=20, blank=True, default="")
    country = models.CharField(max_length=2, blank=True, default="")
    tax_minor = models.PositiveBigIntegerField(default=0)
    tax_milli_percent = models.PositiveIntegerField(default=0)
    tax_name = models.CharField(max_length=20, blank=True, default="")
    consent_text = models.TextField(blank=True, default="")
    consented_at = models.DateTimeField(null=True, blank=True)
    paid_minor = models.PositiveBigIntegerField(default=0)
    refunded_minor = models.PositiveBigIntegerField(default=0)
    paid_at = models.DateTimeField(null=True, blank=True)
    invoice_number = models.PositiveBigIntegerField(null=True, blank=True, unique=True)
    ready_at = models.DateTimeField(null=True, blank=True)

    objects = OrderQuerySet.as_manager()

    class Meta:
        indexes = (
            models.Index(Lower("email"), "placed_at", name="order_email_placed"),
            models.Index(fields=("source", "placed_at"), name="order_source_placed"),
            models.Index(fields=("placed_at",), condition=Q(ready_at=None), name="order_not_ready"),
        )

    def __str__(self) -> str:
        return f"Order {self.number}"

    @property
    def total(self) -> str:
        return money(self.total_minor, self.currency)

    @property
    def is_paid(self) -> bool:
        """Whether what was ordered is the customer's: it was free, or is paid and not wholly given back.

        `payments.granted` says the same in SQL.
        """
        return self.total_minor == 0 or (self.paid_at is not None and self.refunded_minor < self.paid_minor)

    @property
    def is_by_transfer(self) -> bool:
        return self.way == Payment.TRANSFER

    @property
    def payment_words(self) -> str:
        """How it stands: `Free`, `Paid`, `Waits for the transfer`, `Not paid yet`, `Given back` …"""
        if self.total_minor == 0:
            return "Free"
        if self.paid_at is None:
            return "Waits for the transfer" if self.is_by_transfer else "Not paid yet"
        if not self.refunded_minor:
            return "Paid"
        back = priced(self.refunded_minor, self.currency)
        return f"Paid, {back} given back" if self.is_paid else "Given back"

    @property
    def paid_words(self) -> str:
        """All that came in for it."""
        return priced(self.paid_minor, self.currency)

    @property
    def kept_words(self) -> str:
        """What of that was not given back."""
        return priced(max(self.paid_minor - self.refunded_minor, 0), self.currency)

    @property
    def tax(self) -> str:
        return priced(self.tax_minor, self.currency)

    @property
    def net(self) -> str:
        return priced(self.total_minor - self.tax_minor, self.currency)

    @property
    def tax_rate(self) -> str:
        return percent(self.tax_milli_percent)

    @property
    def country_name(self) -> str:
        return country_name(self.country)


class OrderLineQuerySet(models.QuerySet["OrderLine"]):
    def without_data(self) -> OrderLineQuerySet:
        """The lines without their sized patterns, which are some 50 KB each, and without their layouts."""
        return self.defer("sized", "layouts")

    def sold(self) -> OrderLineQuerySet:
        """The lines that were ordered, without those that give one in the other unit system or corrected."""
        return self.filter(beside=None, corrects=None)


class OrderLine(models.Model):
    """One pattern at one size. `sized` is kept for good and never written again.

    wish: what the customer said of the cloth, as JSON of `patterns.cutting.wish`; null where nothing.
    layouts: the shopping list, as JSON of `patterns.cutting.listing_json`; null until `orders.cloth` has
    made it, then never written again.
    own_cloth: the customer's own, as `orders.own_cloth` keeps it; null where they showed none.
    beside: the line that this one is the other unit system of; it costs nothing and is not counted as sold.
    corrects: the line whose place this one takes, made from a corrected revision; it costs nothing either.
    offer, offer_kind, licence: how it was sold, in the words of that day.
    is_included: it came with an earlier line of the order, as the sizes of a chart do, at no price.
    batch_minor, batch_licence: the small-batch licence beside it. tax_minor: the tax in both prices.
    any_size_until: the last day on which any other size of the pattern may be added to the order.
    """

    order = models.ForeignKey(Order, on_delete=models.PROTECT, related_name="lines")
    position = models.PositiveSmallIntegerField(default=1)
    revision = models.ForeignKey(Revision, on_delete=models.PROTECT, related_name="+")
    title = models.CharField(max_length=200)
    sized = models.JSONField()
    wish = models.JSONField(null=True, blank=True)
    own_cloth = models.JSONField(null=True, blank=True)
    layouts = models.JSONField(null=True, blank=True)
    quantity = models.PositiveSmallIntegerField(default=1)
    price_minor = models.PositiveBigIntegerField()
    currency = models.CharField(max_length=3)
    beside = models.OneToOneField(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="other_system"
    )
    corrects = models.OneToOneField(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="corrected"
    )
    offer = models.ForeignKey(Offer, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    offer_kind = models.CharField(max_length=10, choices=Offer.Kind, default=Offer.Kind.FREE)
    licence = models.CharField(max_length=400, blank=True, default="")
    is_included = models.BooleanField(default=False)
    batch_minor = models.PositiveBigIntegerField(default=0)
    batch_licence = models.CharField(max_length=400, blank=True, default="")
    tax_minor = models.PositiveBigIntegerField(default=0)
    any_size_until = models.DateField(null=True, blank=True)

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
        """Of the pattern itself, without the licence beside it."""
        return "Included" if self.is_included else money(self.price_minor, self.currency)

    @property
    def batch_price(self) -> str:
        return money(self.batch_minor, self.currency)

    @property
    def size_words(self) -> str:
        """Its measures in the recipe's order. A query, unless `Order.objects.with_lines` brought them."""
        return ", ".join(str(size) for size in self.sizes.all())

    @property
    def download_count(self) -> int:
        """Of all its documents, in both systems. Queries, unless `Order.objects.with_lines` brought them."""
        lines = [self] if self.other is None else [self, self.other]
        return sum(document.downloads for line in lines for document in line.documents.all())

    @property
    def other(self) -> OrderLine | None:
        """The line that gives this one in the other unit system. A query, unless it was brought."""
        return getattr(self, "other_system", None)

    @property
    def is_in_other_system(self) -> bool:
        """Whether it, or what it corrects, gives another line in the other unit system. Perhaps a query."""
        return bool(self.beside_id) or (self.corrects is not None and self.corrects.is_in_other_system)

    @property
    def has_templates(self) -> bool:
        """Whether templates come with it. A query, unless its documents were brought."""
        return any(document.kind == IssuedDocument.Kind.TEMPLATES for document in self.documents.all())

    @property
    def sized_pattern(self) -> SizedPattern:
        return from_json(self.sized)
