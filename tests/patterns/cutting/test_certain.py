"""The area of an outline that is certainly cut, against areas by hand and by counting squares."""

from fractions import Fraction
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.certain import certain_area, whole_area
from patterns.drafting.outlines import Corner

PANEL = [(0, 0), (20, 0), (20, 14), (17, 14), (17, 17), (3, 17), (3, 14), (0, 14)]
CIRCLE = [Corner(Fraction(x), Fraction(y), "right") for x, y in ((10, 0), (20, 10), (10, 20), (0, 10))]


def test_a_panel_loses_its_corners():
    """20 × 17 less two squares of 3."""
    outline = [Corner(Fraction(x), Fraction(y)) for x, y in PANEL]
    assert certain_area(outline, 1) == whole_area(PANEL) == 322
    assert certain_area(outline, 10) == 32_200


@pytest.mark.parametrize("parts", [1, 7, 1000])
def test_a_circle_is_rounded_down(parts):
    found = certain_area(CIRCLE, parts)
    assert type(found) is int
    assert found <= pi * 100 * parts**2 + 1e-3
    assert found + 1 > pi * 100 * parts**2 - 1e-3


def test_of_an_area_without_an_end_a_hair_is_taken_off():
    """A square whose side was rounded, 60 digits of √2 squared, may be less than 2 by a trace."""
    side = Fraction(2)
    assert certain_area([Corner(x * side, y * side) for x, y in ((0, 0), (1, 0), (1, 1), (0, 1))], 1) == 4
    assert certain_area(CIRCLE, 10**12) < Fraction("314.15926535897932384626433832795028842") * 10**24


@given(st.lists(st.tuples(st.integers(0, 30), st.integers(0, 30)), min_size=3, max_size=8, unique=True))
def test_whole_numbers_are_the_same_road(places):
    outline = [Corner(Fraction(x), Fraction(y)) for x, y in places]
    assert whole_area(places) == certain_area(outline, 1)
    assert whole_area([(2 * x, 2 * y) for x, y in places]) == certain_area(outline, 2)
