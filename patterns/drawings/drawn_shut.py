"""A bag whose neck is drawn together: the walls lean in to it, the cloth above it stands up as a frill."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from .fills import Fabric
from .geometry import Point
from .lines import Line
from .open_basket import VIEW
from .standing import Face, Shape, Standing, Stroke

# How the cloth lies between base and neck: this part of it leans in, as far as the neck is from the walls on
# average and a quarter more, and rises by so much of its length. Nothing of a soft thing is truer than that.
SLACK, RISE = Fraction(5, 4), Fraction(3, 5)
LEAST_LEANING, MOST_LEANING = Fraction(1, 4), Fraction(3, 4)
# Half the neck, as a part of width and depth together, and the ring of places round the frill's edge.
NECK = Fraction(1, 24)
RING = tuple(
    ((1 - t * t) / (1 + t * t) * way, 2 * t / (1 + t * t) * way)
    for way in (1, -1)
    for t in (Fraction(step, 4) for step in range(-4, 4))
)
GATHERS = 5


@dataclass(frozen=True, slots=True)
class Shut:
    """A bag drawn shut, mm, above 0. below, above: its cloth from the base to the neck, and beyond it."""

    width: Fraction
    depth: Fraction
    below: Fraction
    above: Fraction

    @property
    def shoulder(self) -> Fraction:
        """How high the walls stand before they lean in."""
        return self.below - self._leaning

    @property
    def neck(self) -> Fraction:
        """How high over the table the neck is."""
        return self.shoulder + self._leaning * RISE

    @property
    def half(self) -> Fraction:
        """Half of how thick the neck is."""
        return (self.width + self.depth) * NECK

    @property
    def _leaning(self) -> Fraction:
        wanted = (self.width + self.depth) / 4 * SLACK
        return min(max(wanted, self.below * LEAST_LEANING), self.below * MOST_LEANING)

    def at(self, across: Fraction, up: Fraction, away: Fraction) -> Point:
        """Return a place near the neck: so far right of its middle, over it and behind it."""
        return VIEW.point(self.width / 2 + across, self.neck + up, self.depth / 2 + away)


def drawn_shut(shut: Shut, round_the_neck: Sequence[Shape] = ()) -> Standing:
    """Return the bag standing, drawn shut. round_the_neck: painted over it, a ribbon or cords."""
    width, depth, nothing = shut.width, shut.depth, Fraction(0)
    front_left, front_right, back_right, back_left = (
        (nothing, nothing),
        (width, nothing),
        (width, depth),
        (nothing, depth),
    )
    walls = [
        (back_left, front_left, Fabric("exterior", is_shaded=True)),
        (back_right, back_left, Fabric("exterior", is_shaded=True)),
        (front_right, back_right, Fabric("exterior", is_shaded=True)),
        (front_left, front_right, Fabric("exterior")),
    ]
    shapes = tuple(shape for start, end, fabric in walls for shape in _wall(shut, start, end, fabric))
    base = [VIEW.point(x, nothing, z) for x, z in (front_left, front_right, back_right)]
    return Standing(
        shapes=(*shapes, *_frill(shut), *round_the_neck),
        width=(base[0], base[1]),
        height=(base[0], VIEW.point(nothing, shut.shoulder)),
        depth=(base[1], base[2]),
        seen_as="drawn shut, seen from the front and a little from above and from the right",
    )


Corner = tuple[Fraction, Fraction]


def _wall(shut: Shut, start: Corner, end: Corner, fabric: Fabric) -> tuple[Shape, ...]:
    """One wall, upright to the shoulder, then leaning in to the neck with its gathers."""
    low, high = ([VIEW.point(x, up, z) for x, z in (start, end)] for up in (Fraction(0), shut.shoulder))
    neck = [_at_neck(shut, corner) for corner in (start, end)]
    gathers = []
    for step in range(1, GATHERS):
        share = Fraction(step, GATHERS)
        foot, top = _between(high, share), _between(neck, share)
        gathers.append(Stroke(Line.SEAM, (_between((foot, top), Fraction(step % 2 + 1, 4)), top)))
    return (
        Face((low[0], low[1], high[1], high[0]), fabric, None),
        Face((high[0], high[1], neck[1], neck[0]), fabric, Line.EDGE),
        Stroke(Line.OUTLINE, (high[0], low[0], low[1], high[1])),
        *gathers,
    )


def _at_neck(shut: Shut, corner: Corner) -> Point:
    x, z = (shut.half if place else -shut.half for place in corner)
    return shut.at(x, Fraction(0), z)


def _between(ends: Sequence[Point], share: Fraction) -> Point:
    (one, other) = ends
    return Point(one.x + (other.x - one.x) * share, one.y + (other.y - one.y) * share)


def _frill(shut: Shut) -> tuple[Shape, ...]:
    """The cloth above the neck, spread a little: its lining seen from above, and its front."""
    spread = min(shut.half + shut.above * 3 / 5, (shut.width + shut.depth) / 5)
    ring = [
        shut.at(x * spread * far, shut.above * (17 - step % 2) / 17, z * spread * far)
        for step, (x, z) in enumerate(RING)
        for far in (Fraction(1) if step % 2 else Fraction(8, 9),)
    ]
    left = min(range(len(ring)), key=lambda number: ring[number].x)
    right = max(range(len(ring)), key=lambda number: ring[number].x)
    front = _front_of(ring, left, right)
    neck = (shut.at(shut.half, Fraction(0), Fraction(0)), shut.at(-shut.half, Fraction(0), Fraction(0)))
    folds = [
        Stroke(Line.SEAM, (_between(neck, Fraction(len(front) - 1 - n, len(front) - 1)), spot))
        for n, spot in enumerate(front)
        if 0 < n < len(front) - 1
    ]
    return (
        Face(tuple(ring), Fabric("lining", is_shaded=True), Line.EDGE),
        Face((*front, *neck), Fabric("exterior"), Line.OUTLINE),
        *folds,
    )


def _front_of(ring: Sequence[Point], left: int, right: int) -> list[Point]:
    """Return the half of a ring that is nearer to the viewer, from left to right."""
    count = len(ring)
    ways = [
        [ring[(left + step * way) % count] for step in range((right - left) * way % count + 1)]
        for way in (1, -1)
    ]
    return min(ways, key=lambda way: sum(spot.y for spot in way) / len(way))
