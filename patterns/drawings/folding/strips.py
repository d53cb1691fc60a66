"""A cloth of the model: a strip with marks at exact places along its length."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.drafting.outlines import Corner
from patterns.drafting.recipe import MarkKind, Tint
from patterns.drafting.sized import Quantity, SizedMark, SizedPattern, SizedPiece
from patterns.drafting.work import ZIP_LINES, joined_lines, united_lines
from patterns.drawings.page import cloth

from .errors import AmissError


@dataclass(frozen=True, slots=True)
class Line:
    """A mark of a strip, all in mm.

    place: how far along the strip from its front top raw edge; None for a line that runs along it.
    across: how far in from the left raw edge; None for a line right across.
    start, end: the ends of a line, measured the other way; None at the raw edge.
    inside: of a line all round the cloth, how far inside its raw edges it runs.
    """

    name: str
    kind: MarkKind
    place: Fraction | None
    across: Fraction | None
    start: Fraction | None = None
    end: Fraction | None = None
    inside: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Strip:
    """A cloth: a panel, or halves that are joined.

    pieces: those it was cut from. length: along it, from raw edge to raw edge. joins: where seams lie
    across it. fused: what is fused to its wrong side, with how far inside the raw edges that lies, across
    and along. count: how many are cut alike. corners: its outline, none for a rectangle. removed: how large a
    square has been cut out of both lower corners. layers: of cloth, once it is folded into a handle.
    """

    name: str
    piece: str
    tint: Tint | None
    width: Fraction
    length: Fraction
    lines: Mapping[str, Line]
    joins: tuple[Fraction, ...] = ()
    fused: tuple[str, Fraction, Fraction, Fraction] | None = None
    count: int = 1
    corners: tuple[Corner, ...] = ()
    removed: Fraction = Fraction(0)
    layers: int = 1
    is_zip: bool = False

    def line(self, name: str) -> Line:
        """Raises AmissError for a mark that the cloth does not have at this size."""
        if name not in self.lines:
            raise AmissError(f"the {self.name} has no mark “{name}”.")
        return self.lines[name]

    def place(self, name: str) -> Fraction:
        """Return how far along the strip a line across it lies. Raises AmissError for one along it."""
        place = self.line(name).place
        if place is None:
            raise AmissError(f"“{name}” runs along the {self.name}, not across it.")
        return place

    def inside(self, name: str) -> Fraction:
        """Return how far inside the raw edges a line all round runs. Raises AmissError for another one."""
        inside = self.line(name).inside
        if inside is None:
            raise AmissError(f"“{name}” does not run all round the {self.name}.")
        return inside

    def across(self, name: str) -> Fraction:
        """Return how far in from the left a line along the strip lies. Raises AmissError for one across."""
        across = self.line(name).across
        if across is None:
            raise AmissError(f"“{name}” runs across the {self.name}, not along it.")
        return across


def strip_of(sized: SizedPattern, piece: SizedPiece, name: str) -> Strip:
    """Return a piece as it is cut, under a name of its own. Raises DrawingError: a length has no value."""
    material = sized.materials_by_name.get(piece.material)
    return Strip(
        name=name,
        piece=piece.name,
        tint=material.tint if material else None,
        width=cloth(piece.width, least=Fraction(1, 10)),
        length=cloth(piece.height, least=Fraction(1, 10)),
        lines={mark.name: _line(mark) for mark in piece.marks},
        count=piece.cut,
        corners=piece.corners if piece.outline else (),
    )


def _line(mark: SizedMark) -> Line:
    places = (mark.down_from_top, mark.in_from_left, mark.start, mark.end, mark.inside)
    return Line(mark.name, mark.kind, *map(_maybe, places))


def _maybe(quantity: Quantity | None) -> Fraction | None:
    return None if quantity is None else cloth(quantity)


def joined(half: Strip, at: str, name: str, middle: str) -> Strip:
    """Return two halves cut alike, sewn together at the line `at`, which is called `middle` from then on.

    Raises AmissError: the half has no such line across it.
    """
    sewn = half.place(at)
    lines = dict(_joined_lines(half, at, middle))
    return replace(half, name=name, length=2 * sewn, lines=lines, joins=(sewn,))


def _joined_lines(half: Strip, at: str, middle: str) -> Iterator[tuple[str, Line]]:
    length = 2 * half.place(at)
    told = [(line.name, line.kind, line.place is not None) for line in half.lines.values()]
    for name, own, whose in joined_lines(told, at, middle):
        line = replace(half.lines[own], name=name)
        if whose == "back" and line.place is not None:
            line = replace(line, place=length - line.place)
        yield name, replace(line, kind="fold") if whose == "seam" else line


def united(back: Strip, front: Strip, at: str, name: str, middle: str) -> Strip:
    """Return a back and a front sewn together at the line `at`, which is called `middle` from then on.

    The strip begins at the back's first edge; the front lies the other way round.
    Raises AmissError: one of them has no such line across it.
    """
    sewn, length = back.place(at), back.place(at) + front.place(at)
    lines: dict[str, Line] = {}
    for new, own, whose in united_lines(back.lines, front.lines, at, middle):
        line = replace((back if whose == "back" else front).lines[own], name=new)
        if whose == "front" and line.place is not None:
            line = replace(line, place=length - line.place)
        lines[new] = replace(line, kind="fold") if new == middle else line
    return replace(back, name=name, length=length, lines=lines, joins=(sewn,))


def zip_of(name: str, tape: Fraction, reveal: Fraction, long: Fraction) -> Strip:
    """Return a zip, seen across: a strip as long as its two tapes are wide, as wide as it is long.

    tape: over both tapes. reveal: what shows between its seams, the teeth in the middle.
    Raises AmissError: nothing of a tape is left to be sewn in.
    """
    sewn = (tape - reveal) / 2
    if not 0 < sewn < tape / 2:
        raise AmissError(f"the {name} has no tape to be sewn in, or none to show.")
    places = dict(zip(ZIP_LINES, (sewn, tape / 2, tape - sewn), strict=True))
    lines = {
        line: Line(line, "fold" if line == "teeth" else "stitch", place, None)
        for line, place in places.items()
    }
    return Strip(name, name, None, long, tape, lines, is_zip=True)
