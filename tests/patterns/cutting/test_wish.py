from dataclasses import replace
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


def test_repeat_is_of_the_fabric_that_has_it():
    lines = bought(Wish(repeat=10 * IN, repeat_on="lining fabric"))
    assert lines["exterior fabric"].cloth.way.repeat is None
    assert lines["lining fabric"].cloth.way.repeat == 10 * IN
    assert "while all pieces begin at the same place in the repeat" in lines["lining fabric"].reason
    both = bought(Wish(repeat=10 * IN))
    assert {both[name].cloth.way.repeat for name in ("exterior fabric", "lining fabric")} == {10 * IN}
    assert both["light interfacing"].cloth.way.repeat is None


def test_folded_and_cut_from_edge_to_edge():
    lines = bought(Wish(folded=True, count=2))
    assert lines["exterior fabric"].cloth.folded
    assert lines["light interfacing"].cloth.folded is None
    line = bought(Wish(edge_to_edge=True, count=3))["exterior fabric"]
    assert line.cloth.cuts
    assert "Every cut goes from edge to edge, in the order of the numbers." in line.reason


@pytest.mark.parametrize(
    ("wish", "each"), [(Wish(price_minor=1200), 600), (Wish("fat quarter", price_minor=350), 350)]
)
def test_price_is_of_a_yard_or_of_a_piece(wish, each):
    """Half a yard at 12.00 a yard; one fat quarter at 3.50."""
    lines = bought(wish)
    assert lines["exterior fabric"].cost_minor == lines["lining fabric"].cost_minor == each
    assert lines["light interfacing"].cost_minor is None


def test_price_does_not_choose_another_width():
    """The price is of whatever cloth is bought: the usual one stays, although wider cloth needs less."""
    wish = Wish(count=4)
    dear, usual = bought(replace(wish, price_minor=1200)), bought(wish)
    assert dear["exterior fabric"].amount == usual["exterior fabric"].amount


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


@pytest.mark.parametrize("wrong", [{"count": 0}, {"count": 101}, {"shrinkage": Fraction(51)}, {"repeat": 0}])
def test_out_of_range(wrong):
    with pytest.raises(CuttingError):
        Wish(**wrong)


@pytest.mark.parametrize(
    "wish",
    [
        NO_WISH,
        Wish("fat quarter", Fraction(1, 3), "20 in wide", 508, Fraction(5, 2), 12),
        Wish("", None, "", None, Fraction(0), 1, 1250, 0, Fraction(1, 3), "lining fabric", True, True),
    ],
)
def test_kept_and_read_again(wish):
    assert from_json(to_json(wish)) == wish


def test_kept_before_there_was_more_to_say_is_still_the_same():
    kept = {"form": "", "width": None, "interfacing": "", "interfacing_width": None, "shrinkage": "0"}
    assert to_json(from_json({**kept, "count": 2})) == {**kept, "count": 2}


@pytest.mark.parametrize("data", [{"width": "wide"}, {"shrinkage": "1/0"}, {"count": "many"}])
def test_kept_wrong(data):
    with pytest.raises(CuttingError, match="no wish for cloth"):
        from_json(data)
