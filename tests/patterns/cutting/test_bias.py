from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.bias import bias_length, bias_square, strips_of
from patterns.cutting.errors import CuttingError
from patterns.drafting.units import INCH


def test_a_twenty_inch_square_at_two_inches():
    """200 in. Source: published binding tables, recomputed: area ÷ strip width."""
    assert bias_length(20 * INCH, 2 * INCH) == 200 * INCH


def test_two_hundred_and_fifty_inches_want_a_square_of_twenty_three():
    """Source: published binding tables, recomputed."""
    assert bias_square(250 * INCH, 2 * INCH, INCH) == 23 * INCH


@given(st.fractions(1, 900, max_denominator=8), st.fractions(1, 60, max_denominator=8))
def test_a_square_is_enough_and_no_step_too_large(length, strip):
    def is_enough(side):
        return (
            bias_length(side, strip) >= length and 2 * (side * strips_of(side, strip)) ** 2 >= length * length
        )

    side = bias_square(length, strip, 5)
    assert is_enough(side)
    assert side == 5 or not is_enough(side - 5)


@given(st.integers(1, 300), st.integers(1, 40))
def test_whole_strips_lie_within_the_parallelogram(side, strip):
    number = strips_of(side, strip)
    assert 2 * (number * strip) ** 2 <= side**2 < 2 * ((number + 1) * strip) ** 2
    assert 2 * (number * side) ** 2 <= bias_length(side, strip) ** 2


@pytest.mark.parametrize(("length", "strip", "step"), [(0, 2, 1), (10, 0, 1), (10, 2, -1)])
def test_measures_of_nothing_are_refused(length, strip, step):
    with pytest.raises(CuttingError, match="nothing"):
        bias_square(length, strip, step)


def test_a_square_larger_than_any_cloth_is_refused():
    with pytest.raises(CuttingError, match="larger than any cloth"):
        bias_square(10**9, Fraction(1, 10), 1)
