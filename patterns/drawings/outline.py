"""The outline of a piece on the page: its path with true curves, and where it is at any level."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from patterns.drafting.outlines import Corner, Turn
from patterns.drafting.sized import SizedPiece

from .errors import DrawingError
from .geometry import Box, Point, Spot, around, quarter_circle
from .page import Placing, exact
from .svg import way_round

# A curve in so many straight lines, where its path will not do: on a page nobody sees a corner.
QUARTER = 24
# The room beside an outline is covered by boxes in so many levels.
LEVELS = 40

_CIRCLE = quarter_circle(QUARTER)[1:-1]


@dataclass(frozen=True)
class Outline:
    """A closed line on the page. corners: where each of its edges goes, and to which side it bends."""

    corners: tuple[tuple[Spot, Turn | None], ...]

    @cached_property
    def path(self) -> str:
        """Path data, with curves as curves."""
        return way_round(self.corners)

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        """The outline by straight lines only."""
        found: list[Spot] = []
        for place, (spot, turn) in enumerate(self.corners):
            found += [*_curve(self.corners[place - 1][0], spot, turn), spot]
        return tuple(found)

    @cached_property
    def box(self) -> Box:
        return around([Box(*spot, *spot) for spot in self.spots])

    def across(self, level: int) -> list[tuple[int, int]]:
        """Return from where to where the outline is crossed at a level of the page, left to right."""
        return _crossed(self.spots, level)

    def down(self, upright: int) -> list[tuple[int, int]]:
        """Return from where to where it is crossed along an upright line, top to bottom."""
        return _crossed([Spot(spot.y, spot.x) for spot in self.spots], upright)

    @cached_property
    def outside(self) -> tuple[Box, ...]:
        """Boxes that cover what of the outline's box lies outside the outline; a rectangle has none."""
        box, found = self.box, list[Box]()
        if {spot for spot, _ in self.corners} == {*_corners(box)}:
            return ()
        for step in range(LEVELS):
            top, bottom = (box.top + box.height * each // LEVELS for each in (step, step + 1))
            begins, ends = box.left, box.right
            for level in (top, (top + bottom) // 2, bottom):
                ways = self.across(level)
                begins = max([begins, *(way[0] for way in ways[:1])])
                ends = min([ends, *(way[1] for way in ways[-1:])])
            found += [Box(box.left, top, begins, bottom)] if begins > box.left else []
            found += [Box(ends, top, box.right, bottom)] if ends < box.right else []
        return tuple(found)


def _corners(box: Box) -> Iterator[Spot]:
    yield from (Spot(box.left, box.top), Spot(box.right, box.top))
    yield from (Spot(box.right, box.bottom), Spot(box.left, box.bottom))


def _curve(start: Spot, end: Spot, turn: Turn | None) -> Iterator[Spot]:
    """Yield the places of a quarter circle between its ends; none of a straight edge."""
    if turn is None:
        return
    across, down = end.x - start.x, end.y - start.y
    begins_level = (across * down > 0) == (turn == "right")
    for left, gone in _CIRCLE:
        # The way that it leaves first is nearly gone when the other has hardly begun.
        x, y = (gone, 1 - left) if begins_level else (1 - left, gone)
        yield Spot(start.x + round(across * x), start.y + round(down * y))


def _crossed(spots: Sequence[Spot], level: int) -> list[tuple[int, int]]:
    """Return from where to where a closed line is crossed at a level; at its very top or bottom, along it."""
    met = []
    for place, here in enumerate(spots):
        was = spots[place - 1]
        if (was.y < level) != (here.y < level):
            met.append(was.x + (here.x - was.x) * (level - was.y) // (here.y - was.y))
    met.sort()
    if not met:
        there = [spot.x for spot in spots if spot.y == level]
        return [(min(there), max(there))] if there else []
    return list(zip(met[::2], met[1::2], strict=True))


def outline_of(piece: SizedPiece, placing: Placing) -> Outline:
    """Return the outline of a piece whose top left corner is the origin of `placing`.

    Raises DrawingError: a corner has no place at this size.
    """
    return laid_outline(corners_of(piece), placing)


def corners_of(piece: SizedPiece) -> tuple[Corner, ...]:
    """Return the corners of a piece. Raises DrawingError: one of them has no place at this size."""
    if not piece.corners:
        raise DrawingError(f"The outline of the {piece.name} has no value at this size.")
    return piece.corners


def laid_outline(corners: Sequence[Corner], placing: Placing) -> Outline:
    return Outline(
        tuple(
            (placing.spot(Point(exact(corner.across), -exact(corner.down))), corner.arc) for corner in corners
        )
    )
