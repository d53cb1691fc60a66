"""What keeps an outline from being cut: a curve that is none, a box not filled, edges that cross."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import lcm

from .formulas.values import CLOSE, Measured
from .outlines import Corner

Spot = tuple[int, int]
Way = tuple[Spot, Spot]

# How many of the whole numbers below lie within what counts as equal, where a length was rounded.
FINENESS = 100


@dataclass(frozen=True, slots=True)
class Fault:
    """What keeps an outline from being cut. corner: the place, from 0, of the corner where it shows.

    says: what is wrong, to follow “its outline …”. mend: for whoever writes the recipe.
    """

    corner: int
    says: str
    mend: str


def fault(outline: Sequence[Corner], width: Measured, height: Measured) -> Fault | None:
    """Return what keeps an outline of that width and height from being cut, None if nothing does.

    outline: n ≥ 3 corners. A curve counts as the straight line between its ends where the question is whether
    edges cross.
    """
    # Whole numbers are some ten times quicker than fractions, and this is asked at every size.
    far, spots, trace = _whole(outline, width, height)
    ways = [(spots[place - 1], spot) for place, spot in enumerate(spots)]
    for place, (corner, ((x, y), (to_x, to_y))) in enumerate(zip(outline, ways, strict=True)):
        across, down = abs(to_x - x), abs(to_y - y)
        if max(across, down) <= trace:
            return Fault(place, "has an edge of no length", "Take one of the two corners out.")
        if corner.arc is not None and abs(across - down) > trace:
            return Fault(
                place,
                "has a curve that is no quarter circle",
                "A quarter circle goes as far across as down. Move one of its ends, or leave arc out.",
            )
    if any(abs(side - wanted) > trace for side, wanted in zip(_box(spots), (0, 0, *far), strict=True)):
        mend = "The least across and down are 0, the most are the piece's width and height."
        return Fault(0, "does not fill the width and the height of the piece", mend)
    crossing = next(_crossings(outline, ways), None)
    return (
        None
        if crossing is None
        else Fault(crossing, "crosses itself", "Let its edges meet at their ends only.")
    )


def _whole(outline: Sequence[Corner], width: Measured, height: Measured) -> tuple[Spot, list[Spot], int]:
    """Return width and height and every corner in a unit so small that all are whole.

    Then, in that unit, by how much two equal lengths may differ: not at all, unless one was rounded.
    """
    sides = [width, height, *(side for corner in outline for side in (corner.across, corner.down))]
    exact = [side for side in sides if isinstance(side, Fraction)]
    unit, trace = lcm(*(side.denominator for side in exact)), 0
    if len(exact) < len(sides):
        trace = FINENESS * unit
        unit = int(FINENESS / CLOSE) * unit
    whole = [
        side.numerator * (unit // side.denominator)
        if isinstance(side, Fraction)
        else int(Fraction(side) * unit)
        for side in sides
    ]
    (far, *spots) = zip(whole[::2], whole[1::2], strict=True)
    return far, spots, trace


def _box(spots: Sequence[Spot]) -> tuple[int, int, int, int]:
    across, down = zip(*spots, strict=True)
    return min(across), min(down), max(across), max(down)


def _crossings(outline: Sequence[Corner], ways: Sequence[Way]) -> Iterator[int]:
    """Yield the place of each edge that meets another elsewhere than at their common end."""
    for place, other in combinations(range(len(ways)), 2):
        if other == place + 1 or (place == 0 and other == len(ways) - 1):
            has_curve = outline[place].arc is not None or outline[other].arc is not None
            if not has_curve and _turns_back(ways, place, other):
                yield other
        elif _meet(*ways[place], *ways[other]):
            yield other


def _turns_back(ways: Sequence[Way], place: int, other: int) -> bool:
    """Whether the later of two neighbours runs back along the one before it."""
    first, second = (place, other) if other == place + 1 else (other, place)
    (a, b), (_, c) = ways[first], ways[second]
    return _side(a, b, c) == 0 and (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0


def _meet(a: Spot, b: Spot, c: Spot, d: Spot) -> bool:
    """Whether two straight lines have a point in common, by the sides on which their ends lie."""
    for side in (0, 1):
        if max(a[side], b[side]) < min(c[side], d[side]) or max(c[side], d[side]) < min(a[side], b[side]):
            return False
    return _side(a, b, c) * _side(a, b, d) <= 0 and _side(c, d, a) * _side(c, d, b) <= 0


def _side(a: Spot, b: Spot, c: Spot) -> int:
    """Return −1, 0 or 1 as c lies left of, on or right of the line from a to b."""
    across = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return (across > 0) - (across < 0)
