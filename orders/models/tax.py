"""Rates of sales tax, as the owner sets them. Nothing here is tax advice, and no rate comes with the shop."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.db import models

from orders.countries import country_choices


class TaxRateQuerySet(models.QuerySet["TaxRate"]):
    def valid(self, country: str, on: date) -> TaxRate | None:
        """The rate of a country on a day: the newest that had begun; None where the owner has set none."""
        begun = self.filter(country=country, valid_from__lte=on)
        return begun.order_by("-valid_from").first()


class TaxRate(models.Model):
    """What a country's buyers are charged from a day on. milli_percent: 20 % is 20,000."""

    country = models.CharField(max_length=2, choices=country_choices)
    milli_percent = models.PositiveIntegerField("rate")
    valid_from = models.DateField()

    objects = TaxRateQuerySet.as_manager()

    class Meta:
        ordering = ("country", "-valid_from")
        constraints = (
            models.UniqueConstraint(fields=("country", "valid_from"), name="tax_rate_once_a_day"),
            models.CheckConstraint(
                condition=models.Q(milli_percent__lte=100_000), name="tax_rate_at_most_100_percent"
            ),
        )

    def __str__(self) -> str:
        return f"{self.get_country_display()}, {percent(self.milli_percent)} from {self.valid_from}"


def percent(milli_percent: int) -> str:
    """Return a rate as people write it.

    >>> percent(20_000), percent(5_500)
    ('20 %', '5.5 %')
    """
    return f"{Decimal(milli_percent) / 1000:f} %" if milli_percent % 1000 else f"{milli_percent // 1000} %"
