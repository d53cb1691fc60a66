"""A stitched open-topped basket that folds flat, standing open."""

from fractions import Fraction

from .fills import Fabric
from .geometry import Point
from .lines import Line
from .standing import Face, Oblique, Shape, Standing, Stroke

# Five eighths of the depth, along the long leg of a 3-4-5 triangle: enough from above to look in.
VIEW = Oblique(Fraction(1, 2), Fraction(3, 8))


def open_basket(width: Fraction, height: Fraction, depth: Fraction, is_pleated: bool = True) -> Standing:
    """Return the basket, standing width × depth on the table. All in mm, above 0.

    is_pleated: whether its base folds in, so that a triangle stands on each short side.
    """
    basket = _Basket(width, height, depth, is_pleated)
    return Standing(
        shapes=(*basket.inside(), *basket.outside()),
        width=(basket.at(0, 0, 0), basket.at(1, 0, 0)),
        height=(basket.at(0, 0, 0), basket.at(0, 1, 0)),
        depth=(basket.at(1, 0, 0), basket.at(1, 0, 1)),
        seen_as="standing open, seen from the front and a little from above and from the right, "
        "with the lining inside",
    )


class _Basket:
    def __init__(self, width: Fraction, height: Fraction, depth: Fraction, is_pleated: bool) -> None:
        self.is_pleated = is_pleated
        self.width, self.height, self.depth = width, height, depth
        # Topstitching is sewn 3 mm from the edge; in a small picture of a large basket nobody would see it.
        self.topstitch = min(max(Fraction(3), (width + height) / 50), height / 4)
        # The triangle on each short side stands half the depth up and folds in from the corners of the base.
        self.point = min(depth / 2, height)

    def at(self, x: int | Fraction, y: int | Fraction, z: int | Fraction) -> Point:
        """Return a place in the basket, each coordinate a share of its width, height or depth."""
        return VIEW.point(x * self.width, y * self.height, z * self.depth)

    def inside(self) -> tuple[Shape, ...]:
        """The base, the left wall with its triangle, the back wall; the outside is painted over them."""
        at = self.at
        wall = Fabric("lining", is_shaded=True, lean="down")
        base = Fabric("lining", lean="down", gap=2600)
        stitched = 1 - self.topstitch / self.height
        return (
            Face((at(0, 0, 0), at(1, 0, 0), at(1, 0, 1), at(0, 0, 1)), base, part="inside base"),
            Face((at(0, 0, 0), at(0, 0, 1), at(0, 1, 1), at(0, 1, 0)), wall, part="inside left"),
            Face((at(0, 0, 1), at(1, 0, 1), at(1, 1, 1), at(0, 1, 1)), Fabric("lining"), part="inside back"),
            *((Stroke(Line.EDGE, self._triangle(0)),) if self.is_pleated else ()),
            Stroke(Line.TOPSTITCH, (at(0, stitched, 0), at(0, stitched, 1), at(1, stitched, 1))),
            Stroke(Line.OUTLINE, (at(0, 1, 0), at(1, 1, 0), at(1, 1, 1), at(0, 1, 1)), is_closed=True),
        )

    def outside(self) -> tuple[Shape, ...]:
        at, half = self.at, Fraction(1, 2)
        down = self.topstitch / self.height
        front = Face(
            (at(0, 0, 0), at(1, 0, 0), at(1, 1, 0), at(0, 1, 0)),
            Fabric("exterior"),
            Line.OUTLINE,
            part="front",
        )
        side = Face(
            (at(1, 0, 0), at(1, 0, 1), at(1, 1, 1), at(1, 1, 0)),
            Fabric("exterior", is_shaded=True),
            Line.OUTLINE,
            part="side",
        )
        return (
            side,
            front,
            Stroke(Line.SEAM, (at(1, 0, half), at(1, 1, half))),
            *((Stroke(Line.HIDDEN_FOLD, self._triangle(1)),) if self.is_pleated else ()),
            Stroke(Line.TOPSTITCH, (at(0, 1 - down, 0), at(1, 1 - down, 0), at(1, 1 - down, 1))),
        )

    def _triangle(self, x: int) -> tuple[Point, ...]:
        """Return the pleat's edge on a short side, from base corner to base corner over its point."""
        up, half = self.point / self.height, Fraction(1, 2)
        return self.at(x, 0, 0), self.at(x, up, half), self.at(x, 0, 1)
