from fractions import Fraction
from itertools import islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.effort import Effort
from patterns.cutting.errors import CuttingError, NoWayError
from patterns.cutting.settling import Verdict, settled
from patterns.cutting.sheets import Rectangle, Sheet
from patterns.cutting.shortest import shortest
from patterns.cutting.strip import MOST_LAID

from .bag_cases import EIGHTH_YARD, bag_cases, cut_panels
from .layouts import assert_is_layout, rectangles, some_rectangles

LITTLE = 5_000
fine_sides = st.fractions(Fraction(1, 8), 9, max_denominator=12)
fine_rectangles = st.builds(Rectangle, fine_sides, fine_sides, st.booleans(), st.booleans())


def assert_is_answer(answer, pieces, width, step=None):
    assert_is_layout(answer.layout, pieces, [Sheet(width, answer.length)])
    assert answer.length == max(each.y + each.height for each in answer.layout)
    assert answer.width == width
    assert 0 < answer.bound <= answer.length
    assert answer.buy(step) >= answer.length


@given(some_rectangles(12), st.integers(8, 20), st.sampled_from([None, 1, 3, Fraction(7, 2)]))
@settings(max_examples=600)
def test_every_layout_is_one(pieces, width, step):
    assert_is_answer(shortest(pieces, width, Effort(LITTLE), step), pieces, width, step)


@given(st.lists(fine_rectangles, min_size=1, max_size=20), st.fractions(9, 20, max_denominator=7))
@settings(max_examples=600)
def test_lengths_are_exact_in_any_fractions(pieces, width):
    answer = shortest(pieces, width, Effort(LITTLE))
    assert_is_answer(answer, pieces, width)
    for each in answer.layout:
        assert isinstance(each.x + each.y, Fraction)


@given(some_rectangles(5), st.integers(8, 12))
@settings(max_examples=300)
def test_no_layout_is_shorter_than_the_bound(pieces, width):
    answer = shortest(pieces, width, Effort(LITTLE))
    if answer.bound > 1:
        assert settled(pieces, [Sheet(width, answer.bound - 1)]) in (Verdict.IMPOSSIBLE, Verdict.OPEN)


@given(st.lists(rectangles, min_size=1, max_size=7), st.integers(8, 12), st.sampled_from([None, 4]))
@settings(max_examples=60, deadline=None)
def test_the_solver_agrees_with_trying_every_layout(pieces, width, step):
    answer = shortest(pieces, width, Effort(400_000, may_solve=True), step)
    assert_is_answer(answer, pieces, width, step)
    assert answer.proved(step)
    less = answer.length - 1 if step is None else answer.buy(step) - step
    if less > 0:
        assert settled(pieces, [Sheet(width, less)]) in (Verdict.IMPOSSIBLE, Verdict.OPEN)


@pytest.mark.parametrize("turns", [True, False])
def test_the_best_is_found_and_never_excluded(turns):
    for case in islice(cut_panels(turns), 8):
        answer = shortest(case.pieces, case.width, Effort(60_000))
        assert_is_answer(answer, case.pieces, case.width)
        assert answer.bound == case.best  # they were cut from it without waste
        assert answer.length <= case.best * Fraction(23, 20)


def test_equal_work_gives_an_equal_answer():
    case = next(case for case in bag_cases() if len(case.pieces) > 15)
    answers = [shortest(case.pieces, case.width, Effort(40_000), EIGHTH_YARD) for _ in range(2)]
    assert answers[0] == answers[1]


def test_the_solver_gives_an_equal_answer_for_equal_work():
    case = next(case for case in bag_cases() if 9 < len(case.pieces) < 12)
    answers = [
        shortest(case.pieces, case.width, Effort(300_000, may_solve=True), EIGHTH_YARD) for _ in range(2)
    ]
    assert answers[0] == answers[1]


def test_whoever_watches_stops_the_search_but_not_the_answer():
    for case in bag_cases(20):
        answer = shortest(case.pieces, case.width, Effort(watch=lambda: True))
        assert_is_answer(answer, case.pieces, case.width)


def test_a_strap_does_not_stand_upright():
    strap, panel = Rectangle(3, 40), Rectangle(20, 10)
    answer = shortest([strap, panel, panel], 42, Effort())
    assert answer.length == answer.bound == 13


def test_a_pair_of_straps_lies_across():
    pieces = [Rectangle(3, 40)] * 2 + [Rectangle(13, 16)] * 2
    answer = shortest(pieces, 42, Effort(400_000, may_solve=True), EIGHTH_YARD)
    assert answer.buy(EIGHTH_YARD) == Fraction(45, 2)
    assert answer.proved(EIGHTH_YARD)


def test_outlines_prove_nothing_by_their_area():
    pieces = [Rectangle(10, 10, is_full=False)] * 4
    answer = shortest(pieces, 20, Effort(400_000, may_solve=True))
    assert (answer.length, answer.bound) == (20, 10)


@pytest.mark.parametrize(
    ("pieces", "width", "step", "says"),
    [
        ([], 9, None, "There are no pieces to lay. Give one or more."),
        ([Rectangle(0, 3)], 9, None, "Piece 1 has a side of nothing or less. Give sides above 0."),
        ([Rectangle(1, 3), Rectangle(2, -3)], 9, None, "Piece 2 has a side of nothing or less."),
        ([Rectangle(1, 3)], 0, None, "The cloth has no width. Give one above 0."),
        ([Rectangle(1, 3)], 9, 0, "The step that the shop cuts in is nothing. Give one above 0."),
        ([Rectangle(1, 3)] * 10_000, 9, None, f"10,000 pieces are too many. A layout is made of at most {MOST_LAID:,}."),  # noqa: E501
        ([Rectangle(1, 3), Rectangle(10, 11)], 9, None, "Piece 2 fits on the cloth in no way."),
    ],
)  # fmt: skip
def test_bad_input_is_told(pieces, width, step, says):
    with pytest.raises(CuttingError) as error:
        shortest(pieces, width, Effort(), step)
    assert str(error.value).startswith(says)


def test_a_piece_that_fits_no_way_is_named():
    with pytest.raises(NoWayError) as error:
        shortest([Rectangle(1, 3), Rectangle(10, 3, turns=False)], 9, Effort())
    assert error.value.piece == 1


def test_no_float_comes_in():
    sides = [Fraction(10**9 + n, 10**6 + 3) for n in range(9)]
    pieces = [Rectangle(side, side / 7) for side in sides]
    answer = shortest(pieces, Fraction(1200), Effort(LITTLE))
    assert_is_answer(answer, pieces, Fraction(1200))
