"""An open bag with a fold-flat base, two handles standing up and a pocket on its front."""

from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.drafting.sized import SizedPattern

from .arc import arc, rise_of
from .fills import Fabric
from .geometry import Point
from .given import given
from .lines import Line
from .open_basket import VIEW, open_basket
from .standing import Face, Shape, Standing, Stroke

# How wide a handle is where a recipe does not say.
USUAL_HANDLE = Fraction(127, 5)
# Of a handle's width, how far from its edges its topstitching is drawn: sewn at 3 mm, it would not be seen.
INSET = Fraction(1, 5)


@dataclass(frozen=True, slots=True)
class Handles:
    """Two handles, alike, mm: length from top edge to top edge, width, way between the ends' middles.

    is_webbing: bought ready, and not topstitched along its edges.
    """

    length: Fraction
    width: Fraction
    apart: Fraction
    is_webbing: bool = False

    @property
    def rise(self) -> Fraction:
        """How high they stand over the top edge. Raises DrawingError: they hardly reach across."""
        return rise_of(self.apart, self.length) + self.width / 2


@dataclass(frozen=True, slots=True)
class Pocket:
    """A pocket in the middle of the front, `place` under its top edge; mm."""

    width: Fraction
    height: Fraction
    place: Fraction


def handles_of(sized: SizedPattern, width: Fraction) -> Handles:
    """Return the handles of a bag of that width; what the recipe does not name is usual."""
    return Handles(
        length=given(sized, "handle length") or 2 * width,
        width=given(sized, "handle width") or USUAL_HANDLE,
        apart=width / 2,
        is_webbing=any(material.name.endswith("webbing") for material in sized.materials),
    )


def pocket_of(sized: SizedPattern) -> Pocket | None:
    """Return the pocket on the front; None where the recipe names none."""
    names = ("finished pocket width", "finished pocket height", "pocket place")
    width, height, place = (given(sized, name) for name in names)
    return Pocket(width, height, place) if width and height and place else None


def packable_tote(
    width: Fraction, height: Fraction, depth: Fraction, handles: Handles, pocket: Pocket | None
) -> Standing:
    """Return the bag, standing width × depth on the table, its handles up. All in mm, above 0.

    Raises DrawingError: the handles hardly reach across.
    """
    bag = open_basket(width, height, depth)
    back, front = VIEW.point(width / 2, height, depth), VIEW.point(width / 2, height)
    shapes = (
        *handle(handles, back),
        *bag.shapes,
        *(pocket_on(pocket, VIEW.point(width / 2, height)) if pocket else ()),
        *handle(handles, front),
    )
    return replace(bag, shapes=shapes, seen_as=f"{bag.seen_as} and both handles up")


def handle(handles: Handles, foot: Point) -> tuple[Shape, ...]:
    """Return a band of the handle's width along the arc over its ends. foot: the middle between the ends."""

    def at(out: Fraction) -> tuple[Point, ...]:
        """The arc so far outside the handle's middle line, or inside it."""
        apart, rise = (max(length, Fraction(0)) for length in (handles.apart + 2 * out, middle + out))
        return tuple(Point(foot.x + x, foot.y + y) for x, y in arc(apart, rise))

    middle, half = rise_of(handles.apart, handles.length), handles.width / 2
    outer, inner = at(half), at(-half)
    band = (
        Face((*outer, *reversed(inner)), Fabric("exterior"), None),
        Stroke(Line.EDGE, outer),
        Stroke(Line.EDGE, inner),
    )
    if handles.is_webbing:
        return band
    row = half - handles.width * INSET
    return (*band, Stroke(Line.TOPSTITCH, at(row)), Stroke(Line.TOPSTITCH, at(-row)))


def pocket_on(pocket: Pocket, edge: Point) -> tuple[Shape, ...]:
    """Return the pocket on a front that is not slanted. edge: the middle of the top edge."""
    left, right = edge.x - pocket.width / 2, edge.x + pocket.width / 2
    top, foot = edge.y - pocket.place, edge.y - pocket.place - pocket.height
    row = min(max(Fraction(3), (pocket.width + pocket.height) / 50), pocket.height / 4)
    mouth = (Point(left, top - row), Point(right, top - row))
    sewn = (
        Point(left + row, top),
        Point(left + row, foot + row),
        Point(right - row, foot + row),
        Point(right - row, top),
    )
    outline = (Point(left, top), Point(right, top), Point(right, foot), Point(left, foot))
    return (
        Face(outline, Fabric("exterior"), Line.EDGE),
        Stroke(Line.TOPSTITCH, mouth),
        Stroke(Line.TOPSTITCH, sewn),
    )
