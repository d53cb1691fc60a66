"""Regions of a grid of cells: their outlines, the lines between two of them, hatch and dots inside."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from .geometry import Spot

# A row of cells from the bottom up, in it one for each column from the left.
Mask = Sequence[Sequence[bool]]
# A corner of cells: how many columns are left of it, how many rows below it.
Corner = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Lattice:
    """Where the edges of the cells lie on the page. lefts: from left to right. levels: from the bottom up."""

    lefts: tuple[int, ...]
    levels: tuple[int, ...]

    def spot(self, corner: Corner) -> Spot:
        return Spot(self.lefts[corner[0]], self.levels[corner[1]])


def outlines(mask: Mask, lattice: Lattice) -> list[tuple[Spot, ...]]:
    """Return the closed lines round a region and its holes, the first spot not repeated."""
    return [way[:-1] for way in _ways(_edges(mask, lambda column, row: True), lattice)]


def seams(mask: Mask, beyond: Mask, lattice: Lattice) -> list[tuple[Spot, ...]]:
    """Return the lines where a region meets the cells beyond; the region lies left of each as it runs.

    A line that closes comes back to its first spot.
    """

    def is_beyond(column: int, row: int) -> bool:
        inside = 0 <= row < len(beyond) and 0 <= column < len(beyond[0])
        return inside and beyond[row][column]

    return _ways(_edges(mask, is_beyond), lattice)


def _edges(mask: Mask, is_beyond: Callable[[int, int], bool]) -> Iterator[tuple[Corner, Corner]]:
    """Yield the edges between a cell of the region and a cell beyond it, anticlockwise round the former."""
    height, width = len(mask), len(mask[0])

    def is_in(column: int, row: int) -> bool:
        return 0 <= row < height and 0 <= column < width and mask[row][column]

    for row in range(height):
        for column in range(width):
            if mask[row][column]:
                low_left, low_right = (column, row), (column + 1, row)
                high_right, high_left = (column + 1, row + 1), (column, row + 1)
                for neighbour, edge in (
                    ((column, row - 1), (low_left, low_right)),
                    ((column + 1, row), (low_right, high_right)),
                    ((column, row + 1), (high_right, high_left)),
                    ((column - 1, row), (high_left, low_left)),
                ):
                    if not is_in(*neighbour) and is_beyond(*neighbour):
                        yield edge


def _ways(edges: Iterable[tuple[Corner, Corner]], lattice: Lattice) -> list[tuple[Spot, ...]]:
    """Join edges end to end: open ways first from where nothing arrives, then what goes round."""
    leaving: dict[Corner, list[Corner]] = {}
    arriving: dict[Corner, int] = {}
    for start, end in edges:
        leaving.setdefault(start, []).append(end)
        arriving[end] = arriving.get(end, 0) + 1
    open_starts = [start for start, ends in leaving.items() if len(ends) > arriving.get(start, 0)]
    ways = []
    for start in (*open_starts, *list(leaving)):
        while leaving.get(start):
            ways.append(_straightened(_walk(start, leaving)))
    return [tuple(map(lattice.spot, way)) for way in ways]


def _walk(start: Corner, leaving: dict[Corner, list[Corner]]) -> list[Corner]:
    way = [start]
    while leaving.get(way[-1]):
        way.append(leaving[way[-1]].pop())
        if way[-1] == start:
            break
    return way


def _straightened(way: Sequence[Corner]) -> list[Corner]:
    """Leave out the corners at which a way goes straight on."""
    is_closed = way[0] == way[-1]
    kept = [way[0]]
    for before, here, after in zip(way, way[1:], way[2:], strict=False):
        if not (before[0] == here[0] == after[0] or before[1] == here[1] == after[1]):
            kept.append(here)
    kept.append(way[-1])
    if is_closed and len(kept) > 3:
        first, second, last = kept[0], kept[1], kept[-2]
        if last[0] == first[0] == second[0] or last[1] == first[1] == second[1]:
            kept = [*kept[1:-1], kept[1]]
    return kept


def hatch(loops: Sequence[Sequence[Spot]], gap: int, slope: int) -> list[tuple[Spot, Spot]]:
    """Return the parts inside of slanting lines. loops: closed, their edges level or upright.

    gap: along the page's edge, from line to line. slope: 1 rises to the right, −1 falls.
    """

    def level_of(spot: Spot) -> int:
        return spot.x + slope * spot.y

    return [
        (Spot(left, slope * (level - left)), Spot(right, slope * (level - right)))
        for level, crossings in _crossed(loops, gap, level_of)
        for left, right in _pairs(
            here.x if here.x == after.x else level - slope * here.y for here, after in crossings
        )
    ]


def rows(loops: Sequence[Sequence[Spot]], gap: int) -> list[tuple[Spot, Spot]]:
    """Return the parts inside of level lines. loops, gap: as for `hatch`."""
    return [
        (Spot(left, level), Spot(right, level))
        for level, crossings in _crossed(loops, gap, lambda spot: spot.y)
        for left, right in _pairs(here.x for here, _ in crossings)
    ]


_Edge = tuple[Spot, Spot]


def _crossed(
    loops: Sequence[Sequence[Spot]], gap: int, level_of: Callable[[Spot], int]
) -> Iterator[tuple[int, list[_Edge]]]:
    """Yield each level with the edges that it crosses. An end on the level itself counts as above it."""
    by_level: dict[int, list[_Edge]] = {}
    for loop in loops:
        for here, after in pairwise([*loop, loop[0]]):
            low, high = sorted((level_of(here), level_of(after)))
            for level in range(low // gap * gap + gap, high + 1, gap):
                by_level.setdefault(level, []).append((here, after))
    yield from sorted(by_level.items())


def _pairs(places: Iterable[int]) -> list[tuple[int, int]]:
    """Return where a line goes in and comes out, again and again."""
    ordered = sorted(places)
    return [pair for pair in zip(ordered[::2], ordered[1::2], strict=True) if pair[0] < pair[1]]
