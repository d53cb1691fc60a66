"""A layout to scale: a piece of cloth with its edges, the pieces on it, what is left over, the cuts."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.cutting.left_over import Taken, left_over
from patterns.drafting.lengths import sides_words
from patterns.drafting.units import Units

from . import tokens, words
from .dimension import DOT, dimension
from .errors import DrawingError
from .fills import Fabric, fill, ground_of
from .geometry import Box, Point, Spot, around
from .labels import Block, Placed, TextLine, Turned, wrapped
from .laid_cloth import EdgeKind, LaidCloth
from .layout_cuts import Badge, badges, cuts_told
from .layout_labels import NAME, Label, Numbered, label_of, words_of
from .lines import Line, along, dot, line
from .margins import Led, column
from .page import LIFE_SIZE, Placing
from .svg import document, plate

# Page, micrometres.
WIDTH = 120_000
MOST_HEIGHT = 110_000
HEADING = 3800
SIZE = 3200
EDGE = 1500
AWAY = 3400
SPACE = 1400
# Beside an edge, for its name; beside the cloth, for the numbers of pieces that are too small for them.
STRIP = 4200
TO_COLUMN = 5000
COLUMN = 4200
# How far the second line of a selvedge stands from the first.
SELVEDGE = 600
# mm of cloth: what is smaller is no scrap that anybody keeps.
LEAST_LEFT = 25
GRAIN = "← lengthwise grain →"
FOLDED = "The line of dashes and dots is the fold: what lies on both sides of it is cut at once."


def layout_svg(
    cloth: LaidCloth, units: Units, *, width: int = WIDTH, height: int = MOST_HEIGHT, is_headed: bool = True
) -> str:
    """Return the drawing of one piece of cloth with what is cut from it.

    width: of the page's room, micrometres, at least 80 mm. height: how high the cloth may be drawn in it.
    is_headed: whether its name stands over it.
    Raises DrawingError: the cloth has no size, or a piece does not lie on it.
    """
    hair = Fraction(1, 1000)  # an irrational side is laid a hair larger than it is
    if min(cloth.width, cloth.length) <= 0:
        raise DrawingError("There is no cloth to draw.")
    for piece in cloth.pieces:
        wide, high = piece.sides
        if min(piece.x, piece.y, wide, high) < 0 or (
            piece.x + wide > cloth.width + hair or piece.y + high > cloth.length + hair
        ):
            raise DrawingError(f"The {piece.name} does not lie on the cloth.")
    # Numbers beside the cloth take room, which is only known once it is drawn without.
    drawing = _Drawing(cloth, units, _Frame(width, height, is_headed))
    if drawing.homeless:
        drawing = _Drawing(cloth, units, _Frame(width, height, is_headed, has_column=True))
    return drawing.svg()


@dataclass(frozen=True, slots=True)
class _Frame:
    """The room for a drawing. has_column: whether numbers stand beside the cloth."""

    width: int
    height: int
    is_headed: bool
    has_column: bool = False


class _Drawing:
    def __init__(self, cloth: LaidCloth, units: Units, frame: _Frame) -> None:
        self.cloth, self.units, self.frame = cloth, units, frame
        self.size_words = sides_words(cloth.width, cloth.length, units)
        self.across, self.down = (
            Block((TextLine(words.label(words.cutting(side, units)), SIZE),))
            for side in (cloth.width, cloth.length)
        )
        self.heading = self._heading()
        self.placing = self._placed()
        self.box = self._box(Fraction(0), Fraction(0), cloth.width, cloth.length)
        self.outlines = [piece.outline(self.placing) for piece in cloth.pieces]
        self.badges: list[Badge] = badges(cloth.cuts, self.placing, self.box)
        self.numbered = Numbered(units)
        taken = [badge.box for badge in self.badges]
        self.labels: list[Label] = [
            label_of(piece, outline, self.numbered, taken, units)
            for piece, outline in zip(cloth.pieces, self.outlines, strict=True)
        ]
        self.left = self._left_over()
        self.left_label = self._left_label(taken)
        self.homeless = [
            (outline, label)
            for outline, label in zip(self.outlines, self.labels, strict=True)
            if label.placed is None
        ]
        self.led = self._led()
        self.names = list(self._edge_names())
        self.note = self._note()

    def _heading(self) -> Placed | None:
        if not self.frame.is_headed:
            return None
        most = self.frame.width - 2 * EDGE
        lines = (
            *wrapped(self.cloth.name, HEADING, most),
            *wrapped(words.label(self.size_words), NAME, most, tokens.QUIET_INK),
        )
        return Block(lines).at(EDGE, EDGE)

    def _placed(self) -> Placing:
        """Lay the cloth as large as all that stands round it lets it be, in the middle of what is left."""
        left = EDGE + self.down.width + SPACE + AWAY + STRIP
        right = STRIP + EDGE + (TO_COLUMN + COLUMN if self.frame.has_column else 0)
        top = (self.heading.box.bottom + SPACE if self.heading else EDGE) + self.across.height + SPACE + AWAY
        room = self.frame.width - left - right
        scale = min(room / self.cloth.width, self.frame.height / self.cloth.length, LIFE_SIZE)
        return Placing(scale, Spot(left + (room - round(self.cloth.width * scale)) // 2, top))

    def _box(self, x: Fraction, y: Fraction, width: Fraction, height: Fraction) -> Box:
        first, last = (self.placing.spot(Point(*corner)) for corner in ((x, -y), (x + width, -(y + height))))
        return Box(*first, *last)

    def _left_over(self) -> Taken | None:
        taken = [Taken(piece.x, piece.y, *piece.sides) for piece in self.cloth.pieces]
        found = left_over(self.cloth.width, self.cloth.length, taken)
        return found if found and min(found.width, found.height) >= LEAST_LEFT else None

    @property
    def left_words(self) -> str:
        return sides_words(self.left.width, self.left.height, self.units) if self.left else ""

    def _left_label(self, taken: Sequence[Box]) -> Placed | None:
        """The name of what is left over, where it has room on it."""
        if self.left is None:
            return None
        room = self._box(*self.left)
        lines = [
            TextLine(text, NAME, tokens.QUIET_INK) for text in ("left over", words.label(self.left_words))
        ]
        for block in (
            Block(tuple(lines)),
            Block((TextLine(f"left over {lines[1].text}", NAME, lines[0].colour),)),
        ):
            placed = block.at(room.middle.x, room.middle.y - block.height // 2, "middle")
            if room.grown(-500).holds(placed.box) and not any(placed.box.overlaps(box) for box in taken):
                return placed
        return None

    def _led(self) -> list[Led]:
        """The numbers that found no room on their pieces, beside the cloth; one for several in a row."""
        ends: dict[tuple[int, int], Spot] = {}
        for outline, label in self.homeless:
            middle = outline.box.middle
            row = label.number, middle.y
            ends[row] = min(ends.get(row, middle), middle)
        blocks = [(at, Block((TextLine(str(number), NAME),))) for (number, _), at in ends.items()]
        return column(blocks, self.box.right + STRIP + TO_COLUMN, self.box.top, TO_COLUMN)

    def _edge_names(self) -> Iterator[Turned]:
        named: dict[str, str] = dict(self.cloth.edges) or ({"left": GRAIN} if self.cloth.has_grain else {})
        middle = self.box.middle.y
        for side, text in named.items():
            written = TextLine(text, NAME, tokens.INK)
            off = SELVEDGE + 500
            left = self.box.left - off - written.height if side == "left" else self.box.right + off
            top = middle - written.width // 2
            box = Box(left, top, left + written.height, top + written.width)
            if written.width <= self.box.height:
                yield Turned(written, box)

    def _note(self) -> Placed | None:
        """What stands under the cloth: the key of the numbers, and what found no room on it."""
        texts = self.numbered.key(self.labels)
        texts += [FOLDED] if self.cloth.folded else []
        if self.left and self.left_label is None:
            texts.append(f"Largest piece left over: {self.left_words}")
        if len(self.names) < max(len(self.cloth.edges), self.cloth.has_grain):
            texts.append(self._edges_told())
        if not texts:
            return None
        lines = [
            each
            for text in texts
            for each in wrapped(words.label(text), NAME, self.frame.width - 2 * EDGE, tokens.INK)
        ]
        bottom = around([self.box, *(led.label.box for led in self.led)]).bottom
        return Block(tuple(lines)).at(EDGE, bottom + SPACE + SELVEDGE)

    def _edges_told(self) -> str:
        edges = self.cloth.edges
        if not edges:
            return "The lengthwise grain runs from top to bottom."
        if len(edges) == 2 and edges[0][1] == edges[1][1]:
            return f"Both its left and its right edge are a {edges[0][1]}."
        return " ".join(f"Its {side} edge is a {kind}." for side, kind in edges)

    def svg(self) -> str:
        parts = [*self._measured(), plate(self.box, tokens.SHEET), *self._left_drawn()]
        for piece, outline in zip(self.cloth.pieces, self.outlines, strict=True):
            parts += fill(Fabric(piece.tint), outline.spots, outline.path)
            parts.append(along(Line.EDGE, outline.path))
        parts += [*self._fold(), *self._edges()]
        for badge in self.badges:
            parts += badge.drawn()
        parts += [line(Line.LEADER, *led.leader) for led in self.led]
        parts += [dot(outline.box.middle, DOT, tokens.QUIET_INK) for outline, _ in self.homeless]
        for piece, label in zip(self.cloth.pieces, self.labels, strict=True):
            if label.placed is not None:
                ground = ground_of(Fabric(piece.tint))
                parts += [plate(label.placed.box, ground), *label.placed.drawn()]
        if self.left_label and self.cloth.folded:
            parts.append(plate(self.left_label.box, tokens.PAPER))
        for placed in (self.heading, self.left_label, self.note, *(led.label for led in self.led)):
            parts += placed.drawn() if placed else []
        for name in self.names:
            parts += name.drawn()
        bottom = self.note.box.bottom if self.note else self.box.bottom
        return document(self.frame.width, bottom + EDGE, self._title(), self._description(), parts)

    def _measured(self) -> list[str]:
        box = self.box
        across = self.across.at(box.middle.x, box.top - AWAY - SPACE // 2 - self.across.height, "middle")
        aside = box.left - STRIP - AWAY
        down = self.down.at(aside - SPACE, box.middle.y - self.down.height // 2, "end")
        top = Spot(box.left, box.top)
        return [
            *dimension(top, Spot(box.right, box.top), Spot(0, -AWAY)),
            *dimension(top, Spot(box.left, box.bottom), Spot(-STRIP - AWAY, 0)),
            *across.drawn(),
            *down.drawn(),
        ]

    def _left_drawn(self) -> list[str]:
        if self.left is None:
            return []
        box = self._box(*self.left)
        corners = [Spot(*box[:2]), Spot(box.right, box.top), Spot(*box[2:]), Spot(box.left, box.bottom)]
        return [plate(box, tokens.PAPER), line(Line.MEASURE, *corners, is_closed=True)]

    def _edges(self) -> Iterator[str]:
        box = self.box
        yield line(Line.EDGE, Spot(box.left, box.top), Spot(box.right, box.top))
        yield line(Line.EDGE, Spot(box.left, box.bottom), Spot(box.right, box.bottom))
        sides: tuple[tuple[EdgeKind, int, int], ...] = (
            (self.cloth.left, box.left, -SELVEDGE),
            (self.cloth.right, box.right, SELVEDGE),
        )
        for kind, x, out in sides:
            ends = Spot(x, box.top), Spot(x, box.bottom)
            yield line(Line.FOLD if kind == "fold" else Line.EDGE, *ends)
            if kind == "selvedge":
                yield line(Line.EDGE, *(Spot(end.x + out, end.y) for end in ends))

    def _fold(self) -> Iterator[str]:
        if self.cloth.folded:
            middle = self.cloth.width / 2
            ends = (Point(middle, Fraction(0)), Point(middle, -self.cloth.folded))
            yield line(Line.FOLD, *(self.placing.spot(end) for end in ends))

    def _title(self) -> str:
        count = len(self.cloth.pieces)
        pieces = "nothing is cut from it" if not count else "1 piece" if count == 1 else f"{count} pieces"
        return f"{self.cloth.name}, {self.size_words}: {pieces}"

    def _place(self, far: Fraction, side: str) -> str:
        return f"{words.cutting(far, self.units)} from the {side}" if far else f"at the {side}"

    def _description(self) -> str:
        told = "; ".join(
            f"{words_of(piece, self.units)}, {self._place(piece.x, 'left')} and {self._place(piece.y, 'top')}"
            for piece in self.cloth.pieces
        )
        texts = [
            f"The cloth to scale, {words.cutting(self.cloth.width, self.units)} across and "
            f"{words.cutting(self.cloth.length, self.units)} along.",
            self._edges_told(),
        ]
        if self.cloth.folded:
            reach = words.cutting(self.cloth.folded, self.units)
            texts.append(f"It lies folded along its middle, for {reach} from the top.")
        texts += [f"On it lie: {told}."] if told else []
        texts += [f"Largest piece left over: {self.left_words}."] if self.left else []
        return " ".join([*texts, *cuts_told(self.cloth.cuts, self.units)])
