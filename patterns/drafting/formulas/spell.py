"""Writes a tree back as text, in one spelling: ×, ÷ and − with spaces, `1 1/2 in`, no bracket too many."""

from fractions import Fraction
from typing import assert_never

from patterns.drafting.numerals import decimal_text, mixed

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

# How tightly each kind binds, loosest first: the order of the rules in `grammar`.
_BINDING: dict[type, int] = {
    Either: 1,
    Both: 2,
    Comparison: 3,
    Sum: 4,
    Difference: 4,
    Product: 5,
    Quotient: 5,
    Negative: 6,
    Power: 7,
}
_TIGHTEST = 8


def spell(node: Node) -> str:
    """Return the text of a tree; reading it gives an equal tree.

    Raises ValueError: a number below 0 (write Negative), which no text can hold.

    >>> from .grammar import read
    >>> spell(read("2*(width+depth)"))
    '2 × (width + depth)'
    """
    match node:
        case Number(value, unit):
            return spell_number(value, unit)
        case Pi():
            return "π"
        case Name(text):
            return text
        case Negative(of):
            return f"−{_at_least(_BINDING[Power], of)}"
        case Sum(left, right):
            return _two(node, left, "+", right)
        case Difference(left, right):
            return _two(node, left, "−", right)
        case Product(left, right):
            return _two(node, left, "×", right)
        case Quotient(left, right):
            return _two(node, left, "÷", right)
        case Power(base, exponent):
            return f"{_base(base)}{'²' if exponent == 2 else '³'}"
        case Root(of):
            return f"√({spell(of)})"
        case Choice(which, among):
            return f"{which} of ({', '.join(_at_least(_BINDING[Sum], part) for part in among)})"
        case Rounding(way, of, step):
            inner = f"{_at_least(_BINDING[Sum], of)}, to {_at_least(_BINDING[Sum], step)}"
            return f"round {way} ({inner})"
        case Comparison(sign, left, right):
            sum_level = _BINDING[Sum]
            return f"{_at_least(sum_level, left)} {sign} {_at_least(sum_level, right)}"
        case Both(left, right):
            return _two(node, left, "and", right)
        case Either(left, right):
            return _two(node, left, "or", right)
        case _:
            assert_never(node)


def spell_number(value: Fraction, unit: str | None = None) -> str:
    """Return a number of a formula: fractions for inches and bare numbers, decimals for metric units."""
    if value < 0:
        raise ValueError(f"{value} is below 0; a formula writes it with a leading minus")
    text = decimal_text(value) if unit in ("cm", "mm", "m") else None
    text = text or mixed(value)
    return f"{text} {unit}" if unit else text


def _two(node: Node, left: Node, sign: str, right: Node) -> str:
    """Signs are read from the left, so an equal one on the right needs a bracket."""
    binding = _BINDING[type(node)]
    return f"{_at_least(binding, left)} {sign} {_at_least(binding + 1, right)}"


def _at_least(binding: int, node: Node) -> str:
    text = spell(node)
    return text if _BINDING.get(type(node), _TIGHTEST) >= binding else f"({text})"


def _base(node: Node) -> str:
    """A fraction or a unit before ² could be read two ways."""
    is_plain = not isinstance(node, Number) or (node.unit is None and node.value.denominator == 1)
    return _at_least(_TIGHTEST, node) if is_plain else f"({spell(node)})"
