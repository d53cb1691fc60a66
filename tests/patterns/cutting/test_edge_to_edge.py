from fractions import Fraction
from functools import cache
from itertools import combinations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.answers import rounded_up
from patterns.cutting.cuts import cuts_of
from patterns.cutting.edge_to_edge import on_sheets_by_cuts, shortest_by_cuts
from patterns.cutting.effort import Effort
from patterns.cutting.errors import NoWayError, TooLittleClothError
from patterns.cutting.sheets import Rectangle, Sheet

from .layouts import assert_is_layout, sheets, some_rectangles
from .playing import assert_cuts_sheets, assert_cuts_strip, cut_at_random, repeated


def length_of(layout):
    return max(each.y + each.height for each in layout)


def area_bound(pieces, width):
    area = sum(piece.width * piece.height for piece in pieces)
    return max(Fraction(area) / width, *(min(piece.width, piece.height) for piece in pieces), 0)


@cache
def comes_from(pieces, width, height):
    """Whether pieces can be cut edge to edge from a rectangle: every cut of every parting is tried."""
    if len(pieces) == 1:
        return any(wide <= width and high <= height for wide, high in pieces[0].sides)
    for count in range(1, len(pieces)):
        for numbers in combinations(range(len(pieces)), count):
            some = tuple(pieces[number] for number in numbers)
            rest = tuple(piece for number, piece in enumerate(pieces) if number not in numbers)
            if any(
                comes_from(some, at, height) and comes_from(rest, width - at, height)
                for at in range(1, width)
            ) or any(
                comes_from(some, width, at) and comes_from(rest, width, height - at)
                for at in range(1, height)
            ):
                return True
    return False


@settings(deadline=None, max_examples=1_000)
@given(repeated, st.integers(9, 20), st.sampled_from([None, Fraction(3), Fraction(5, 2)]))
def test_what_is_found_is_a_layout_that_the_cuts_take_apart(pieces, width, step):
    bound = area_bound(pieces, width)
    layout, cuts, proved = shortest_by_cuts(pieces, width, Effort(8_000), bound, step)
    length = length_of(layout)
    assert_is_layout(layout, pieces, [Sheet(width, length)])
    assert_cuts_strip(cuts, layout, width)
    assert bound <= proved <= length


@settings(deadline=None, max_examples=150)
@given(some_rectangles(4), st.integers(8, 10))
def test_few_pieces_take_the_least_that_brute_force_finds(pieces, width):
    layout, _, proved = shortest_by_cuts(pieces, width, Effort(), area_bound(pieces, width))
    length = int(length_of(layout))
    assert proved == length
    few = tuple(pieces)
    assert comes_from(few, width, length)
    assert not comes_from(few, width, length - 1)


@settings(deadline=None, max_examples=100)
@given(some_rectangles(4), st.integers(8, 10), st.integers(2, 5))
def test_with_a_step_the_purchase_is_the_least(pieces, width, step):
    layout, _, proved = shortest_by_cuts(pieces, width, Effort(), area_bound(pieces, width), step)
    buy = int(rounded_up(length_of(layout), step))
    assert rounded_up(proved, step) == buy
    assert not comes_from(tuple(pieces), width, buy - step)


@pytest.mark.parametrize("count", [4, 6, 8, 10])
@pytest.mark.parametrize("turns", [True, False])
def test_cloth_that_was_cut_at_random_is_put_together_again(count, turns):
    for seed in range(6):
        pieces = cut_at_random(420, 300, count, Random(seed), turns)
        layout, cuts, proved = shortest_by_cuts(pieces, 420, Effort(2_000_000), 300)
        assert length_of(layout) == proved == 300
        assert_cuts_strip(cuts, layout, 420)


@pytest.mark.parametrize("count", [16, 24, 40, 60])
def test_many_pieces_lie_close(count):
    """No cloth is wasted at the best, which is more than real pieces allow."""
    pieces = cut_at_random(420, 900, count, Random(count))
    layout, cuts, proved = shortest_by_cuts(pieces, 420, Effort(300_000), 900)
    assert_cuts_strip(cuts, layout, 420)
    assert proved >= 900
    assert length_of(layout) <= 900 * Fraction(110, 100)


def test_two_panels_lie_turned():
    """Two of 13 × 16 in take 13 in of 42 in wide cloth; three cuts."""
    inch = Fraction(127, 5)
    layout, cuts, proved = shortest_by_cuts([Rectangle(13 * inch, 16 * inch)] * 2, 42 * inch, Effort(), 0)
    assert length_of(layout) == proved == 13 * inch
    assert [each.turned for each in layout] == [True, True]
    assert len(cuts) == 3


def test_where_only_a_pinwheel_is_short_edge_to_edge_takes_more():
    """Four of 2 × 3 around a hole of 1 × 1 fill 5 × 5 otherwise."""
    pieces = [Rectangle(2, 3)] * 4 + [Rectangle(1, 1)]
    layout, cuts, proved = shortest_by_cuts(pieces, 5, Effort(), 5)
    assert length_of(layout) == proved == 6
    assert cuts_of(layout, 5, 6) == cuts


def test_lengths_stay_exact():
    third, seventh = Fraction(1, 3), Fraction(1, 7)
    layout, _, proved = shortest_by_cuts([Rectangle(third, seventh, False)] * 3, 2 * third, Effort(), 0)
    assert length_of(layout) == proved == 2 * seventh
    assert {type(each.x) for each in layout} == {Fraction}


def test_the_same_question_has_the_same_answer():
    pieces = cut_at_random(420, 700, 30, Random(1))
    once = shortest_by_cuts(pieces, 420, Effort(60_000, seed=5), 700)
    assert once == shortest_by_cuts(pieces, 420, Effort(60_000, seed=5), 700)


def test_work_comes_to_an_end():
    effort = Effort(30_000)
    shortest_by_cuts(cut_at_random(421, 701, 60, Random(2)), 421, effort, 0)
    assert -30_000 < effort.work <= 0


@pytest.mark.parametrize("most", [4, 59])
def test_sides_that_share_no_part_come_to_an_end_too(most):
    effort = Effort(50_000)
    pieces = [
        Rectangle(Fraction(10_007 + 997 * (n % most), 17), Fraction(30_011 + n % most, 19)) for n in range(60)
    ]
    layout, cuts, _ = shortest_by_cuts(pieces, 3000, effort, 0)
    assert effort.work > -50_000
    assert_cuts_strip(cuts, layout, 3000)


def test_a_watch_ends_it():
    asked = 0

    def watch():
        nonlocal asked
        asked += 1
        return asked > 5

    pieces = cut_at_random(421, 701, 60, Random(2))
    layout, _, _ = shortest_by_cuts(pieces, 421, Effort(10**9, watch), 0)
    assert_is_layout(layout, pieces, [Sheet(421, length_of(layout))])


def test_no_effort_still_finds_a_layout():
    pieces = cut_at_random(421, 701, 20, Random(2))
    layout, cuts, _ = shortest_by_cuts(pieces, 421, Effort(0), 0)
    assert_cuts_strip(cuts, layout, 421)


def test_a_piece_that_is_too_large_is_named():
    with pytest.raises(NoWayError, match="Piece 2 fits on the cloth in no way"):
        shortest_by_cuts([Rectangle(4, 4), Rectangle(9, 8)], 7, Effort(), 0)
    with pytest.raises(NoWayError, match="Piece 1 fits on the cloth in no way"):
        on_sheets_by_cuts([Rectangle(4, 3, turns=False)], [Sheet(3, 4)], Effort(), 1)


def test_nothing_takes_nothing():
    assert shortest_by_cuts([], 5, Effort(), 0) == ((), (), 0)
    assert on_sheets_by_cuts([], [Sheet(1, 1)], Effort(), 0) == (0, 0, (), ())


@settings(deadline=None, max_examples=500)
@given(some_rectangles(8), sheets)
def test_what_lies_on_sheets_is_a_layout_that_the_cuts_take_apart(pieces, on):
    try:
        found = on_sheets_by_cuts(pieces, on, Effort(20_000), 1)
    except NoWayError:
        assert not all(any(sheet.takes(*way) for sheet in on for way in piece.sides) for piece in pieces)
        return
    except TooLittleClothError:
        return
    used, bound, layout, cuts = found
    assert_is_layout(layout, pieces, on)
    assert_cuts_sheets(cuts, layout, on)
    assert len({each.sheet for each in layout}) == used
    assert 1 <= bound <= used


@settings(deadline=None, max_examples=100)
@given(some_rectangles(4), st.integers(4, 8), st.integers(4, 8))
def test_one_sheet_does_if_brute_force_says_so(pieces, width, height):
    on = [Sheet(width, height)] * 4
    if not all(on[0].takes(*piece.sides[0]) or on[0].takes(*piece.sides[-1]) for piece in pieces):
        return
    used, bound, _, _ = on_sheets_by_cuts(pieces, on, Effort(), 1)
    assert bound == used
    assert (used == 1) == comes_from(tuple(pieces), width, height)


def test_squares_from_fat_quarters():
    """Twelve of 5 in come from 18 × 21 in, so 25 take three."""
    found = on_sheets_by_cuts([Rectangle(5, 5)] * 25, [Sheet(18, 21)] * 4, Effort(), 2)
    assert found[:2] == (3, 3)


def test_the_large_sheet_is_taken_where_it_spares_one():
    found = on_sheets_by_cuts([Rectangle(5, 5)] * 2, [Sheet(5, 5), Sheet(5, 5), Sheet(5, 10)], Effort(), 1)
    assert found[0] == 1
    assert {each.sheet for each in found[2]} == {2}


def test_too_little_cloth_says_how_much_is_needed():
    with pytest.raises(TooLittleClothError, match="do not fit") as refused:
        on_sheets_by_cuts([Rectangle(5, 5)] * 3, [Sheet(5, 5), Sheet(5, 5)], Effort(), 1)
    assert refused.value.bound == 3


def test_outlines_prove_nothing():
    """Two round pieces may lie in each other's corners."""
    pieces = [Rectangle(5, 5, is_full=False)] * 2
    layout, _, proved = shortest_by_cuts(pieces, 9, Effort(), 5)
    assert (length_of(layout), proved) == (10, 5)
    used, bound, _, _ = on_sheets_by_cuts(pieces, [Sheet(9, 9)] * 2, Effort(), 1)
    assert (used, bound) == (2, 1)
