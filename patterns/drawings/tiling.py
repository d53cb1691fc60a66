"""A drawing at full size over sheets of paper: how many it needs, where each lies, what each is called.

A sheet shows a window of the drawing. Sheets beside and under one another share a strip, along which they
are glued. All is whole micrometres, x to the right and y down, as on a page.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from .geometry import Box, Spot, around

# What two sheets beside each other both show.
OVERLAP = 10_000
# Round a drawing, so that the whole width of its outermost line is on paper.
AIR = 500
# Between two pieces on one sheet: room for scissors.
GAP = 5_000
# Where a drawing may begin within the grid of its sheets, in quarters of what the grid has to spare: first in
# the middle, so that no sheet shows a sliver.
SHARES = (2, 0, 4, 1, 3)
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


class Window(NamedTuple):
    """What of a drawing one sheet shows."""

    width: int
    height: int

    @property
    def turned(self) -> "Window":
        return Window(self.height, self.width)


class Tile(NamedTuple):
    """One sheet: its row and its column in the grid, from 0, and the part of the drawing that it shows."""

    row: int
    column: int
    box: Box


@dataclass(frozen=True, slots=True)
class Tiling:
    """The sheets of one drawing, row by row.

    window: as it lies over the drawing. is_turned: the sheets lie a quarter turned over the drawing.
    """

    window: Window
    is_turned: bool
    tiles: tuple[Tile, ...]

    @property
    def box(self) -> Box:
        """All that the sheets show."""
        return around(tile.box for tile in self.tiles)

    def beside(self, tile: Tile, down: int, across: int) -> Tile | None:
        """Return the sheet so many rows down and columns to the right of another, if there is one."""
        wanted = tile.row + down, tile.column + across
        return next((each for each in self.tiles if (each.row, each.column) == wanted), None)


def tiled(outline: Sequence[Spot], windows: Sequence[Window]) -> Tiling:
    """Return the fewest sheets that show all that a closed line encloses, and the line itself.

    outline: n ≥ 3 corners, no edges crossing. windows: those that the paper offers; the sheets are all of
    one, upright or a quarter turned. Of ways with equally few sheets the first is taken: the first window,
    upright, the drawing in the middle of the grid.
    A sheet is left out if nothing of the drawing is on it but what its neighbours show too.
    """
    found: Tiling | None = None
    for window in windows:
        for is_turned in (False, True):
            laid = window.turned if is_turned else window
            for tiles in _grids(outline, laid):
                if found is None or len(tiles) < len(found.tiles):
                    found = Tiling(laid, is_turned, tiles)
    assert found is not None  # there is a window, and it has a grid
    return found


def _grids(outline: Sequence[Spot], window: Window) -> Iterator[tuple[Tile, ...]]:
    """Yield the grids of a window, each without the sheets that are not needed."""
    box = around(Box(*spot, *spot) for spot in outline).grown(AIR)
    columns, rows = _count(box.width, window.width), _count(box.height, window.height)
    spare_across = window.width + (columns - 1) * (window.width - OVERLAP) - box.width
    spare_down = window.height + (rows - 1) * (window.height - OVERLAP) - box.height
    # A grid of one row or column has all its sheets wherever the drawing begins.
    is_full = columns == 1 or rows == 1
    for across in SHARES[:1] if is_full else SHARES:
        for down in SHARES[:1] if is_full else SHARES:
            corner = Spot(_begin(box.left, spare_across, across), _begin(box.top, spare_down, down))
            yield tuple(_needed(outline, window, corner, Spot(columns, rows)))


def _begin(first: int, spare: int, share: int) -> int:
    """Return where a grid begins before a drawing: at a whole millimetre wherever it has that to spare."""
    whole = (first - spare * share // 4) // 1000 * 1000
    return min(max(whole, first - spare), first)


def _count(length: int, window: int) -> int:
    """Return how many windows in a row show a length."""
    return max(-(-(length - OVERLAP) // (window - OVERLAP)), 1)


def _needed(outline: Sequence[Spot], window: Window, corner: Spot, count: Spot) -> Iterator[Tile]:
    for row in range(count.y):
        for column in range(count.x):
            left = corner.x + column * (window.width - OVERLAP)
            top = corner.y + row * (window.height - OVERLAP)
            box = Box(left, top, left + window.width, top + window.height)
            # The strips at the right and at the bottom are shown by the next sheets as well.
            own = Box(
                left,
                top,
                box.right - (OVERLAP if column + 1 < count.x else 0),
                box.bottom - (OVERLAP if row + 1 < count.y else 0),
            )
            if meets(outline, own.grown(AIR)):
                yield Tile(row, column, box)


def meets(outline: Sequence[Spot], box: Box) -> bool:
    """Return whether what a closed line encloses shares more than an edge with a box.

    Source: the clipping of a polygon by one side of a box after the other (Sutherland and Hodgman, 1974),
    and the area of what is left; where it runs along a side of the box to and fro it encloses nothing.
    """
    left = [*outline]
    for axis, bound, sign in ((0, box.left, 1), (0, box.right, -1), (1, box.top, 1), (1, box.bottom, -1)):
        left = _clipped(left, axis, bound, sign)
    twice = sum(one.x * other.y - other.x * one.y for one, other in pairwise([*left, *left[:1]]))
    return twice != 0


def _clipped(spots: Sequence[Spot], axis: int, bound: int, sign: int) -> list[Spot]:
    """Return what of a closed line lies on one side of an upright (axis 0) or a level line."""
    kept: list[Spot] = []
    for was, here in zip((*spots[-1:], *spots[:-1]), spots, strict=True):
        if (sign * was[axis] < sign * bound) != (sign * here[axis] < sign * bound):
            other = 1 - axis
            met = was[other] + (here[other] - was[other]) * (bound - was[axis]) // (here[axis] - was[axis])
            kept.append(Spot(bound, met) if axis == 0 else Spot(met, bound))
        if sign * here[axis] >= sign * bound:
            kept.append(here)
    return kept


def letters(row: int) -> str:
    """Return the name of a row, from 0.

    >>> letters(0), letters(25), letters(26)
    ('A', 'Z', 'AA')
    """
    before, place = divmod(row, len(LETTERS))
    return (letters(before - 1) if before else "") + LETTERS[place]


class Placement(NamedTuple):
    """Where a piece lies. which: its place in the list. It turns as a clock's hand in 3 hours."""

    which: int
    at: Spot
    is_turned: bool


def packed(sizes: Sequence[Window], room: Window, is_long: bool = False) -> tuple[tuple[Placement, ...], ...]:
    """Return rectangles laid into as few rooms as are found, GAP between them, a list for each room.

    Each of them fits the room, as it stands or turned. Three ways are tried, all as they are, all lying, all
    standing, and the first with the fewest rooms is taken. is_long: the rooms end where their pieces end, so
    that of ways with equally few rooms the shortest is taken.
    Source: shelves, the highest first (Coffman, Garey, Johnson and Tarjan, 1980), from memory.
    """
    ways = [_on_shelves(sizes, room, way) for way in (0, 1, -1)]
    return min(ways, key=lambda rooms: (len(rooms), _height(rooms[-1], sizes) if rooms and is_long else 0))


def fits(size: Window, room: Window) -> bool:
    """Whether a rectangle goes into a room as it stands."""
    return size.width <= room.width and size.height <= room.height


def _height(placements: Sequence[Placement], sizes: Sequence[Window]) -> int:
    return max(
        each.at.y + (sizes[each.which].width if each.is_turned else sizes[each.which].height)
        for each in placements
    )


def _turns(size: Window, room: Window, way: int) -> bool:
    """Whether a rectangle is to be turned. way: 0 as it is, 1 lying, -1 standing, wherever that fits."""
    wanted = way * (size.height - size.width) > 0
    return wanted if fits(size.turned if wanted else size, room) else not wanted


@dataclass(slots=True)
class _Shelf:
    room: int
    top: int
    height: int
    used: int


def _on_shelves(sizes: Sequence[Window], room: Window, way: int) -> tuple[tuple[Placement, ...], ...]:
    laid = [(size.turned if _turns(size, room, way) else size) for size in sizes]
    shelves: list[_Shelf] = []
    rooms: list[list[Placement]] = []
    for which in sorted(range(len(laid)), key=lambda which: (-laid[which].height, which)):
        size = laid[which]
        shelf = next(
            (each for each in shelves if size.height <= each.height and each.used + size.width <= room.width),
            None,
        ) or _new_shelf(shelves, size, room)
        if shelf.room == len(rooms):
            rooms.append([])
        rooms[shelf.room].append(Placement(which, Spot(shelf.used, shelf.top), size != sizes[which]))
        shelf.used += size.width + GAP
    return tuple(map(tuple, rooms))


def _new_shelf(shelves: list[_Shelf], size: Window, room: Window) -> _Shelf:
    """Add a shelf under the others of a room, or in a new room."""
    foot = {each.room: each.top + each.height + GAP for each in shelves}
    place = next((number for number, top in foot.items() if top + size.height <= room.height), len(foot))
    shelf = _Shelf(place, foot.get(place, 0), size.height, 0)
    shelves.append(shelf)
    return shelf
