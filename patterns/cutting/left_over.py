"""The largest rectangle that is left whole beside the pieces of a layout."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import lcm
from typing import NamedTuple


class Taken(NamedTuple):
    """A rectangle on a sheet: mm from its upper left corner."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction


def left_over(width: Fraction, height: Fraction, taken: Sequence[Taken]) -> Taken | None:
    """Return the largest rectangle of a sheet that meets nothing taken; None if all of it is taken.

    width, height: of the sheet, mm. Of equally large ones the uppermost, then the leftmost is returned.
    Source: the largest rectangle under a skyline, row by row; D. Vandevoorde, “The maximal rectangle
    problem”, 1998 (from memory).

    >>> left_over(Fraction(5), Fraction(4), [Taken(Fraction(0), Fraction(0), Fraction(2), Fraction(4))])
    Taken(x=Fraction(2, 1), y=Fraction(0, 1), width=Fraction(3, 1), height=Fraction(4, 1))
    """
    parts = lcm(*(side.denominator for side in (width, height, *(side for each in taken for side in each))))
    boxes = [
        tuple(int(side * parts) for side in (each.x, each.y, each.x + each.width, each.y + each.height))
        for each in taken
    ]
    across, along = int(width * parts), int(height * parts)
    xs = sorted({0, across, *(x for box in boxes for x in box[::2] if 0 < x < across)})
    ys = sorted({0, along, *(y for box in boxes for y in box[1::2] if 0 < y < along)})
    best: tuple[int, int, int, int, int] | None = None
    free = [0] * (len(xs) - 1)  # how far up from the row each column is free
    for top, bottom in pairwise(ys):
        beside = [box for box in boxes if box[1] < bottom and box[3] > top]
        for rank, (left, right) in enumerate(pairwise(xs)):
            is_free = not any(box[0] < right and box[2] > left for box in beside)
            free[rank] = free[rank] + bottom - top if is_free else 0
        for left, right, high in _under(xs, free):
            found = ((right - left) * high, high - bottom, -left, right - left, high)
            best = found if best is None else max(best, found)
    if best is None or not best[0]:
        return None
    _, up, left, wide, high = best
    return Taken(Fraction(-left, parts), Fraction(-up, parts), Fraction(wide, parts), Fraction(high, parts))


def _under(xs: Sequence[int], heights: Sequence[int]) -> Iterator[tuple[int, int, int]]:
    """Yield every rectangle under a skyline that cannot grow: its left and right edge, its height."""
    waiting: list[tuple[int, int]] = []
    for x, height in zip(xs, (*heights, 0), strict=True):
        start = x
        while waiting and waiting[-1][1] >= height:
            start, high = waiting.pop()
            if high:
                yield start, x, high
        waiting.append((start, height))
