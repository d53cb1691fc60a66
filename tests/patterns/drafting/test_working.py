from decimal import Decimal
from fractions import Fraction

import pytest

from patterns.drafting.formulas.dimensions import kind_of
from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.working import working
from patterns.drafting.units import INCH, Units

POWERS = {"width": 1, "height": 1, "depth": 1, "seam allowance": 1, "folds": 0, "round": 1}
INCHES = {
    "width": Fraction(17, 2) * INCH,
    "height": 6 * INCH,
    "depth": Fraction(19, 4) * INCH,
    "seam allowance": INCH / 2,
    "folds": Fraction(3),
    "round": Decimal("100") / 3,
}
CENTIMETRES = {**INCHES, "width": Fraction("190.5"), "height": Fraction(150), "depth": Fraction(120)}


def worked(text, values, units):
    tree = read(text)
    power = kind_of(tree, POWERS)
    return working(tree, values, POWERS, units, power)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("width + depth + 2 × seam allowance", "8 1/2 + 4 3/4 + 2 × 1/2 = 14 1/4"),
        ("2 × height + depth + 2 × seam allowance", "2 × 6 + 4 3/4 + 2 × 1/2 = 17 3/4"),
        ("depth ÷ 2", "4 3/4 ÷ 2 = 2 3/8"),
        ("depth ÷ 4", "4 3/4 ÷ 4 = 1 3/16 ≈ 1 1/4"),
        ("π × width", "π × 8 1/2 ≈ 26 3/4"),
        ("width²", "(8 1/2)² = 72.25 ≈ 72.3"),
        ("height²", "6² = 36"),
        ("height", "6"),
        ("folds + 1", "3 + 1 = 4"),
        ("smaller of (width, height)", "smaller of (8 1/2, 6) = 6"),
        ("round up (depth, to seam allowance)", "round up (4 3/4, to 1/2) = 5"),
        ("height − width", "6 − 8 1/2 = −2 1/2"),
        ("height ≥ depth ÷ 2 + seam allowance", "6 ≥ 4 3/4 ÷ 2 + 1/2"),
        ("height ÷ (width − width)", "6 ÷ (8 1/2 − 8 1/2) has no value"),
    ],
)
def test_puts_the_numbers_in(text, says):
    assert worked(text, INCHES, Units.INCHES) == says


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("width + depth", "19.05 + 12 = 31.05 ≈ 31.1"),
        ("2 × height + depth", "2 × 15 + 12 = 42"),
        ("height ÷ 4", "15 ÷ 4 = 3.75 ≈ 3.8"),
        ("depth ÷ 7", "12 ÷ 7 = 1 5/7 ≈ 1.7"),
    ],
)
def test_shows_exact_values_and_rounds_only_the_last(text, says):
    assert worked(text, CENTIMETRES, Units.CENTIMETRES) == says


def test_a_number_below_nothing_is_put_in_with_its_minus():
    values = {**INCHES, "depth": -2 * INCH}
    assert worked("width × depth", values, Units.INCHES) == "8 1/2 × −2 = −17"
