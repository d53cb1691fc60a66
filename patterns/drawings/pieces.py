"""One cut piece, flat and to scale: its cut size along two edges, its marks in place, each by its name."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from patterns.drafting.sized import SizedPattern, SizedPiece

from . import marks, words
from .cut_outs import cut_out_labels, cut_outs_told
from .dimension import dimension
from .fills import Fabric, fill, ground_of
from .geometry import Box, Spot, around
from .labels import Block, Placed, TextLine, wrapped
from .lines import Line, along
from .margins import TO_COLUMN, TO_ROWS, column, rows
from .marks import Laid
from .naming import SMALL, Ended, Inside, name_of, named, names_drawn
from .outline import outline_of
from .page import LIFE_SIZE, Placing, cloth
from .svg import document
from .tokens import QUIET_INK

Side = Literal["right", "wrong"]

# Page, micrometres. Labels are 8 pt and more.
WIDTH = 120_000
MOST_HEIGHT = 92_000
# However little room there is, a piece is not drawn lower than this for it.
LEAST_HEIGHT = 20_000
HEADING = 3800
NUMBER = 3500
EDGE = 1500
AWAY = 3600
SPACE = 1600
# mm of cloth: what is smaller is no piece.
LEAST = Fraction(1, 10)


def piece_svg(
    sized: SizedPattern,
    piece: SizedPiece,
    side: Side = "right",
    *,
    width: int = WIDTH,
    height: int | None = None,
    is_headed: bool = True,
) -> str:
    """Return the drawing of one piece.

    side: which side of the fabric is up; the wrong side is paler.
    width, height: the room it is printed in, page micrometres, at least 90 mm wide: the piece is drawn so
    small that all of it fits unscaled, unless its labels alone do not. No height: as high as it comes out.
    is_headed: whether its name and material stand over it.
    Raises DrawingError: a length of it is missing or nothing at this size, or a mark lies off it.
    """
    frame = _Frame(width, MOST_HEIGHT, side, is_headed)
    sheet = _Sheet(sized, piece, frame)
    while height is not None and sheet.bottom > height and frame.most > LEAST_HEIGHT:
        over = max(sheet.bottom - height, sheet.box.height // 20)
        frame = replace(frame, most=max(min(frame.most, sheet.box.height) - over, LEAST_HEIGHT))
        sheet = _Sheet(sized, piece, frame)
    return sheet.svg()


@dataclass(frozen=True, slots=True)
class _Frame:
    """How a piece is to be drawn. most: how high the piece itself may be."""

    width: int
    most: int
    side: Side
    is_headed: bool


_KINDS = {
    "fold": "a fold",
    "stitch": "a line of stitches",
    "opening": "left open",
    "clip": "a clip in the edge",
    "place": "a place",
}


class _Sheet:
    """One drawing being laid out: heading, width above the piece, height left of it, names round it."""

    def __init__(self, sized: SizedPattern, piece: SizedPiece, frame: _Frame) -> None:
        self.sized, self.piece, self.frame = sized, piece, frame
        material = sized.materials_by_name.get(piece.material)
        self.fabric = Fabric(material.tint if material else None, is_pale=frame.side == "wrong")
        self.sizes = tuple(
            words.cutting(words.known(length), sized.units) for length in (piece.width, piece.height)
        )
        self.width_label, self.height_label = (
            Block((TextLine(words.label(size), NUMBER),)) for size in self.sizes
        )
        self.heading = self._heading()
        # Names are as wide at any scale: the marks are laid once to know them, and again in their places.
        self.box = self._place_piece(name_of(mark) for mark in self._laid(Placing(Fraction(1), Spot(0, 0))))
        self.inside, beside, under = self._named()
        if beside and not self.marks:
            # On a thin strip not even the label of its top edge has room: it stands outside as well.
            self.box = self._place_piece(block for _, block in beside)
            self.inside, beside, under = self._named()
        under += cut_out_labels(piece, self.outline, sized.units)
        columned = column(beside, self.box.right + TO_COLUMN, EDGE + self._heading_height())
        self.led = [*columned, *rows(under, self.box.bottom + TO_ROWS, frame.width - EDGE, columned)]
        self.placed = [*self.heading, *self._size_labels()]
        labels = [*self.placed, *(beyond.label for beyond in self.led)]
        self.bottom = around([self.box, *(label.box for label in labels)]).bottom + EDGE

    def _named(self) -> tuple[list[Inside], list[Ended], list[Ended]]:
        """Find the marks' names their places; a circle has no top edge to be named."""
        return named(
            self.marks,
            self.box,
            self.piece.turns,
            self.outline.outside,
            has_top=self.piece.shape != "circle",
        )

    def _place_piece(self, names: Iterable[Block]) -> Box:
        """Lay the marks, and return where the piece lies: as large as all that stands round it lets it be.

        names: what may have to stand beside it.
        """
        beside = max((TO_COLUMN + name.width for name in names), default=0)
        left = EDGE + self.height_label.width + SPACE + AWAY
        top = EDGE + self._heading_height() + self.width_label.height + AWAY
        wide, high = (cloth(length, least=LEAST) for length in (self.piece.width, self.piece.height))
        room = self.frame.width - left - max(beside, EDGE) - EDGE
        scale = min(room / wide, self.frame.most / high, LIFE_SIZE)
        used = left + round(wide * scale) + beside
        placing = Placing(scale, Spot(left + max((self.frame.width - EDGE - used) // 2, 0), top))
        self.marks = self._laid(placing)
        self.outline = outline_of(self.piece, placing)
        corner = placing.origin
        return Box(*corner, corner.x + placing.length(wide), corner.y + placing.length(high))

    def _laid(self, placing: Placing) -> list[Laid]:
        return [marks.laid(mark, self.piece, placing, self.sized.units) for mark in self.piece.marks]

    def _heading(self) -> list[Placed]:
        if not self.frame.is_headed:
            return []
        side = ", wrong side up" if self.frame.side == "wrong" else ""
        cut = f"cut {self.piece.cut} from {self.piece.material}{side}"
        most = self.frame.width - 2 * EDGE
        lines = (*wrapped(self.piece.name, HEADING, most), *wrapped(cut, SMALL, most, QUIET_INK))
        return [Block(lines).at(EDGE, EDGE)]

    def _heading_height(self) -> int:
        return sum(label.box.height + SPACE for label in self.heading)

    def svg(self) -> str:
        parts = self._piece()
        for beyond in self.led:
            parts += beyond.drawn()
        parts += names_drawn(self.inside, ground_of(self.fabric))
        for label in self.placed:
            parts += label.drawn()
        return document(self.frame.width, self.bottom, self._title(), self._description(), parts)

    def _size_labels(self) -> tuple[Placed, Placed]:
        middle = self.box.middle
        above = self.box.top - AWAY - SPACE // 2 - self.width_label.height
        beside = middle.y - self.height_label.height // 2
        return (
            self.width_label.at(middle.x, above, "middle"),
            self.height_label.at(self.box.left - AWAY - SPACE, beside, "end"),
        )

    def _piece(self) -> list[str]:
        box = self.box
        left_top, right_top = Spot(box.left, box.top), Spot(box.right, box.top)
        left_bottom = Spot(box.left, box.bottom)
        parts = [
            *dimension(left_top, right_top, Spot(0, -AWAY)),
            *dimension(left_top, left_bottom, Spot(-AWAY, 0)),
            *fill(self.fabric, self.outline.spots, self.outline.path),
        ]
        # Openings last: their gap is cut out of the line of stitches.
        for mark in sorted(self.marks, key=lambda mark: mark.kind == "opening"):
            parts += marks.drawn(mark, box, ground_of(self.fabric))
        return [*parts, along(Line.CUT, self.outline.path)]

    def _title(self) -> str:
        width, height = self.sizes
        if self.piece.shape == "circle":
            return f"{self.piece.name}, cut {self.piece.cut}, a circle {width} across"
        return f"{self.piece.name}, cut {self.piece.cut}, {width} wide and {height} high"

    def _description(self) -> str:
        told = "; ".join(
            f"{mark.name}, {_KINDS[mark.kind]}, {', '.join(mark.distances)}" for mark in self.marks
        )
        of = f"of {self.piece.material}, {self.frame.side} side up"
        top = "." if self.piece.shape == "circle" else ", its top edge at the top."
        flat = f"The piece flat and to scale, {of}{top}"
        way = "" if self.piece.turns else " Its print stands one way up."
        way += "".join(f" Cut out: {told}." for told in cut_outs_told(self.piece, self.sized.units))
        return f"{flat}{way}{f' Marks: {told}.' if told else ''}"
