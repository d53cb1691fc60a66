"""What each kind of line looks like: cuts solid, folds long-dash-dot, stitching short-dash, marks thin."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from .geometry import Spot
from .svg import element, millimetres, path_through
from .tokens import INK, PETROL, QUIET_INK, RULE


@dataclass(frozen=True, slots=True)
class _Look:
    colour: str
    width: int
    dashes: tuple[int, ...] = ()


class Line(Enum):
    """The kinds of line in every drawing."""

    OUTLINE = _Look(INK, 450)
    EDGE = _Look(INK, 280)
    CUT = _Look(INK, 450)
    FOLD = _Look(INK, 260, (3200, 700, 300, 700))
    HIDDEN_FOLD = _Look(QUIET_INK, 220, (2400, 600, 250, 600))
    STITCH = _Look(INK, 260, (1000, 700))
    TOPSTITCH = _Look(INK, 220, (850, 600))
    MARK = _Look(INK, 180)
    SEAM = _Look(QUIET_INK, 200)
    OPENING = _Look(PETROL, 620)
    CLIP = _Look(INK, 500)
    TEETH = _Look(INK, 900, (260, 260))
    MEASURE = _Look(QUIET_INK, 160)
    LEADER = _Look(QUIET_INK, 140)
    GROUND = _Look(RULE, 300)
    FAMILIAR = _Look(QUIET_INK, 280)
    LIMIT = _Look(INK, 480)
    ADVICE = _Look(INK, 420, (1500, 800))
    FITS = _Look(PETROL, 620, (2600, 700, 300, 700))


def line(kind: Line, *spots: Spot, is_closed: bool = False) -> str:
    """Return a line of that kind through the spots."""
    return lines(kind, [spots], is_closed)


def lines(kind: Line, ways: Iterable[Iterable[Spot]], is_closed: bool = False) -> str:
    """Return several lines of one kind as one element."""
    way = "".join(path_through(way, is_closed) for way in ways)
    return along(kind, way)


def along(kind: Line, way: str) -> str:
    """Return a line of that kind along path data."""
    return element("path", (("d", way), ("fill", "none"), *pen(kind)))


def pen(kind: Line) -> tuple[tuple[str, str | int], ...]:
    """Return the attributes that give an element this kind of line."""
    look = kind.value
    attributes: tuple[tuple[str, str | int], ...] = (("stroke", look.colour), ("stroke-width", look.width))
    if look.dashes:
        attributes += (("stroke-dasharray", " ".join(millimetres(dash) for dash in look.dashes)),)
    return attributes


def dot(at: Spot, radius: int, colour: str) -> str:
    return element("circle", (("cx", at.x), ("cy", at.y), ("r", radius), ("fill", colour)))
