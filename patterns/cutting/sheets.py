"""Rectangles to be cut, the sheets they are cut from, and where each of them lies.

x runs across the width of a sheet from its left edge, y along its length from the cut end; both from 0.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import floor, lcm
from typing import NamedTuple

from .errors import CuttingError

# What a layout is looked for at once: more than any bag has, and few enough for a public page.
MOST_PIECES = 60
MOST_SHEETS = 24

# mm, exact; inside a search whole numbers of some small part of one.
Length = Fraction | int


class Part(NamedTuple):
    """A rectangle inside a piece: how far it lies from the piece's left and top, and its sides."""

    x: Length
    y: Length
    width: Length
    height: Length


# None of them lies on another.
Parts = tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A piece to be cut. turns: it may be turned by a quarter.

    is_full: all of it is cut. An outline leaves corners of its rectangle free, where others might lie.
    area: of an outline, how much of it is certainly cut, in squares; 0 where that is not known.
    parts: of an outline, choices of rectangles inside it, for bounds; see `inside`.
    """

    width: Length
    height: Length
    turns: bool = True
    is_full: bool = True
    area: Length = 0
    parts: tuple[Parts, ...] = field(default=(), compare=False)

    @property
    def certain_area(self) -> Length:
        return self.width * self.height if self.is_full else self.area

    @property
    def sides(self) -> tuple[tuple[Length, Length], ...]:
        """Its width and height in each way that it may lie, upright first."""
        if self.turns and self.width != self.height:
            return (self.width, self.height), (self.height, self.width)
        return ((self.width, self.height),)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A piece of cloth to cut from. width: across. height: along the length of the cloth."""

    width: Length
    height: Length

    def takes(self, width: Length, height: Length) -> bool:
        return width <= self.width and height <= self.height


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a piece lies. piece and sheet: their places in what was asked. width, height: as it lies."""

    piece: int
    sheet: int
    x: Length
    y: Length
    width: Length
    height: Length
    turned: bool


# One placement for each piece, in the order of the pieces.
Layout = tuple[Placement, ...]


@dataclass(frozen=True, slots=True)
class Whole:
    """A question in whole numbers: `parts` to a mm."""

    pieces: tuple[Rectangle, ...]
    sheets: tuple[Sheet, ...]
    parts: int

    def in_mm(self, layout: Layout) -> Layout:
        """Return a layout of these whole numbers in the lengths of the question."""
        return tuple(
            Placement(
                each.piece,
                each.sheet,
                Fraction(each.x) / self.parts,
                Fraction(each.y) / self.parts,
                Fraction(each.width) / self.parts,
                Fraction(each.height) / self.parts,
                each.turned,
            )
            for each in layout
        )


def in_whole_numbers(pieces: Sequence[Rectangle], sheets: Sequence[Sheet]) -> Whole:
    """Return a question in whole numbers: those of a small part of a mm that measures all lengths exactly.

    The area of an outline is rounded down.

    Raises CuttingError: more pieces or sheets than a layout is looked for at once.
    """
    if len(pieces) > MOST_PIECES or len(sheets) > MOST_SHEETS:
        raise CuttingError(
            f"A layout is looked for with at most {MOST_PIECES} pieces on {MOST_SHEETS} sheets; "
            f"these are {len(pieces)} on {len(sheets)}."
        )
    sides = [(each.width, each.height) for each in pieces] + [(each.width, each.height) for each in sheets]
    parts = lcm(*(side.denominator for pair in sides for side in pair))
    return Whole(
        tuple(
            Rectangle(
                int(each.width * parts),
                int(each.height * parts),
                each.turns,
                each.is_full,
                floor(each.area * parts**2),
            )
            for each in pieces
        ),
        tuple(Sheet(int(each.width * parts), int(each.height * parts)) for each in sheets),
        parts,
    )
