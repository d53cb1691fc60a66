"""Which sizes sell."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from django.db import models
from django.db.models import Min, Q, Sum

from orders.models.order import OrderLine
from orders.models.payments import granted
from orders.sizes import in_words
from patterns.models import Pattern


class SizeSoldQuerySet(models.QuerySet["SizeSold"]):
    def of(self, pattern: Pattern | None) -> SizeSoldQuerySet:
        """The sizes sold of one pattern, or of all; what is not paid is not sold."""
        sold = self.filter(granted("line__order__"))
        return sold if pattern is None else sold.filter(pattern=pattern)

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
