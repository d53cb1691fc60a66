"""Numbers and names as they stand in a drawing's labels, titles and descriptions."""

import re
from decimal import Decimal, localcontext
from fractions import Fraction

from patterns.drafting.formulas.values import CLOSE, Measured
from patterns.drafting.lengths import as_chosen, written
from patterns.drafting.sized import Quantity
from patterns.drafting.units import Units

from .errors import DrawingError

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_WHOLE_GLYPHS = {
    **{"1⁄2": "½", "1⁄4": "¼", "3⁄4": "¾", "1⁄8": "⅛", "3⁄8": "⅜", "5⁄8": "⅝", "7⁄8": "⅞"},
    **{"1⁄3": "⅓", "2⁄3": "⅔"},
}
_FRACTION = re.compile(r"(?P<space>(?<=[0-9]) )?(?P<over>[0-9]+)⁄(?P<under>[0-9]+)")


def label(text: str) -> str:
    """Return text as a label of a drawing: fractions drawn from figures that stand alone.

    The PDF writer sets the text of a drawing sign by sign, so the stroke U+2044 cannot make a fraction there.

    >>> label("8 1⁄2 in"), label("13⁄16 in")
    ('8½ in', '¹³⁄₁₆ in')
    """
    return _FRACTION.sub(_glyphs, text)


def _glyphs(match: re.Match[str]) -> str:
    over, under = match["over"], match["under"]
    return _WHOLE_GLYPHS.get(f"{over}⁄{under}", f"{over.translate(_RAISED)}⁄{under.translate(_LOWERED)}")


def chosen(value: Measured, units: Units) -> str:
    """Return a length as it was chosen, with its unit: exact, or rounded and marked ≈ where it has no end."""
    if isinstance(value, Fraction):
        return as_chosen(value, 1, units)
    return written(value, 1, units).text


def cutting(value: Measured, units: Units) -> str:
    """Return a length for the person who cuts, with its unit, marked ≈ where it was rounded."""
    return written(value, 1, units).text


def known(quantity: Quantity) -> Measured:
    """Return a quantity's value. Raises DrawingError for none."""
    if quantity.value is None:
        raise DrawingError(f"{quantity.formula} has no value at this size.")
    return quantity.value


def added(one: Measured, other: Measured) -> Measured:
    """Return a sum, exact where both are; else a decimal of 60 digits."""
    if isinstance(one, Fraction) and isinstance(other, Fraction):
        return one + other
    with localcontext() as context:
        context.prec = 60
        return _decimal(one) + _decimal(other)


def less(one: Measured, other: Measured) -> Measured:
    """Return a difference, exact where both are; else a decimal of 60 digits."""
    return added(one, -other)


def settled(value: Measured, step: Fraction) -> Measured:
    """Return a whole number of steps exactly where only the digits that are carried keep a value from it.

    >>> settled(Decimal("152.4") - Decimal("1e-58"), Fraction(127, 40))
    Fraction(762, 5)
    """
    nearest = round(Fraction(value) / step) * step
    return nearest if abs(Fraction(value) - nearest) <= Fraction(CLOSE) else value


def _decimal(value: Measured) -> Decimal:
    return Decimal(value.numerator) / value.denominator if isinstance(value, Fraction) else value
