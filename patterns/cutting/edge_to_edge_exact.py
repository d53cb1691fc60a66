"""The least length that pieces need edge to edge, by every box that they can make.

A dynamic programme over the multisets of equal pieces: for each, the boxes of which none is both wider and
longer than another. A box that wastes more than the cloth can spare is dropped, and what can only be wasted
beside and above it counts as well.
Source: boxes from boxes, P. Y. Wang, “Two algorithms for constrained two-dimensional cutting stock problems”,
Operations Research 31, 1983, from memory; here over multisets, so that every box is met.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import prod

from .boxes import Box, Kind
from .effort import Effort

# Sums of sides are kept up to this width; beyond it, any rest counts as useful.
MOST_SUMMED = 200_000
# Ways of parting a multiset that are looked at in a microsecond.
_WAYS_A_UNIT = 8
# Before more pairs of boxes than these are joined, the effort is asked for again.
_PAIRS_AT_A_TIME = 200

# The boxes of each multiset, narrow to wide; multisets by their number in a mixed radix.
Fronts = list[list[Box]]


@dataclass(frozen=True, slots=True)
class Room:
    """What boxes must fit in. spare: the area that may be wasted in all.

    is_one: every box ends in a place of just this size, so that what is left beside it counts.
    """

    width: int
    length: int
    spare: int
    is_one: bool = True


def ways_to_part(kinds: Sequence[Kind]) -> int:
    """Return how many ways there are to part a multiset of the pieces in two, which is what it costs."""
    return prod((kind.copies + 1) * (kind.copies + 2) // 2 for kind in kinds)


def strides_of(kinds: Sequence[Kind]) -> list[int]:
    """Return what one piece of each kind adds to a multiset's number; at the end, how many multisets."""
    strides = [1]
    for kind in kinds:
        strides.append(strides[-1] * (kind.copies + 1))
    return strides


def counts_of(number: int, kinds: Sequence[Kind]) -> list[int]:
    counts = []
    for kind in kinds:
        number, count = divmod(number, kind.copies + 1)
        counts.append(count)
    return counts


def fronts(kinds: Sequence[Kind], room: Room, effort: Effort) -> Fronts | None:
    """Return all boxes worth having, for each multiset of the pieces; None where the effort did not do."""
    strides = strides_of(kinds)
    singles = {stride: kind for kind, stride in enumerate(strides[:-1])}
    waste = _waste(kinds, room)
    boxes: Fronts = [[]]
    for number in range(1, strides[-1]):
        if effort.is_done:
            return None
        counts = counts_of(number, kinds)
        area = sum(count * kind.area for count, kind in zip(counts, kinds, strict=True))
        found: dict[int, Box] = {}
        if number in singles:
            _add_single(found, kinds[singles[number]], singles[number], room)
        if not _join_all(found, boxes, number, _firsts(counts, strides), room, area + room.spare, effort):
            return None
        boxes.append(_front(found, area, room.spare, waste))
    return boxes


def lowest(kinds: Sequence[Kind], width: int, length: int, effort: Effort) -> tuple[Box | None, bool]:
    """Return the lowest box of all pieces that fits the width and length, and whether the answer is sure.

    None and sure: there is no such box.
    """
    spare = width * length - sum(kind.area * kind.copies for kind in kinds)
    if spare < 0:
        return None, True
    boxes = fronts(kinds, Room(width, length, spare), effort)
    if boxes is None:
        return None, False
    return min(boxes[-1], key=lambda box: (box.height, box.cuts), default=None), True


def _add_single(found: dict[int, Box], kind: Kind, number: int, room: Room) -> None:
    for width, height in kind.sides:
        if width <= room.width and height <= room.length:
            found[width] = Box(width, height, 0, None, None, False, number)


def _firsts(counts: Sequence[int], strides: Sequence[int]) -> list[int]:
    """Return the multisets that may be parted from one: of any two that make it up, at least one."""
    firsts = [0]
    highest = max(place for place, count in enumerate(counts) if count)
    for place, count in enumerate(counts):
        if count:
            most = count // 2 if place == highest else count
            stride = strides[place]
            firsts = [first + times * stride for times in range(most + 1) for first in firsts]
    return firsts


def _join_all(
    found: dict[int, Box],
    boxes: Fronts,
    number: int,
    firsts: Sequence[int],
    room: Room,
    most: int,
    effort: Effort,
) -> bool:
    """Add the boxes of a multiset from those of any two that make it up; False if the effort did not do."""
    effort.work -= 1 + len(firsts) // _WAYS_A_UNIT
    for first in firsts:
        if boxes[first] and boxes[number - first]:
            pairs = len(boxes[first]) * len(boxes[number - first])
            effort.work -= 1 + pairs // 2
            if pairs > _PAIRS_AT_A_TIME and effort.is_done:
                return False
            _join(found, boxes[first], boxes[number - first], room, most)
    return True


def _join(
    found: dict[int, Box], firsts: Sequence[Box], seconds: Sequence[Box], room: Room, most: int
) -> None:
    """Add the boxes that two sets of boxes make; the lowest of each width, then the one with fewest cuts."""
    widest, longest = room.width, room.length
    for first in firsts:
        first_width, first_height, first_cuts = first[0], first[1], first[2]
        for second in seconds:
            second_width, second_height = second[0], second[1]
            width = first_width + second_width
            height = first_height if first_height > second_height else second_height
            if width <= widest and width * height <= most:
                cuts = first_cuts + second[2] + 1 + (first_height != second_height)
                known = found.get(width)
                if known is None or (height, cuts) < (known[1], known[2]):
                    found[width] = Box(width, height, cuts, first, second, True, -1)
            width = first_width if first_width > second_width else second_width
            height = first_height + second_height
            if height <= longest and width * height <= most:
                cuts = first_cuts + second[2] + 1 + (first_width != second_width)
                known = found.get(width)
                if known is None or (height, cuts) < (known[1], known[2]):
                    found[width] = Box(width, height, cuts, first, second, False, -1)


def _front(found: dict[int, Box], area: int, spare: int, waste: Callable[[int, int], int]) -> list[Box]:
    """Keep the boxes that are lower than every narrower one, and waste no more than can be spared."""
    front: list[Box] = []
    lowest_yet: int | None = None
    for width in sorted(found):
        box = found[width]
        if lowest_yet is None or box.height < lowest_yet:
            lowest_yet = box.height
            if width * box.height - area + waste(width, box.height) <= spare:
                front.append(box)
    return front


def _waste(kinds: Sequence[Kind], room: Room) -> Callable[[int, int], int]:
    """Return what a box of a width and height wastes outside itself: what no sum of sides can fill.

    Beside it, at each height, the pieces' widths sum up to at most what is left; above it likewise.
    """
    if not room.is_one:
        return lambda width, height: 0
    across = _unfilled(kinds, room.width, 0)
    along = _unfilled(kinds, room.length, 1)
    return lambda width, height: across(width) * height + along(height) * width


def _unfilled(kinds: Sequence[Kind], whole: int, axis: int) -> Callable[[int], int]:
    if whole > MOST_SUMMED:
        return lambda side: 0
    sums = sums_of_sides(kinds, whole, axis)
    known: dict[int, int] = {}

    def unfilled(side: int) -> int:
        if side not in known:
            rest = whole - side
            known[side] = rest - ((sums & ((1 << (rest + 1)) - 1)).bit_length() - 1)
        return known[side]

    return unfilled


def sums_of_sides(kinds: Sequence[Kind], most: int, axis: int) -> int:
    """Return the sums of sides, one of each piece or none, up to the most: bit n is set where n is one.

    axis: 0 for widths, 1 for heights.
    """
    sums, mask = 1, (1 << (most + 1)) - 1
    for kind in kinds:
        sides = {way[axis] for way in kind.sides if way[axis] <= most}
        for _ in range(kind.copies):
            longer = sums
            for side in sides:
                longer |= sums << side
            sums = longer & mask
    return sums
