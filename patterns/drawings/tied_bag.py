"""An open bag with a fold-flat base and a ribbon tied round it, its bow on the right short side."""

from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.drafting.sized import SizedPattern

from .fills import Fabric
from .geometry import Point
from .given import given
from .lines import Line
from .open_basket import VIEW, open_basket
from .standing import Face, Shape, Standing, Stroke

# Where a recipe does not say: ribbon between 3/8 and 5/8 in, half a yard of it for the bow.
USUAL_WIDTH = Fraction(127, 10)
USUAL_BOW = Fraction(4572, 10)
# Of the ribbon left for one half of a bow: its loop, out and back, and its tail; the rest is in the knot.
LOOP, TAIL = Fraction(2, 5), Fraction(2, 5)
RIBBON = Fabric(None)


@dataclass(frozen=True, slots=True)
class Ribbon:
    """A ribbon: width, how far under the top edge it sits, and how much of it is left for the bow; mm."""

    width: Fraction
    place: Fraction
    bow: Fraction


def ribbon_of(sized: SizedPattern, width: Fraction, height: Fraction, depth: Fraction) -> Ribbon:
    """Return the ribbon of a bag of that size; what the recipe does not name is usual."""
    narrow, wide = given(sized, "narrowest ribbon"), given(sized, "widest ribbon")
    length = given(sized, "ribbon length") or Fraction(0)
    left = length - 2 * (width + depth)
    return Ribbon(
        width=(narrow + wide) / 2 if narrow and wide else USUAL_WIDTH,
        place=given(sized, "tie place") or height / 3,
        bow=left if left > 0 else USUAL_BOW,
    )


def tied_bag(width: Fraction, height: Fraction, depth: Fraction, ribbon: Ribbon) -> Standing:
    """Return the bag, standing width × depth on the table, its mouth open above the ribbon; mm, above 0."""
    bag = open_basket(width, height, depth)
    at = height - ribbon.place
    half = min(ribbon.width, at, ribbon.place) / 2
    low, high = at - half, at + half
    left, near, far = ((VIEW.point(x, low, z), VIEW.point(x, high, z)) for x, z in _corners(width, depth))
    front, side = (left[0], near[0], near[1], left[1]), (near[0], far[0], far[1], near[1])
    bow = Bow(width, at, depth / 2, half, ribbon.bow / 2)
    shapes = (
        *bag.shapes,
        Face(side, RIBBON, Line.EDGE),
        Face(front, RIBBON, Line.EDGE),
        *bow.tails(),
        *bow.loops(),
        bow.knot(),
    )
    return replace(
        bag, shapes=shapes, seen_as=f"{bag.seen_as} and the ribbon tied round, its bow at the side"
    )


def _corners(width: Fraction, depth: Fraction) -> tuple[tuple[Fraction, Fraction], ...]:
    """The corners of the base that are seen: front left, front right, back right; across and away."""
    nothing = Fraction(0)
    return (nothing, nothing), (width, nothing), (width, depth)


class Bow:
    """A bow lying on the short side. half: of the ribbon’s width. each: ribbon for half of the bow."""

    def __init__(self, x: Fraction, y: Fraction, z: Fraction, half: Fraction, each: Fraction) -> None:
        self.x, self.y, self.z, self.half = x, y, z, half
        self.reach = each * LOOP / 2
        # On a low bag the tails end on the table.
        self.fall = min(each * TAIL, y)

    def at(self, along: Fraction, up: Fraction) -> Point:
        """Return a place on the side, so far to the back of the knot's middle and so far over it."""
        return VIEW.point(self.x, self.y + up, self.z + along)

    def loops(self) -> tuple[Shape, ...]:
        return tuple(shape for way in (1, -1) for shape in self._loop(way))

    def _loop(self, way: int) -> tuple[Shape, ...]:
        """One loop, a little raised, and the line where its ribbon is gathered into the knot."""
        out, half = way * self.reach, self.half
        root, top, foot = self.at(way * half / 2, Fraction(0)), 2 * half, half
        outline = (
            root,
            self.at(out * 2 / 5, top * 4 / 5),
            self.at(out * 4 / 5, top),
            self.at(out, top * 3 / 5),
            self.at(out, -foot * 2 / 5),
            self.at(out * 4 / 5, -foot),
            self.at(out * 2 / 5, -foot * 3 / 5),
        )
        return Face(outline, RIBBON, Line.EDGE), Stroke(Line.SEAM, (root, self.at(out * 3 / 5, half / 3)))

    def tails(self) -> tuple[Shape, ...]:
        return tuple(self._tail(way) for way in (1, -1))

    def _tail(self, way: int) -> Face:
        """One tail, falling slantwise, its end cut slantwise."""
        half, lean = self.half, way * min(self.fall / 3, self.reach)
        end = self.fall
        outline = (
            self.at(way * half / 4 - half / 2, Fraction(0)),
            self.at(way * half / 4 + half / 2, Fraction(0)),
            self.at(lean + half, -end + (half if way < 0 else Fraction(0))),
            self.at(lean - half, -end + (half if way > 0 else Fraction(0))),
        )
        return Face(outline, RIBBON, Line.EDGE)

    def knot(self) -> Shape:
        half = self.half
        corners = ((-half, half), (half, half), (half, -half), (-half, -half))
        return Face(tuple(self.at(along * 3 / 4, up) for along, up in corners), RIBBON, Line.EDGE)
