"""What draws a neck together: a band round it, and two cords whose ends hang out, knotted near their tips."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from .drawn_shut import Shut
from .fills import Fabric
from .geometry import Point
from .lines import Line
from .standing import Face, Shape

# Of a cord, as a part of the bag's width: what can be seen at every size.
THICK = Fraction(1, 40)
NEITHER = Fabric(None)
# The edge that the ends hang over lies so far from the middle, of the width; and they end above the table.
OVER, ABOVE_TABLE = Fraction(17, 32), Fraction(5, 6)


def band(shut: Shut, half: Fraction) -> tuple[Shape, ...]:
    """Return what goes round the neck, so far to both sides of its middle: in front and at the right."""
    out = shut.half
    front_left, front_right, back_right = (-out, -out), (out, -out), (out, out)
    return tuple(
        Face(
            (
                shut.at(one[0], -half, one[1]),
                shut.at(other[0], -half, other[1]),
                shut.at(other[0], half, other[1]),
                shut.at(one[0], half, one[1]),
            ),
            NEITHER,
            Line.EDGE,
        )
        for one, other in ((front_right, back_right), (front_left, front_right))
    )


@dataclass(frozen=True, slots=True)
class Cords:
    """Two cords of a bag drawn shut, their ends out to the left and to the right.

    ends: how long each end hangs out. knot: how far from its tip, mm.
    """

    shut: Shut
    ends: Fraction
    knot: Fraction

    @property
    def thick(self) -> Fraction:
        return self.shut.width * THICK

    def drawn(self) -> tuple[Shape, ...]:
        """The band round the neck and both pairs of ends with their knots."""
        shapes = list(band(self.shut, self.thick / 2))
        for way in (-1, 1):
            start, over, knot = self._leaves(way), self._over(way), self.knot_at(way)
            tip = over.y - self._falls
            for aside in (-self.thick, self.thick):
                spots = (start, Point(over.x + aside, over.y), knot, Point(over.x + aside * 2, tip))
                shapes.append(Face(_strand(spots, self.thick / 2), NEITHER, Line.EDGE))
            shapes.append(Face(octagon(knot, self.thick), NEITHER, Line.EDGE))
        return tuple(shapes)

    def knot_at(self, way: int) -> Point:
        """Return where the knot of the left pair, −1, or of the right one, 1, hangs."""
        over, up = self._over(way), min(max(self.knot, self.thick * 2), self._falls / 2)
        return Point(over.x, over.y - self._falls + up)

    def _leaves(self, way: int) -> Point:
        return self.shut.at(way * self.shut.half, Fraction(0), Fraction(0))

    def _over(self, way: int) -> Point:
        """The edge that a pair hangs over: of the side at the right, of the front corner at the left."""
        away = Fraction(0) if way > 0 else -self.shut.depth / 2
        return self.shut.at(way * self.shut.width * OVER, self.shut.shoulder - self.shut.neck, away)

    @property
    def _falls(self) -> Fraction:
        """How far the ends hang below that edge: as long as they are, or nearly to the table."""
        along = self.shut.width / 2 + (self.shut.neck - self.shut.shoulder) / 2
        return min(max(self.ends - along, self.ends / 4), self.shut.shoulder * ABOVE_TABLE)


def _strand(way: Sequence[Point], half: Fraction) -> tuple[Point, ...]:
    """Return the outline of a cord along a way that leads outwards, then down."""
    start, *rest = way
    upper = [Point(start.x, start.y + half), *(Point(spot.x + half, spot.y) for spot in rest)]
    lower = [Point(start.x, start.y - half), *(Point(spot.x - half, spot.y) for spot in rest)]
    return (*upper, *reversed(lower))


def octagon(middle: Point, size: Fraction) -> tuple[Point, ...]:
    """Return a knot: eight corners, twice as wide as its size."""
    corners = ((2, 1), (1, 2), (-1, 2), (-2, 1), (-2, -1), (-1, -2), (1, -2), (2, -1))
    return tuple(Point(middle.x + size * x / 2, middle.y + size * y / 2) for x, y in corners)
