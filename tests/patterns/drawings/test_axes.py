from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.drafting.ranges import Axis, axes_of, line
from patterns.drafting.recipe import Measure, Scale
from patterns.drafting.units import Units
from patterns.drawings.axes import AxisLine
from patterns.starters import read_starter

IN, CM = Units.INCHES, Units.CENTIMETRES
BASKET = read_starter("fold-flat-basket")
TOTE = read_starter("packable-tote")


def axis_line(name: str = "width", units: Units = IN, recipe=BASKET, end: int = 100_000) -> AxisLine:
    axis, _ = axes_of(recipe.measure(name), recipe.measures[2], units)
    return AxisLine(axis, units, 0, end)


def words(line: AxisLine, room: int) -> list[str]:
    return [line.number(value) for value in line.written(room)]


def test_cells_lie_side_by_side_with_their_values_in_the_middle() -> None:
    made = axis_line(end=69_000)
    assert made.edges == tuple(range(0, 70_000, 1000))
    assert [made.at(value) for value in made.axis.values[:2]] == [500, 1500]


def test_an_axis_can_run_upward() -> None:
    made = AxisLine(axis_line().axis, IN, 69_000, 0)
    assert made.edges[0] == 69_000
    assert made.edges[-1] == 0


def test_ends_and_round_numbers_are_written() -> None:
    assert words(axis_line(), 10_000) == ["3", "6", "8", "10", "12", "14", "16", "18", "20"]
    assert words(axis_line(units=CM), 10_000) == ["8", "15", "20", "25", "30", "35", "40", "45", "50"]


def test_fractions_are_written_where_there_is_room() -> None:
    assert words(axis_line("seam allowance"), 10_000) == ["¼", "⅜", "½", "⅝", "¾", "⅞", "1"]


def test_decimals_in_centimetres() -> None:
    assert words(axis_line("seam allowance", CM), 11_000)[:3] == ["0.5", "1", "1.5"]
    assert words(axis_line("seam allowance", CM), 8_000)[:4] == ["0.5", "0.8", "1", "1.2"]


def test_bare_numbers_have_no_unit() -> None:
    made = axis_line("packing folds", recipe=TOTE)
    assert made.name_words == "packing folds"
    assert words(made, 10_000) == ["2", "3", "4", "5"]
    assert axis_line().name_words == "width, in"


def test_one_value_alone_is_written_once() -> None:
    same = Scale(Fraction(9), Fraction(9), Fraction(9), Fraction(1))
    axis = Axis(Measure("width", 0, "size", "", {IN: same, CM: same}), same, (Fraction(9),), 1)
    made = AxisLine(axis, IN, 0, 10_000)
    assert words(made, 1000) == ["9"]
    assert made.edges == (0, 10_000)


numbers = st.fractions(0, 500, max_denominator=16)


@given(
    numbers,
    st.fractions(Fraction(1, 16), 900, max_denominator=16),
    st.integers(200, 40_000),
    st.sampled_from(Units),
)
def test_written_numbers_stand_apart(least: Fraction, span: Fraction, room: int, units: Units) -> None:
    scale = Scale(least, least + span, least, span / 7)
    axis = Axis(Measure("width", 1, "size", "", {IN: scale, CM: scale}), scale, line(scale, 1), 1)
    made = AxisLine(axis, units, 0, 100_000)
    places = [made.at(value) for value in made.written(room)]
    assert places[0] == made.at(scale.least)
    assert places == sorted(places)
    assert all(after - before >= room for before, after in pairwise(places))


@pytest.mark.usefixtures("no_floats")
def test_no_float_is_made() -> None:
    axis_line().written(3000)
