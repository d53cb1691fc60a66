from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.length_bound import Lengths, is_excluded, least_length, lifted
from patterns.cutting.settling import settled
from patterns.cutting.sheets import Rectangle, Sheet
from patterns.cutting.strip import as_strip, kinds_of

from .layouts import some_rectangles


def bound(pieces, width):
    strip = as_strip(pieces, width)
    lengths = Lengths(strip)
    return lifted(strip, lengths, least_length(strip, lengths)) * strip.along


@given(some_rectangles(6), st.integers(1, 16), st.integers(1, 16))
@settings(max_examples=1500)
def test_what_can_be_laid_is_never_excluded(pieces, width, height):
    found = settled(pieces, [Sheet(width, height)], most_states=300)
    if isinstance(found, tuple):
        assert not is_excluded(kinds_of(pieces, 1, 1), width, height)
        assert bound(pieces, width) <= height


def test_three_that_are_wider_than_half_lie_one_above_the_other():
    assert bound([Rectangle(6, 5, turns=False)] * 3, 10) == 15


def test_pieces_that_leave_a_rest_which_nothing_fills():
    # Two of 4 stand in a row of 11, never three; seven of them make four rows.
    assert bound([Rectangle(4, 4)] * 7, 11) == 16


def test_a_length_is_a_sum_of_sides():
    # The area needs 16 2/3; sides of 7 and 10 make 17.
    assert bound([Rectangle(7, 10)] * 5, 21) == 17


def test_lengths_that_can_be():
    lengths = Lengths(as_strip([Rectangle(2, 3, turns=False), Rectangle(2, 7, turns=False)], 4))
    assert [lengths.up(length) for length in (1, 3, 4, 8, 10)] == [3, 3, 7, 10, 10]
    assert [lengths.down(length) for length in (2, 3, 9, 11)] == [0, 3, 7, 11]
