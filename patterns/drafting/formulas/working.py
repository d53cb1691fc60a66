"""The working of a formula: the numbers put in, and what they come to.

`8 1/2 + 4 3/4 + 2 × 1/2 = 14 1/4`. The values are exact; only a last number, after ≈, is rounded.
"""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import assert_never

from patterns.drafting.numerals import decimal_text, mixed
from patterns.drafting.rounding import for_people, in_units, nearest
from patterns.drafting.units import Units

from .evaluate import evaluate
from .spell import spell
from .tree import (
    Both,
    Choice,
    Comparison,
    Difference,
    Either,
    Name,
    Negative,
    Node,
    Number,
    Pi,
    Power,
    Product,
    Quotient,
    Root,
    Rounding,
    Sum,
)
from .values import Value

_SHOWN_DECIMALS = Fraction(1, 1000)


def working(
    node: Node, values: Mapping[str, Value], powers: Mapping[str, int], units: Units, power: int
) -> str:
    """Return the formula with its numbers put in, `=` and what it comes to, in the units.

    values: of every name, mm. powers: of every name. power: of the formula.
    A formula that is only a name or a number is only its value. No value: `… has no value`.
    """
    put_in = spell(_put_in(node, values, powers, units))
    value = evaluate(node, values)
    if value is None:
        return f"{put_in} has no value"
    if isinstance(value, bool):
        return put_in
    result = _result(value, power, units)
    return result.lstrip("=≈ ") if isinstance(node, Name | Number) else f"{put_in} {result}"


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


def _put_in(node: Node, values: Mapping[str, Value], powers: Mapping[str, int], units: Units) -> Node:
    """The same tree with each name replaced by its number as text."""

    def inside(part: Node) -> Node:
        return _put_in(part, values, powers, units)

    match node:
        case Name(text):
            return _number(values[text], powers[text], units)
        case Number(value, unit):
            return node if unit else Name(mixed(value))
        case Pi():
            return node
        case Negative(of) | Root(of):
            return replace(node, of=inside(of))
        case Power(base, _):
            return replace(node, base=_bracketed(inside(base)))
        case Choice(_, among):
            return replace(node, among=tuple(map(inside, among)))
        case Rounding(_, of, step):
            return replace(node, of=inside(of), step=inside(step))
        case (
            Sum(left, right)
            | Difference(left, right)
            | Product(left, right)
            | Quotient(left, right)
            | Comparison(_, left, right)
            | Both(left, right)
            | Either(left, right)
        ):
            return replace(node, left=inside(left), right=inside(right))
        case _:
            assert_never(node)


def _number(value: Value, power: int, units: Units) -> Node:
    if value is None or isinstance(value, bool):
        return Name("no value")
    there = in_units(value, power, units)
    if there < 0:
        return Negative(Name(number_text(-there, units, power)))
    return Name(number_text(there, units, power))


def _bracketed(base: Node) -> Node:
    """(4 1/2)², where 4 1/2² would say something else."""
    if isinstance(base, Name) and not base.text.isdigit():
        return Name(f"({base.text})")
    return base
