from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.effort import Effort
from patterns.cutting.sheets import Rectangle, Sheet
from patterns.cutting.strip import as_strip
from patterns.cutting.tight import MOST_TIGHT, Tight

from .bag_cases import cut_panels
from .layouts import assert_is_layout

WORK = 200_000


def tight(pieces, width):
    strip = as_strip(pieces, width)
    return strip, Tight(strip, Effort(WORK))


@pytest.mark.parametrize("turns", [True, False])
def test_small_panel_without_waste_is_found(turns):
    case = next(iter(cut_panels(turns)))
    strip, search = tight(case.pieces, case.width)
    length = int(case.best / strip.along)
    assert search.is_worth_trying(length)
    found = search.filled(length, WORK)
    assert_is_layout(strip.in_mm(found), case.pieces, [Sheet(case.width, case.best)])


@given(
    sides=st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9), st.booleans()), min_size=1, max_size=9),
    spare=st.integers(0, 2),
)
def test_what_is_found_is_a_layout(sides, spare):
    pieces = [Rectangle(Fraction(wide), Fraction(high), turns) for wide, high, turns in sides]
    width = Fraction(9)
    strip, search = tight(pieces, width)
    length = -(-strip.area // strip.width) + spare
    found = search.filled(length, 4_000)
    if found:
        assert_is_layout(strip.in_mm(found), pieces, [Sheet(width, length * strip.along)])


def test_same_work_has_the_same_answer():
    case = next(iter(cut_panels(True)))
    answers = set()
    for _ in range(2):
        strip, search = tight(case.pieces, case.width)
        answers.add(search.filled(int(case.best / strip.along), WORK))
    assert len(answers) == 1


@pytest.mark.parametrize(
    ("pieces", "why"),
    [
        ([Rectangle(Fraction(4), Fraction(1), False)] * 3, "a quarter is to spare"),
        ([Rectangle(Fraction(4), Fraction(1), False, False)] * 4, "outlines may lie in each other’s corners"),
        ([Rectangle(Fraction(1, 16), Fraction(4), False)] * (MOST_TIGHT + 24), "too many"),
    ],
)
def test_not_worth_trying(pieces, why):
    strip, search = tight(pieces, Fraction(4))
    assert not search.is_worth_trying(int(4 / strip.along)), why


def test_too_short_a_box_is_never_filled():
    pieces = [Rectangle(Fraction(2), Fraction(2), False)] * 4
    strip, search = tight(pieces, Fraction(3))
    assert search.filled(int(6 / strip.along), 3_000) == ()
