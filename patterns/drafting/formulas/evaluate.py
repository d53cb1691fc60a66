"""What a formula comes to: exact, and with nothing but arithmetic.

A tree is compiled once to plain closures, because a size asks some hundred formulas at a time.
"""

from collections.abc import Callable, Mapping
from typing import assert_never

from patterns.drafting.units import MILLIMETRES

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
from .values import PI, Value, compare, divided, minus, negative, plus, power, root, times, to_multiple

Computed = Callable[[Mapping[str, Value]], Value]
_HOLDS = {
    "<": frozenset([-1]),
    "≤": frozenset([-1, 0]),
    ">": frozenset([1]),
    "≥": frozenset([0, 1]),
    "=": frozenset([0]),
    "≠": frozenset([-1, 1]),
}


def evaluate(node: Node, values: Mapping[str, Value]) -> Value:
    """Return what the formula comes to.

    values: every name's value; a length in mm.
    Raises KeyError: a name without a value. TooBigError: a number grows out of bounds.
    """
    return compiled(node)(values)


def compiled(node: Node) -> Computed:
    """Return a function from the names' values to the formula's value."""
    match node:
        case Number(value, unit):
            return _constant(value * MILLIMETRES[unit] if unit else value)
        case Pi():
            return _constant(PI)
        case Name(text):
            return lambda values: values[text]
        case Negative(of):
            return _one(negative, of)
        case Root(of):
            return _one(root, of)
        case Power(base, exponent):
            return _one(lambda value: power(value, exponent), base)
        case Sum(left, right):
            return _two(plus, left, right)
        case Difference(left, right):
            return _two(minus, left, right)
        case Product(left, right):
            return _two(times, left, right)
        case Quotient(left, right):
            return _two(divided, left, right)
        case Choice(which, among):
            return _choice(-1 if which == "smaller" else 1, [compiled(part) for part in among])
        case Rounding(way, of, step):
            return _two(lambda value, by: to_multiple(value, by, up=way == "up"), of, step)
        case Comparison(sign, left, right):
            return _comparison(_HOLDS[sign], compiled(left), compiled(right))
        case Both(left, right):
            return _two(_both, left, right)
        case Either(left, right):
            return _two(_either, left, right)
        case _:
            assert_never(node)


def _constant(value: Value) -> Computed:
    return lambda values: value


def _one(operate: Callable[[Value], Value], of: Node) -> Computed:
    inner = compiled(of)
    return lambda values: operate(inner(values))


def _two(operate: Callable[[Value, Value], Value], left: Node, right: Node) -> Computed:
    first, second = compiled(left), compiled(right)
    return lambda values: operate(first(values), second(values))


def _choice(wanted: int, among: list[Computed]) -> Computed:
    def choose(values: Mapping[str, Value]) -> Value:
        best, *others = [part(values) for part in among]
        for other in others:
            order = compare(other, best)
            if order is None:
                return None
            if order == wanted:
                best = other
        return best

    return choose


def _comparison(holds: frozenset[int], left: Computed, right: Computed) -> Computed:
    def compares(values: Mapping[str, Value]) -> bool | None:
        order = compare(left(values), right(values))
        return None if order is None else order in holds

    return compares


def _both(left: Value, right: Value) -> bool | None:
    """No value on either side is no value, unless the other side settles it."""
    if left is False or right is False:
        return False
    return None if left is None or right is None else True


def _either(left: Value, right: Value) -> bool | None:
    if left is True or right is True:
        return True
    return None if left is None or right is None else False
