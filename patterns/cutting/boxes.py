"""Boxes of pieces that lie edge to edge: two boxes side by side, or one above the other, make a larger one.

In whole numbers. Every layout that straight cuts take apart is such a box, pushed to the left and down.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from math import gcd, lcm
from typing import NamedTuple, Optional

from .sheets import Layout, Length, Placement, Rectangle


class Kind(NamedTuple):
    """Pieces that are equal, so many copies. sides: width and height in each way that one may lie."""

    sides: tuple[tuple[int, int], ...]
    copies: int

    @property
    def area(self) -> int:
        return self.sides[0][0] * self.sides[0][1]


class Box(NamedTuple):
    """A box. cuts: those that take it apart. One of a single piece has its kind, and no parts."""

    width: int
    height: int
    cuts: int
    first: Optional["Box"]
    second: Optional["Box"]
    is_beside: bool
    kind: int


class Spot(NamedTuple):
    """Where a piece of a kind lies."""

    kind: int
    sheet: int
    x: int
    y: int
    width: int
    height: int


def spots_of(box: Box, sheet: int = 0, x: int = 0, y: int = 0) -> Iterator[Spot]:
    """Yield where the pieces of a box lie, its lower left corner at x, y."""
    waiting = [(box, x, y)]
    while waiting:
        each, left, low = waiting.pop()
        if each.first is None or each.second is None:
            yield Spot(each.kind, sheet, left, low, each.width, each.height)
            continue
        waiting.append((each.first, left, low))
        if each.is_beside:
            waiting.append((each.second, left + each.first.width, low))
        else:
            waiting.append((each.second, left, low + each.first.height))


@dataclass(frozen=True, slots=True)
class Kinds:
    """Pieces by kind, in whole numbers: `part` of a mm is one. numbers: of the pieces of each kind."""

    kinds: tuple[Kind, ...]
    numbers: tuple[tuple[int, ...], ...]
    part: Fraction
    pieces: tuple[Rectangle, ...]

    def whole(self, length: Length) -> int:
        """Return a length in whole numbers, rounded down: a search may use that much of it."""
        return int(length // self.part)

    @property
    def area(self) -> int:
        return sum(kind.area * kind.copies for kind in self.kinds)

    def layout(self, spots: Sequence[Spot]) -> Layout:
        """Return where each piece lies, in mm; equal pieces in reading order."""
        left = [list(reversed(numbers)) for numbers in self.numbers]
        placed = {}
        for spot in sorted(spots, key=lambda each: (each.sheet, each.y, each.x)):
            number = left[spot.kind].pop()
            width, height = spot.width * self.part, spot.height * self.part
            turned = (width, height) != (self.pieces[number].width, self.pieces[number].height)
            placed[number] = Placement(
                number, spot.sheet, spot.x * self.part, spot.y * self.part, width, height, turned
            )
        return tuple(placed[number] for number in range(len(self.pieces)))


def kinds_of(pieces: Sequence[Rectangle]) -> Kinds:
    """Sort pieces into kinds, largest first, in whole numbers of the largest part that measures them all."""
    sides = [Fraction(side) for piece in pieces for side in (piece.width, piece.height)]
    parts = lcm(*(side.denominator for side in sides))
    part = Fraction(reduce(gcd, (int(side * parts) for side in sides)), parts)
    numbers: dict[tuple[tuple[int, int], ...], list[int]] = {}
    for number, piece in enumerate(pieces):
        ways = tuple(sorted((int(w / part), int(h / part)) for w, h in piece.sides))
        numbers.setdefault(ways, []).append(number)
    order = sorted(numbers, key=lambda ways: (-ways[0][0] * ways[0][1], ways))
    return Kinds(
        tuple(Kind(ways, len(numbers[ways])) for ways in order),
        tuple(tuple(numbers[ways]) for ways in order),
        part,
        tuple(pieces),
    )


def counted(spots: Sequence[Spot], kinds: Sequence[Kind]) -> tuple[tuple[Kind, ...], tuple[int, ...]]:
    """Return the kinds among some spots, each with how many there are of it, and their places in `kinds`."""
    counts = Counter(spot.kind for spot in spots)
    chosen = tuple(sorted(counts))
    return tuple(kinds[each]._replace(copies=counts[each]) for each in chosen), chosen
