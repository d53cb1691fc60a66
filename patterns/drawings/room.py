"""The room that can be filled, to scale, its front left open: what is drawn below the things and over."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from typing import Protocol

from patterns.drafting.formulas.values import Measured
from patterns.drafting.things import RoundSpace, Solid, Space
from patterns.drafting.units import Units

from . import words
from .dimension import dimension
from .fills import Fabric, fill
from .geometry import Point, Spot, between, quarter_circle
from .labels import Block, Placed, TextLine, number_and_name
from .lines import Line, line
from .open_basket import VIEW
from .page import Placing
from .round_bucket import QUARTER, TILT
from .standing import Face, Oblique
from .tokens import QUIET_INK

# Page, micrometres. Narrow, so that its letters are still read where several stand side by side.
WIDTH = 84_000
MOST_HEIGHT = 72_000
NUMBER = 3900
NAME = 3000
EDGE = 1500
AWAY = 4200
SPACE = 2200
NOTHING = Fraction(0)

_FLOOR = Fabric("lining", lean="down", gap=2600)
_SHADED = Fabric("lining", is_shaded=True, lean="down")
_BACK = Fabric("lining", is_pale=True)


class Room(Protocol):
    """A room as it is drawn: mm, x to the right, y up, z away from the viewer.

    words: what it is, and its measures. seen_as: from where. across, up: how far it reaches on the page.
    """

    view: Oblique
    words: str
    seen_as: str

    @property
    def across(self) -> Fraction: ...

    @property
    def up(self) -> Fraction: ...

    def is_any(self) -> bool:
        """Whether there is a room at all."""

    def takes(self, block: Solid) -> bool:
        """Whether things in a block go in."""

    def start(self, block: Solid) -> Solid:
        """Return where the near lower left corner of a block stands: it is in the middle of the floor."""

    def scale(self) -> Fraction:
        """Return the largest scale, in micrometres for each mm, at which the room and all labels fit."""

    def labels(self, placing: Placing, foot: int) -> list[Placed]:
        """Return the labels of its measures, those below it at `foot`."""

    def measured(self, placing: Placing) -> Iterator[str]:
        """Its dimension lines."""

    def inside(self, placing: Placing) -> Iterator[str]:
        """What lies behind the things."""

    def front(self, placing: Placing) -> Iterator[str]:
        """The edges of the walls that are left open."""


def room_drawn(room: Space | RoundSpace, units: Units) -> Room:
    return RoundRoom(room, units) if isinstance(room, RoundSpace) else BoxRoom(room, units)


def _drawable(value: Measured) -> Fraction:
    """A length to draw; one without an end is taken to the nanometre above, so that the things stay in it."""
    return Fraction(round(value, 6)) + Fraction(1, 10**6) if isinstance(value, Decimal) else value


def _label(size: str, name: str) -> Block:
    return Block(
        (TextLine("inside", NAME, QUIET_INK), *number_and_name(words.label(size), name, NUMBER, NAME).lines)
    )


class BoxRoom:
    """A box; its front and right walls are open. Its near lower left corner is at 0."""

    view = VIEW
    seen_as = (
        "seen from the front and a little from above and from the right, its front and right walls left open"
    )

    def __init__(self, room: Space, units: Units) -> None:
        self.sides = Solid(*map(_drawable, room))
        sizes = [words.cutting(value, units) for value in room]
        self.words = f"The room inside, {' × '.join(sizes)}"
        self.width, self.height, self.depth = map(_label, sizes, room._fields)
        self.across = self.sides.width + self.sides.depth * VIEW.across
        self.up = self.sides.height + self.sides.depth * VIEW.up

    def is_any(self) -> bool:
        return min(self.sides) > 0

    def takes(self, block: Solid) -> bool:
        return all(edge <= side for edge, side in zip(block, self.sides, strict=True))

    def start(self, block: Solid) -> Solid:
        width, _, depth = self.sides
        return Solid((width - block.width) / 2, NOTHING, (depth - block.depth) / 2)

    def scale(self) -> Fraction:
        fixed = 2 * EDGE + self.height.width + SPACE + AWAY
        middle = self.sides.width + self.sides.depth * VIEW.across / 2
        in_width = (
            Fraction(WIDTH - fixed - AWAY) / self.across,
            Fraction(WIDTH - fixed - AWAY - self.depth.width - SPACE) / middle,
        )
        return min(*in_width, Fraction(MOST_HEIGHT) / self.up)

    def labels(self, placing: Placing, foot: int) -> list[Placed]:
        width, height, depth = self.sides
        across = self.width.at(placing.length(width) // 2, foot, "middle")
        level = placing.spot(Point(NOTHING, height / 2)).y - self.height.height // 2
        up = self.height.at(-AWAY - SPACE, level, "end")
        end = VIEW.point(width, NOTHING, depth)
        off = placing.spot(between(Point(width, NOTHING), end, Fraction(1, 2)))
        left = max(off.x + AWAY + SPACE // 2, across.box.right + SPACE)
        return [across, up, self.depth.at(left, off.y + SPACE // 8)]

    def measured(self, placing: Placing) -> Iterator[str]:
        width, height, depth = self.sides
        start = Point(NOTHING, NOTHING)
        for end, corner, away in (
            (Point(width, NOTHING), start, Spot(0, AWAY)),
            (Point(NOTHING, height), start, Spot(-AWAY, 0)),
            (VIEW.point(width, NOTHING, depth), Point(width, NOTHING), Spot(AWAY, 0)),
        ):
            yield from dimension(placing.spot(corner), placing.spot(end), away)

    def inside(self, placing: Placing) -> Iterator[str]:
        """The floor, the left wall and the back wall."""
        for face in (
            Face(self._corners((0, 0, 0), (1, 0, 0), (1, 0, 1), (0, 0, 1)), _FLOOR),
            Face(self._corners((0, 0, 0), (0, 0, 1), (0, 1, 1), (0, 1, 0)), _SHADED),
            Face(self._corners((0, 0, 1), (1, 0, 1), (1, 1, 1), (0, 1, 1)), _BACK),
        ):
            outline = placing.spots(face.outline)
            yield from fill(face.fabric, outline)
            yield line(Line.EDGE, *outline, is_closed=True)

    def front(self, placing: Placing) -> Iterator[str]:
        front = self._corners((0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0))
        side = self._corners((1, 0, 0), (1, 0, 1), (1, 1, 1), (1, 1, 0))
        yield line(Line.OUTLINE, *placing.spots(front), is_closed=True)
        yield line(Line.OUTLINE, *placing.spots(side), is_closed=True)

    def _corners(self, *corners: tuple[int, int, int]) -> tuple[Point, ...]:
        """Return corners of the room; 0 and 1 are the ends of its sides."""
        width, height, depth = self.sides
        return tuple(VIEW.point(x * width, y * height, z * depth) for x, y, z in corners)


# Seen straight from the front, as the bucket itself is.
ROUND_VIEW = Oblique(NOTHING, TILT)
_QUARTER = quarter_circle(QUARTER)
# On the circle of 1, from its left end through the foremost place to its right end; and the far half.
_NEAR = (*(Point(-x, -y) for x, y in _QUARTER), *(Point(x, -y) for x, y in reversed(_QUARTER[:-1])))
_FAR = tuple(Point(x, -y) for x, y in _NEAR)
# The light comes from the left: so many of the lines of the far half lie in the shade.
_IN_SHADE = 8


class RoundRoom:
    """A round room; the near half of its wall is open. Its left end is at x = 0, its front at z = 0."""

    view = ROUND_VIEW
    seen_as = "seen from the front and a little from above, the near half of its wall left open"

    def __init__(self, room: RoundSpace, units: Units) -> None:
        self.diameter, self.height = map(_drawable, room)
        sizes = [words.cutting(value, units) for value in room]
        self.words = f"The round room inside, {sizes[0]} across and {sizes[1]} high"
        self.wide, self.high = map(_label, sizes, room._fields)
        self.across = self.diameter
        self.up = self.height + self.diameter * TILT

    def is_any(self) -> bool:
        return min(self.diameter, self.height) > 0

    def takes(self, block: Solid) -> bool:
        return block.width**2 + block.depth**2 <= self.diameter**2 and block.height <= self.height

    def start(self, block: Solid) -> Solid:
        return Solid((self.diameter - block.width) / 2, NOTHING, (self.diameter - block.depth) / 2)

    def scale(self) -> Fraction:
        left = 2 * EDGE + self.high.width + SPACE + AWAY
        return min(Fraction(WIDTH - left - AWAY) / self.across, Fraction(MOST_HEIGHT) / self.up)

    def labels(self, placing: Placing, foot: int) -> list[Placed]:
        level = placing.spot(self._at(_NEAR[0], self.height / 2)).y - self.high.height // 2
        return [
            self.wide.at(placing.length(self.diameter) // 2, foot, "middle"),
            self.high.at(-AWAY - SPACE, level, "end"),
        ]

    def measured(self, placing: Placing) -> Iterator[str]:
        left = self._at(_NEAR[0], NOTHING)
        for start, end, away in (
            (Point(NOTHING, NOTHING), Point(self.diameter, NOTHING), Spot(0, AWAY)),
            (left, Point(left.x, left.y + self.height), Spot(-AWAY, 0)),
        ):
            yield from dimension(placing.spot(start), placing.spot(end), away)

    def inside(self, placing: Placing) -> Iterator[str]:
        """The floor and the far half of the wall, shaded on the left."""
        foot, rim = self._round(_FAR, NOTHING), self._round(_FAR, self.height)
        floor = placing.spots((*self._round(_NEAR, NOTHING), *reversed(foot[1:-1])))
        wall = placing.spots((*foot, *reversed(rim)))
        shade = placing.spots((*foot[: _IN_SHADE + 1], *reversed(rim[: _IN_SHADE + 1])))
        for fabric, outline in ((_FLOOR, floor), (_BACK, wall), (_SHADED, shade)):
            yield from fill(fabric, outline)
        yield line(Line.EDGE, *floor, is_closed=True)
        yield line(Line.EDGE, *wall, is_closed=True)

    def front(self, placing: Placing) -> Iterator[str]:
        outline = (*self._round(_NEAR, NOTHING), *reversed(self._round(_FAR, self.height)))
        yield line(Line.OUTLINE, *placing.spots(outline), is_closed=True)
        yield line(Line.OUTLINE, *placing.spots(self._round(_NEAR, self.height)))

    def _at(self, place: Point, up: Fraction) -> Point:
        """Return a place on the wall. place: on the circle of 1, y away from the viewer."""
        radius = self.diameter / 2
        return ROUND_VIEW.point(radius * (1 + place.x), up, radius * (1 + place.y))

    def _round(self, places: tuple[Point, ...], up: Fraction) -> tuple[Point, ...]:
        return tuple(self._at(place, up) for place in places)
