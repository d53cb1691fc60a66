from fractions import Fraction

import pytest

from patterns.drafting.units import Units
from patterns.management.arguments import ArgumentError
from patterns.management.extents import read_extent

IN, CM = Units.INCHES, Units.CENTIMETRES


@pytest.mark.parametrize(
    ("text", "units", "expected"),
    [
        ("14.8x21x0.4", CM, (148, 210, 4)),
        ("148x210x4mm", IN, (148, 210, 4)),
        ("21/2x1/2x2", IN, (Fraction(2667, 10), Fraction(127, 10), Fraction(254, 5))),
        ("2½×½×2", IN, (Fraction(127, 2), Fraction(127, 10), Fraction(254, 5))),
        ('1X2x3"', CM, (Fraction(127, 5), Fraction(254, 5), Fraction(381, 5))),
        ("1x2x3in", CM, (Fraction(127, 5), Fraction(254, 5), Fraction(381, 5))),
    ],
)
def test_sides_are_read_with_one_unit_for_all(text, units, expected):
    extent = read_extent(text, 3, units)
    assert extent == expected
    assert all(isinstance(side, Fraction) for side in extent)


@pytest.mark.parametrize(
    "text", ["", "1x2", "1x2x3x4", "1*2*3", "1x2xcm", "1cmx2cmx3cm", "-1x2x3", "1x2x3ft"]
)
def test_what_is_no_size_is_told(text):
    with pytest.raises(ArgumentError):
        read_extent(text, 3, CM)


def test_two_sides_are_as_good():
    assert read_extent("18x22", 2, IN) == (18 * IN.mm, 22 * IN.mm)
