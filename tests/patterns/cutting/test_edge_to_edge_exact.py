import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.boxes import kinds_of, spots_of
from patterns.cutting.edge_to_edge_exact import Room, fronts, lowest, sums_of_sides, ways_to_part
from patterns.cutting.effort import Effort
from patterns.cutting.sheets import Rectangle, Sheet

from .layouts import assert_is_layout
from .playing import repeated


def test_two_lie_side_by_side_or_one_above_the_other():
    kinds = kinds_of([Rectangle(2, 3, turns=False)] * 2).kinds
    boxes = fronts(kinds, Room(10, 10, 100), Effort())
    assert [[(box.width, box.height) for box in front] for front in boxes] == [[], [(2, 3)], [(2, 6), (4, 3)]]


def test_boxes_that_waste_more_than_can_be_spared_are_dropped():
    kinds = kinds_of([Rectangle(3, 3), Rectangle(2, 2)]).kinds
    assert [(box.width, box.height) for box in fronts(kinds, Room(5, 5, 1), Effort())[-1]] == []
    assert len(fronts(kinds, Room(5, 5, 12), Effort())[-1]) == 2


def test_less_effort_than_it_takes_is_no_answer():
    kinds = kinds_of([Rectangle(n, n + 1) for n in range(1, 10)]).kinds
    assert lowest(kinds, 12, 90, Effort(100)) == (None, False)


def test_too_little_room_is_sure_at_once():
    kinds = kinds_of([Rectangle(5, 5)] * 4).kinds
    assert lowest(kinds, 2, 1, Effort(0)) == (None, True)


def test_ways_are_counted_by_kind():
    assert ways_to_part(kinds_of([Rectangle(2, 3)] * 3 + [Rectangle(3, 2)] + [Rectangle(1, 1)]).kinds) == 45


def test_each_piece_is_in_a_sum_once_or_not():
    kinds = kinds_of([Rectangle(4, 3), Rectangle(7, 7, turns=False)]).kinds
    sums = sums_of_sides(kinds, 10, 0)
    assert [side for side in range(11) if sums >> side & 1] == [0, 3, 4, 7, 10]


@settings(deadline=None, max_examples=200)
@given(repeated, st.integers(9, 20), st.integers(5, 60))
def test_a_box_holds_all_pieces(pieces, width, length):
    kinds = kinds_of(pieces)
    box, _ = lowest(
        kinds.kinds, width // kinds.part.numerator, length // kinds.part.numerator, Effort(20_000)
    )
    if box is not None:
        assert_is_layout(kinds.layout(list(spots_of(box))), pieces, [Sheet(width, length)])


@pytest.mark.parametrize("turns", [True, False])
def test_sums_that_leave_a_rest_raise_the_waste(turns):
    """Beside 5 of 9 nothing of 3 or 5 fits without a rest of 1: two of 5 × 5 take two rows."""
    kinds = kinds_of([Rectangle(5, 5, turns)] * 2 + [Rectangle(3, 3, turns)]).kinds
    box, is_sure = lowest(kinds, 9, 9, Effort())
    assert is_sure
    assert box is None
