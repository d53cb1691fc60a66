from fractions import Fraction
from itertools import product

import pytest

from patterns.drafting import filling
from patterns.drafting.errors import HoldingError
from patterns.drafting.filling import Room
from patterns.drafting.fitting import Side
from patterns.drafting.gauges import Axis, Gauges
from patterns.drafting.sizing import choose
from patterns.starters import read_starter
from tests.recipes import CM, formula

BASKET = read_starter("fold-flat-basket")


def room(*holds):
    """On widths 1 to 5, heights 1 to 6 and depths 1 to 4 mm, measured in halves of a mm."""
    axes = [
        Axis(measure, tuple(Fraction(number) for number in range(1, most + 1)))
        for measure, most in zip(BASKET.measures[:3], (5, 6, 4), strict=True)
    ]
    gauges = Gauges(BASKET, CM, {}, choose(BASKET, {}), axes)
    return Room(gauges, [Side(formula(side)) for side in holds], 2)


def least(found, *wants):
    return sorted(found.least_places(tuple(2 * wanted for wanted in wants)))


def by_looking(found, *wants):
    """The places with room of which none is larger than another."""
    wanted = tuple(2 * each for each in wants)
    roomy = [place for place in product(range(5), range(6), range(4)) if found.holds(wanted, place)]
    return sorted(
        place
        for place in roomy
        if not any(other != place and filling.is_no_larger(other, place) for other in roomy)
    )


def test_a_box_has_one_least_size():
    assert least(room("width", "height", "depth"), 3, 2, 4) == [(2, 1, 3)]


def test_a_deeper_pouch_must_be_higher():
    assert least(room("width", "height − depth ÷ 2", "depth"), 1, 3, 2) == [(0, 3, 1)]


def test_measures_that_stand_in_for_each_other_have_many():
    assert least(room("width", "height + depth", "4 × depth ÷ depth"), 1, 7, 1) == [
        (0, 2, 3),
        (0, 3, 2),
        (0, 4, 1),
        (0, 5, 0),
    ]


def test_no_size_has_the_room():
    assert least(room("width", "height", "depth"), 6, 1, 1) == []


HOLDS = [
    ("width", "height", "depth"),
    ("width", "height − depth ÷ 2", "depth"),
    ("width − height ÷ 3", "height", "depth"),
    ("width", "height − √(width² + depth²) ÷ 4", "depth"),
    ("smaller of (width, height)", "larger of (height, depth)", "depth"),
    ("width × (width − 2 × height) ÷ height", "height", "depth"),
    ("width − depth ÷ 4", "height − width ÷ 8", "depth − height ÷ 8"),
    ("√(height² − width²)", "height", "depth"),
    ("height", "height", "height"),
    ("width", "width + height + depth", "depth"),
]


@pytest.mark.parametrize("holds", HOLDS, ids=" | ".join)
def test_least_places_as_by_looking_at_all(holds):
    found = room(*holds)
    for wants in product((1, 2, 3), repeat=3):
        assert least(found, *wants) == by_looking(found, *wants), wants


def test_what_is_known_of_the_formulas_saves_looking():
    assert room("width", "height", "depth").places == 1
    assert room("width", "height − √(width² + depth²) ÷ 4", "depth").places == 1
    assert room("width", "(height − depth)² ÷ height", "depth").places == 4 * 6


def test_levels_are_all_that_a_side_measures():
    found = room("2 × width", "height − depth ÷ 3", "depth")
    assert found.levels(0) == [4, 8, 12, 16, 20]
    assert found.levels(1) == list(range(-1, 12))


def test_levels_that_take_long_to_find_are_not_found(monkeypatch):
    monkeypatch.setattr(filling, "MOST_LEVELS", 10)
    assert room("width", "height − depth ÷ 2", "depth").levels(1) is None


def test_a_squared_side_is_measured_in_squares():
    found = Room(
        room("width", "height", "depth").gauges,
        [Side(formula("width"), is_squared=True), Side(formula("height"))],
        2,
    )
    assert found.levels(0) == [4, 16, 36, 64, 100]
    assert list(found.least_places((50, 3))) == [(3, 1, 0)]


def test_looking_has_an_end(monkeypatch):
    monkeypatch.setattr(filling, "MOST_LOOKS", 10)
    found = room("width", "(height − depth)² ÷ height", "depth")
    least(found, 1, 1, 4)
    with pytest.raises(HoldingError, match="too many ways to lay so many things into this pattern"):
        [least(found, 1, wanted, 1) for wanted in range(1, 9)]
