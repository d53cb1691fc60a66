"""A zip-topped pouch with a fold-flat base, zipped and standing."""

from fractions import Fraction
from math import isqrt

from .errors import DrawingError
from .fills import Fabric
from .geometry import Point, between
from .lines import Line
from .standing import Face, Oblique, Shape, Standing, Stroke

# Thirteen twentieths of the depth, along the long leg of a 5-12-13 triangle: low enough to see the short
# side, which leans out over the table.
VIEW = Oblique(Fraction(3, 5), Fraction(1, 4))
NOTHING = Fraction(0)
# A length with no end is carried to a millionth of a mm.
FINE = 10**6


def standing_height(height: Fraction, depth: Fraction) -> Fraction:
    """Return how high the pouch stands, √(height² − (depth/2)²), to a millionth of a mm.

    The height runs along the slanting front; base and slope make a right-angled triangle.
    Raises DrawingError: it would not stand.

    >>> standing_height(Fraction(130), Fraction(100))
    Fraction(120, 1)
    """
    square = height**2 - (depth / 2) ** 2
    if square <= 0:
        raise DrawingError("A pouch that is no higher than half its depth cannot stand.")
    return Fraction(isqrt(int(square * FINE**2)), FINE)


def zip_pouch(width: Fraction, height: Fraction, depth: Fraction, reveal: Fraction) -> Standing:
    """Return the pouch, standing width × depth on the table and closing to a line of zip width + depth long.

    reveal: how much of the zip tape shows, over both sides, mm.
    """
    pouch = Pouch(width, height, depth, reveal)
    left = -depth / 2
    return Standing(
        shapes=(*pouch.short_side(), *pouch.front(), *pouch.zip()),
        width=(VIEW.point(NOTHING, NOTHING), VIEW.point(width, NOTHING)),
        height=(VIEW.point(left, NOTHING), VIEW.point(left, pouch.stands, depth / 2)),
        depth=(VIEW.point(width, NOTHING), VIEW.point(width, NOTHING, depth)),
        seen_as="zipped and standing, seen from the front and a little from above and from the right, "
        "its triangle outside on the short side",
        height_note="along the slope",
    )


class Pouch:
    """A pouch as it stands: places on its slanting front and on its right short side; all in mm."""

    def __init__(self, width: Fraction, height: Fraction, depth: Fraction, reveal: Fraction) -> None:
        self.width, self.height, self.depth = width, height, depth
        self.stands = standing_height(height, depth)
        # The ends of the zip tuck under: there the top is half the reveal lower.
        self.tuck = min(reveal / 2, height / 4)
        self.topstitch = self.tuck + min(max(Fraction(3), (width + height) / 50), height / 4)

    def slope(self, x: Fraction, down: Fraction) -> Point:
        """Return a place on the front, `down` along the slope from the top; x as at the base, mm."""
        rest = 1 - down / self.height
        return VIEW.point(x, self.stands * rest, self.depth / 2 * rest)

    def row(self, down: Fraction, inset: Fraction = NOTHING) -> tuple[Point, Point]:
        """Return both ends of the front, so far down: at the top it is half the depth wider each way."""
        flare = self.depth / 2 * (1 - down / self.height) - inset
        return self.slope(-flare, down), self.slope(self.width + flare, down)

    def front(self) -> tuple[Shape, ...]:
        top_left, top_right = self.row(self.tuck)
        foot_left, foot_right = self.row(self.height)
        return (
            Face((foot_left, foot_right, top_right, top_left), Fabric("exterior"), Line.OUTLINE, "front"),
            Stroke(Line.TOPSTITCH, self.row(self.topstitch)),
        )

    def seam(self, down: Fraction) -> Point:
        """Return a place on the seam in the middle of the right short side, so far down its slope."""
        end = VIEW.point(self.width + self.depth / 2, self.stands, self.depth / 2)
        foot = VIEW.point(self.width, NOTHING, self.depth / 2)
        return between(end, foot, down / self.height)

    def short_side(self) -> tuple[Shape, ...]:
        """The right short side: a wall that leans out, its seam, and the triangle lying on its foot."""
        return (*self.leaning_wall(), *self.triangle())

    def leaning_wall(self) -> tuple[Shape, ...]:
        near, far = VIEW.point(self.width, NOTHING), VIEW.point(self.width, NOTHING, self.depth)
        top_near, seam_top = self.row(self.tuck)[1], self.seam(self.tuck)
        top_far = between(top_near, seam_top, Fraction(2))
        return (
            Face((near, far, top_far, top_near), Fabric("exterior", is_shaded=True), Line.OUTLINE, "side"),
            Stroke(Line.SEAM, (self.seam(self.height), seam_top)),
        )

    def triangle(self) -> tuple[Shape, ...]:
        near, far = VIEW.point(self.width, NOTHING), VIEW.point(self.width, NOTHING, self.depth)
        point = self.seam(max(self.height - self.depth / 2, NOTHING))
        return (
            Face((near, far, point), Fabric("exterior", is_pale=True), Line.EDGE, "triangle"),
            Stroke(Line.SEAM, (self.seam(self.height), point)),
        )

    def zip(self) -> tuple[Shape, ...]:
        """The tape above the front's edge, the teeth along the top, the pull near its right end."""
        start, end = self.row(NOTHING, inset=self.tuck)
        left, right = self.row(self.tuck)
        return (
            Face((left, right, end, start), Fabric(None), Line.EDGE),
            Stroke(Line.OUTLINE, (start, end)),
            Stroke(Line.TEETH, (start, end)),
            self._pull(self.width + self.depth / 2 - 4 * self.tuck),
        )

    def _pull(self, x: Fraction) -> Shape:
        """The tab of the slider, hanging down the front at x."""
        half = (self.width + self.height) / 80
        shape = ((1, 4), (Fraction(3, 2), 3), (1, 0), (-1, 0), (Fraction(-3, 2), 3), (-1, 4))
        tab = tuple(self.slope(x + half * across, half * down) for across, down in shape)
        return Face(tuple(reversed(tab)), Fabric(None), Line.EDGE)
