"""How much more cloth to buy because it shrinks when it is washed first."""

from dataclasses import dataclass
from fractions import Fraction

from .errors import CuttingError
from .sheets import Length

# More than any cloth that is sold for sewing.
MOST_PER_CENT = 50


@dataclass(frozen=True, slots=True)
class Shrinkage:
    """Per cent of the measure before washing, along the cloth and across it.

    Source: the way it is stated in AATCC TM135 and ISO 5077.
    Raises CuttingError: less than nothing, or more than cloth shrinks.
    """

    along: Fraction | int = 0
    across: Fraction | int = 0

    def __post_init__(self) -> None:
        for way, value in (("along", self.along), ("across", self.across)):
            if not 0 <= value <= MOST_PER_CENT:
                raise CuttingError(
                    f"Shrinkage {way} the cloth of {value} %. Write a number from 0 to {MOST_PER_CENT}."
                )

    @property
    def is_none(self) -> bool:
        return not self.along and not self.across

    def washed_length(self, length: Length) -> Fraction:
        """Return what is left of a length along the cloth, exact."""
        return Fraction(length) * (100 - Fraction(self.along)) / 100

    def washed_width(self, width: Length) -> Fraction:
        """Return what is left of a width, exact."""
        return Fraction(width) * (100 - Fraction(self.across)) / 100

    def bought_length(self, length: Length) -> Fraction:
        """Return the length that washes to this one, exact.

        >>> Shrinkage(along=20).bought_length(100)
        Fraction(125, 1)
        """
        return Fraction(length) * 100 / (100 - Fraction(self.along))


NO_SHRINKAGE = Shrinkage()
