from decimal import Decimal
from fractions import Fraction

import pytest

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.sized import Quantity
from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import Point, Spot
from patterns.drawings.page import Placing, cloth

FORMULA = Formula.read("width − depth")


def test_cloth_keeps_what_is_exact_and_takes_the_rest_to_a_nanometre() -> None:
    assert cloth(Quantity(Fraction(1, 3), 1, FORMULA)) == Fraction(1, 3)
    assert cloth(Quantity(Decimal("1.41421356237309504880"), 1, FORMULA)) == Fraction(1414214, 10**6)


@pytest.mark.parametrize(
    ("value", "message"),
    [
        (None, "width − depth has no value at this size."),
        (Fraction(-1), "width − depth is too small to draw at this size."),
    ],
)
def test_what_cannot_be_drawn_is_said(value: Fraction | None, message: str) -> None:
    with pytest.raises(DrawingError) as raised:
        cloth(Quantity(value, 1, FORMULA))
    assert str(raised.value) == message


def test_placing_turns_up_into_down_and_rounds_once() -> None:
    placing = Placing(Fraction(100), Spot(1000, 5000))
    assert placing.spot(Point(Fraction(1, 3), Fraction(10))) == Spot(1033, 4000)
