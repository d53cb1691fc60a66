from decimal import Decimal
from fractions import Fraction

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.drafting.formulas.evaluate import evaluate
from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.tree import (
    Difference,
    Name,
    Negative,
    Number,
    Pi,
    Power,
    Product,
    Quotient,
    Sum,
)
from patterns.drafting.formulas.values import PI, TooBigError
from tests.strategies import rational

VALUES = {"a": Fraction(9), "b": Fraction(5), "c": Fraction(1, 2)}


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("a + b + 2 × c", Fraction(15)),
        ("a − b ÷ c", Fraction(-1)),
        ("8 ÷ 1/2", Fraction(16)),
        ("−b²", Fraction(-25)),
        ("c³", Fraction(1, 8)),
        ("√(a)", Fraction(3)),
        ("√(c × c × 9)", Fraction(3, 2)),
        ("smaller of (a, b, 7)", Fraction(5)),
        ("larger of (a, b, 7)", Fraction(9)),
        ("round up (b, to 2)", Fraction(6)),
        ("round down (b, to 2)", Fraction(4)),
        ("round up (b, to c)", Fraction(5)),
        ("1 in", Fraction(127, 5)),
        ("1 yd − 36 in", Fraction(0)),
        ("a > b and b > c", True),
        ("a < b or b ≠ 5", False),
        ("√(b − a)", None),
        ("a ÷ (b − 5)", None),
        ("round up (a, to b − 5)", None),
        ("√(b − a) > 0", None),
        ("√(b − a) > 0 and a < b", False),
        ("√(b − a) > 0 or a > b", True),
    ],
)
def test_evaluates_exactly(text, value, no_floats):
    result = evaluate(read(text), VALUES)
    assert result == value
    assert type(result) is type(value)


def test_pi_and_roots_are_carried_to_sixty_digits():
    """Source: OEIS A000796 (π) and A002193 (√2)."""
    assert str(evaluate(read("π"), {})).startswith("3.14159265358979323846264338327950288419716939937510")
    assert str(evaluate(read("√(2)"), {})).startswith("1.41421356237309504880168872420969807856967187537694")
    assert type(evaluate(read("π × a"), VALUES)) is Decimal


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("√(2) × √(2) = 2", True),
        ("√(2) × √(2) > 2", False),
        ("π ÷ π ≥ 1", True),
        ("√(√(2) × √(2) − 2) = 0", True),
        ("smaller of (π, 3) = 3", True),
    ],
)
def test_rounded_values_within_ten_to_the_minus_twenty_are_equal(text, value):
    assert evaluate(read(text), VALUES) is value


@pytest.mark.parametrize(("text", "value"), [("round up (√(2)², to 2)", 2), ("round down (√(2)², to 2)", 2)])
def test_a_rounded_value_on_the_step_stays_there(text, value):
    assert evaluate(read(text), VALUES) == value


def test_circumferences():
    """Source: arithmetic; tutorials print 22, 37.68 and 94.2, because they use 3.14."""
    for across, round_it in (("7", "21.99"), ("12", "37.70"), ("30", "94.25")):
        value = evaluate(read(f"π × {across}"), {})
        assert isinstance(value, Decimal)
        assert value.quantize(Decimal("0.01")) == Decimal(round_it)


def test_numbers_are_bounded_on_the_way():
    square = "9"
    for _ in range(26):
        square = f"({square})²"
    with pytest.raises(TooBigError) as error:
        evaluate(read(square), {})
    assert str(error.value) == "A number grows too big on the way. Look for squares of squares."


def test_rounded_numbers_are_bounded_too():
    square = "9 × π"
    for _ in range(20):
        square = f"({square})²"
    with pytest.raises(TooBigError):
        evaluate(read(square), {})


SYMBOLS = {name: sympy.Symbol(name.replace(" ", "_")) for name in ("width", "height", "depth")}


def symbolic(node):
    """The same formula as SymPy reads it: the second road."""
    match node:
        case Number(value, _):
            return sympy.Rational(value.numerator, value.denominator)
        case Pi():
            return sympy.pi
        case Name(text):
            return SYMBOLS[text]
        case Negative(of):
            return -symbolic(of)
        case Sum(left, right):
            return symbolic(left) + symbolic(right)
        case Difference(left, right):
            return symbolic(left) - symbolic(right)
        case Product(left, right):
            return symbolic(left) * symbolic(right)
        case Quotient(left, right):
            return symbolic(left) / symbolic(right)
        case Power(base, exponent):
            return symbolic(base) ** exponent


lengths = st.builds(Fraction, st.integers(1, 60), st.sampled_from([1, 2, 4, 8]))


@settings(max_examples=150, deadline=None)
@given(rational, st.tuples(lengths, lengths, lengths))
def test_agrees_with_sympy(tree, sizes):
    values = dict(zip(SYMBOLS, sizes, strict=True))
    try:
        ours = evaluate(tree, values)
    except TooBigError:
        return
    put_in = {
        SYMBOLS[name]: sympy.Rational(value.numerator, value.denominator) for name, value in values.items()
    }
    theirs = symbolic(tree).subs(put_in)
    if ours is None or not theirs.is_finite:
        return
    if isinstance(ours, Fraction):
        assert sympy.Rational(ours.numerator, ours.denominator) == theirs
    else:
        apart = sympy.Abs(sympy.Float(str(ours), 60) - sympy.N(theirs, 60))
        assert apart <= sympy.Float("1e-40", 60) * (1 + sympy.Abs(sympy.N(theirs, 60)))


def test_pi_is_pi():
    assert str(sympy.N(sympy.pi, 60)) == str(PI)
