"""Bias strips: a square cut from corner to corner, its halves joined to a parallelogram.

One cut along the diagonal, the two halves joined along their straight edges: the parallelogram has two
bias edges as long as the diagonal, half a diagonal apart. Lines parallel to them part it into strips,
parallelograms themselves, which are joined end to end, or sewn to a tube and cut round as one.
"""

from fractions import Fraction
from math import isqrt

from .errors import CuttingError
from .sheets import Length

# The side of the largest square that is looked for, in steps.
MOST_STEPS = 2_000


def bias_length(side: Length, strip: Length) -> Fraction:
    """Return about how long a bias strip a square gives: its area ÷ the width of the strip.

    Source: published binding tables. Seams and the last narrow rest are not counted.

    >>> bias_length(20, 2)
    Fraction(200, 1)
    """
    _above_nothing(side, strip)
    return Fraction(side) ** 2 / strip


def strips_of(side: Length, strip: Length) -> int:
    """Return how many whole strips the parallelogram gives: half the diagonal ÷ the width of a strip.

    >>> strips_of(20, 2)
    7
    """
    _above_nothing(side, strip)
    squared = Fraction(side) ** 2 / (2 * Fraction(strip) ** 2)
    return isqrt(squared.numerator // squared.denominator)


def bias_square(length: Length, strip: Length, step: Length) -> Fraction:
    """Return the side of the least square that gives a strip so long, in whole strips, and by area.

    length, strip, step: mm, > 0. Returns a multiple of step. Each whole strip is a diagonal long.
    Raises CuttingError: a measure of nothing or less, a square of more than MOST_STEPS steps.

    >>> bias_square(250, 2, 1)
    Fraction(23, 1)
    """
    _above_nothing(length, strip, step)
    for steps in range(1, MOST_STEPS + 1):
        side = Fraction(step) * steps
        strips = strips_of(side, strip)
        if 2 * (strips * side) ** 2 >= Fraction(length) ** 2 and bias_length(side, strip) >= length:
            return side
    raise CuttingError(
        "So much bias strip wants a square larger than any cloth. Ask for less of it, or for narrower strips."
    )


def _above_nothing(*measures: Length) -> None:
    if min(measures) <= 0:
        raise CuttingError("A measure of the bias strip is nothing. Write one above 0.")
