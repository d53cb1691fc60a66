from fractions import Fraction

import pytest
from hypothesis import given, settings

from patterns.cutting.errors import CuttingError
from patterns.cutting.laying import Work, lay
from patterns.cutting.sheets import MOST_PIECES, MOST_SHEETS, Rectangle, Sheet

from .layouts import assert_is_layout, sheets, some_rectangles


@settings(deadline=None)
@given(some_rectangles(12), sheets)
def test_what_is_found_is_a_layout(pieces, on):
    found = lay(pieces, on)
    if found is not None:
        assert_is_layout(found, pieces, on)


@settings(deadline=None)
@given(some_rectangles(8), sheets)
def test_the_same_question_has_the_same_answer(pieces, on):
    assert lay(pieces, on) == lay(pieces, on)


def test_panels_that_fill_the_sheet_are_found():
    """Two of 16 × 13 in fill 26 × 16 in, turned."""
    found = lay([Rectangle(Fraction(16), Fraction(13))] * 2, [Sheet(Fraction(26), Fraction(16))])
    assert [each.turned for each in found] == [True, True]


def test_lengths_stay_exact():
    third = Fraction(1, 3)
    (one, other) = lay([Rectangle(third, Fraction(1))] * 2, [Sheet(2 * third, Fraction(1))])
    assert {one.x, other.x} == {Fraction(0), third}
    assert (
        lay([Rectangle(third, Fraction(1))] * 2, [Sheet(2 * third - Fraction(1, 10**9), Fraction(1))]) is None
    )


def test_a_piece_that_may_not_be_turned_is_not():
    assert lay([Rectangle(3, 2, turns=False)], [Sheet(2, 3)]) is None
    assert lay([Rectangle(3, 2)], [Sheet(2, 3)])[0].turned


def test_sheets_are_used_one_after_the_other():
    found = lay([Rectangle(5, 5)] * 3, [Sheet(5, 10), Sheet(5, 5)])
    assert sorted(each.sheet for each in found) == [0, 0, 1]


def test_work_comes_to_an_end():
    work = Work(1)
    assert lay([Rectangle(2, 3)] * 20, [Sheet(12, 9)], work) is None
    assert work.is_done


@pytest.mark.parametrize(
    ("pieces", "on"), [(MOST_PIECES + 1, 1), (1, MOST_SHEETS + 1)], ids=["pieces", "sheets"]
)
def test_more_than_can_be_looked_for_is_refused(pieces, on):
    with pytest.raises(CuttingError, match="at most 60 pieces on 24 sheets"):
        lay([Rectangle(1, 1)] * pieces, [Sheet(9, 9)] * on)
