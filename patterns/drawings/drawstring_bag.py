"""An open bag with a boxed base, and below its top edge a channel with two cords."""

from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.drafting.sized import SizedPattern

from .fills import Fabric
from .geometry import Point
from .given import given
from .lines import Line
from .open_basket import VIEW, open_basket
from .standing import Face, Shape, Standing, Stroke

# Where a recipe does not say: a channel of 3/4 in, 2 in under the edge; cord of 1/4 in, 10 in of it to spare.
USUAL_CHANNEL, USUAL_DROP = Fraction(381, 20), Fraction(254, 5)
USUAL_THICKNESS, USUAL_SPARE = Fraction(127, 20), Fraction(254)
# No cord is drawn thinner than this part of width and height together: nobody would see it.
THINNEST = Fraction(1, 80)
CORD = Fabric(None)
# A bow in so many straight lines: on a page nobody sees a corner.
BOW = 12


@dataclass(frozen=True, slots=True)
class Drawstring:
    """A channel and its cords, mm: how wide, how far under the top edge, how thick a cord.

    spare: how much longer a cord is than the bag is round.
    """

    channel: Fraction
    drop: Fraction
    thickness: Fraction
    spare: Fraction


def drawstring_of(sized: SizedPattern, width: Fraction, height: Fraction, depth: Fraction) -> Drawstring:
    """Return the channel and cords of a bag of that size; what the recipe does not name is usual."""
    channel = given(sized, "channel") or USUAL_CHANNEL
    drop = given(sized, "channel drop") or USUAL_DROP
    if drop + channel >= height:
        channel, drop = height / 12, height / 5
    spare = (given(sized, "cord length") or Fraction(0)) - 2 * (width + depth)
    return Drawstring(
        channel=channel,
        drop=drop,
        thickness=given(sized, "cord thickness") or USUAL_THICKNESS,
        spare=spare if spare > 0 else USUAL_SPARE,
    )


def drawstring_bag(width: Fraction, height: Fraction, depth: Fraction, cords: Drawstring) -> Standing:
    """Return the bag, standing width × depth on the table, open, both ends of a cord out of its right side.

    All in mm, above 0. The other cord's ends hang out of the left side, behind the front.
    """
    bag = open_basket(width, height, depth, is_pleated=False)
    rows = tuple(
        _round_the_bag(width, depth, height - down) for down in (cords.drop, cords.drop + cords.channel)
    )
    gap = _Gap(width, height, depth, cords)
    shapes = (*bag.shapes, *(Stroke(Line.TOPSTITCH, row) for row in rows), gap.opening(), *gap.ends())
    return replace(
        bag,
        shapes=shapes,
        seen_as=f"{bag.seen_as}, the channel below its edge and a cord’s two ends hanging out of its side",
    )


def _round_the_bag(width: Fraction, depth: Fraction, up: Fraction) -> tuple[Point, ...]:
    """A level row over front and right side."""
    nothing = Fraction(0)
    return VIEW.point(nothing, up), VIEW.point(width, up), VIEW.point(width, up, depth)


class _Gap:
    """The gap in the right side seam, with the two ends of the cord that comes out of it."""

    def __init__(self, width: Fraction, height: Fraction, depth: Fraction, cords: Drawstring) -> None:
        self.x, self.z = width, depth / 2
        self.top, self.foot = height - cords.drop, height - cords.drop - cords.channel
        self.cord = max(cords.thickness, (width + height) * THINNEST)
        self.half = min(cords.channel / 5, depth / 8)
        self.begins = (self.top + self.foot) / 2
        # With the bag fully open each end hangs out by half the spare, or as far as the table.
        self.falls = min(cords.spare / 2, self.begins - self.cord)
        self.knot = self.begins - self.falls * 4 / 5
        self.apart = min(self.falls / 6, depth / 4)

    def at(self, along: Fraction, up: Fraction) -> Point:
        """Return a place on the side: so far to the back of the seam, and so high."""
        return VIEW.point(self.x, up, self.z + along)

    def opening(self) -> Shape:
        half, middle = self.half, self.begins
        nothing = Fraction(0)
        outline = (
            self.at(nothing, self.foot),
            self.at(half, middle),
            self.at(nothing, self.top),
            self.at(-half, middle),
        )
        return Face(outline, Fabric("lining", is_shaded=True), Line.EDGE)

    def ends(self) -> tuple[Shape, ...]:
        """Both ends, and the knot that ties them together near their tips."""
        strands = tuple(self._strand(way) for way in (-1, 1))
        return (*strands, self._knot())

    def _strand(self, way: int) -> Shape:
        """One end: out of the gap, in a bow to the knot, its tip spread below it."""
        half = self.cord / 2
        bow = (Fraction(step, BOW) for step in range(BOW + 1))
        middle = [
            self.at(
                way * self.apart * 4 * share * (1 - share), self.begins + share * (self.knot - self.begins)
            )
            for share in bow
        ]
        middle.append(self.at(way * self.apart * 2 / 3, self.begins - self.falls))
        left, right = (tuple(Point(x + side, y) for x, y in middle) for side in (-half, half))
        return Face((*left, *reversed(right)), CORD, Line.EDGE)

    def _knot(self) -> Shape:
        middle, size = self.at(Fraction(0), self.knot), self.cord
        corners = ((2, 1), (1, 2), (-1, 2), (-2, 1), (-2, -1), (-1, -2), (1, -2), (2, -1))
        outline = tuple(Point(middle.x + size * x / 2, middle.y + size * y / 2) for x, y in corners)
        return Face(outline, CORD, Line.EDGE)
