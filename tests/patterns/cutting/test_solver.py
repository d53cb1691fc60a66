from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.effort import Effort
from patterns.cutting.settling import settled
from patterns.cutting.sheets import Rectangle, Sheet
from patterns.cutting.solver import Solver
from patterns.cutting.strip import as_strip

from .layouts import some_rectangles


def solver(pieces, width):
    return Solver(as_strip(pieces, width), Effort(10_000_000, may_solve=True))


@given(some_rectangles(6), st.integers(8, 12), st.integers(1, 16))
@settings(max_examples=60, deadline=None)
def test_what_can_be_laid_can_follow(pieces, width, height):
    if isinstance(settled(pieces, [Sheet(width, height)], most_states=300), tuple):
        asked = solver(pieces, width)
        assert not asked.cannot_follow(int(height // asked.strip.along), 100_000)


def test_pieces_that_cannot_follow():
    # Three of 6 × 5 on a width of 10 stand one above the other.
    asked = solver([Rectangle(6, 5, turns=False)] * 3, 10)
    assert asked.cannot_follow(int(14 // asked.strip.along), 100_000)
    assert not asked.cannot_follow(int(15 // asked.strip.along), 100_000)


def test_outlines_may_lie_in_each_others_corners():
    assert not solver([Rectangle(6, 5, is_full=False)] * 3, 10).cannot_follow(1, 100_000)


def test_what_is_known_is_not_asked_again():
    asked = solver([Rectangle(6, 5, turns=False)] * 3, 10)
    length = int(15 // asked.strip.along)
    asked.cannot_follow(length, 100_000)
    before = asked.effort.work
    assert not asked.cannot_follow(length + 1, 200_000)
    assert asked.effort.work == before
