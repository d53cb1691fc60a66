from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.bounds import excluded
from patterns.cutting.laying import lay
from patterns.cutting.settling import every_layout
from patterns.cutting.sheets import Rectangle, Sheet

from .layouts import sheets, some_rectangles


@settings(deadline=None)
@given(some_rectangles(10), sheets)
def test_what_is_laid_is_never_excluded(pieces, on):
    """As many of the pieces as can be laid."""
    while pieces and lay(pieces, on) is None:
        pieces.pop()
    assert excluded(pieces, on) is None


@settings(deadline=None)
@given(some_rectangles(4), sheets)
def test_what_has_a_layout_at_all_is_not_excluded(pieces, on):
    if isinstance(every_layout(pieces, on, most_states=100_000), tuple):
        assert excluded(pieces, on) is None


@pytest.mark.parametrize(
    ("pieces", "reason"),
    [
        ([Rectangle(10, 1)], "too large"),
        ([Rectangle(9, 7, turns=False)], "too large"),
        ([Rectangle(7, 5), Rectangle(8, 4)], "area"),
        # Each is longer than half the sheet both ways: one on top of the other, they are too much.
        ([Rectangle(5, 5), Rectangle(5, 5)], "stretched"),
        ([Rectangle(7, 9)], None),
        ([Rectangle(7, 4), Rectangle(7, 5)], None),
    ],
)
def test_reasons(pieces, reason):
    """On a sheet of 7 × 9."""
    on = [Sheet(7, 9)]
    assert excluded(pieces, on) == reason


def test_an_outline_proves_nothing_by_its_box():
    """Three boxes of 5 × 5 with their corners cut out may lie in each other's corners."""
    full, cut_out = Rectangle(5, 5), Rectangle(5, 5, is_full=False)
    assert excluded([full] * 3, [Sheet(7, 9)]) == "area"
    assert excluded([cut_out] * 3, [Sheet(7, 9)]) is None
    assert excluded([Rectangle(10, 5, is_full=False)], [Sheet(7, 9)]) == "too large"


def test_an_outline_proves_by_its_own_area():
    """63 squares of cloth: three of 21 each are cut, and no three of 22."""
    assert excluded([Rectangle(5, 5, is_full=False, area=21)] * 3, [Sheet(7, 9)]) is None
    assert excluded([Rectangle(5, 5, is_full=False, area=22)] * 3, [Sheet(7, 9)]) == "area"
    third = Fraction(1, 3)
    assert excluded([Rectangle(5, 5, is_full=False, area=21 + third)] * 3, [Sheet(7, 9)]) is None
    assert excluded([Rectangle(5, 5, is_full=False, area=21), Rectangle(6, 7)], [Sheet(7, 9)]) is None


@settings(deadline=None)
@given(some_rectangles(6), sheets, st.data())
def test_outlines_cut_out_of_what_is_laid_are_never_excluded(pieces, on, data):
    """Whatever is laid as a rectangle is laid as an outline in it, however little or much of it is cut."""
    while pieces and lay(pieces, on) is None:
        pieces.pop()
    cut_out = [
        replace(each, is_full=False, area=data.draw(st.integers(0, each.width * each.height)))
        for each in pieces
    ]
    assert excluded(cut_out, on) is None


@settings(deadline=None)
@given(st.integers(1, 6), st.integers(1, 6))
def test_outlines_that_interlock_are_not_excluded(wide, high):
    """Two steps, each half of a rectangle, cover it together; their boxes are twice as large."""
    step = Rectangle(2 * wide, 2 * high, is_full=False, area=3 * wide * high)
    assert excluded([step, step], [Sheet(2 * wide, 3 * high)]) is None
    assert excluded([step, step, Rectangle(1, 1)], [Sheet(2 * wide, 3 * high)]) == "area"


def every_stretch(sides):
    """Each stretch that the two papers above give for these sides, in twelfths, written out once more."""
    yield lambda side, whole: 12 * side
    for k in range(1, 5):
        yield (
            lambda side, whole, k=k: (
                12 * side if (k + 1) * side % whole == 0 else (k + 1) * side // whole * whole * 12 // k
            )
        )
    for least in sides:

        def without(side, whole, least=least):
            if 2 * least > whole:
                return 12 * side
            return 12 * (whole if side > whole - least else side if side >= least else 0)

        yield without


@settings(deadline=None)
@given(some_rectangles(6), sheets)
def test_what_ends_early_is_what_trying_every_pair_of_stretches_says(pieces, on):
    if len(pieces) < 2 or excluded(pieces, on) in ("too large", "area"):
        return
    ways = [[(*side, sheet) for sheet in on for side in each.sides if sheet.takes(*side)] for each in pieces]
    across = list(every_stretch({way[0] for piece in ways for way in piece}))
    along = list(every_stretch({way[1] for piece in ways for way in piece}))
    room = 144 * sum(sheet.width * sheet.height for sheet in on)
    is_too_much = any(
        sum(min(one(x, on.width) * other(y, on.height) for x, y, on in piece) for piece in ways) > room
        for one in across
        for other in along
    )
    assert (excluded(pieces, on) == "stretched") == is_too_much
