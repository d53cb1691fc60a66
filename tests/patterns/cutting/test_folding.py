from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.effort import Effort
from patterns.cutting.folding import laid
from patterns.cutting.on_length import Way
from patterns.cutting.sheets import Rectangle, Sheet

from .layouts import assert_is_layout, some_rectangles

WIDTH = 12


@settings(deadline=None, max_examples=30)
@given(some_rectangles(6), st.booleans())
def test_what_is_found_is_a_layout_opened_out(pieces, one_way):
    narrow = [Rectangle(min(piece.width, 8), piece.height, piece.turns) for piece in pieces]
    way = Way(one_way=one_way, folded=True)
    found = laid(narrow, WIDTH, way, Effort())
    assert_is_layout(found.layout, way.lying(narrow), [Sheet(WIDTH, found.length)])
    assert found.bound <= found.length


def test_an_odd_one_is_cut_double_where_that_is_shorter():
    """Three of 3 × 5: two lie side by side on 6, so that a fourth costs nothing."""
    found = laid([Rectangle(3, 5, turns=False)] * 3, WIDTH, Way(folded=True), Effort())
    assert (found.length, found.bound, found.opened, found.spare) == (5, 5, (), (2,))


def test_three_odd_ones_claim_no_more_than_the_pairs():
    pieces = [Rectangle(6, side, turns=False) for side in (4, 5, 7)]
    found = laid(pieces, WIDTH, Way(folded=True), Effort())
    assert found.bound == 0
    assert_is_layout(found.layout, pieces, [Sheet(WIDTH, found.length)])


def test_pairs_are_one_layout_on_half_the_width():
    """Four of 6 × 5 on 12: folded, two lie one above the other on 6, as short as opened out."""
    found = laid([Rectangle(6, 5, turns=False)] * 4, WIDTH, Way(folded=True), Effort())
    assert (found.length, found.bound, found.folded, found.opened) == (10, 10, 10, ())
    assert sorted(place.x for place in found.layout) == [0, 0, 6, 6]


def test_an_odd_one_is_told_and_cut_from_the_cloth_opened_out():
    found = laid([Rectangle(6, 5, turns=False)] * 3, WIDTH, Way(folded=True), Effort())
    assert (found.length, found.folded, found.opened) == (10, 5, (2,))


def test_what_is_wider_than_half_the_cloth_is_cut_opened_out():
    found = laid([Rectangle(7, 5, turns=False)] * 2, WIDTH, Way(folded=True), Effort())
    assert (found.length, found.folded, found.opened) == (10, 0, (0, 1))


@settings(deadline=None, max_examples=40)
@given(some_rectangles(4))
def test_the_halves_of_a_pair_lie_on_one_another(pieces):
    found = laid([*pieces, *pieces], WIDTH, Way(folded=True), Effort())
    lying = {
        (place.x, place.y, place.width, place.height) for place in found.layout if place.y < found.folded
    }
    assert lying == {(WIDTH - x - width, y, width, height) for x, y, width, height in lying}
