"""A cloth with a print on it, at its true scale: a picture of a strip of it, repeated edge to edge.

It is an SVG pattern with an id made of all that is in it, so drawings on one page do not disturb each other.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from hashlib import sha256

from patterns.drafting.recipe import Tint

from .geometry import Point, Spot
from .page import Placing
from .svg import element, millimetres, path_through
from .tokens import INK

# How much darker a wall is that lies in the shade, where its print is not drawn in another colour.
SHADE = "0.14"
# The decimals of a number in a matrix: a cloth of a metre is then true to a hundredth of a millimetre.
PLACES = 5


@dataclass(frozen=True, slots=True)
class Print:
    """A picture of a strip of cloth. href: where it is. width, height: of the strip, mm."""

    href: str
    width: Fraction
    height: Fraction


Prints = Mapping[Tint, Print]
Place = tuple[Point, Fraction, Fraction]
"""A place in the drawing; how far on the cloth it lies from the picture's middle, right and up, mm."""


@dataclass(frozen=True, slots=True)
class Drape:
    """How cloth lies on a part of a drawing.

    outline: of the part. middle: where the middle of the picture lies, or would lie.
    right, up: where a mm of cloth to its own right and up lands.
    """

    outline: tuple[Point, ...]
    middle: Point
    right: Point
    up: Point


def draped(*places: Place) -> Drape:
    """Return cloth over a flat part with these corners. The first three, not in a row, say how it lies."""
    (start, u0, v0), (one, u1, v1), (two, u2, v2) = places[:3]
    across, away = (u1 - u0, v1 - v0), (u2 - u0, v2 - v0)
    area = across[0] * away[1] - away[0] * across[1]
    first, second = Point(one.x - start.x, one.y - start.y), Point(two.x - start.x, two.y - start.y)
    right = _mixed(first, away[1] / area, second, -across[1] / area)
    up = _mixed(second, across[0] / area, first, -away[0] / area)
    shift = _mixed(right, u0, up, v0)
    return Drape(
        tuple(point for point, _, _ in places), Point(start.x - shift.x, start.y - shift.y), right, up
    )


def in_print(print_: Print, drapes: Sequence[Drape], placing: Placing) -> list[str]:
    """Return the parts covered with the print."""
    return [part for drape in drapes for part in _covered(print_, drape, placing)]


def shaded(outline: Sequence[Point], placing: Placing) -> str:
    """Return what makes a part of a printed cloth darker."""
    way = path_through(placing.spots(outline), is_closed=True)
    return element("path", (("d", way), ("fill", INK), ("fill-opacity", SHADE)))


def _covered(print_: Print, drape: Drape, placing: Placing) -> list[str]:
    """The part in a group of its own, whose corner is 0: the PDF writer counts patterns from there."""
    spots = placing.spots(drape.outline)
    corner = Spot(min(spot.x for spot in spots), min(spot.y for spot in spots))
    matrix = _matrix(print_, drape, placing, corner)
    name = "print-" + sha256(f"{print_}{matrix}".encode()).hexdigest()[:16]
    size = (("width", decimal(print_.width)), ("height", decimal(print_.height)))
    picture = element("image", (("href", print_.href), *size, ("preserveAspectRatio", "none")))
    tile = (("id", name), ("patternUnits", "userSpaceOnUse"), *size, ("patternTransform", matrix))
    way = path_through((Spot(spot.x - corner.x, spot.y - corner.y) for spot in spots), is_closed=True)
    moved = f"translate({millimetres(corner.x)} {millimetres(corner.y)})"
    covered = element("path", (("d", way), ("fill", f"url(#{name})")))
    return [element("g", (("transform", moved),), element("pattern", tile, picture), covered)]


def _matrix(print_: Print, drape: Drape, placing: Placing, corner: Spot) -> str:
    """From mm on the picture, right and down from its top left corner, to mm on the page from `corner`."""
    scale, middle, right, up = placing.scale / 1000, drape.middle, drape.right, drape.up
    half, high = print_.width / 2, print_.height / 2
    start = Point(
        middle.x - right.x * half + up.x * high,
        middle.y - right.y * half + up.y * high,
    )
    numbers = (
        right.x * scale,
        -right.y * scale,
        -up.x * scale,
        up.y * scale,
        Fraction(placing.origin.x - corner.x, 1000) + start.x * scale,
        Fraction(placing.origin.y - corner.y, 1000) - start.y * scale,
    )
    return f"matrix({' '.join(decimal(number) for number in numbers)})"


def decimal(value: Fraction) -> str:
    """Write a number with a fixed end, a half up.

    >>> decimal(Fraction(-1, 3)), decimal(Fraction(40))
    ('-0.33333', '40')
    """
    whole = (abs(value) * 10**PLACES * 2 + 1) // 2
    before, after = divmod(whole, 10**PLACES)
    sign = "-" if value < 0 and whole else ""
    return f"{sign}{before}.{after:0{PLACES}d}".rstrip("0").rstrip(".")


def _mixed(one: Point, share: Fraction, other: Point, rest: Fraction) -> Point:
    return Point(one.x * share + other.x * rest, one.y * share + other.y * rest)
