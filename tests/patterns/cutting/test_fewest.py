from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.effort import Effort
from patterns.cutting.errors import CuttingError, NoWayError, TooLittleClothError
from patterns.cutting.fewest import MOST_SHEETS_LAID, fewest
from patterns.cutting.settling import Verdict, settled
from patterns.cutting.sheets import Rectangle, Sheet

from .layouts import assert_is_layout, sheets, some_rectangles

LITTLE = 4_000


@given(some_rectangles(12), sheets)
@settings(max_examples=600)
def test_every_layout_is_one(pieces, on):
    try:
        answer = fewest(pieces, on, Effort(LITTLE))
    except CuttingError:
        return
    assert_is_layout(answer.layout, pieces, on)
    assert answer.sheets_used == len({each.sheet for each in answer.layout})
    assert 1 <= answer.bound <= answer.sheets_used


@given(some_rectangles(5), st.builds(Sheet, st.integers(8, 9), st.integers(8, 12)))
@settings(max_examples=200, deadline=None)
def test_fewer_sheets_than_the_bound_never_serve(pieces, sheet):
    answer = fewest(pieces, [sheet] * 5, Effort(LITTLE))
    if answer.bound > 1:
        assert isinstance(settled(pieces, [sheet] * (answer.bound - 1)), Verdict)


@given(some_rectangles(12), st.builds(Sheet, st.integers(8, 9), st.integers(8, 12)))
@settings(max_examples=30, deadline=None)
def test_the_solver_lays_on_sheets(pieces, sheet):
    on = [sheet] * 12
    answer = fewest(pieces, on, Effort(200_000, may_solve=True))
    assert_is_layout(answer.layout, pieces, on)
    assert answer.bound <= fewest(pieces, on, Effort(LITTLE)).sheets_used


def test_squares_from_a_fat_quarter():
    on = [Sheet(Fraction(21), Fraction(18))] * 3
    squares = [Rectangle(Fraction(3, 2), Fraction(3, 2))] * (14 * 12)
    assert fewest(squares, on, Effort()).proved
    more = fewest([*squares, squares[0]], on, Effort())
    assert (more.sheets_used, more.bound) == (2, 2)


def test_one_large_sheet_is_better_than_two_small_ones():
    answer = fewest([Rectangle(3, 3)] * 2, [Sheet(3, 3), Sheet(3, 3), Sheet(6, 3)], Effort())
    assert (answer.sheets_used, answer.bound) == (1, 1)
    assert {each.sheet for each in answer.layout} == {2}


def test_sheets_that_serve_alike_are_taken_in_their_order():
    answer = fewest([Rectangle(3, 3)], [Sheet(2, 2), Sheet(3, 4), Sheet(3, 4)], Effort())
    assert {each.sheet for each in answer.layout} == {1}


def test_too_little_cloth_is_told_with_its_bound():
    with pytest.raises(TooLittleClothError) as error:
        fewest([Rectangle(3, 3)] * 5, [Sheet(3, 3)] * 4, Effort())
    assert error.value.bound == 5
    assert str(error.value).startswith("The pieces do not fit on the sheets that there are.")


@pytest.mark.parametrize(
    ("pieces", "on", "says"),
    [
        ([], [Sheet(3, 3)], "There are no pieces to lay."),
        ([Rectangle(1, 1)], [], "There are no sheets to cut from. Give one or more."),
        ([Rectangle(1, 1)], [Sheet(3, 0)], "A sheet has a side of nothing or less. Give sides above 0."),
        ([Rectangle(1, 1)], [Sheet(3, 3)] * 1000, f"1,000 sheets are too many. A layout is made on at most {MOST_SHEETS_LAID}."),  # noqa: E501
        ([Rectangle(-1, 1)], [Sheet(3, 3)], "Piece 1 has a side of nothing or less."),
    ],
)  # fmt: skip
def test_bad_input_is_told(pieces, on, says):
    with pytest.raises(CuttingError) as error:
        fewest(pieces, on, Effort())
    assert str(error.value).startswith(says)


def test_a_piece_that_fits_no_sheet_is_named():
    with pytest.raises(NoWayError) as error:
        fewest([Rectangle(1, 1), Rectangle(4, 1, turns=False)], [Sheet(3, 5)], Effort())
    assert error.value.piece == 1
