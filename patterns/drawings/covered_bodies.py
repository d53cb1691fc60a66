"""How cloth lies on each shape of item: a box, a pouch that closes to a line, a round bucket.

On a wall that a side seam halves, each half goes on from its own panel.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import isqrt

from .geometry import Point
from .open_basket import VIEW
from .prints import Drape, Place, draped
from .round_bucket import FAR, NEAR, place_on_wall
from .standing import Part
from .zip_pouch import VIEW as POUCH_VIEW
from .zip_pouch import Pouch

NOTHING = Fraction(0)
# So many of the straight lines that stand for a circle share one flat strip of cloth.
STRIP = 2
FINE = 10**6


@dataclass(frozen=True, slots=True)
class BoxBody:
    """An open box, width × height × depth, seen as an open basket is; mm."""

    width: Fraction
    height: Fraction
    depth: Fraction

    def drapes(self, part: Part, is_round_the_base: bool) -> tuple[Drape, ...]:
        match part:
            case "front":
                return (self._wall(NOTHING),)
            case "side":
                behind = self._turned_side if is_round_the_base else self._far_side
                half = self.depth / 2
                return self._side(self.width, NOTHING, half, self._near_side), self._side(
                    self.width, half, self.depth, behind
                )
            case "inside back":
                return (self._wall(self.depth),)
            case "inside left":
                before = self._turned_left if is_round_the_base else self._front_left
                half = self.depth / 2
                return self._side(NOTHING, half, self.depth, self._back_left), self._side(
                    NOTHING, NOTHING, half, before
                )
            case "inside base":
                return self._base(is_round_the_base)
            case _:
                return ()

    def _wall(self, z: Fraction) -> Drape:
        places = (
            (NOTHING, NOTHING),
            (self.width, NOTHING),
            (self.width, self.height),
            (NOTHING, self.height),
        )
        return draped(*((VIEW.point(x, y, z), *self._front(x, y)) for x, y in places))

    def _side(
        self,
        x: Fraction,
        start: Fraction,
        end: Fraction,
        cloth: Callable[[Fraction, Fraction], tuple[Fraction, Fraction]],
    ) -> Drape:
        places = ((NOTHING, start), (NOTHING, end), (self.height, end), (self.height, start))
        return draped(*((VIEW.point(x, y, z), *cloth(y, z)) for y, z in places))

    def _base(self, is_round_the_base: bool) -> tuple[Drape, ...]:
        half, low = self.depth / 2, -self.height / 2

        def behind(x: Fraction, z: Fraction) -> Place:
            return VIEW.point(x, NOTHING, z), x - self.width / 2, low - (self.depth - z)

        def before(x: Fraction, z: Fraction) -> Place:
            return VIEW.point(x, NOTHING, z), self.width / 2 - x, low - z

        def part(start: Fraction, end: Fraction, cloth: Callable[[Fraction, Fraction], Place]) -> Drape:
            corners = ((NOTHING, start), (self.width, start), (self.width, end), (NOTHING, end))
            return draped(*(cloth(x, z) for x, z in corners))

        if is_round_the_base:
            return (part(NOTHING, self.depth, behind),)
        return part(half, self.depth, behind), part(NOTHING, half, before)

    # Where a place lies on the cloth: right and up from the middle of the picture.

    def _front(self, x: Fraction, y: Fraction) -> tuple[Fraction, Fraction]:
        return x - self.width / 2, y - self.height / 2

    def _near_side(self, y: Fraction, z: Fraction) -> tuple[Fraction, Fraction]:
        return self.width / 2 + z, y - self.height / 2

    def _far_side(self, y: Fraction, z: Fraction) -> tuple[Fraction, Fraction]:
        return -self.width / 2 - (self.depth - z), y - self.height / 2

    def _turned_side(self, y: Fraction, z: Fraction) -> tuple[Fraction, Fraction]:
        return self.width / 2 + (self.depth - z), -self.height / 2 - self.depth - y

    def _back_left(self, y: Fraction, z: Fraction) -> tuple[Fraction, Fraction]:
        return -self.width / 2 - (self.depth - z), y - self.height / 2

    def _front_left(self, y: Fraction, z: Fraction) -> tuple[Fraction, Fraction]:
        return self.width / 2 + z, y - self.height / 2

    def _turned_left(self, y: Fraction, z: Fraction) -> tuple[Fraction, Fraction]:
        return -self.width / 2 - z, -self.height / 2 - self.depth - y


@dataclass(frozen=True, slots=True)
class PouchBody:
    """A pouch that closes to a line, its short side leaning out."""

    pouch: Pouch

    def drapes(self, part: Part, is_round_the_base: bool) -> tuple[Drape, ...]:
        match part:
            case "front":
                return (self._front(),)
            case "side":
                return self._side(is_round_the_base)
            case "triangle":
                return self._triangle(is_round_the_base)
            case _:
                return ()

    def _front(self) -> Drape:
        pouch = self.pouch
        half, high = pouch.width / 2, pouch.height / 2
        (top_left, top_right), (left, right) = pouch.row(pouch.tuck), pouch.row(pouch.height)
        wide = half + self._flare
        return draped(
            (left, -half, -high),
            (right, half, -high),
            (top_right, wide, high - pouch.tuck),
            (top_left, -wide, high - pouch.tuck),
        )

    def _side(self, is_round_the_base: bool) -> tuple[Drape, ...]:
        pouch = self.pouch
        half, high, top = pouch.width / 2, pouch.height / 2, pouch.height / 2 - pouch.tuck
        seam, wide, deep = half + pouch.depth / 2, half + self._flare, pouch.depth
        near, far = POUCH_VIEW.point(pouch.width, NOTHING), POUCH_VIEW.point(pouch.width, NOTHING, deep)
        foot, seam_top = pouch.seam(pouch.height), pouch.seam(pouch.tuck)
        top_near = pouch.row(pouch.tuck)[1]
        top_far = Point(2 * seam_top.x - top_near.x, 2 * seam_top.y - top_near.y)
        first = draped((near, half, -high), (foot, seam, -high), (seam_top, seam, top), (top_near, wide, top))
        if is_round_the_base:
            low, up = -high - deep, -high - deep - (pouch.height - pouch.tuck)
            return first, draped(
                (far, half, low), (foot, seam, low), (seam_top, seam, up), (top_far, wide, up)
            )
        return first, draped(
            (far, -half, -high), (foot, -seam, -high), (seam_top, -seam, top), (top_far, -wide, top)
        )

    def _triangle(self, is_round_the_base: bool) -> tuple[Drape, ...]:
        """The base goes on over the short edge, folded up."""
        pouch = self.pouch
        half, low, deep = pouch.width / 2, -pouch.height / 2, pouch.depth
        out, middle = half + deep / 2, low - deep / 2
        near, far = POUCH_VIEW.point(pouch.width, NOTHING), POUCH_VIEW.point(pouch.width, NOTHING, deep)
        foot, tip = pouch.seam(pouch.height), pouch.seam(max(pouch.height - deep / 2, NOTHING))
        first = draped((near, half, low), (foot, half, middle), (tip, out, middle))
        if is_round_the_base:
            return first, draped((far, half, low - deep), (foot, half, middle), (tip, out, middle))
        return first, draped((far, -half, low), (foot, -half, middle), (tip, -out, middle))

    @property
    def _flare(self) -> Fraction:
        """How much wider the front is at the tuck than at its foot, each way."""
        return self.pouch.depth / 2 * (1 - self.pouch.tuck / self.pouch.height)


@dataclass(frozen=True, slots=True)
class RoundBody:
    """A round bucket: its wall in flat strips, each as wide as the circle is long there."""

    diameter: Fraction
    height: Fraction

    def drapes(self, part: Part, is_round_the_base: bool) -> tuple[Drape, ...]:
        match part:
            case "front":
                return self._strips(NEAR)
            case "inside back":
                return self._strips(tuple(reversed(FAR)))
            case "inside base":
                return (self._base(),)
            case _:
                return ()

    def _strips(self, places: tuple[Point, ...]) -> tuple[Drape, ...]:
        """places: on the circle of 1, from left to right."""
        ends = [0]
        for one, other in pairwise(places):
            ends.append(ends[-1] + _distance(one, other))
        radius, high = self.diameter / 2, self.height / 2
        at = [radius * Fraction(2 * end - ends[-1], 2 * FINE) for end in ends]
        found = []
        for start in range(0, len(places) - 1, STRIP):
            end = min(start + STRIP, len(places) - 1)
            foot = [place_on_wall(places[each], radius, NOTHING) for each in (start, end)]
            top = [Point(each.x, each.y + self.height) for each in foot]
            found.append(
                draped(
                    (foot[0], at[start], -high),
                    (foot[1], at[end], -high),
                    (top[1], at[end], high),
                    (top[0], at[start], high),
                )
            )
        return tuple(found)

    def _base(self) -> Drape:
        """The base, its picture in the middle; seen from above, its far edge is up."""
        radius, one = self.diameter / 2, Fraction(1)
        known = (Point(-one, NOTHING), Point(one, NOTHING), Point(NOTHING, one))
        lie = draped(
            *((place_on_wall(each, radius, NOTHING), each.x * radius, each.y * radius) for each in known)
        )
        ring = (place_on_wall(each, radius, NOTHING) for each in (*NEAR, *FAR[1:-1]))
        return replace(lie, outline=tuple(ring))


def _distance(one: Point, other: Point) -> int:
    """Return the distance of two places in millionths."""
    square = (other.x - one.x) ** 2 + (other.y - one.y) ** 2
    return isqrt(int(square * FINE**2))
