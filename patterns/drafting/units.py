"""The two unit systems that a customer chooses between."""

from enum import StrEnum
from fractions import Fraction

INCH = Fraction(127, 5)
CENTIMETRE = Fraction(10)

# Millimetres in each unit that a length may be written in.
# Source: international yard and pound agreement, 1959 (1 yd = 0.9144 m, so 1 in = 25.4 mm exactly).
MILLIMETRES = {
    "in": INCH,
    "cm": CENTIMETRE,
    "mm": Fraction(1),
    "m": Fraction(1000),
    "yd": 36 * INCH,
}


class Units(StrEnum):
    """Inches or centimetres."""

    INCHES = "in"
    CENTIMETRES = "cm"

    @property
    def mm(self) -> Fraction:
        """Millimetres in one of the unit, exact."""
        return MILLIMETRES[self.value]

    @property
    def cutting_step(self) -> Fraction:
        """The cutting precision in mm: 1/8 in, or 1 mm."""
        return INCH / 8 if self is Units.INCHES else Fraction(1)
