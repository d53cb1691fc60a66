"""Hypothesis strategies for what the drafting room reads: numbers, names, trees of formulas."""

from fractions import Fraction

from hypothesis import strategies as st

from patterns.drafting.formulas.tree import (
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

NAMES = ("width", "height", "depth", "seam allowance", "top of the bag", "round base", "sewer's mark")
UNITS = (None, "in", "cm", "mm", "m", "yd")

halves_to_sixteenths = st.builds(Fraction, st.integers(0, 400), st.sampled_from([1, 2, 4, 8, 16]))
decimals = st.builds(Fraction, st.integers(0, 10**6), st.sampled_from([1, 10, 100, 1000]))
exact_numbers = halves_to_sixteenths | decimals
numbers = st.builds(Number, exact_numbers, st.sampled_from(UNITS))
bare_numbers = st.builds(Number, exact_numbers)
names = st.builds(Name, st.sampled_from(NAMES))


def _arithmetic(inner: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
    """One more storey of arithmetic over what is given."""
    return st.one_of(
        st.builds(Negative, inner),
        st.builds(Sum, inner, inner),
        st.builds(Difference, inner, inner),
        st.builds(Product, inner, inner),
        st.builds(Quotient, inner, inner),
        st.builds(Power, inner, st.sampled_from([2, 3])),
        st.builds(Root, inner),
        st.builds(
            Choice, st.sampled_from(["smaller", "larger"]), st.lists(inner, min_size=2, max_size=3).map(tuple)
        ),
        st.builds(Rounding, st.sampled_from(["up", "down"]), inner, inner),
    )


arithmetic = st.recursive(numbers | names | st.just(Pi()), _arithmetic, max_leaves=12)
comparisons = st.builds(Comparison, st.sampled_from(["<", "≤", ">", "≥", "=", "≠"]), arithmetic, arithmetic)
conditions = st.recursive(
    comparisons,
    lambda inner: st.builds(Both, inner, inner) | st.builds(Either, inner, inner),
    max_leaves=4,
)
trees = arithmetic | conditions


def _rational(inner: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
    return st.one_of(
        st.builds(Negative, inner),
        st.builds(Sum, inner, inner),
        st.builds(Difference, inner, inner),
        st.builds(Product, inner, inner),
        st.builds(Quotient, inner, inner),
        st.builds(Power, inner, st.sampled_from([2, 3])),
    )


# Trees that are fractions of polynomials: no root, choice or rounding, and bare numbers only.
rational = st.recursive(
    bare_numbers | st.builds(Name, st.sampled_from(NAMES[:3])) | st.just(Pi()), _rational, max_leaves=8
)
