"""The working of a formula: the numbers put in, and what they come to.

`8 1/2 + 4 3/4 + 2 × 1/2 = 14 1/4`. The values are exact; only a last number, after ≈, is rounded.
"""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

from patterns.drafting.numerals import decimal_text, mixed
from patterns.drafting.rounding import for_people, in_units, nearest
from patterns.drafting.units import Units

from .evaluate import evaluate
from .put_in import put_in
from .spell import spell
from .tree import Name, Negative, Node, Number
from .values import Value

_SHOWN_DECIMALS = Fraction(1, 1000)


def working(
    node: Node, values: Mapping[str, Value], powers: Mapping[str, int], units: Units, power: int
) -> str:
    """Return the formula with its numbers put in, `=` and what it comes to, in the units.

    values: of every name, mm. powers: of every name. power: of the formula.
    A formula that is only a name or a number is only its value. No value: `… has no value`.
    """
    shown = spell(put_in(node, lambda name: number_node(values[name], powers[name], units)))
    value = evaluate(node, values)
    if value is None:
        return f"{shown} has no value"
    if isinstance(value, bool):
        return shown
    result = _result(value, power, units)
    return result.lstrip("=≈ ") if isinstance(node, Name | Number) else f"{shown} {result}"


def _result(value: Fraction | Decimal, power: int, units: Units) -> str:
    shown, was_rounded = for_people(value, power, units)
    end = f"≈ {number_text(shown, units, power)}"
    if isinstance(value, Decimal):
        return end
    exact = f"= {number_text(in_units(value, power, units), units, power)}"
    return f"{exact} {end}" if was_rounded else exact


def number_text(value: Fraction | Decimal, units: Units, power: int) -> str:
    """Return a number in plain letters: fractions for inches and bare numbers, else decimals.

    A number without an end is shown to three decimals.
    """
    if isinstance(value, Decimal):
        value, has_decimals = nearest(value, _SHOWN_DECIMALS).value, True
    else:
        has_decimals = power > 1 or (power == 1 and units is Units.CENTIMETRES)
    text = decimal_text(value) if has_decimals else None
    return (text or mixed(value)).replace("-", "−")


def number_node(value: Value, power: int, units: Units) -> Node:
    """Return a number as it stands in a working, in the units."""
    if value is None or isinstance(value, bool):
        return Name("no value")
    there = in_units(value, power, units)
    if there < 0:
        return Negative(Name(number_text(-there, units, power)))
    return Name(number_text(there, units, power))
