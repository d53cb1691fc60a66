from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.answers import Cut
from patterns.cutting.cuts import cuts_of
from patterns.cutting.laying import lay
from patterns.cutting.sheets import Placement, Sheet

from .layouts import some_rectangles
from .playing import assert_cuts_sheets, cut_at_random, played


def laid(*rectangles):
    return tuple(
        Placement(number, 0, x, y, width, height, False)
        for number, (x, y, width, height) in enumerate(rectangles)
    )


def test_pieces_side_by_side_share_the_long_cut():
    layout = laid((0, 0, 16, 13), (16, 0, 16, 13))
    assert cuts_of(layout, 42, 13) == (
        Cut(None, "x", 13, 0, 42),
        Cut(None, "y", 16, 0, 13),
        Cut(None, "y", 32, 0, 13),
    )


def test_a_grid_is_cut_the_long_way_first():
    layout = laid(*((x, y, 2, 3) for x in (0, 2, 4) for y in (0, 3)))
    assert [(cut.along, cut.at) for cut in cuts_of(layout, 6, 6)] == [
        ("x", 6),
        ("x", 3),
        ("y", 2),
        ("y", 4),
        ("y", 2),
        ("y", 4),
    ]


def test_waste_beside_several_pieces_is_cut_off_at_once():
    layout = laid((0, 0, 5, 2), (0, 2, 5, 2), (0, 4, 5, 2))
    assert len(cuts_of(layout, 9, 6)) == 4


def test_a_pinwheel_is_not_edge_to_edge():
    pinwheel = laid((0, 0, 2, 1), (2, 0, 1, 2), (1, 2, 2, 1), (0, 1, 1, 2))
    assert cuts_of(pinwheel, 3, 3) is None
    assert cuts_of(pinwheel, 9, 9) is None
    assert cuts_of(pinwheel, 0, 0, [Sheet(4, 4)]) is None


def test_a_piece_as_large_as_its_sheet_is_not_cut():
    assert cuts_of(laid((0, 0, 4, 5)), 0, 0, [Sheet(4, 5), Sheet(4, 5)]) == ()


def test_lengths_stay_exact():
    third = Fraction(1, 3)
    cuts = cuts_of(laid((0, 0, third, 1), (third, 0, third, 1)), 1, 1)
    assert [cut.at for cut in cuts] == [1, third, 2 * third]


def overlaps(one, other):
    return (
        one.x < other.x + other.width
        and other.x < one.x + one.width
        and one.y < other.y + other.height
        and other.y < one.y + one.height
    )


def comes_apart(layout, left, right, low, high):
    """Whether it is edge to edge, by trying each cut at each edge, one at a time."""
    if len(layout) <= 1:
        return True
    for at in {each.x for each in layout} - {left}:
        if all(each.x >= at or each.x + each.width <= at for each in layout):
            before = [each for each in layout if each.x < at]
            after = [each for each in layout if each.x >= at]
            if before:
                return comes_apart(before, left, at, low, high) and comes_apart(after, at, right, low, high)
    for at in {each.y for each in layout} - {low}:
        if all(each.y >= at or each.y + each.height <= at for each in layout):
            before = [each for each in layout if each.y < at]
            after = [each for each in layout if each.y >= at]
            if before:
                return comes_apart(before, left, right, low, at) and comes_apart(after, left, right, at, high)
    return False


@settings(deadline=None, max_examples=1_000)
@given(some_rectangles(9), st.integers(8, 16))
def test_any_layout_is_taken_apart_if_it_can_be(pieces, side):
    layout = lay(pieces, [Sheet(side, side)])
    if layout is None:
        return
    cuts = cuts_of(layout, 0, 0, [Sheet(side, side)])
    assert (cuts is not None) == comes_apart(layout, 0, side, 0, side)
    if cuts is not None:
        assert_cuts_sheets(cuts, layout, [Sheet(side, side)])


@settings(deadline=None, max_examples=300)
@given(
    st.lists(
        st.builds(
            Placement,
            st.just(0),
            st.just(0),
            *(st.integers(0, 8),) * 2,
            *(st.integers(1, 5),) * 2,
            st.just(False),
        ),
        min_size=1,
        max_size=8,
    )
)
def test_scattered_pieces_are_taken_apart_if_they_can_be(scattered):
    layout = []
    for each in scattered:
        if not any(overlaps(each, other) for other in layout):
            layout.append(each)
    layout = tuple(
        Placement(number, 0, each.x, each.y, each.width, each.height, False)
        for number, each in enumerate(layout)
    )
    cuts = cuts_of(layout, 0, 0, [Sheet(14, 14)])
    assert (cuts is not None) == comes_apart(layout, 0, 14, 0, 14)
    if cuts is not None:
        assert_cuts_sheets(cuts, layout, [Sheet(14, 14)])


def test_cuts_come_after_those_that_make_their_part():
    """Playing them in another order fails, so the order is put to the test."""
    layout = laid((0, 0, 5, 2), (0, 2, 3, 2), (3, 2, 2, 2))
    cuts = cuts_of(layout, 5, 4)
    played(cuts, [(0, 5, 0, 9)])
    with pytest.raises(AssertionError):
        played(cuts[::-1], [(0, 5, 0, 9)])


def test_many_pieces_are_taken_apart_quickly():
    pieces = cut_at_random(400, 900, 60, Random(4))
    rows, y = [], 0
    for number, piece in enumerate(pieces):
        rows.append(Placement(number, 0, 0, y, piece.width, piece.height, False))
        y += piece.height
    width = max(piece.width for piece in pieces)
    assert len(cuts_of(tuple(rows), width, y)) <= 2 * len(pieces)
