"""What goes in, standing in the room that can be filled, a box or round: columns, layers, rows, to scale."""

import math
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from patterns.drafting.holding_words import arranged_words, size_words
from patterns.drafting.things import Arrangement, RoundSpace, Solid, Space
from patterns.drafting.units import Units

from . import words
from .errors import DrawingError
from .geometry import Point, Spot, around
from .labels import Block, wrapped
from .lines import Line, line, lines
from .page import Placing
from .room import AWAY, EDGE, NAME, SPACE, WIDTH, Room, room_drawn
from .svg import document, element, path_through
from .tokens import PAPER, QUIET_INK, RULE, SHEET

# Edges of things that lie closer on the page than this would run together.
LEAST_APART = 450


def arrangement_svg(
    title: str, room: Space | RoundSpace, arrangement: Arrangement, count: int, units: Units
) -> str:
    """Return the drawing of so many things in the room that can be filled, its front left open.

    The lower layers are full; the things of the top layer begin at the back.
    Raises DrawingError: there is no room, or the things are not in it.
    """
    drawn = room_drawn(room, units)
    counts = (arrangement.across, arrangement.high, arrangement.deep)
    if not drawn.is_any() or not 1 <= count <= arrangement.across * arrangement.high * arrangement.deep:
        raise DrawingError("There is nothing to draw: the things are not in the room.")
    block = Solid(*(n * edge for n, edge in zip(counts, arrangement.thing, strict=True)))
    if not drawn.takes(block):
        raise DrawingError("The things do not go into the room.")
    return _Picture(title, drawn, drawn.start(block), arrangement, count, units).svg()


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
    """start: where the near lower left corner of the things stands."""

    def __init__(
        self, title: str, room: Room, start: Solid, arrangement: Arrangement, count: int, units: Units
    ) -> None:
        self.room, self.start, self.arrangement, self.count = room, start, arrangement, count
        self.thing_words = size_words(arrangement.thing, units)
        self.title = f"{title}, {_things(count)} inside: {arranged_words(arrangement)}"
        self.scale = room.scale()
        shares = (Fraction(1), Fraction(1), room.view.up)
        self.every = [
            self._every(edge * share) for edge, share in zip(arrangement.thing, shares, strict=True)
        ]

    def _every(self, apart: Fraction) -> int:
        """Return for every how many things, so far apart, a line is drawn: lines must not run together."""
        return max(1, math.ceil(LEAST_APART / (apart * self.scale)))

    def at(self, x: Fraction, y: Fraction, z: Fraction) -> Point:
        return self.room.view.point(x, y, z)

    def svg(self) -> str:
        ground = EDGE + round(self.room.up * self.scale)
        labels = self.room.labels(Placing(self.scale, Spot(0, ground)), ground + AWAY + SPACE)
        used = around([label.box for label in labels])
        right = max(used.right, round(self.room.across * self.scale) + AWAY)
        shift = (WIDTH - (right - used.left)) // 2 - used.left
        drop = max(0, EDGE - used.top)  # the label of a very low room is higher than the room
        placing = Placing(self.scale, Spot(shift, ground + drop))
        parts = [*self.room.measured(placing), *self.room.inside(placing)]
        for block in _blocks(self.arrangement, self.count):
            parts += self._drawn(block, placing)
        parts += self.room.front(placing)
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

    def _drawn(self, block: _Block, placing: Placing) -> Iterator[str]:
        """The faces of a block that are seen, with the edges of its things."""
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
        if not self.room.view.across:
            return  # straight from the front, nothing is seen of the right
        yield from self._face(
            placing,
            RULE,
            (at(x1, y0, z0), at(x1, y0, z1), at(x1, y1, z1), at(x1, y1, z0)),
            [*((at(x1, y, z0), at(x1, y, z1)) for y in up), *((at(x1, y0, z), at(x1, y1, z)) for z in deep)],
        )

    def _corners(self, block: _Block) -> tuple[Solid, Solid]:
        """The near and the far corner of a block."""
        thing = self.arrangement.thing
        near = [from_ + n * edge for from_, n, edge in zip(self.start, block.at, thing, strict=True)]
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
        return f"{self.room.words}, to scale, {self.room.seen_as}. Each thing lies as {self.thing_words}."


def _things(count: int) -> str:
    return f"{count:,} things" if count > 1 else "1 thing"
