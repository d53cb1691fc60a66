"""The largest single rectangle that a layout leaves over: scraps are used."""

from collections.abc import Sequence

from .strip import Placed


def largest_left(placed: Sequence[Placed], width: int, length: int) -> int:
    """Return the area of the largest rectangle of a cloth on which no piece lies.

    Its lower edge is the cut end or the top of a piece, so from each of these it is widened and narrowed
    upwards: between two tops, what is free from side to side shrinks as pieces begin.

    >>> largest_left([(0, 0, 0, 2, 3)], 5, 4)
    12
    """
    rows = sorted(placed, key=lambda each: each[2])
    most = 0
    for low in {0, *(y + height for _, _, y, _, height in placed)}:
        if (length - low) * width > most:
            most = max(most, _above(rows, width, length, low))
    return most


def _above(rows: Sequence[Placed], width: int, length: int, low: int) -> int:
    """Return the largest that begins at a height: its gaps are parted as pieces begin above it."""
    gaps, most, reached = [(0, width)], 0, low
    for _, x, y, wide, high in rows:
        if y + high <= low or not gaps:
            continue
        if y > reached:
            most = max(most, (y - low) * max(right - left for left, right in gaps))
            reached = y
        gaps = [gap for one in gaps for gap in _parted(one, x, x + wide)]
    if gaps:
        most = max(most, (length - low) * max(right - left for left, right in gaps))
    return most


def _parted(gap: tuple[int, int], begin: int, end: int) -> list[tuple[int, int]]:
    left, right = gap
    if end <= left or begin >= right:
        return [gap]
    return [part for part in ((left, begin), (end, right)) if part[0] < part[1]]
