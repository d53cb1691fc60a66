"""Rows and columns of a layout: what straight cuts right across it, or along it, take apart."""

from collections.abc import Sequence
from operator import itemgetter

from .boxes import Spot


def in_groups(spots: Sequence[Spot], axis: int) -> list[list[Spot]]:
    """Return the columns (axis 0) or rows (axis 1): between two of them a cut goes right through."""
    start, size = 2 + axis, 4 + axis
    groups, end = list[list[Spot]](), 0
    for spot in sorted(spots, key=itemgetter(start)):
        if not groups or spot[start] >= end:
            groups.append([])
        groups[-1].append(spot)
        end = max(end, spot[start] + spot[size])
    return groups


def extent(spots: Sequence[Spot], axis: int) -> tuple[int, int]:
    """Return where some pieces begin and end along x (axis 0) or y (axis 1)."""
    return min(spot[2 + axis] for spot in spots), max(spot[2 + axis] + spot[4 + axis] for spot in spots)
