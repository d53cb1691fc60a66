"""Cloths lying flat in their places on the page, and what is fused to them."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.strips import Line as Mark
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Point, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.page import LIFE_SIZE, Placing

from .board import MOST_HEIGHT, WIDTH, Board
from .patches import corners_of

BESIDE = 12_500
OVER = 4500
AWAY = 1900
# Of several pieces, one under the other: how far apart.
BETWEEN = 1800


@dataclass(frozen=True, slots=True)
class Laid:
    """A cloth in its place on the page."""

    strip: Strip
    placing: Placing

    def spot(self, across: Fraction, along: Fraction) -> Spot:
        return self.placing.spot(Point(across, -along))

    @property
    def box(self) -> Box:
        return Box(*self.spot(Fraction(0), Fraction(0)), *self.spot(self.strip.width, self.strip.length))

    def ends(self, mark: Mark) -> tuple[Spot, Spot]:
        zero = Fraction(0)
        if mark.place is not None:
            if mark.across is not None:
                return (self.spot(mark.across, mark.place),) * 2
            end = self.strip.width if mark.end is None else mark.end
            return self.spot(mark.start or zero, mark.place), self.spot(end, mark.place)
        end = self.strip.length if mark.end is None else mark.end
        return self.spot(mark.across or zero, mark.start or zero), self.spot(mark.across or zero, end)


def lay(strip: Strip, under: int) -> Laid:
    """Return a cloth in its place. under: room that is kept free below it."""
    room = MOST_HEIGHT - OVER - under
    scale = min(Fraction(WIDTH - 2 * BESIDE) / strip.width, Fraction(room) / strip.length, LIFE_SIZE)
    left = (WIDTH - round(strip.width * scale)) // 2
    return Laid(strip, Placing(scale, Spot(left, OVER)))


def lay_under_each_other(strips: Sequence[Strip], under: int) -> list[Laid]:
    """Return cloths in their places, one under the other, at one scale."""
    room = MOST_HEIGHT - OVER - under - (len(strips) - 1) * BETWEEN
    wide, long = max(strip.width for strip in strips), sum(strip.length for strip in strips)
    scale = min(Fraction(WIDTH - 2 * BESIDE) / wide, Fraction(room) / long, LIFE_SIZE)
    found, top = [], OVER
    for strip in strips:
        left = (WIDTH - round(strip.width * scale)) // 2
        found.append(Laid(strip, Placing(scale, Spot(left, top))))
        top = found[-1].box.bottom + BETWEEN
    return found


def ground(board: Board, laid: Laid, is_pale: bool = True) -> None:
    """Draw a cloth with its edge, and the seams that join its halves."""
    corners = corners_of(laid.box)
    board.draw(fill(Fabric(laid.strip.tint, is_pale=is_pale, gap=2600), corners))
    board.draw([line(Line.CUT, *corners, is_closed=True)])
    for start, end in pairwise((*corners, corners[0])):
        board.keep_clear(start, end)
    for join in laid.strip.joins:
        ends = laid.spot(Fraction(0), join), laid.spot(laid.strip.width, join)
        board.draw([line(Line.SEAM, *ends)])
        board.keep_clear(*ends)


def glued(board: Board, laid: Laid) -> None:
    """Draw what is fused to a cloth."""
    strip = laid.strip
    assert strip.fused is not None
    _, across, along, rest = strip.fused
    corner, far = laid.spot(across, along), laid.spot(strip.width - across, strip.length - rest)
    inner = Box(*corner, *far)
    board.draw(fill(Fabric("interfacing"), corners_of(inner)))
    board.draw([line(Line.EDGE, *corners_of(inner), is_closed=True)])
    board.say("glue side down", inner.middle, is_needed=False, within=inner)


def free_of(strip: Strip, units: Units) -> str:
    """Return in words how much of a cloth stays free of what is fused to it."""
    assert strip.fused is not None
    sides, first, last = (words.cutting(length, units) for length in strip.fused[1:])
    return f"{sides} of the cloth stays free at each side, {first} above and {last} below."
