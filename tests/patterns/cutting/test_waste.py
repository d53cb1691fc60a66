"""No layout wastes less than is said to be certain when it is begun."""

from collections import Counter

from hypothesis import assume, given
from hypothesis import strategies as st

from patterns.cutting.settling import settled
from patterns.cutting.sheets import Sheet
from patterns.cutting.sky import Sky
from patterns.cutting.strip import kinds_of
from patterns.cutting.waste import Waste

from .layouts import some_rectangles


def sky_over(width, placed):
    """The skyline of what lies already."""
    tops = [
        max([int(each.y + each.height) for each in placed if each.x <= x < each.x + each.width], default=0)
        for x in range(width)
    ]
    starts = [x for x in range(width) if x == 0 or tops[x] != tops[x - 1]]
    ends = [*starts[1:], width]
    wides = [end - start for start, end in zip(starts, ends, strict=True)]
    return Sky(tuple(tops[x] for x in starts), tuple(wides))


@given(some_rectangles(6), st.integers(2, 12), st.integers(2, 12), st.integers(0, 6))
def test_no_layout_wastes_less(pieces, width, height, begun):
    found = settled(pieces, [Sheet(width, height)], most_states=300)
    assume(isinstance(found, tuple))
    # Later pieces lie above earlier ones.
    placed = sorted(found, key=lambda each: each.y)
    sky, left = sky_over(width, placed[:begun]), placed[begun:]
    kinds = kinds_of(pieces, 1, 1)
    numbers = {member: number for number, kind in enumerate(kinds) for member in kind.members}
    counted = Counter(numbers[each.piece] for each in left)
    free = sum(wide * (height - top) for top, wide in zip(*sky, strict=True))
    spare = free - sum(int(each.width * each.height) for each in left)
    waste = Waste([kind.ways(width, height) for kind in kinds], width, height)
    assert 0 <= waste.spared(sky, tuple(counted[number] for number in range(len(kinds))), spare) <= spare


def test_what_no_sum_of_widths_fills_is_lost():
    # Two of 4 stand in a row of 11; 3 are lost in every line.
    waste = Waste([[(4, 5)]], 11, 10)
    assert waste.spared(Sky((0,), (11,)), (4,), 30) == 0
    assert waste.spared(Sky((0,), (11,)), (4,), 29) < 0


def test_each_valley_counts():
    # On both sides of the step 1 is lost as high as it is, then 2 of 10.
    waste = Waste([[(2, 2)]], 10, 6)
    assert waste.spared(Sky((0, 2, 0), (3, 4, 3)), (20,), 9) == 5


def test_what_no_sum_of_heights_fills_is_lost():
    waste = Waste([[(1, 4)]], 3, 9)
    assert waste.spared(Sky((0, 5), (2, 1)), (9,), 7) == 5
