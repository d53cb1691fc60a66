from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.errors import CuttingError
from patterns.cutting.shrinkage import NO_SHRINKAGE, Shrinkage

per_cent = st.fractions(0, 50, max_denominator=10)
lengths = st.fractions(0, 5000, max_denominator=64)


def test_a_hundred_centimetres_at_three_per_cent():
    """103.1 cm. Source: needed ÷ (1 − shrinkage), of the length before washing (AATCC TM135, ISO 5077)."""
    bought = Shrinkage(along=3).bought_length(1000)
    assert bought == Fraction(100_000, 97)
    assert round(bought / 10, 1) == Fraction("103.1")


@given(per_cent, lengths)
def test_what_is_bought_washes_to_what_is_needed(along, length):
    shrinkage = Shrinkage(along)
    assert shrinkage.washed_length(shrinkage.bought_length(length)) == length
    assert shrinkage.bought_length(length) >= length


def test_across_is_its_own():
    assert Shrinkage(across=10).washed_width(400) == 360
    assert Shrinkage(across=10).washed_length(400) == 400
    assert NO_SHRINKAGE.is_none


@pytest.mark.parametrize("value", [-1, 51])
def test_what_no_cloth_does_is_refused(value):
    with pytest.raises(CuttingError) as error:
        Shrinkage(along=value)
    assert str(error.value) == f"Shrinkage along the cloth of {value} %. Write a number from 0 to 50."
