from fractions import Fraction

import pytest

from patterns.cutting.choices import Making
from patterns.cutting.costs import with_costs
from patterns.cutting.listing_json import from_json, to_json
from patterns.cutting.shopping import shopping_list
from patterns.cutting.wish import NO_WISH, Wish, choices_of
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter

BASKET = size(read_starter("fold-flat-basket"), "fold-flat-basket", Units.INCHES)


def priced_list(wish):
    found = shopping_list([Making(BASKET, wish.count)], choices_of(wish, BASKET))
    return with_costs(found, lambda minor: f"{minor}p")


@pytest.mark.parametrize(
    ("count", "says"),
    [
        (1, "At the prices given: 1200p. Without a price, and not counted: light interfacing, "),
        # One yard and seven eighths.
        (3, "At the prices given: 2250p, which is 750p for each of the 3. Without a price, "),
    ],
)
def test_all_together_and_for_each(count, says):
    found = priced_list(
        Wish(price_minor=1200, count=count, repeat=Fraction(762, 5), repeat_on="exterior fabric")
    )
    assert found.cost_says.startswith(says)
    assert next(line.cost for line in found.lines if line.cost) == ("600p" if count == 1 else "1200p")


def test_without_a_price_nothing_is_said():
    found = priced_list(NO_WISH)
    assert found == shopping_list(BASKET)
    assert "cost_says" not in to_json(found)


def test_kept_and_read_again():
    found = priced_list(Wish(price_minor=1200, interfacing_price_minor=0))
    assert from_json(to_json(found)) == found
