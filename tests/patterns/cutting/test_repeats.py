from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.effort import Effort
from patterns.cutting.errors import CuttingError
from patterns.cutting.folding import laid
from patterns.cutting.on_length import Way
from patterns.cutting.repeats import in_whole_repeats, let_down
from patterns.cutting.sheets import Placement, Rectangle, Sheet

from .layouts import assert_is_layout, some_rectangles


def test_heights_grow_to_whole_repeats_and_nothing_is_turned():
    (piece,) = in_whole_repeats([Rectangle(3, 7)], 4)
    assert piece == Rectangle(3, 8, turns=False)


def test_what_hangs_in_the_air_is_let_down():
    low = Placement(0, 0, 0, 0, 2, 4, False)
    hanging, free = Placement(1, 0, 1, 5, 2, 4, False), Placement(2, 0, 3, 2, 2, 4, False)
    assert [place.y for place in let_down((low, hanging, free))] == [0, 4, 0]


@settings(deadline=None, max_examples=40)
@given(some_rectangles(6), st.integers(1, 5), st.booleans())
def test_all_pieces_begin_at_the_same_place_in_the_repeat(pieces, repeat, folded):
    found = laid(pieces, 9, Way(repeat=repeat, folded=folded), Effort())
    assert all(place.y % repeat == 0 for place in found.layout)
    assert not any(place.turned for place in found.layout)
    assert_is_layout(found.layout, pieces, [Sheet(9, found.length)])
    assert found.bound <= found.length


def test_a_repeat_takes_no_more_than_the_last_piece_needs():
    """Two of 5 in high, one above the other, with a repeat of 4: 8 in up to the second, and its own 5."""
    found = laid([Rectangle(6, 5)] * 2, 6, Way(repeat=4), Effort())
    assert found.length == found.bound == 13


def test_a_repeat_of_nothing_is_refused():
    with pytest.raises(CuttingError, match="repeat of the print is nothing"):
        in_whole_repeats([Rectangle(3, 7)], Fraction(0))
