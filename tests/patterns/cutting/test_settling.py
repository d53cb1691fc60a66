from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.settling import MOST_SETTLED, Verdict, every_layout, settled
from patterns.cutting.sheets import Placement, Rectangle, Sheet

from .layouts import assert_is_layout, sheets, some_rectangles


def by_trying_every_place(
    pieces: list[Rectangle], on: list[Sheet], lying: tuple[Placement, ...] = ()
) -> bool:
    """Whether the pieces can be laid, whole numbers all: each in every place, however long that takes."""
    if len(lying) == len(pieces):
        return True
    number = len(lying)
    for rank, sheet in enumerate(on):
        for width, height in pieces[number].sides:
            for x, y in product(range(sheet.width - width + 1), range(sheet.height - height + 1)):
                overlaps = any(
                    each.sheet == rank
                    and x < each.x + each.width
                    and each.x < x + width
                    and y < each.y + each.height
                    and each.y < y + height
                    for each in lying
                )
                placed = Placement(number, rank, x, y, width, height, turned=False)
                if not overlaps and by_trying_every_place(pieces, on, (*lying, placed)):
                    return True
    return False


@settings(deadline=None)
@given(
    st.lists(
        st.builds(Rectangle, st.integers(1, 5), st.integers(1, 5), st.booleans()), min_size=1, max_size=4
    ),
    st.lists(st.builds(Sheet, st.integers(1, 5), st.integers(1, 6)), min_size=1, max_size=2),
)
def test_agrees_with_trying_every_place(pieces, on):
    answer = settled(pieces, on)
    assert isinstance(answer, tuple) == by_trying_every_place(pieces, on)
    assert answer is not Verdict.OPEN


@settings(deadline=None)
@given(some_rectangles(6), sheets)
def test_what_is_found_is_a_layout(pieces, on):
    answer = every_layout(pieces, on)
    if isinstance(answer, tuple):
        assert_is_layout(answer, pieces, on)


def test_vanes_of_a_windmill_are_found():
    """Four round a middle fill 21 × 18 but a hole of 3 × 4, and stand in no rows."""
    vanes = [Rectangle(12, 7, turns=False), Rectangle(9, 11, turns=False)] * 2
    assert isinstance(every_layout(vanes, [Sheet(21, 18)], most_states=100_000), tuple)


def test_nothing_is_said_where_not_all_is_tried():
    many = [Rectangle(3, 2)] * (MOST_SETTLED + 1)
    assert every_layout(many, [Sheet(6, 9)]) is Verdict.OPEN
    assert every_layout([Rectangle(3, 2)] * 4, [Sheet(5, 5)], most_states=2) is Verdict.OPEN


@pytest.mark.parametrize("is_full", [True, False])
def test_outlines_are_never_said_to_be_impossible(is_full):
    answer = every_layout([Rectangle(4, 4, is_full=is_full)] * 2, [Sheet(7, 7)])
    assert answer is (Verdict.IMPOSSIBLE if is_full else Verdict.OPEN)
