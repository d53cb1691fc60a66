from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from orders.models import TaxRate
from orders.models.tax import percent
from orders.tax import tax_within


@pytest.mark.parametrize(
    ("gross", "rate", "tax"),
    [
        (650, 20_000, 108),  # 650 × 20 ÷ 120 = 108.33…
        (600, 20_000, 100),
        (3, 20_000, 1),  # 0.5 goes up
        (1, 20_000, 0),
        (0, 20_000, 0),
        (650, 0, 0),
        (10_000, 5_500, 521),  # 10,000 × 5.5 ÷ 105.5 = 521.32…
    ],
)
def test_tax_within_a_price(gross: int, rate: int, tax: int) -> None:
    assert tax_within(gross, rate) == tax


@given(st.integers(0, 10**12), st.integers(0, 100_000))
def test_tax_is_the_nearest_whole_unit_and_never_more_than_half(gross: int, rate: int) -> None:
    tax = tax_within(gross, rate)
    # tax is within half a unit of gross × rate ÷ (100,000 + rate), compared without a division
    assert abs(2 * tax * (100_000 + rate) - 2 * gross * rate) <= 100_000 + rate
    assert 0 <= 2 * tax <= gross + 1


@pytest.mark.parametrize(
    ("rate", "words"), [(20_000, "20 %"), (5_500, "5.5 %"), (19_975, "19.975 %"), (0, "0 %")]
)
def test_rate_in_words(rate: int, words: str) -> None:
    assert percent(rate) == words


def test_newest_rate_that_has_begun_is_valid(db: None) -> None:
    for year, rate in ((2024, 19_000), (2026, 20_000), (2027, 21_000)):
        TaxRate.objects.create(country="GB", milli_percent=rate, valid_from=date(year, 1, 1))
    rates = [TaxRate.objects.valid("GB", date(year, 6, 1)) for year in (2023, 2025, 2026, 2027)]
    assert [rate and rate.milli_percent for rate in rates] == [None, 19_000, 20_000, 21_000]
    assert TaxRate.objects.valid("GB", date(2027, 1, 1)).milli_percent == 21_000
    assert TaxRate.objects.valid("FR", date(2026, 6, 1)) is None


def test_owner_writes_a_rate_in_percent(owner_client) -> None:
    typed = {"country": "FR", "rate": "5.5", "valid_from": "2026-01-01"}
    assert owner_client.post("/admin/orders/taxrate/add/", typed).status_code == 302
    rate = TaxRate.objects.get()
    assert (rate.country, rate.milli_percent) == ("FR", 5_500)
    page = owner_client.get(f"/admin/orders/taxrate/{rate.pk}/change/")
    assert 'value="5.5' in page.content.decode()
