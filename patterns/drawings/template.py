"""A piece at full size, to cut round: its edge, its seam and fold lines, its marks, its names, its grain.

Pieces of one outline share a template: an exterior, its lining and its interfacing are cut by the same paper.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from patterns.drafting.outlines import Corner
from patterns.drafting.sized import Quantity, SizedMark, SizedPattern, SizedPiece

from . import marks as drawn_marks
from . import words
from .errors import DrawingError
from .fills import Fabric, ground_of
from .geometry import Box, Spot, around
from .lines import Line, along
from .marks import Laid, rooms
from .outline import Outline, corners_of, outline_of
from .page import LIFE_SIZE, Placing
from .template_labels import Heading, Part, Worded, lettered
from .tiling import AIR

LAID = Placing(LIFE_SIZE, Spot(0, 0))
GROUND = ground_of(Fabric(None))


@dataclass(frozen=True)
class Template:
    """One outline at full size, its top left corner at (0, 0), and the pieces that are cut by it.

    box: all that is drawn, words under the piece too, and a little round it. parts: in the order in which
    they are drawn. marks: with the words of each.
    """

    pattern: str
    pieces: tuple[SizedPiece, ...]
    size: str
    outline: Outline
    box: Box
    marks: tuple[Worded, ...]
    parts: tuple[Part, ...]

    @property
    def title(self) -> str:
        """The names of its pieces: `exterior base, lining base`."""
        return ", ".join(piece.name for piece in self.pieces)

    def within(self, window: Box) -> list[str]:
        """Return the markup of what meets a window of it."""
        return [
            text
            for part in self.parts
            if any(room.overlaps(window) for room in part.rooms)
            for text in part.drawn
        ]


def needs_template(piece: SizedPiece) -> bool:
    """Whether a ruler does not serve: the edge curves or is cut out, or a mark is hard to place.

    A mark is hard to place where no ruler shows its distance, because it comes from π or a root.
    """
    return bool(piece.outline) or any(_is_hard(mark) for mark in piece.marks)


def _is_hard(mark: SizedMark) -> bool:
    return any(isinstance(each.value, Decimal) for each in _places(mark) if each is not None)


def _places(mark: SizedMark) -> tuple[Quantity | None, ...]:
    return mark.down_from_top, mark.in_from_left, mark.start, mark.end, mark.inside


def templates(sized: SizedPattern, named: Iterable[str] = ()) -> tuple[Template, ...]:
    """Return the templates of a pattern, in the order of its pieces.

    named: the pieces wanted; none of them: all that need one, and what is cut by the same outline.
    Raises DrawingError: a piece of that name is not cut, or a length of one has no value.
    """
    wanted = tuple(named)
    pieces = {piece.name: piece for piece in sized.pieces}
    for name in wanted:
        if name not in pieces:
            raise DrawingError(f"No piece “{name}” is cut. The pieces are: {', '.join(pieces)}.")
    groups: dict[tuple[Corner, ...], list[SizedPiece]] = {}
    for piece in sized.pieces:
        if not wanted or piece.name in wanted:
            groups.setdefault(corners_of(piece), []).append(piece)
    return tuple(
        template(sized, group)
        for group in groups.values()
        if wanted or any(needs_template(piece) for piece in group)
    )


def has_templates(sized: SizedPattern) -> bool:
    """Whether a pattern has a piece that needs a template."""
    return any(needs_template(piece) for piece in sized.pieces)


def template(sized: SizedPattern, pieces: Sequence[SizedPiece]) -> Template:
    """Return the template of pieces that have one outline. Raises DrawingError: a length has no value."""
    outline = outline_of(pieces[0], LAID)
    size = _size(sized, pieces[0])
    found = _marks(sized, pieces)
    heading = _heading(sized, pieces, size)
    grain = "straight grain" if all(piece.turns for piece in pieces) else _upright(pieces)
    labels = lettered(outline, heading, found, grain)
    lined = [_drawn(each.mark, outline.box) for each in sorted(found, key=_is_opening)]
    box = around([outline.box, *(room for part in labels for room in part.rooms)]).grown(AIR)
    return Template(sized.title, tuple(pieces), size, outline, box, found, (*lined, _edge(outline), *labels))


def _is_opening(worded: Worded) -> bool:
    """Openings are drawn last: their gap is cut out of the line of stitches."""
    return worded.mark.kind == "opening"


def _size(sized: SizedPattern, piece: SizedPiece) -> str:
    width, height = (
        words.label(words.cutting(words.known(side), sized.units)) for side in (piece.width, piece.height)
    )
    return f"{width} across" if piece.shape == "circle" else f"{width} wide, {height} high"


def _heading(sized: SizedPattern, pieces: Sequence[SizedPiece], size: str) -> Heading:
    lines: list[tuple[str, bool]] = []
    for piece in pieces:
        lines += [(piece.name, True), (f"cut {piece.cut} from {piece.material}", False)]
    return Heading((*lines, (f"{size}; cut along the solid line", False), (sized.title, False)))


def _upright(pieces: Sequence[SizedPiece]) -> str:
    """The words of the arrow where a print runs one way."""
    held = [piece.name for piece in pieces if not piece.turns]
    return "print upright" if len(held) == len(pieces) else f"grain; print upright: {', '.join(held)}"


def _marks(sized: SizedPattern, pieces: Sequence[SizedPiece]) -> tuple[Worded, ...]:
    """Return the marks of pieces that lie on one another: one that several have is drawn once."""
    owners: dict[object, list[str]] = {}
    laid: dict[object, Laid] = {}
    marked = [piece for piece in pieces if piece.marks]
    for piece in marked:
        for mark in piece.marks:
            key = (mark.name, mark.kind, *(each and each.value for each in _places(mark)))
            owners.setdefault(key, []).append(piece.name)
            laid[key] = drawn_marks.laid(mark, piece, LAID, sized.units)
    return tuple(
        Worded(mark, mark.name if len(owners[key]) == len(marked) else f"{mark.name} ({_only(owners[key])})")
        for key, mark in laid.items()
    )


def _only(names: Sequence[str]) -> str:
    return f"{' and '.join(names)} only"


def _drawn(mark: Laid, piece: Box) -> Part:
    return Part(tuple(rooms(mark, piece)), tuple(drawn_marks.drawn(mark, piece, GROUND)))


def _edge(outline: Outline) -> Part:
    """The cut line: one path, known by a box for each of its straight lines."""
    spots = outline.spots
    boxes = tuple(
        around([Box(*start, *start), Box(*end, *end)]).grown(AIR)
        for start, end in zip((spots[-1], *spots[:-1]), spots, strict=True)
    )
    return Part(boxes, (along(Line.CUT, outline.path),))
