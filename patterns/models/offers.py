"""How a pattern is sold. Prices are whole minor units of the currency that stands beside them."""

from __future__ import annotations

import re

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q

from patterns.money import money

# As long as two sentences need; a licence that is longer belongs in the shop's terms.
LONGEST_LICENCE = 400
# A sentence ends where a mark is followed by space or by the end: “1.5 m” ends none.
SENTENCE_END = re.compile(r"[.!?…](?=\s|\Z)")


def validate_licence(text: str) -> None:
    """Refuse a licence that is not two sentences: one says what is allowed, the other what is not."""
    found = len(SENTENCE_END.findall(text.strip()))
    if found != 2 or not SENTENCE_END.match(text.strip()[-1:]):
        counted = "one sentence" if found == 1 else f"{found} whole sentences"
        raise ValidationError(
            f"The licence has {counted}. Write two, each with its full stop: what the customer may do, "
            "and what not."
        )


class OfferQuerySet(models.QuerySet["Offer"]):
    def on_sale(self, currency: str) -> OfferQuerySet:
        """What is offered now in the shop's currency. What was priced in another waits for the owner."""
        return self.filter(Q(price_minor=0) | Q(currency=currency), is_on_sale=True)


class Offer(models.Model):
    """One way to buy a pattern; what was sold keeps its own price and words.

    Of the three that sell size by size (`BY_SIZE`) one at most is on sale.
    size_name: the named size of the recipe that is free, where one is. price_minor: tax is in it.
    """

    class Kind(models.TextChoices):
        FREE = "free", "Free in every size"
        ONE_FREE = "one-free", "One named size free, every other at a price"
        ONE_SIZE = "one-size", "Each size at a price"
        CHART = "chart", "The whole size chart"
        YEAR = "year", "Any size, as often as wanted, for a year"
        BATCH = "batch", "Small-batch licence"

    BY_SIZE = (Kind.FREE, Kind.ONE_FREE, Kind.ONE_SIZE)

    pattern = models.ForeignKey("patterns.Pattern", on_delete=models.CASCADE, related_name="offers")
    kind = models.CharField(max_length=10, choices=Kind)
    is_on_sale = models.BooleanField("on sale", default=True)
    size_name = models.CharField("the free size", max_length=200, blank=True, default="")
    price_minor = models.PositiveBigIntegerField(default=0)
    currency = models.CharField(max_length=3, blank=True, default="")
    licence = models.CharField(max_length=LONGEST_LICENCE, blank=True, validators=[validate_licence])

    objects = OfferQuerySet.as_manager()

    class Meta:
        ordering = ("pattern", "price_minor", "pk")
        constraints = (
            models.UniqueConstraint(fields=("pattern", "kind"), name="offer_kind_once"),
            models.CheckConstraint(
                condition=Q(kind="free", price_minor=0) | ~Q(kind="free") & Q(price_minor__gte=1),
                name="offer_free_or_priced",
            ),
            models.CheckConstraint(
                condition=Q(kind="one-free") & ~Q(size_name="") | ~Q(kind="one-free") & Q(size_name=""),
                name="offer_names_its_free_size",
            ),
            models.UniqueConstraint(
                fields=("pattern",),
                condition=Q(is_on_sale=True, kind__in=("free", "one-free", "one-size")),
                name="offer_one_by_size",
            ),
        )

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {self.price}"

    @property
    def price(self) -> str:
        return money(self.price_minor, self.currency)
