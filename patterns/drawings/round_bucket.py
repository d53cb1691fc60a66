"""A round, open-topped bucket, standing."""

from fractions import Fraction

from .fills import Fabric
from .geometry import Point, quarter_circle
from .lines import Line
from .standing import Edge, Face, Shape, Standing, Stroke

# How flat a circle lies that is seen from a little above: its height on the page, for a diameter of 1.
TILT = Fraction(1, 3)
# A quarter of the circle in so many straight lines: on a page nobody sees a corner.
QUARTER = 16
# The light comes from the left: so many of those lines lie in the shade inside, and outside.
SHADED_INSIDE, SHADED_OUTSIDE = 8, 5
# And so many to the left of the right end lies a seam of the side.
SEAM = 9

_CIRCLE = quarter_circle(QUARTER)
# From its left end through the foremost place to its right end, and back through the farthest.
NEAR = (*(Point(-x, -y) for x, y in _CIRCLE), *(Point(x, -y) for x, y in reversed(_CIRCLE[:-1])))
FAR = tuple(Point(-x, -y) for x, y in NEAR)


def place_on_wall(place: Point, radius: Fraction, up: Fraction) -> Point:
    """Return where a place on the wall is seen. place: on the circle of 1, y away from the viewer."""
    return Point(radius * (1 + place.x), radius * TILT * (1 + place.y) + up)


def round_bucket(diameter: Fraction, height: Fraction) -> Standing:
    """Return the bucket, its foremost place on the table's edge; mm, above 0."""
    bucket = _Bucket(diameter, height)
    return Standing(
        shapes=(*bucket.inside(), *bucket.outside()),
        width=bucket.across(),
        height=bucket.up(),
        depth=None,
        width_name="diameter",
        seen_as="standing open, seen from the front and a little from above, with the lining inside",
    )


class _Bucket:
    def __init__(self, diameter: Fraction, height: Fraction) -> None:
        self.radius, self.height = diameter / 2, height
        # Topstitching is sewn 3 mm from the edge; in a small picture of a large bucket nobody would see it.
        self.topstitch = min(max(Fraction(3), (diameter + height) / 50), height / 4)

    def at(self, place: Point, up: Fraction) -> Point:
        """Return a place on the wall."""
        return place_on_wall(place, self.radius, up)

    def near(self, up: Fraction) -> tuple[Point, ...]:
        return tuple(self.at(place, up) for place in NEAR)

    def far(self, up: Fraction) -> tuple[Point, ...]:
        return tuple(self.at(place, up) for place in FAR)

    def across(self) -> Edge:
        """The diameter, level with the foremost place of the base."""
        return Point(Fraction(0), Fraction(0)), Point(2 * self.radius, Fraction(0))

    def up(self) -> Edge:
        left = self.at(NEAR[0], Fraction(0))
        return left, Point(left.x, left.y + self.height)

    def inside(self) -> tuple[Shape, ...]:
        """The far wall, the base and the edge; the outside is painted over what it hides of them."""
        near, far = self.near(self.height), self.far(self.height)
        rim = _ring(near, far)
        shade = (*near[: SHADED_INSIDE + 1], *far[-SHADED_INSIDE - 1 : -1])
        return (
            Face(rim, Fabric("lining"), None, "inside back"),
            Face(shade, Fabric("lining", is_shaded=True), None, "shade"),
            Stroke(Line.TOPSTITCH, self.far(self.height - self.topstitch)),
            *self._base(),
            Stroke(Line.OUTLINE, rim, is_closed=True),
        )

    def _base(self) -> tuple[Shape, ...]:
        """The base, if it is seen over the near edge: the far end of it first."""
        base = _ring(self.near(Fraction(0)), self.far(Fraction(0)))
        is_seen = 2 * self.radius * TILT > self.height
        return (Face(base, Fabric("lining", lean="down", gap=2600), part="inside base"),) if is_seen else ()

    def outside(self) -> tuple[Shape, ...]:
        foot, top = self.near(Fraction(0)), self.near(self.height)
        shade = slice(-SHADED_OUTSIDE - 1, None)
        return (
            Face((*foot, *reversed(top)), Fabric("exterior"), None, "front"),
            Face((*foot[shade], *reversed(top[shade])), Fabric("exterior", is_shaded=True), None, "shade"),
            Stroke(Line.OUTLINE, (*foot, *reversed(top)), is_closed=True),
            self._seam(),
            Stroke(Line.TOPSTITCH, self.near(self.height - self.topstitch)),
        )

    def _seam(self) -> Shape:
        """A seam of the side, turned a little to the right; if there is a second, it lies behind."""
        foot = self.at(NEAR[-SEAM - 1], Fraction(0))
        return Stroke(Line.SEAM, (foot, Point(foot.x, foot.y + self.height)))


def _ring(near: tuple[Point, ...], far: tuple[Point, ...]) -> tuple[Point, ...]:
    return (*near, *far[1:-1])
