from fractions import Fraction
from itertools import islice

from patterns.drafting import raising
from patterns.drafting.gauges import Axis, Gauges
from patterns.drafting.raising import Raising
from patterns.drafting.recipe import Check
from patterns.drafting.sizing import choose
from tests.recipes import CM, formula, make_recipe


def grid(*refuse):
    """Widths and heights of 10, 20, 30 and 40 mm, with other refuse checks; the least fold is 50 mm."""
    checks = tuple(Check("refuse", each, formula(each), ("No.",)) for each in refuse)
    recipe = make_recipe(checks=checks)
    values = tuple(Fraction(10 * number) for number in range(1, 5))
    axes = [Axis(measure, values) for measure in recipe.measures[:2]]
    return Gauges(recipe, CM, {}, choose(recipe, {}), axes)


def larger(place, *refuse):
    return list(Raising(grid(*refuse)).larger(place))


def test_nearest_first():
    """One measure before two, few steps before many, the order of the recipe."""
    assert larger((1, 1), "width + height > 4 × least fold ÷ 5") == [
        *((2, 1), (1, 2), (3, 1), (1, 3)),
        *((2, 2), (2, 3), (3, 2), (3, 3)),
    ]


def test_only_what_a_failed_check_reads_is_raised():
    found = larger((0, 0), "height ≥ least fold ÷ 2")
    assert found[:3] == [(0, 2), (0, 3), (1, 2)]


def test_nothing_is_raised_where_no_raise_helps():
    assert larger((0, 0), "height > least fold") == []
    assert larger((1, 0), "width < height − least fold ÷ 2") == []
    assert larger((1, 0), "width = least fold ÷ 5", "height ≥ width") == []


def test_from_the_top_there_is_no_way_up():
    assert larger((3, 3), "width > least fold") == []


def test_places_in_vain_are_not_tried_again():
    gauges = grid("height > least fold")
    searching = Raising(gauges)
    for place in ((0, 0), (2, 1), (3, 3)):
        assert list(searching.larger(place)) == []
    (condition,) = searching.hopeless
    assert len(condition.known) == 4


def test_raising_has_an_end(monkeypatch):
    monkeypatch.setattr(raising, "MOST_RAISES", 3)
    searching = Raising(grid("width + height > 4 × least fold ÷ 5"))
    assert len(list(islice(searching.larger((1, 1)), 10))) == 3
    assert list(searching.larger((1, 1))) == []
