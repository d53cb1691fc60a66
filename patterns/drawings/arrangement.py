"""What goes in, standing in the room that can be filled: columns, layers and rows, to scale."""

import math
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from patterns.drafting.formulas.values import Measured
from patterns.drafting.holding_words import arranged_words, size_words
from patterns.drafting.things import Arrangement, Solid, Space
from patterns.drafting.units import Units

from . import words
from .dimension import dimension
from .errors import DrawingError
from .fills import Fabric, fill
from .geometry import Point, Spot, around, between
from .labels import Block, Placed, TextLine, number_and_name, wrapped
from .lines import Line, line, lines
from .open_basket import VIEW
from .page import Placing
from .standing import Face
from .svg import document, element, path_through
from .tokens import PAPER, QUIET_INK, RULE, SHEET

# Page, micrometres. Narrow, so that its letters are still read where several stand side by side.
WIDTH = 84_000
MOST_HEIGHT = 72_000
NUMBER = 3900
NAME = 3000
EDGE = 1500
AWAY = 4200
SPACE = 2200
# Edges of things that lie closer on the page than this would run together.
LEAST_APART = 450
NAMES = ("width", "height", "depth")
NOTHING = Fraction(0)


def arrangement_svg(title: str, room: Space, arrangement: Arrangement, count: int, units: Units) -> str:
    """Return the drawing of so many things in the room that can be filled, its front left open.

    The lower layers are full; the things of the top layer begin at the back.
    Raises DrawingError: there is no room, or the things are not in it.
    """
    lengths = Solid(*map(_drawable, room))
    counts = (arrangement.across, arrangement.high, arrangement.deep)
    if min(lengths) <= 0 or not 1 <= count <= arrangement.across * arrangement.high * arrangement.deep:
        raise DrawingError("There is nothing to draw: the things are not in the room.")
    if any(n * edge > side for n, edge, side in zip(counts, arrangement.thing, lengths, strict=True)):
        raise DrawingError("The things do not go into the room.")
    return _Picture(title, room, lengths, arrangement, count, units).svg()


def _drawable(value: Measured) -> Fraction:
    """A length to draw; one without an end is taken to the nanometre above, so that the things stay in it."""
    return Fraction(round(value, 6)) + Fraction(1, 10**6) if isinstance(value, Decimal) else value


class _Block(NamedTuple):
    """Things standing together without a gap. at: the left, lower, front corner, counted in things."""

    at: tuple[int, int, int]
    counts: tuple[int, int, int]


def _blocks(arrangement: Arrangement, count: int) -> Iterator[_Block]:
    """Yield the blocks that things make, in the order they are painted: lower ones and hinder ones first."""
    across, deep = arrangement.across, arrangement.deep
    layer = across * deep
    full = count // layer
    if full:
        yield _Block((0, 0, 0), (across, full, deep))
    rows, rest = divmod(count - full * layer, across)
    if rows:
        yield _Block((0, full, deep - rows), (across, 1, rows))
    if rest:
        yield _Block((0, full, deep - rows - 1), (rest, 1, 1))


class _Picture:
    def __init__(
        self,
        title: str,
        room: Space,
        lengths: Solid,
        arrangement: Arrangement,
        count: int,
        units: Units,
    ) -> None:
        self.arrangement, self.count, self.room = arrangement, count, lengths
        self.thing_words = size_words(arrangement.thing, units)
        self.title = f"{title}, {_things(count)} inside: {arranged_words(arrangement)}"
        sizes = [words.cutting(value, units) for value in room]
        self.room_words = " × ".join(sizes)
        self.width, self.height, self.depth = (
            Block(
                (
                    TextLine("inside", NAME, QUIET_INK),
                    *number_and_name(words.label(size), name, NUMBER, NAME).lines,
                )
            )
            for size, name in zip(sizes, NAMES, strict=True)
        )
        self.scale = self._scale()
        shares = (Fraction(1), Fraction(1), VIEW.up)
        self.every = [
            self._every(edge * share) for edge, share in zip(arrangement.thing, shares, strict=True)
        ]

    def _scale(self) -> Fraction:
        """Return the largest scale, in micrometres for each mm, at which the room and all labels fit."""
        width, height, depth = self.room
        fixed = 2 * EDGE + self.height.width + SPACE + AWAY
        middle = width + depth * VIEW.across / 2
        in_width = (
            Fraction(WIDTH - fixed - AWAY) / (width + depth * VIEW.across),
            Fraction(WIDTH - fixed - AWAY - self.depth.width - SPACE) / middle,
        )
        return min(*in_width, Fraction(MOST_HEIGHT) / (height + depth * VIEW.up))

    def _every(self, apart: Fraction) -> int:
        """Return for every how many things, so far apart, a line is drawn: lines must not run together."""
        return max(1, math.ceil(LEAST_APART / (apart * self.scale)))

    def at(self, x: Fraction, y: Fraction, z: Fraction) -> Point:
        return VIEW.point(x, y, z)

    def svg(self) -> str:
        width, height, depth = self.room
        ground = EDGE + round((height + depth * VIEW.up) * self.scale)
        labels = self._labels(Placing(self.scale, Spot(0, ground)), ground + AWAY + SPACE)
        used = around([label.box for label in labels])
        right = max(used.right, round((width + depth * VIEW.across) * self.scale) + AWAY)
        shift = (WIDTH - (right - used.left)) // 2 - used.left
        drop = max(0, EDGE - used.top)  # the label of a very low room is higher than the room
        placing = Placing(self.scale, Spot(shift, ground + drop))
        parts = [*self._measured(placing), *self._inside(placing)]
        for block in _blocks(self.arrangement, self.count):
            parts += self._drawn(block, placing)
        parts += self._front(placing)
        for label in labels:
            parts += label.moved(shift, drop).drawn()
        note = self._note().at(WIDTH // 2, used.bottom + drop + SPACE, "middle")
        parts += note.drawn()
        return document(WIDTH, note.box.bottom + EDGE, self.title, self._description(), parts)

    def _note(self) -> Block:
        texts = [
            f"{_things(self.count)}, each {words.label(self.thing_words)}",
            arranged_words(self.arrangement),
        ]
        if max(self.every) > 1:
            texts.append("edges too close to draw are left out")
        return Block(
            tuple(each for text in texts for each in wrapped(text, NAME, WIDTH - 2 * EDGE, QUIET_INK))
        )

    def _labels(self, placing: Placing, foot: int) -> list[Placed]:
        """Return the labels of the room's three measures, with its corner at 0 across the page."""
        width, height, depth = self.room
        across = self.width.at(placing.length(width) // 2, foot, "middle")
        level = placing.spot(Point(NOTHING, height / 2)).y - self.height.height // 2
        up = self.height.at(-AWAY - SPACE, level, "end")
        end = self.at(width, NOTHING, depth)
        off = placing.spot(between(Point(width, NOTHING), end, Fraction(1, 2)))
        left = max(off.x + AWAY + SPACE // 2, across.box.right + SPACE)
        return [across, up, self.depth.at(left, off.y + SPACE // 8)]

    def _measured(self, placing: Placing) -> Iterator[str]:
        width, height, depth = self.room
        start = Point(NOTHING, NOTHING)
        for end, corner, away in (
            (Point(width, NOTHING), start, Spot(0, AWAY)),
            (Point(NOTHING, height), start, Spot(-AWAY, 0)),
            (self.at(width, NOTHING, depth), Point(width, NOTHING), Spot(AWAY, 0)),
        ):
            yield from dimension(placing.spot(corner), placing.spot(end), away)

    def _inside(self, placing: Placing) -> Iterator[str]:
        """The floor, the left wall and the back wall."""
        width, height, depth = self.room
        at, none = self.at, NOTHING
        wall = Fabric("lining", is_shaded=True, lean="down")
        for face in (
            Face(
                (at(none, none, none), at(width, none, none), at(width, none, depth), at(none, none, depth)),
                Fabric("lining", lean="down", gap=2600),
            ),
            Face(
                (
                    at(none, none, none),
                    at(none, none, depth),
                    at(none, height, depth),
                    at(none, height, none),
                ),
                wall,
            ),
            Face(
                (
                    at(none, none, depth),
                    at(width, none, depth),
                    at(width, height, depth),
                    at(none, height, depth),
                ),
                Fabric("lining", is_pale=True),
            ),
        ):
            outline = placing.spots(face.outline)
            yield from fill(face.fabric, outline)
            yield line(Line.EDGE, *outline, is_closed=True)

    def _front(self, placing: Placing) -> Iterator[str]:
        """The edges of the walls that are left open: the front and the right one."""
        width, height, depth = self.room
        at, none = self.at, NOTHING
        front = (at(none, none, none), at(width, none, none), at(width, height, none), at(none, height, none))
        side = (
            at(width, none, none),
            at(width, none, depth),
            at(width, height, depth),
            at(width, height, none),
        )
        yield line(Line.OUTLINE, *placing.spots(front), is_closed=True)
        yield line(Line.OUTLINE, *placing.spots(side), is_closed=True)

    def _drawn(self, block: _Block, placing: Placing) -> Iterator[str]:
        """The three faces of a block that are seen, with the edges of its things."""
        low, high = self._corners(block)
        (x0, y0, z0), (x1, y1, z1) = low, high
        across, up, deep = (self._edges(block, side) for side in range(3))
        at = self.at
        yield from self._face(
            placing,
            SHEET,
            (at(x0, y0, z0), at(x1, y0, z0), at(x1, y1, z0), at(x0, y1, z0)),
            [
                *((at(x, y0, z0), at(x, y1, z0)) for x in across),
                *((at(x0, y, z0), at(x1, y, z0)) for y in up),
            ],
        )
        yield from self._face(
            placing,
            PAPER,
            (at(x0, y1, z0), at(x1, y1, z0), at(x1, y1, z1), at(x0, y1, z1)),
            [
                *((at(x, y1, z0), at(x, y1, z1)) for x in across),
                *((at(x0, y1, z), at(x1, y1, z)) for z in deep),
            ],
        )
        yield from self._face(
            placing,
            RULE,
            (at(x1, y0, z0), at(x1, y0, z1), at(x1, y1, z1), at(x1, y1, z0)),
            [*((at(x1, y, z0), at(x1, y, z1)) for y in up), *((at(x1, y0, z), at(x1, y1, z)) for z in deep)],
        )

    def _corners(self, block: _Block) -> tuple[Solid, Solid]:
        """The near and the far corner of a block; the things stand in the middle of the floor."""
        thing, grid = (
            self.arrangement.thing,
            (self.arrangement.across, self.arrangement.high, self.arrangement.deep),
        )
        spare = [side - n * edge for side, n, edge in zip(self.room, grid, thing, strict=True)]
        start = (spare[0] / 2, NOTHING, spare[2] / 2)
        near = [from_ + n * edge for from_, n, edge in zip(start, block.at, thing, strict=True)]
        far = [from_ + n * edge for from_, n, edge in zip(near, block.counts, thing, strict=True)]
        return Solid(*near), Solid(*far)

    def _edges(self, block: _Block, side: int) -> list[Fraction]:
        """Where one thing ends and the next begins, as far as it can be drawn."""
        start, edge = self._corners(block)[0][side], self.arrangement.thing[side]
        return [start + n * edge for n in range(self.every[side], block.counts[side], self.every[side])]

    def _face(
        self, placing: Placing, ground: str, outline: tuple[Point, ...], edges: list[tuple[Point, Point]]
    ) -> Iterator[str]:
        corners = placing.spots(outline)
        yield element("path", (("d", path_through(corners, is_closed=True)), ("fill", ground)))
        if edges:
            yield lines(Line.MARK, [placing.spots(edge) for edge in edges])
        yield line(Line.EDGE, *corners, is_closed=True)

    def _description(self) -> str:
        return (
            f"The room inside, {self.room_words}, to scale, seen from the front and a little from above and "
            f"from the right, its front and right walls left open. Each thing lies as {self.thing_words}."
        )


def _things(count: int) -> str:
    return f"{count:,} things" if count > 1 else "1 thing"
