"""Which names a formula reads."""

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


def names(node: Node) -> frozenset[str]:
    """Return every name that the formula reads."""
    match node:
        case Number() | Pi():
            return frozenset()
        case Name(text):
            return frozenset([text])
        case Negative(of) | Root(of):
            return names(of)
        case Power(base, _):
            return names(base)
        case Choice(_, among):
            return frozenset().union(*map(names, among))
        case Rounding(_, of, step):
            return names(of) | names(step)
        case (
            Sum(left, right)
            | Difference(left, right)
            | Product(left, right)
            | Quotient(left, right)
            | Comparison(_, left, right)
            | Both(left, right)
            | Either(left, right)
        ):
            return names(left) | names(right)
        case _:
            assert_never(node)
