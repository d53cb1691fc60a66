from decimal import Decimal
from fractions import Fraction

import pytest

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.sized import Quantity
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.errors import DrawingError


@pytest.mark.parametrize(
    ("text", "label"),
    [
        ("8 1⁄2 in", "8½ in"),
        ("7⁄8 in", "⅞ in"),
        ("≈ 12 13⁄16 in", "≈ 12¹³⁄₁₆ in"),
        ("1 1⁄3 in", "1⅓ in"),
        ("19.5 cm", "19.5 cm"),
        ("6 1⁄2 in from the top, 1⁄4 in from the left", "6½ in from the top, ¼ in from the left"),
    ],
)
def test_label_draws_fractions_from_figures_that_stand_alone(text: str, label: str) -> None:
    assert words.label(text) == label


def test_chosen_is_exact_and_cutting_is_rounded() -> None:
    width = Fraction(127, 5) * Fraction(69, 16)
    assert words.chosen(width, Units.INCHES) == "4 5⁄16 in"
    assert words.cutting(width, Units.INCHES) == "≈ 4 3⁄8 in"


def test_chosen_without_an_end_is_rounded_and_says_so() -> None:
    assert words.chosen(Decimal("120.7106781186547524400844362"), Units.CENTIMETRES) == "≈ 12.1 cm"


def test_sums_stay_exact_or_stay_rounded() -> None:
    one, other = Fraction(1, 3), Decimal("0.5")
    assert words.added(one, one) == Fraction(2, 3)
    assert words.less(one, one) == Fraction(0)
    assert isinstance(words.added(one, one), Fraction)
    assert isinstance(words.added(one, other), Decimal)
    assert str(words.less(other, one)).startswith("0.16666666666666666666666666666666666666")


def test_no_value_is_an_error() -> None:
    with pytest.raises(DrawingError, match="width ÷ 2 has no value"):
        words.known(Quantity(None, 1, Formula.read("width ÷ 2")))
