"""Equal things in a room: how many go in, what so many of them want of it, and what they leave.

All is counted in whole parts of a mm that measure the things exactly. A room is rounded down to such parts:
what things want is whole, so nothing is lost. In a round room the columns and rows stand on the floor as a
rectangle whose corners lie within the circle: so far across and so far deep, that both squares together are
no more than the square of the diameter (Pythagoras). That is exact for a grid, and a grid is all that is
asked for: things laid in rings or in rows of different length might be more.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt, lcm
from typing import NamedTuple

from .errors import HoldingError
from .formulas.formula import Formula
from .formulas.values import CLOSE, Measured, Value, minus, power, root
from .recipe import BoxRoom, RoundRoom
from .things import Arrangement, RoundSpace, Solid, Space, Things

# A round floor is counted column by column: so many take some hundredths of a second.
MOST_COLUMNS = 10_000


class Side(NamedTuple):
    """What is measured of a room. is_squared: its square is, as a diagonal's is that has to fit into it."""

    formula: Formula
    is_squared: bool = False

    def whole(self, value: Value, parts: int) -> int:
        """Return it in whole parts of a mm, or their squares, rounded down; 0 or less where there is none.

        A rounded value counts as 10⁻²⁰ mm more, so that a room carried to 60 digits holds what fills it.
        """
        if value is None or value is False or value is True:
            return 0
        exact = value if isinstance(value, Fraction) else Fraction(value) + Fraction(CLOSE)
        if self.is_squared:
            return int(max(exact, Fraction(0)) ** 2 * parts**2)
        return exact.numerator * parts // exact.denominator


def sides_of(holds: BoxRoom | RoundRoom) -> tuple[Side, ...]:
    """Return what is measured of a room: its three sides; of a round one diameter² and height."""
    if isinstance(holds, RoundRoom):
        return Side(holds.diameter, is_squared=True), Side(holds.height)
    return tuple(map(Side, holds))


class Grid(NamedTuple):
    """Columns across, layers high, rows deep."""

    across: int
    high: int
    deep: int


# What a room must have, side by side as in `sides_of`: whole parts, or squares of them.
Wants = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Whole:
    """A thing as it is turned, and what is to be left over, in whole parts: `parts` to a mm."""

    edges: tuple[int, int, int]
    loose: int

    def wants(self, grid: Sequence[int], is_round: bool) -> Wants:
        """Return what so many things want of a room.

        >>> Whole((3, 1, 4), 0).wants(Grid(1, 5, 1), is_round=True)
        (25, 5)
        """
        across, high, deep = (n * edge + self.loose for n, edge in zip(grid, self.edges, strict=True))
        return (across * across + deep * deep, high) if is_round else (across, high, deep)

    def most(self, room: Sequence[int | None], is_round: bool, count: int) -> Grid:
        """Return how many could lie side by side at most, were they alone. room: None where not known."""
        if is_round:
            across = None if room[0] is None else isqrt(room[0])
            room = (across, room[1], across)
        return Grid(*(self._side_by_side(each, n, count) for n, each in enumerate(room)))

    def fullest(self, room: Sequence[int], is_round: bool) -> Grid:
        """Return the grid of most things that a room takes; of none, one of its numbers is 0.

        Of those that are equally many, a round floor's with the shortest diagonal.
        Raises HoldingError: things too small to be counted on a round floor.
        """
        if is_round:
            floor, high = room
            across, deep = self._fullest_floor(floor)
            return Grid(across, self._side_by_side(high, 1), deep)
        return Grid(*(self._side_by_side(each, n) for n, each in enumerate(room)))

    def _side_by_side(self, room: int | None, edge: int, unknown: int = 0) -> int:
        return unknown if room is None else max(0, (room - self.loose) // self.edges[edge])

    def _fullest_floor(self, floor: int) -> tuple[int, int]:
        """Return how many columns and rows stand on a round floor. floor: the square of its diameter."""
        long, short = (0, 2) if self.edges[0] >= self.edges[2] else (2, 0)
        columns = self._side_by_side(isqrt(floor), long)
        if columns > MOST_COLUMNS:
            raise HoldingError(
                f"Things so small are not counted on a round floor: more than {MOST_COLUMNS:,} stand side by "
                "side on it. Ask for larger ones."
            )
        best = (0, 0, 0, 0)
        for n in range(1, columns + 1):
            left = floor - (n * self.edges[long] + self.loose) ** 2
            rows = self._side_by_side(isqrt(left), short)
            diagonal = (n * self.edges[long]) ** 2 + (rows * self.edges[short]) ** 2
            best = max(best, (n * rows, -diagonal, n, rows))
        return best[2:] if long == 0 else (best[3], best[2])


def in_whole_parts(things: Things) -> tuple[int, tuple[Whole, ...]]:
    """Return how many parts there are to a mm, and the things in them, turn by turn."""
    parts = lcm(things.loose.denominator, *(edge.denominator for edge in things.solid))
    edges = [int(edge * parts) for edge in things.solid]
    loose = int(things.loose * parts)
    turned = (Whole((edges[across], edges[up], edges[deep]), loose) for across, up, deep in things.turns)
    return parts, tuple(turned)


def space(lengths: Iterable[Value]) -> Space | RoundSpace | None:
    """Return three lengths, or the diameter and height of a round room; None where one has no value."""
    given = tuple(lengths)
    known = [length for length in given if length is not None and not isinstance(length, bool)]
    if len(known) < len(given):
        return None
    return RoundSpace(*known) if len(known) == len(RoundSpace._fields) else Space(*known)


def spare(room: Space | RoundSpace, arrangement: Arrangement) -> Space:
    """Return what things leave of a room, in each direction by itself.

    In a round room width and depth share the floor: they could be so much wider, or so much deeper.
    """
    counts = (arrangement.across, arrangement.high, arrangement.deep)
    block = Solid(*(count * edge for count, edge in zip(counts, arrangement.thing, strict=True)))
    if isinstance(room, RoundSpace):
        room = Space(_beside(room.diameter, block.depth), room.height, _beside(room.diameter, block.width))
    return Space(*(_known(minus(length, edge)) for length, edge in zip(room, block, strict=True)))


def _beside(diameter: Measured, edge: Fraction) -> Measured:
    """Return how long a rectangle with this edge may be in a circle."""
    return _known(root(minus(power(diameter, 2), power(edge, 2))))


def _known(value: Measured | None) -> Measured:
    assert value is not None  # only a root of less than nothing and a division by nothing have no value
    return value
