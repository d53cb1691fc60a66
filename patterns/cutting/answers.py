"""Answers to what cloth must be bought: a layout, and a bound that says how far from the least it can be."""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Literal

from .sheets import Layout, Length


@dataclass(frozen=True, slots=True)
class Cut:
    """A straight cut right through the part that it cuts.

    along: "x" for a cut across the cloth at the height y = at, from x = start to x = end; "y" for one along
    the cloth at x = at. sheet: None on length goods.
    """

    sheet: int | None
    along: Literal["x", "y"]
    at: Length
    start: Length
    end: Length


@dataclass(frozen=True, slots=True)
class OnLength:
    """Pieces on cloth that is sold by length. bound: no layout is shorter, proved."""

    width: Length
    length: Length
    bound: Length
    layout: Layout
    cuts: tuple[Cut, ...] = ()

    def buy(self, step: Length | None) -> Length:
        """Return the length rounded up to what the shop cuts."""
        return rounded_up(self.length, step)

    def proved(self, step: Length | None) -> bool:
        """Whether nothing less can be bought."""
        return rounded_up(self.bound, step) == self.buy(step)


@dataclass(frozen=True, slots=True)
class OnSheets:
    """Pieces on sheets. bound: no layout needs fewer, proved."""

    sheets_used: int
    bound: int
    layout: Layout
    cuts: tuple[Cut, ...] = ()

    @property
    def proved(self) -> bool:
        return self.bound == self.sheets_used


def rounded_up(length: Length, step: Length | None) -> Length:
    """Return a length rounded up to a whole number of steps; the length itself without one."""
    return length if step is None else ceil(Fraction(length) / step) * step
