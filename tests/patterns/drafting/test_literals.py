import pytest

from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.literals import literals
from patterns.drafting.formulas.spell import spell


@pytest.mark.parametrize(
    ("formula", "found"),
    [
        ("width + 2 × height", []),
        ("width + 1/2 in", ["1/2 in"]),
        ("smaller of (5 in, width ÷ 2) + 2 cm", ["5 in", "2 cm"]),
        ("round up (√(width × 3 mm), to 1/8 in)", ["3 mm", "1/8 in"]),
        ("width > 2 in and −(1 m) < height or width = 1 yd", ["2 in", "1 m", "1 yd"]),
        ("(2 in)²", ["2 in"]),
    ],
)
def test_numbers_with_a_unit_are_found_from_left_to_right(formula, found):
    assert [spell(number) for number in literals(read(formula))] == found
