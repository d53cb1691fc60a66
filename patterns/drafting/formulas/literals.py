"""Which numbers with a unit stand in a formula."""

from typing import assert_never

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


def literals(node: Node) -> tuple[Number, ...]:
    """Return the numbers with a unit, from left to right: what a recipe has to give in both unit systems."""
    match node:
        case Number(_, unit):
            return (node,) if unit else ()
        case Pi() | Name():
            return ()
        case Negative(of) | Root(of):
            return literals(of)
        case Power(base, _):
            return literals(base)
        case Choice(_, among):
            return tuple(number for part in among for number in literals(part))
        case (
            Rounding(_, left, right)
            | Sum(left, right)
            | Difference(left, right)
            | Product(left, right)
            | Quotient(left, right)
            | Comparison(_, left, right)
            | Both(left, right)
            | Either(left, right)
        ):
            return literals(left) + literals(right)
        case _:
            assert_never(node)
