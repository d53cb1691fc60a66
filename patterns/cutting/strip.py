"""A question about cloth sold by length, in the smallest whole numbers, and sums that its sides can make."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from .errors import CuttingError, NoWayError
from .sheets import Layout, Length, Placement, Rectangle

# More pieces than a market stall's day of bags; a layout of so many takes some hundredths of a second.
MOST_LAID = 1_000
# Sums of sides are kept up to here; a longer side is not rounded. In bits: 50 kB.
MOST_SUMMED = 400_000

# A placed piece inside a search: its kind, x, y, width and height.
Placed = tuple[int, int, int, int, int]


@dataclass(frozen=True, slots=True)
class Kind:
    """Equal pieces. width and height: units across and along. members: their places in what was asked.

    turns: they may be turned, and turned are others than upright.
    """

    width: int
    height: int
    turns: bool
    members: tuple[int, ...]
    is_full: bool = True

    @property
    def count(self) -> int:
        return len(self.members)

    @property
    def area(self) -> int:
        return self.width * self.height

    def ways(self, most_width: int, most_height: int | None = None) -> list[tuple[int, int]]:
        """Return its sides in each way that it fits, upright first."""
        ways = [(self.width, self.height), (self.height, self.width)][: 1 + self.turns]
        return [
            way for way in ways if way[0] <= most_width and (most_height is None or way[1] <= most_height)
        ]

    def on_its_side(self) -> "Kind":
        return Kind(self.height, self.width, self.turns, self.members, self.is_full)


@dataclass(frozen=True, slots=True)
class Strip:
    """Pieces and a width, in units. across, along: how many mm a unit is, in each direction.

    width: what of the cloth's width any layout can use: the widest sum of sides that it holds.
    """

    kinds: tuple[Kind, ...]
    width: int
    across: Fraction
    along: Fraction

    @property
    def is_full(self) -> bool:
        """Whether the area of every piece is its own, so that area and sums of sides prove something."""
        return all(kind.is_full for kind in self.kinds)

    @property
    def area(self) -> int:
        return sum(kind.area * kind.count for kind in self.kinds)

    @property
    def count(self) -> int:
        return sum(kind.count for kind in self.kinds)

    def in_mm(self, placed: Iterable[Placed]) -> Layout:
        """Return a layout in the order of the pieces asked."""
        left = [list(kind.members) for kind in self.kinds]
        layout = []
        for number, x, y, width, height in sorted(placed, key=lambda each: (each[2], each[1])):
            kind = self.kinds[number]
            turned = (width, height) != (kind.width, kind.height)
            sides = (x * self.across, y * self.along, width * self.across, height * self.along)
            layout.append(Placement(left[number].pop(0), 0, *sides, turned))
        return tuple(sorted(layout, key=lambda each: each.piece))


def as_strip(pieces: Sequence[Rectangle], width: Length) -> Strip:
    """Return the question in the largest units that measure every side.

    Raises CuttingError: no pieces or too many, sides or a width of nothing. NoWayError: a piece too wide.
    """
    check(pieces)
    if width <= 0:
        raise CuttingError("The cloth has no width. Give one above 0.")
    for number, piece in enumerate(pieces):
        if all(across > width for across, _ in piece.sides):
            raise NoWayError(number)
    if any(piece.turns for piece in pieces):
        across = along = unit_of([side for piece in pieces for side in (piece.width, piece.height)])
    else:
        across, along = unit_of([each.width for each in pieces]), unit_of([each.height for each in pieces])
    kinds = kinds_of(pieces, across, along)
    widest = int(width // across)
    return Strip(kinds, _usable(kinds, widest), across, along)


def check(pieces: Sequence[Rectangle]) -> None:
    """Raises CuttingError: pieces that are no question."""
    if not pieces:
        raise CuttingError("There are no pieces to lay. Give one or more.")
    if len(pieces) > MOST_LAID:
        raise CuttingError(f"{len(pieces):,} pieces are too many. A layout is made of at most {MOST_LAID:,}.")
    for number, piece in enumerate(pieces):
        if piece.width <= 0 or piece.height <= 0:
            raise CuttingError(f"Piece {number + 1} has a side of nothing or less. Give sides above 0.")


def kinds_of(pieces: Sequence[Rectangle], across: Fraction, along: Fraction) -> tuple[Kind, ...]:
    """Return the pieces in units, equal ones together."""
    members: dict[tuple[int, int, bool, bool], list[int]] = {}
    for number, piece in enumerate(pieces):
        sides = int(piece.width / across), int(piece.height / along)
        turns = piece.turns and sides[0] != sides[1]
        members.setdefault((*sides, turns, piece.is_full), []).append(number)
    return tuple(
        Kind(width, height, turns, tuple(numbers), is_full)
        for (width, height, turns, is_full), numbers in members.items()
    )


def unit_of(sides: Sequence[Length]) -> Fraction:
    """The largest length that measures all the sides."""
    parts = lcm(*(side.denominator for side in sides))
    return Fraction(gcd(*(int(side * parts) for side in sides)), parts)


def _usable(kinds: Sequence[Kind], width: int) -> int:
    """The widest sum of sides within a width: in a layout pushed to the left no piece reaches farther."""
    if not all(kind.is_full for kind in kinds):
        return width
    sides = [kind.ways(width) for kind in kinds for _ in kind.members]
    sums = sums_within([[across for across, _ in ways] for ways in sides], width)
    return width if sums is None else sums.bit_length() - 1


def sums_within(choices: Iterable[Sequence[int]], most: int) -> int | None:
    """Return the sums up to the most that one number at most of each choice makes, as bits; None: too many.

    >>> bin(sums_within([[2], [3, 4]], 6))
    '0b1111101'
    """
    if most > MOST_SUMMED:
        return None
    sums, mask = 1, (1 << (most + 1)) - 1
    for numbers in choices:
        more = sums
        for number in numbers:
            more |= sums << number
        sums = more & mask
    return sums
