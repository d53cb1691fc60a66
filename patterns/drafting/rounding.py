"""The one place where a number is rounded: at the end, for the person who cuts.

A length goes to the cutting precision, 1/8 in or 1 mm; an area or a volume, which nobody cuts, to a
tenth of its unit below 100 and to whole ones above; litres below 10 to a hundredth.
"""

import math
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from .formulas.values import Measured, divided, plus, to_multiple
from .units import Units

_HALF = Fraction(1, 2)
_WHOLE_FROM = 100
_TENTHS_FROM = 10
# A litre is a cubic decimetre; mm³.
LITRE = Fraction(1_000_000)


class Rounded(NamedTuple):
    """value: in the units given, not mm. was_rounded: the exact value differs, or has no end."""

    value: Fraction
    was_rounded: bool


def in_units(value: Measured, power: int, units: Units) -> Measured:
    """Return mm, mm² or mm³ in the units, exact if it was exact.

    >>> in_units(Fraction(254), 1, Units.INCHES)
    Fraction(10, 1)
    """
    there = divided(value, units.mm**power)
    assert there is not None  # a unit is never 0
    return there


def for_people(value: Measured, power: int, units: Units) -> Rounded:
    """Return a result to the precision that a person works to, nearest, halves up."""
    if power == 0:
        return nearest(value, Fraction(1, 1000)) if isinstance(value, Decimal) else Rounded(value, False)
    there = in_units(value, power, units)
    if power == 1:
        return nearest(there, units.cutting_step / units.mm)
    return nearest(there, Fraction(1) if not -_WHOLE_FROM < there < _WHOLE_FROM else Fraction(1, 10))


def in_litres(value: Measured, units: Units) -> Rounded | None:
    """Return a volume in litres, as a person reads it; None for one below a litre, or in inches.

    value: mm³.
    """
    if units is Units.INCHES or for_people(value, 3, units).value * units.mm**3 < LITRE:
        return None
    there = divided(value, LITRE)
    assert there is not None
    if there >= _TENTHS_FROM:
        return nearest(there, Fraction(1) if there >= _WHOLE_FROM else Fraction(1, 10))
    return nearest(there, Fraction(1, 100))


def nearest(value: Measured, step: Fraction) -> Rounded:
    """Return the nearest multiple of step, halves up; a rounded value within 10⁻²⁰ of a half counts as one.

    >>> nearest(Fraction(37, 16), Fraction(1, 8))
    Rounded(value=Fraction(19, 8), was_rounded=True)
    """
    if isinstance(value, Fraction):
        result = math.floor(value / step + _HALF) * step
        return Rounded(result, result != value)
    steps = to_multiple(divided(plus(value, step / 2), step), Fraction(1), up=False)
    assert steps is not None  # a step is above 0
    return Rounded(Fraction(int(steps)) * step, True)
