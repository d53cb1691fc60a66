from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.drafting.ranges import (
    MOST_CELLS,
    MOST_CORNER_MEASURES,
    RangeGrid,
    axes_of,
    chart_sizes,
    corners,
    counted,
    line,
    range_grid,
)
from patterns.drafting.recipe import Scale
from patterns.drafting.sizing import SizingError, size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs
from tests.recipes import length, make_recipe

IN, CM = Units.INCHES, Units.CENTIMETRES
INCH = IN.mm
BASKET = read_starter("fold-flat-basket")


def never(cuts) -> bool | None:
    return None


def grid_of(
    across: str = "width", up: str = "depth", units: Units = IN, recipe=BASKET, **measures
) -> RangeGrid:
    return range_grid(recipe, units, across, up, measures, {}, never)


def scale(*texts: str) -> Scale:
    return Scale(*map(Fraction, texts))


def test_every_step_of_both_measures_is_there() -> None:
    grid = grid_of()
    assert grid.across.values == tuple((3 + Fraction(k, 4)) * INCH for k in range(69))
    assert grid.up.values == tuple((2 + Fraction(k, 4)) * INCH for k in range(41))
    assert [len(row) for row in grid.cells] == [69] * 41
    assert (grid.across.every, grid.up.every) == (1, 1)


def test_basket_counts_are_those_worked_by_hand() -> None:
    """6 in high, seams of 1/2 in: refused from a depth of 11 1/4 in, 4 of 41; advised against from 6 1/4."""
    grid = grid_of()
    assert grid.counts == {"refused": 4 * 69, "advised": 20 * 69, "good": 17 * 69}
    assert [grid.rules[rank].says for rank in grid.failures] == [
        "The triangle leaves room under the top edge.",
        "The basket is at least as high as it is deep.",
    ]
    assert list(grid.failures.values()) == [4 * 69, 24 * 69]


def test_other_measures_stay_where_they_are() -> None:
    grid = grid_of(height=12 * INCH, width=5 * INCH)
    assert grid.others == {"height": 12 * INCH, "seam allowance": INCH / 2}
    assert grid.counts == {"good": 69 * 41}
    assert grid.options["interfacing"] == "light"


def test_fits_is_asked_of_what_is_not_refused() -> None:
    asked = []

    def fits(cuts) -> bool | None:
        asked.append(cuts)
        width = cuts[0].width
        return None if width == 20 * INCH else width < 20 * INCH

    grid = range_grid(BASKET, IN, "width", "depth", {}, {}, fits)
    assert len(asked) == grid.counts["good"] + grid.counts["advised"] == sum(grid.fit_counts.values())
    assert all(len(cuts) == 2 for cuts in asked)
    # Width and depth are 19 in together: once for each of the 37 depths, from 2 to 11 in.
    assert grid.fit_counts[None] == 37
    assert all(cell.fits is None for row in grid.cells for cell in row if cell.verdict == "refused")


def test_larger_picture_leaves_steps_out_but_never_the_ends_and_the_default() -> None:
    grid = grid_of("width", "height")
    assert (grid.across.every, grid.up.every) == (1, 2)
    scales = grid.up.scale
    assert {scales.least, scales.default, scales.most} <= set(grid.up.values)
    assert len(grid.across.values) * len(grid.up.values) <= MOST_CELLS


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("slug", slugs())
def test_no_starter_has_a_larger_picture_than_may_be(slug: str, units: Units) -> None:
    recipe = read_starter(slug)
    for one in recipe.measures:
        for other in recipe.measures:
            if one != other:
                level, upright = axes_of(one, other, units)
                assert len(level.values) * len(upright.values) <= MOST_CELLS


def test_line_has_ends_and_default_between_its_steps() -> None:
    between = scale("1", "10.5", "4.25", "1")
    assert line(between, 4) == tuple(map(Fraction, ("1", "4.25", "5", "9", "10.5")))
    assert counted(between, 4) == 5


steps = st.fractions(min_value=Fraction(1, 16), max_value=3, max_denominator=16)


@given(
    st.integers(0, 40), st.integers(0, 60), st.fractions(0, 1, max_denominator=16), steps, st.integers(1, 8)
)
def test_line_is_as_long_as_it_was_counted(least, far, share, step, every) -> None:
    made = Scale(Fraction(least), Fraction(least + far), least + far * share, step)
    values = line(made, every)
    assert len(values) == counted(made, every)
    assert list(values) == sorted(set(values))
    assert {made.least, made.default, made.most} <= set(values)
    assert all(made.least <= value <= made.most for value in values)


def test_tiny_steps_end_in_a_picture_all_the_same() -> None:
    fine = replace(
        BASKET.measure("width"),
        scales={IN: scale("0", "1000000", "7", "1/1000000"), CM: scale("0", "1", "0", "1")},
    )
    level, upright = axes_of(fine, BASKET.measure("depth"), IN)
    assert len(level.values) * len(upright.values) <= MOST_CELLS


def test_same_measure_twice_and_unknown_names_are_errors() -> None:
    with pytest.raises(ValueError, match="“width” cannot be along both edges"):
        grid_of("width", "width")
    with pytest.raises(KeyError):
        grid_of("width", "girth")
    with pytest.raises(SizingError, match="no option “colour”"):
        range_grid(BASKET, IN, "width", "depth", {}, {"colour": "red"}, never)


@settings(max_examples=12, deadline=None)
@given(st.data())
def test_cells_say_what_their_sizes_say(data: st.DataObject) -> None:
    slug = data.draw(st.sampled_from(slugs()))
    units = data.draw(st.sampled_from(Units))
    recipe = read_starter(slug)
    across, up = data.draw(st.permutations([each.name for each in recipe.measures]))[:2]
    grid = grid_of(across, up, units, recipe)
    for _ in range(8):
        y = data.draw(st.integers(0, len(grid.up.values) - 1))
        x = data.draw(st.integers(0, len(grid.across.values) - 1))
        sized = size(recipe, slug, units, {across: grid.across.values[x], up: grid.up.values[y]})
        cell = grid.cells[y][x]
        assert cell.verdict == ("refused" if sized.is_refused else "advised" if sized.failed else "good")
        assert {grid.rules[rank].says for rank in cell.failed} == {check.says for check in sized.failed}


# Cases with names


def test_corners_of_the_basket_by_name() -> None:
    found = {case.name: case for case in corners(BASKET, IN, {}, {}, never)}
    assert list(found) == [
        "least width, height and depth",
        "least width and height, most depth",
        "least width and depth, most height",
        "least width, most height and depth",
        "least height and depth, most width",
        "least height, most width and depth",
        "least depth, most width and height",
        "most width, height and depth",
    ]
    low = found["least width and height, most depth"]
    assert low.measures == {"width": 3 * INCH, "height": 2 * INCH, "depth": 12 * INCH}
    assert low.verdict == "refused"
    assert [rule.level for rule in low.failed] == ["refuse", "advise"]
    assert found["most width, height and depth"].verdict == "good"


def test_corners_keep_the_making_measures_that_were_given() -> None:
    """A seam of 1 in and a triangle of 1 in leave no room in 2 in less a hair; 1/4 in does."""
    recipe = BASKET
    wide = corners(recipe, IN, {"seam allowance": INCH}, {}, never)[0]
    assert wide.verdict == "good"  # 2 in is just enough
    narrow = corners(recipe, IN, {"seam allowance": INCH / 4}, {}, never)[0]
    assert [rule.says for rule in narrow.failed] == [
        "The seam allowance is wide enough to hold eight layers."
    ]


def test_corners_do_not_move_with_the_size_that_was_given() -> None:
    assert corners(BASKET, IN, {"height": 9 * INCH}, {}, never) == corners(BASKET, IN, {}, {}, never)


def test_corners_are_as_many_as_there_are_ends() -> None:
    assert len(corners(read_starter("packable-tote"), CM, {}, {}, never)) == 16
    fixed = length("width", ("9", "9", "9", "1"), ("23", "23", "23", "1"))
    recipe = make_recipe(measures=(fixed, *make_recipe().measures[1:]))
    assert len(corners(recipe, IN, {}, {}, never)) == 4


def test_corners_of_many_measures_are_bounded() -> None:
    ends = ("3", "20", "9", "1/4"), ("8", "50", "23", "0.5")
    more = tuple(length(f"side {word}", *ends) for word in ("a", "b", "c", "d", "e", "f"))
    recipe = make_recipe(measures=(*make_recipe().measures, *more))
    assert len(corners(recipe, IN, {}, {}, never)) == 2**MOST_CORNER_MEASURES


def test_default_and_named_sizes() -> None:
    cases = chart_sizes(BASKET, IN, {"height": 2 * INCH}, {}, never)
    assert [case.name for case in cases] == ["default", *(named.name for named in BASKET.sizes)]
    assert cases[0].measures == {"width": 9 * INCH, "height": 6 * INCH, "depth": 5 * INCH}
    assert {case.verdict for case in cases} == {"good"}


@pytest.mark.usefixtures("no_floats")
def test_no_float_is_made() -> None:
    grid_of()
    corners(BASKET, CM, {}, {}, never)
