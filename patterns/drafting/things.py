"""What goes in: equal things, the ways they may be turned, and how they stand side by side."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal, NamedTuple

from .errors import HoldingError
from .formulas.values import Measured

# any: on every side. upright: turned round, but not laid over. none: as it is.
Turning = Literal["any", "upright", "none"]
# The edge of the thing (0 its width, 1 its height, 2 its depth) that lies across, up and deep.
Turn = tuple[int, int, int]
_AS_IT_IS, _TURNED_ROUND = (0, 1, 2), (2, 1, 0)
_LAID_OVER = ((0, 2, 1), (1, 2, 0), (1, 0, 2), (2, 0, 1))
_TURNS: Mapping[Turning, tuple[Turn, ...]] = {
    "any": (_AS_IT_IS, _TURNED_ROUND, *_LAID_OVER),
    "upright": (_AS_IT_IS, _TURNED_ROUND),
    "none": (_AS_IT_IS,),
}


class Solid(NamedTuple):
    """A thing's three measures: mm."""

    width: Fraction
    height: Fraction
    depth: Fraction


class Space(NamedTuple):
    """Three measures inside a bag: mm, exact unless π or a root is in them."""

    width: Measured
    height: Measured
    depth: Measured


class RoundSpace(NamedTuple):
    """The measures inside a round bag: mm, exact unless π or a root is in them."""

    diameter: Measured
    height: Measured


@dataclass(frozen=True)
class Things:
    """What goes in. loose: what is to be left over, in width, in height and in depth.

    Raises HoldingError: a thing without a size, or less than nothing left over.
    """

    solid: Solid
    loose: Fraction = Fraction(0)
    turning: Turning = "upright"

    def __post_init__(self) -> None:
        if min(self.solid) <= 0:
            raise HoldingError("A thing has a width, a height and a depth, each above 0.")
        if self.loose < 0:
            raise HoldingError("What is left over cannot be less than nothing. Write 0 or more.")

    @cached_property
    def turns(self) -> tuple[Turn, ...]:
        """The ways to turn it that differ; as it is comes first."""
        found: dict[Solid, Turn] = {}
        for turn in _TURNS[self.turning]:
            found.setdefault(self.turned(turn), turn)
        return tuple(found.values())

    def turned(self, turn: Turn) -> Solid:
        return Solid(*(self.solid[edge] for edge in turn))


@dataclass(frozen=True, slots=True)
class Arrangement:
    """So many columns across, layers high and rows deep. thing: as it is turned."""

    across: int
    high: int
    deep: int
    thing: Solid
