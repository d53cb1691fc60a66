"""The values a formula can have, and the arithmetic on them.

A value is an exact `Fraction`; a `Decimal` of 60 digits once π or a root has entered, so that the
type is the flag *rounded*; yes or no; or None where there is no value (√ of a negative, ÷ 0).
Lengths are millimetres, areas and volumes their squares and cubes.
"""

import math
from collections.abc import Callable
from decimal import (
    ROUND_CEILING,
    ROUND_FLOOR,
    ROUND_HALF_EVEN,
    Context,
    Decimal,
    DivisionByZero,
    InvalidOperation,
    Overflow,
)
from fractions import Fraction

from patterns.drafting.errors import DraftingError

Measured = Fraction | Decimal
Value = Fraction | Decimal | bool | None

# No piece of cloth needs more than 40 bits or so; what passes this is a mistake or an attack, and
# a limit on the text's length alone would not stop 26 squares of squares.
MOST_BITS = 512
DIGITS = Context(
    prec=60,
    rounding=ROUND_HALF_EVEN,
    Emax=999_999,
    Emin=-999_999,
    traps=[DivisionByZero, InvalidOperation, Overflow],
)
# Two rounded values nearer than this are one: 10⁻²⁰ mm.
CLOSE = Decimal(10) ** -20
# Source: OEIS A000796, the decimal expansion of π.
PI = Decimal("3.14159265358979323846264338327950288419716939937510582097494")


class TooBigError(DraftingError):
    """A value on the way has more digits than anything that is sewn."""

    def __init__(self) -> None:
        super().__init__("A number grows too big on the way. Look for squares of squares.")


def bounded(value: Fraction) -> Fraction:
    """Return the value. Raises TooBigError if it has more than 512 bits."""
    if value.numerator.bit_length() > MOST_BITS or value.denominator.bit_length() > MOST_BITS:
        raise TooBigError
    return value


def rounded(value: Measured) -> Decimal:
    """Return the value to 60 digits."""
    if isinstance(value, Decimal):
        return value
    return DIGITS.divide(Decimal(value.numerator), Decimal(value.denominator))


def _operation(
    exact: Callable[[Fraction, Fraction], Fraction], near: Callable[[Decimal, Decimal], Decimal]
) -> Callable[[Value, Value], Measured | None]:
    """Make an operation on values: exact where both are, else to 60 digits, and nothing out of nothing."""

    def operate(left: Value, right: Value) -> Measured | None:
        if type(left) is Fraction and type(right) is Fraction:
            return bounded(exact(left, right))
        if left is None or right is None:
            return None
        assert not isinstance(left, bool)
        assert not isinstance(right, bool)
        return _within(near(rounded(left), rounded(right)))

    return operate


def _within(value: Decimal) -> Decimal:
    if value.adjusted() > MOST_BITS * 0.30103:
        raise TooBigError
    return value


plus = _operation(Fraction.__add__, DIGITS.add)
minus = _operation(Fraction.__sub__, DIGITS.subtract)
times = _operation(Fraction.__mul__, DIGITS.multiply)
_over = _operation(Fraction.__truediv__, DIGITS.divide)


def divided(left: Value, right: Value) -> Measured | None:
    """Return left ÷ right, None for ÷ 0."""
    return None if not right else _over(left, right)


def power(base: Value, exponent: int) -> Measured | None:
    """Return base × base, or base × base × base."""
    square = times(base, base)
    return square if exponent == 2 else times(square, base)


def negative(value: Value) -> Measured | None:
    if value is None:
        return None
    return -value if isinstance(value, Fraction) else DIGITS.minus(value)


def root(value: Value) -> Measured | None:
    """Return the square root: exact for a perfect square, None of a negative."""
    if value is None:
        return None
    if isinstance(value, Decimal):
        return _root_of_rounded(value)
    assert not isinstance(value, bool)
    if value < 0:
        return None
    over, under = math.isqrt(value.numerator), math.isqrt(value.denominator)
    if over * over == value.numerator and under * under == value.denominator:
        return Fraction(over, under)
    return DIGITS.sqrt(rounded(value))


def _root_of_rounded(value: Decimal) -> Decimal | None:
    if abs(value) <= CLOSE:
        return Decimal(0)
    return DIGITS.sqrt(value) if value > 0 else None


def compare(left: Value, right: Value) -> int | None:
    """Return −1, 0 or 1 as left is below, equal to or above right; None if either has no value."""
    if type(left) is Fraction and type(right) is Fraction:
        return (left > right) - (left < right)
    if left is None or right is None:
        return None
    assert not isinstance(left, bool)
    assert not isinstance(right, bool)
    apart = DIGITS.subtract(rounded(left), rounded(right))
    return 0 if abs(apart) <= CLOSE else int(apart.copy_sign(Decimal(1)) == apart) * 2 - 1


def to_multiple(value: Value, step: Value, *, up: bool) -> Measured | None:
    """Return the nearest multiple of step at or above (or below) value; None unless step > 0."""
    if value is None or step is None or step <= 0:
        return None
    if type(value) is Fraction and type(step) is Fraction:
        steps = value / step
        return bounded((math.ceil(steps) if up else math.floor(steps)) * step)
    return times(_whole_steps(divided(value, step), up=up), step)


def _whole_steps(steps: Value, *, up: bool) -> Fraction:
    """Count the steps; a count within 10⁻²⁰ of a whole number is that number."""
    assert isinstance(steps, Decimal)
    nearest = steps.to_integral_value(ROUND_HALF_EVEN)
    if abs(DIGITS.subtract(steps, nearest)) > CLOSE:
        nearest = steps.to_integral_value(ROUND_CEILING if up else ROUND_FLOOR)
    return Fraction(int(nearest))
