"""How much cloth is certainly enough: one strip on which the pieces lie one below the other.

It is no layout and claims to be no shortest length; it is a statement that anybody can check with a
tape measure, true for every size, every direction of print and every grain.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from patterns.drafting.formulas.values import Measured

Cut = tuple[int, Measured, Measured]
"""How many of a piece, its width and its height, mm."""


@dataclass(frozen=True, slots=True)
class Strip:
    """A piece of cloth: mm, whole cutting steps. pieces: how many lie on it."""

    width: Fraction
    length: Fraction
    pieces: int


def rounded_up(value: Measured, step: Fraction) -> Fraction:
    """Return the least whole multiple of step that is not below value.

    value: mm, exact or rounded, ≥ 0. step: mm, > 0. Returns mm, exact.

    >>> rounded_up(Fraction(101, 10), Fraction(1, 2))
    Fraction(21, 2)
    """
    exact = Fraction(value) if isinstance(value, Decimal) else value
    return -(-exact // step) * step


def enough(cuts: Iterable[Cut], step: Fraction) -> Strip | None:
    """Return a strip that is enough for all the cuts, or None when there is nothing to cut.

    cuts: of one material. step: the cutting step, mm: each side is rounded up to it *before* it is added,
    so that the strip is also enough for the sizes as they are printed, rounded to the nearest step.

    >>> enough([(2, Fraction(300), Fraction(200))], Fraction(1))
    Strip(width=Fraction(300, 1), length=Fraction(400, 1), pieces=2)
    """
    sides = [
        (count, rounded_up(width, step), rounded_up(height, step)) for count, width, height in cuts if count
    ]
    if not sides:
        return None
    return Strip(
        width=max(width for _, width, _ in sides),
        length=sum((count * height for count, _, height in sides), Fraction(0)),
        pieces=sum(count for count, _, _ in sides),
    )
