"""The marks of a piece on the page: where each lies, how it is drawn, and the words of its label."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from patterns.drafting.formulas.values import Measured
from patterns.drafting.outlines import seam_line
from patterns.drafting.recipe import MarkKind
from patterns.drafting.sized import Quantity, SizedMark, SizedPiece
from patterns.drafting.units import Units

from . import words
from .errors import DrawingError
from .geometry import Box, Point, Spot, around
from .lines import Line, along, line, lines
from .outline import Outline, corners_of, laid_outline, outline_of
from .page import Placing, cloth
from .svg import plate

Way = Literal["level", "upright", "point", "round"]
# Page: half a cross, the tick of a clip, how deep an opening's bracket is, how wide a gap it makes in a line.
CROSS = 1300
TICK = 2200
BRACKET = 1900
GAP = 700
_LINES = {"fold": Line.FOLD, "stitch": Line.STITCH, "place": Line.MARK, "clip": Line.CLIP}


@dataclass(frozen=True, slots=True)
class Laid:
    """A mark on the page. start and end: left to right or top to bottom; equal for a point.

    distances: where it lies from the raw edges, or of an opening how long it is.
    line: of a mark all round the piece, the line itself; start and end are a place on its right side.
    """

    name: str
    kind: MarkKind
    way: Way
    start: Spot
    end: Spot
    distances: tuple[str, ...]
    line: Outline | None = None

    @property
    def box(self) -> Box:
        """The room it takes on the page, and a little round it."""
        return around([Box(*self.start, *self.start), Box(*self.end, *self.end)]).grown(GAP)


def upper_edge(names: Iterable[str]) -> str:
    """Return what is written along the upper edge of a piece with marks of these names.

    >>> upper_edge(["middle fold"]), upper_edge(["zip seam line"])
    ('TOP', 'ZIP')
    """
    return "ZIP" if any("zip" in name for name in names) else "TOP"


def laid(mark: SizedMark, piece: SizedPiece, placing: Placing, units: Units) -> Laid:
    """Return a mark where it lies on a piece whose top left corner is the origin of `placing`.

    A line that has no ends of its own runs from edge to edge of the piece.
    Raises DrawingError: a number that it needs has no value, or it lies off the piece.
    """
    if mark.inside is not None:
        return _all_round(mark, mark.inside, piece, placing, units)
    width, height = cloth(piece.width), cloth(piece.height)
    first, last = _ends(mark, width, height)
    for x, y in (first, last):
        if not (0 <= x <= width and 0 <= y <= height):
            raise DrawingError(f"The mark {mark.name} lies off the piece {piece.name} at this size.")
    start, end = (placing.spot(Point(x, -y)) for x, y in (first, last))
    way: Way = "point" if _is_point(mark) else "upright" if mark.down_from_top is None else "level"
    if piece.outline and way != "point":
        start, end = _within(mark, outline_of(piece, placing), start, end)
    return Laid(mark.name, mark.kind, way, start, end, _distances(mark, piece, units))


def _all_round(mark: SizedMark, inside: Quantity, piece: SizedPiece, placing: Placing, units: Units) -> Laid:
    found = seam_line(corners_of(piece), words.known(inside))
    if found is None:
        raise DrawingError(f"The piece {piece.name} has no room for the mark {mark.name} at this size.")
    line = laid_outline(found, placing)
    # Above the middle, where a line through the middle of the piece would end.
    level = line.box.top + line.box.height * 3 // 10
    place = Spot(line.across(level)[-1][1], level)
    told = (f"{words.cutting(words.known(inside), units)} inside the edge",)
    return Laid(mark.name, mark.kind, "round", place, place, told, line)


def _within(mark: SizedMark, outline: Outline, start: Spot, end: Spot) -> tuple[Spot, Spot]:
    """Return the ends of a line; those that the mark does not have are where it meets the outline."""
    is_level = mark.down_from_top is not None
    ways = outline.across(start.y) if is_level else outline.down(start.x)
    if not ways:
        return start, end
    first, last = ways[0][0], ways[-1][1]
    if is_level:
        return start if mark.start else Spot(first, start.y), end if mark.end else Spot(last, end.y)
    return start if mark.start else Spot(start.x, first), end if mark.end else Spot(end.x, last)


def _is_point(mark: SizedMark) -> bool:
    return mark.down_from_top is not None and mark.in_from_left is not None


def _ends(mark: SizedMark, width: Fraction, height: Fraction) -> tuple[tuple[Fraction, Fraction], ...]:
    """Return both ends of a mark: x from the left, y down from the top, mm."""
    zero = Fraction(0)
    start = cloth(mark.start) if mark.start else zero
    match mark.down_from_top, mark.in_from_left:
        case Quantity() as down, Quantity() as across:
            return ((cloth(across), cloth(down)),) * 2
        case Quantity() as down, None:
            return (start, cloth(down)), (cloth(mark.end) if mark.end else width, cloth(down))
        case None, Quantity() as across:
            return (cloth(across), start), (cloth(across), cloth(mark.end) if mark.end else height)
        case _:
            raise DrawingError(f"The mark {mark.name} has no place.")


def _distances(mark: SizedMark, piece: SizedPiece, units: Units) -> tuple[str, ...]:
    if mark.kind == "opening" and mark.start and mark.end:
        length = words.less(words.known(mark.end), words.known(mark.start))
        return (f"{words.cutting(words.settled(length, units.cutting_step), units)} long",)
    parts = []
    if mark.in_from_left is not None:
        parts.append(_from_edge(mark.in_from_left, piece.width, ("left", "right"), units))
    if mark.down_from_top is not None:
        parts.append(_from_edge(mark.down_from_top, piece.height, ("top", "bottom"), units))
    return tuple(parts)


def _from_edge(place: Quantity, extent: Quantity, edges: tuple[str, str], units: Units) -> str:
    """Return how far a place is from the nearer of two opposite edges."""
    near, is_first = from_nearer(words.known(place), words.known(extent))
    edge = edges[0] if is_first else edges[1]
    return f"{words.cutting(near, units)} from the {edge}" if near else f"on the {edge} edge"


def from_nearer(place: Measured, extent: Measured) -> tuple[Measured, bool]:
    """Return how far a place is from the nearer of two opposite edges, mm, and whether that is the first.

    place: from the first edge. extent: from edge to edge. Half-way it is the first.

    >>> from_nearer(Fraction(30), Fraction(40))
    (Fraction(10, 1), False)
    """
    rest = words.less(extent, place)
    is_first = _exactly(place) <= _exactly(rest)
    return (place, True) if is_first else (rest, False)


def _exactly(value: Measured) -> Fraction:
    """Return a value that compares with any other."""
    return Fraction(value) if isinstance(value, Decimal) else value


def drawn(mark: Laid, piece: Box, ground: str) -> list[str]:
    """Return a mark as it looks. piece: the piece on the page. ground: the colour that a gap shows."""
    if mark.line is not None:
        return [along(_LINES.get(mark.kind, Line.MARK), mark.line.path)]
    if mark.way == "point":
        return [_clip(mark.start, piece) if mark.kind == "clip" else _cross(mark.start)]
    if mark.kind == "opening":
        return _opening(mark, piece, ground)
    if mark.kind == "clip":
        return [line(Line.CLIP, *_at_least(mark, piece))]
    return [line(_LINES[mark.kind], mark.start, mark.end)]


def _cross(at: Spot) -> str:
    level = Spot(at.x - CROSS, at.y), Spot(at.x + CROSS, at.y)
    upright = Spot(at.x, at.y - CROSS), Spot(at.x, at.y + CROSS)
    return lines(Line.EDGE, [level, upright])


def _clip(at: Spot, piece: Box) -> str:
    """Return a tick from the edge nearest to the place, inwards."""
    edges = (
        (at.x - piece.left, Spot(piece.left, at.y), (1, 0)),
        (piece.right - at.x, Spot(piece.right, at.y), (-1, 0)),
        (at.y - piece.top, Spot(at.x, piece.top), (0, 1)),
        (piece.bottom - at.y, Spot(at.x, piece.bottom), (0, -1)),
    )
    _, start, (x, y) = min(edges, key=lambda edge: edge[0])
    return line(Line.CLIP, start, Spot(start.x + x * TICK, start.y + y * TICK))


def _at_least(mark: Laid, piece: Box) -> tuple[Spot, Spot]:
    """Return a clip's two ends, drawn long enough to be seen, from the edge that it starts at."""
    start, end = mark.start, mark.end
    if mark.way == "level":
        if end.x == piece.right:
            return Spot(min(start.x, end.x - TICK // 2), start.y), end
        return start, Spot(max(end.x, start.x + TICK // 2), end.y)
    if end.y == piece.bottom:
        return Spot(start.x, min(start.y, end.y - TICK // 2)), end
    return start, Spot(end.x, max(end.y, start.y + TICK // 2))


def _opening(mark: Laid, piece: Box, ground: str) -> list[str]:
    """Return a gap in whatever line runs there, and a bracket along it on its inner side."""
    inward = _inward(mark, piece)
    hole = around([Box(*mark.start, *mark.start), Box(*mark.end, *mark.end)])
    across = (0, GAP // 2) if mark.way == "level" else (GAP // 2, 0)
    hole = Box(hole.left - across[0], hole.top - across[1], hole.right + across[0], hole.bottom + across[1])
    corners = (
        mark.start,
        Spot(mark.start.x + inward.x, mark.start.y + inward.y),
        Spot(mark.end.x + inward.x, mark.end.y + inward.y),
        mark.end,
    )
    return [plate(hole, ground), line(Line.OPENING, *corners)]


def rooms(mark: Laid, piece: Box) -> list[Box]:
    """Return the room that a mark takes on the page, in as many boxes as it takes."""
    if mark.line is None:
        return [room(mark, piece)]
    spots = mark.line.spots
    return [
        around([Box(*start, *start), Box(*end, *end)]).grown(GAP)
        for start, end in zip((spots[-1], *spots), spots, strict=False)
    ]


def room(mark: Laid, piece: Box) -> Box:
    """Return the room that a mark takes on the page, with its bracket, cross or tick."""
    if mark.way == "point":
        return mark.box.grown(TICK if mark.kind == "clip" else CROSS)
    if mark.kind != "opening":
        return mark.box
    inward = _inward(mark, piece)
    return around([mark.box, mark.box.moved(inward.x, inward.y)])


def _inward(mark: Laid, piece: Box) -> Spot:
    """Return the way from an opening to its bracket: towards the middle of the piece."""
    if mark.way == "level":
        return Spot(0, BRACKET if mark.start.y <= piece.middle.y else -BRACKET)
    return Spot(BRACKET if mark.start.x <= piece.middle.x else -BRACKET, 0)
