from fractions import Fraction

import pytest

from patterns.drafting.gauges import Axis, Gauges
from patterns.drafting.nearest import nearest_size
from patterns.drafting.sizing import choose, size
from tests.recipes import CM, IN, formula, make_recipe

RECIPE = make_recipe()


def gauges(recipe=RECIPE, options=None, **fixed):
    axes = [
        Axis(measure, tuple(Fraction(number) * IN.mm for number in numbers))
        for measure, numbers in zip(recipe.measures[:2], [("5", "6", "8"), ("3", "9")], strict=True)
    ]
    mm = {name: Fraction(value) for name, value in fixed.items()}
    return Gauges(recipe, IN, mm, choose(recipe, options or {}), axes)


def at(found, place):
    return size(RECIPE, "mat", IN, found.measures(place))


def test_a_formula_is_read_off_at_a_place_through_other_names():
    found = gauges()
    packed = found.gauge(formula("packed height"))
    assert packed.axes == (1,)
    assert packed((2, 1)) == at(found, (2, 1)).amounts[0].quantity.value == 6 * IN.mm
    assert packed((0, 0)) == 2 * IN.mm


def test_each_place_it_can_tell_apart_is_worked_out_once(monkeypatch):
    found = gauges()
    gauge = found.gauge(formula("height × 2"))
    for rank in range(3):
        gauge((rank, 0))
    assert len(gauge.known) == 1
    assert found.gauge(formula("height × 2")) is gauge


def test_what_is_fixed_counts():
    assert gauges(folds=2).gauge(formula("fold height"))((0, 1)) == Fraction(9, 2) * IN.mm
    assert gauges(options={"stiffening": "fleece"}).gauge(formula("layers"))((0, 0)) == 3


def test_no_value_and_a_number_out_of_bounds_are_none():
    found = gauges()
    assert found.gauge(formula("width ÷ (height − height)"))((0, 0)) is None
    grown = "width³"
    for _ in range(5):
        grown = f"({grown})³"
    assert found.gauge(formula(f"({grown}) ÷ ({grown}) × width ÷ 3"))((0, 0)) is None


@pytest.mark.parametrize("options", [{}, {"stiffening": "fleece"}])
def test_passes_and_cloth_are_those_of_the_sized_pattern(options):
    """Fabric only: the filling is interfacing."""
    found = gauges(options=options)
    for place in [(x, y) for x in range(3) for y in range(2)]:
        sized = size(RECIPE, "mat", IN, found.measures(place), options)
        mat = sized.pieces[0]
        assert found.passes(place) is not sized.is_refused
        assert found.cloth(place) == mat.cut * mat.width.value * mat.height.value


def test_nothing_to_cut_does_not_pass():
    (mat, filling) = RECIPE.pieces
    from dataclasses import replace

    for wrong in (replace(mat, width=formula("width − width")), replace(mat, cut=formula("1 ÷ 2"))):
        found = gauges(make_recipe(pieces=(wrong, filling), truings=()))
        assert not found.passes((0, 1))


def test_trend_follows_names():
    found = gauges()
    assert found.trend(formula("packed height"), 1)[:2] == (True, False)
    assert found.trend(formula("packed height"), 0)[:2] == (True, True)
    assert found.trend(formula("width − fold height"), 1)[:2] == (False, True)
    assert found.trend(formula("least fold"), 0).stands_still


def test_the_nearest_size_passes_here_too():
    """Two roads to what is refused: `nearest_size` and the grid."""
    for height in range(2, 12):
        measures = {"width": 8 * CM.mm, "height": height * CM.mm}
        found = nearest_size(RECIPE, CM, measures, {}, 2)
        axes = [Axis(measure, (found[measure.name],)) for measure in RECIPE.measures[:2]]
        assert Gauges(RECIPE, CM, {"folds": found["folds"]}, choose(RECIPE, {}), axes).passes((0, 0))
