"""One filling of a box by a skyline: the lowest gap takes what fits it best, else the next in the order.

This is the innermost loop of every search for a layout, so it is one function of flat lists; all that can be
known beforehand is in `Box`.
Source: the lowest gap first, E. K. Burke, G. Kendall and G. Whitwell, “A new placement heuristic for the
orthogonal stock-cutting problem”, 2004; what matches the walls of a gap first, S. C. H. Leung, D. Zhang and
K. M. Sim, “A two-stage intelligent search algorithm for the two-dimensional strip packing problem”, 2011;
both from memory.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from .strip import Kind, Placed

# A piece in an order: its kind, and its sides in the way tried first and then (0 if there is none).
Item = tuple[int, int, int, int, int]


_ENDLESS = 1 << 200


@dataclass(frozen=True, slots=True)
class Box:
    """What is filled. counts: pieces of each kind.

    by_width: side across → the kinds that have it and their side along; by_height the same, the other way;
    narrow: all sides across and their kinds, narrow first.
    """

    width: int
    counts: list[int]
    by_width: dict[int, list[tuple[int, int]]]
    by_height: dict[int, list[tuple[int, int]]]
    narrow: list[tuple[int, int]]
    area: int


class Rule(NamedTuple):
    """matches: a piece as high as a wall comes before the order. beside: its place in a wider gap.

    beside: 0 left, 1 at the higher wall, 2 at the lower. saves: a piece that would leave a rest too narrow
    for anything only lies where no other does.
    """

    matches: bool
    beside: int
    saves: bool


def box_of(kinds: Sequence[Kind], width: int, height: int) -> Box:
    """Return a box of some width. height: no piece stands higher in any search."""
    by_width: dict[int, list[tuple[int, int]]] = {}
    by_height: dict[int, list[tuple[int, int]]] = {}
    narrow = []
    for number, kind in enumerate(kinds):
        for wide, high in kind.ways(width, height):
            by_width.setdefault(wide, []).append((number, high))
            by_height.setdefault(high, []).append((number, wide))
            narrow.append((wide, number))
    for fits in (*by_width.values(), *by_height.values()):
        fits.sort(key=lambda fit: -fit[1])
    area = sum(kind.area * kind.count for kind in kinds)
    # Last, one that is always there and never fits, where what is left fits this box in no way.
    narrow = [*sorted(narrow), (_ENDLESS, len(kinds))]
    return Box(width, [*(kind.count for kind in kinds), 1], by_width, by_height, narrow, area)


def filled(  # noqa: C901 (split, it would be half as fast)
    box: Box, height: int, items: Sequence[Item], rule: Rule, most_left: int
) -> tuple[int, list[Placed]] | None:
    """Fill a box up to a height; return the area of what found no place, and what lies where.

    None: more than most_left would find no place; then it ends as soon as that is certain.
    """
    spare = box.width * height - box.area + most_left
    matches, beside, saves = rule
    by_width, by_height, narrow = box.by_width, box.by_height, box.narrow
    counts, left = box.counts[:], list(items)
    remaining, narrowest = len(left), 0
    starts, tops = [0, box.width], [0]
    placed: list[Placed] = []
    add = placed.append
    while remaining:
        low = min(tops)
        at = tops.index(low)
        start = starts[at]
        gap = starts[at + 1] - start
        room = height - low
        if not room:
            break
        wall = tops[at - 1] - low if at else room
        other = tops[at + 1] - low if at + 1 < len(tops) else room
        kind = -1
        while not counts[narrow[narrowest][1]]:
            narrowest += 1
        if gap >= narrow[narrowest][0]:
            wide = gap
            is_right = False
            if gap in by_width:
                for number, side in by_width[gap]:
                    if side <= room and counts[number]:
                        if side in (wall, other):
                            kind, high = number, side
                            break
                        if kind < 0:
                            kind, high = number, side
            if kind < 0 and matches:
                if wall in by_height:
                    for number, side in by_height[wall]:
                        if side < gap and counts[number]:
                            kind, wide, high = number, side, wall
                            break
                if kind < 0 and other in by_height:
                    for number, side in by_height[other]:
                        if side < gap and counts[number]:
                            kind, wide, high, is_right = number, side, other, True
                            break
            if kind < 0:
                later = 0
                usable = gap - narrow[narrowest][0] if saves else gap
                for spot, item in enumerate(left):
                    number, one_wide, one_high, two_wide, two_high = item
                    if counts[number]:
                        if one_wide <= usable and one_high <= room:
                            kind, wide, high, later = number, one_wide, one_high, spot
                            break
                        if two_wide and two_wide <= usable and two_high <= room:
                            kind, wide, high, later = number, two_wide, two_high, spot
                            break
                        if kind < 0:
                            # The rest would be too narrow for anything.
                            if one_wide <= gap and one_high <= room:
                                kind, wide, high, later = number, one_wide, one_high, spot
                            elif two_wide and two_wide <= gap and two_high <= room:
                                kind, wide, high, later = number, two_wide, two_high, spot
                if kind >= 0:
                    del left[later]
                    if beside and (other > wall) == (beside == 1):
                        is_right = True
        if kind < 0:
            # Nothing fits: what lies below the lower wall is lost.
            rise = wall if wall < other else other
            spare -= gap * rise
            if spare < 0:
                return None
            wide, high, is_right = gap, rise, False
        else:
            counts[kind] -= 1
            remaining -= 1
            add((kind, start + gap - wide if is_right else start, low, wide, high))
        top = low + high
        if wide == gap:
            tops[at] = top
            if other == high and at + 1 < len(tops):
                del tops[at + 1], starts[at + 1]
            if at and wall == high:
                del tops[at], starts[at]
        elif is_right:
            if other == high and at + 1 < len(tops):
                starts[at + 1] -= wide
            else:
                tops.insert(at + 1, top)
                starts.insert(at + 1, start + gap - wide)
        elif at and wall == high:
            starts[at] = start + wide
        else:
            tops.insert(at, top)
            starts.insert(at + 1, start + wide)
    if not remaining:
        return 0, placed
    lost = sum((height - top) * (starts[n + 1] - starts[n]) for n, top in enumerate(tops))
    return most_left - spare + lost, placed
