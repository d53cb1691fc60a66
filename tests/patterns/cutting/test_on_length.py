from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.effort import Effort
from patterns.cutting.on_length import Way, unfolded
from patterns.cutting.sheets import Rectangle, Sheet

from .layouts import assert_is_layout, rectangles, some_rectangles

WIDTH = 12


@settings(deadline=None, max_examples=40)
@given(some_rectangles(7), st.booleans())
def test_what_is_found_is_a_layout_and_no_shorter_than_its_bound(pieces, one_way):
    way = Way(one_way=one_way)
    found = unfolded(pieces, WIDTH, way, Effort())
    assert_is_layout(found.layout, way.lying(pieces), [Sheet(WIDTH, found.length)])
    assert sum(piece.width * piece.height for piece in pieces) <= WIDTH * found.length
    assert found.bound <= found.length


@settings(deadline=None, max_examples=40)
@given(some_rectangles(6))
def test_one_way_is_never_shorter_than_free(pieces):
    free = unfolded(pieces, WIDTH, Way(), Effort())
    upright = unfolded(pieces, WIDTH, Way(one_way=True), Effort())
    assert free.length <= upright.length
    assert free.bound <= upright.length


@settings(deadline=None, max_examples=40)
@given(rectangles, st.integers(1, 5))
def test_what_is_proved_for_one_more_is_enough_for_less(piece, count):
    fewer = unfolded([piece] * count, WIDTH, Way(), Effort())
    more = unfolded([piece] * (count + 1), WIDTH, Way(), Effort())
    assert fewer.bound <= more.bound
    assert fewer.bound <= more.length


def test_a_step_of_the_shop_does_not_change_what_is_unfolded():
    pieces = [Rectangle(5, 4), Rectangle(3, 7), Rectangle(6, 2)]
    found = unfolded(pieces, WIDTH, Way(), Effort(), step=4)
    assert_is_layout(found.layout, pieces, [Sheet(WIDTH, found.length)])
    assert Way(repeat=3).lying(pieces) == tuple(replace(piece, turns=False) for piece in pieces)
