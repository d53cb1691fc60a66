from fractions import Fraction

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.drafting.formulas import polynomial
from patterns.drafting.formulas.inequalities import Inequality, contradict
from patterns.drafting.formulas.polynomial import (
    ONE,
    ZERO,
    Polynomial,
    TooLongError,
    constant,
    squared_part,
    unknown,
)
from patterns.drafting.formulas.ratio import Ratio, ratio

X, Y, Z = unknown(0), unknown(1), unknown(2)
SYMBOLS = sympy.symbols("x y z")

coefficients = st.builds(Fraction, st.integers(-9, 9), st.integers(1, 4))
monomials = st.lists(st.integers(0, 3), min_size=3, max_size=3).map(
    lambda exponents: tuple((index, exponent) for index, exponent in enumerate(exponents) if exponent)
)
polynomials = st.dictionaries(monomials, coefficients.filter(bool), max_size=4).map(Polynomial)


def as_sympy(this: Polynomial) -> sympy.Expr:
    """The same polynomial for the second road."""
    terms = (
        sympy.Rational(number.numerator, number.denominator)
        * sympy.prod([SYMBOLS[index] ** exponent for index, exponent in monomial])
        for monomial, number in this.terms.items()
    )
    return sympy.Add(*terms)


def test_terms_that_cancel_are_gone():
    assert (X + Y) - (X + Y) == ZERO
    assert (X + Y) * (X - Y) == X * X - Y * Y
    cube = (X + ONE) ** 3
    assert cube == X**3 + X * X.scaled(3) + X.scaled(3) + ONE


@settings(deadline=None)
@given(polynomials, polynomials)
def test_arithmetic_agrees_with_sympy(one, other):
    assert sympy.expand(as_sympy(one) * as_sympy(other) - as_sympy(one * other)) == 0
    assert sympy.expand(as_sympy(one) - as_sympy(other) - as_sympy(one - other)) == 0


@settings(deadline=None)
@given(polynomials, polynomials.filter(bool))
def test_a_product_is_divided_by_its_factor(one, other):
    assert (one * other).divided(other) == one


@settings(deadline=None)
@given(polynomials, polynomials.filter(bool))
def test_division_agrees_with_sympy(one, other):
    remainder = sympy.reduced(as_sympy(one), [as_sympy(other)], *SYMBOLS, order="grlex")[1]
    assert (one.divided(other) is None) == (remainder != 0)


@settings(deadline=None)
@given(polynomials)
def test_a_square_has_its_root(one):
    root = (one * one).square_root()
    assert root in (one, -one)


@settings(deadline=None)
@given(polynomials.filter(bool))
def test_what_is_no_square_has_no_root(one):
    root = one.square_root()
    is_square = all(power % 2 == 0 for _, power in sympy.factor_list(as_sympy(one))[1])
    assert root is None or root * root == one
    assert root is not None or not (is_square and Fraction(str(sympy.factor_list(as_sympy(one))[0])) == 1)


@settings(deadline=None)
@given(polynomials.filter(bool))
def test_content_leaves_whole_numbers_without_a_common_factor(one):
    primitive = one.scaled(1 / one.content())
    assert all(number.denominator == 1 for number in primitive.terms.values())
    assert primitive.content() == 1


@pytest.mark.parametrize(
    ("number", "outside", "inside"),
    [(1, 1, ()), (8, 2, (2,)), (36, 6, ()), (30, 1, (2, 3, 5)), (1009**2, 1009, ())],
)
def test_squared_part_worked_by_hand(number, outside, inside):
    assert squared_part(number) == (outside, inside)


@settings(deadline=None)
@given(st.integers(1, 10**12))
def test_squared_part_multiplies_back(number):
    outside, inside = squared_part(number)
    product = outside * outside
    for prime in inside:
        product *= prime
    assert product == number


def test_limit_on_terms(monkeypatch):
    monkeypatch.setattr(polynomial, "MOST_TERMS", 3)
    assert len((X + Y + Z).terms) == 3
    with pytest.raises(TooLongError):
        X + Y + Z + ONE
    with pytest.raises(TooLongError):
        (X + Y) * (X + Z)


def test_ten_thousand_terms_are_held_and_no_more():
    row = Polynomial({((0, place),) if place else (): 1 for place in range(50)})
    column = Polynomial({((1, place),) if place else (): 1 for place in range(50)})
    stack = Polynomial({((2, place),) if place else (): 1 for place in range(4)})
    full = row * column * stack
    assert len(full.terms) == polynomial.MOST_TERMS == 10_000
    with pytest.raises(TooLongError):
        full + unknown(3)


def test_limit_on_the_work_of_one_product():
    side = Polynomial({((index, 1),): 1 for index in range(400)})
    with pytest.raises(TooLongError):
        side * side


def test_limit_on_exponents():
    assert X**polynomial.MOST_EXPONENT
    with pytest.raises(TooLongError):
        X ** (polynomial.MOST_EXPONENT + 1)


def test_limit_on_digits():
    long = constant(2 ** (polynomial.MOST_BITS - 1))
    assert long * ONE == long
    with pytest.raises(TooLongError):
        long * constant(4)


def test_ratio_cancels_what_is_easily_seen():
    assert ratio(X * X - Y * Y, X - Y) == Ratio(X + Y)
    assert ratio(X, X * Y) == Ratio(ONE, Y)
    assert ratio(X.scaled(3), -Y.scaled(6)) == Ratio(X.scaled(Fraction(-1, 2)), Y)
    assert ratio(X - Y, X * X - Y * Y) == Ratio(ONE, X + Y)


def test_ratio_by_nothing_is_refused():
    with pytest.raises(ZeroDivisionError):
        ratio(X, ZERO)


@settings(deadline=None)
@given(polynomials, polynomials.filter(bool), polynomials, polynomials.filter(bool))
def test_ratios_agree_with_sympy(a, b, c, d):
    total = ratio(a, b) + ratio(c, d)
    by_sympy = as_sympy(a) / as_sympy(b) + as_sympy(c) / as_sympy(d)
    assert sympy.cancel(as_sympy(total.numerator) / as_sympy(total.denominator) - by_sympy) == 0


def test_contradictions_worked_by_hand():
    assert contradict([Inequality(X - Y), Inequality(Y - X, strict=True)])
    assert not contradict([Inequality(X - Y), Inequality(Y - X)])
    assert contradict([Inequality(X - Y), Inequality(Y - Z), Inequality(Z - X + ONE)])
    assert not contradict([Inequality(X * Y - ONE), Inequality(ONE - X)])


inequalities = st.builds(
    Inequality,
    st.tuples(*[st.integers(-3, 3)] * 4).map(
        lambda n: X.scaled(n[0] or 1) + Y.scaled(n[1] or 1) + Z.scaled(n[2] or 1) + constant(n[3])
    ),
    st.booleans(),
)


@settings(deadline=None)
@given(st.lists(inequalities, max_size=6), st.tuples(*[st.integers(-5, 5)] * 3))
def test_what_holds_somewhere_is_no_contradiction(rows, point):
    def holds(row: Inequality) -> bool:
        value = sum(
            number * (point[monomial[0][0]] if monomial else 1)
            for monomial, number in row.polynomial.terms.items()
        )
        return value < 0 or (value == 0 and not row.strict)

    assert not contradict([row for row in rows if holds(row)])
