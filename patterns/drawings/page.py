"""From cloth to page: the one place where exact lengths become whole micrometres."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from patterns.drafting.formulas.values import Measured
from patterns.drafting.sized import Quantity

from .errors import DrawingError
from .geometry import Point, Spot

# No piece is drawn larger than life: 1,000 micrometres for each mm.
LIFE_SIZE = Fraction(1000)


def cloth(quantity: Quantity, least: Fraction = Fraction(0)) -> Fraction:
    """Return a quantity as a length to draw; one that was rounded is taken to a nanometre.

    Raises DrawingError: it has no value, or one below `least`.
    """
    value = quantity.value
    if value is None:
        raise DrawingError(f"{quantity.formula} has no value at this size.")
    length = exact(value)
    if length < least:
        raise DrawingError(f"{quantity.formula} is too small to draw at this size.")
    return length


def exact(value: Measured) -> Fraction:
    """Return a length to draw; one that was rounded is taken to a nanometre."""
    return Fraction(value.quantize(Decimal("1e-6"))) if isinstance(value, Decimal) else value


@dataclass(frozen=True, slots=True)
class Placing:
    """How a drawing lies on the page. scale: micrometres for each mm. origin: where (0, 0) lies."""

    scale: Fraction
    origin: Spot

    def length(self, mm: Fraction) -> int:
        """Round to a micrometre, a half up: in whole numbers, since each corner of a drawing comes here."""
        parts = mm.denominator * self.scale.denominator
        return (2 * mm.numerator * self.scale.numerator + parts) // (2 * parts)

    def spot(self, point: Point) -> Spot:
        return Spot(self.origin.x + self.length(point.x), self.origin.y - self.length(point.y))

    def spots(self, points: Iterable[Point]) -> tuple[Spot, ...]:
        return tuple(self.spot(point) for point in points)
