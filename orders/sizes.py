"""A size as it is kept for reports: exact text, and whole numbers that a database can sort and group."""

from fractions import Fraction

from patterns.drafting.lengths import typed, typeset
from patterns.drafting.units import Units

NANOMETRES = 1_000_000  # in a millimetre
MILLIONTHS = 1_000_000  # in a bare 1


def nanometres(value: Fraction) -> int:
    """Return a length in mm as whole nanometres; those between two go to the nearest, halves up.

    >>> nanometres(Fraction(127, 5) / 64)
    396875
    """
    return _nearest(value * NANOMETRES)


def millionths(value: Fraction) -> int:
    """Return a bare number as whole millionths; those between two go to the nearest, halves up."""
    return _nearest(value * MILLIONTHS)


def in_words(number: Fraction, units: str) -> str:
    """Return so many inches or centimetres, or a bare number, as people read it: exact, `8 1⁄2`."""
    power, system = (1, Units(units)) if units else (0, Units.INCHES)
    return typeset(typed(number * system.mm if units else number, power, system))


def _nearest(value: Fraction) -> int:
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)
