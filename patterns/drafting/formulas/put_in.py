"""A formula with something put in for its names: their numbers, or places to write them in."""

from collections.abc import Callable
from dataclasses import replace
from typing import assert_never

from patterns.drafting.numerals import mixed

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


def put_in(node: Node, shown: Callable[[str], Node]) -> Node:
    """Return the same tree with each name replaced; a bare number becomes its text.

    shown: called with a name, it gives what stands in its place.
    """

    def inside(part: Node) -> Node:
        return put_in(part, shown)

    match node:
        case Name(text):
            return shown(text)
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


def _bracketed(base: Node) -> Node:
    """(4 1/2)², where 4 1/2² would say something else."""
    if isinstance(base, Name) and not base.text.isdigit():
        return Name(f"({base.text})")
    return base
