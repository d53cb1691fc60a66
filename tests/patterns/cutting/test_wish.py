from fractions import Fraction

import pytest

from patterns.cutting.choices import Making
from patterns.cutting.errors import CuttingError
from patterns.cutting.shopping import shopping_list
from patterns.cutting.wish import NO_WISH, Wish, choices_of, from_json, to_json
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter

IN = Units.INCHES.mm
BASKET = size(read_starter("fold-flat-basket"), "fold-flat-basket", Units.INCHES)


def bought(wish):
    found = shopping_list([Making(BASKET, wish.count)], choices_of(wish, BASKET))
    return {line.material: line for line in found.lines}


def test_nothing_said_is_the_usual():
    assert bought(NO_WISH) == {line.material: line for line in shopping_list(BASKET).lines}


def test_form_is_for_every_fabric_and_not_for_interfacing():
    lines = bought(Wish("fat quarter", interfacing="45 in wide"))
    assert lines["exterior fabric"].amount == lines["lining fabric"].amount == "1 × fat quarter"
    assert lines["light interfacing"].amount.endswith("45 in wide")


def test_measured_width_is_all_used():
    cloth = bought(Wish("44 in wide", width=40 * IN))["exterior fabric"].cloth
    assert (cloth.form.name, cloth.width) == ("40 in wide", 40 * IN)


def test_measured_roll():
    assert bought(Wish(interfacing_width=30 * IN))["light interfacing"].cloth.width == 30 * IN


def test_shrinkage_is_of_the_fabric():
    lines = bought(Wish(shrinkage=Fraction(10)))
    assert lines["exterior fabric"].cloth.width == 42 * IN * Fraction(9, 10)
    assert lines["light interfacing"].cloth.way.shrinkage.is_none


@pytest.mark.parametrize(
    ("wish", "says"),
    [
        (Wish("bolt"), "“bolt” is no usual form of fabric. There are 44 in wide, "),
        (Wish(interfacing="fat quarter"), "“fat quarter” is no usual form of interfacing."),
        (Wish("fat quarter", width=300), "A fat quarter has a width of its own."),
    ],
)
def test_what_makes_no_sense(wish, says):
    with pytest.raises(CuttingError, match=says):
        choices_of(wish, BASKET)


@pytest.mark.parametrize("wrong", [{"count": 0}, {"count": 101}, {"shrinkage": Fraction(51)}])
def test_out_of_range(wrong):
    with pytest.raises(CuttingError):
        Wish(**wrong)


@pytest.mark.parametrize(
    "wish", [NO_WISH, Wish("fat quarter", Fraction(1, 3), "20 in wide", 508, Fraction(5, 2), 12)]
)
def test_kept_and_read_again(wish):
    assert from_json(to_json(wish)) == wish


@pytest.mark.parametrize("data", [{"width": "wide"}, {"shrinkage": "1/0"}, {"count": "many"}])
def test_kept_wrong(data):
    with pytest.raises(CuttingError, match="no wish for cloth"):
        from_json(data)
