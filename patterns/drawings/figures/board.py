"""The page of a step's figure: what is drawn on it, and labels that never lie on each other."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from patterns.drawings.dimension import DOT, dimension, dimension_box
from patterns.drawings.geometry import Box, Spot, around
from patterns.drawings.labels import Align, Block, Placed, TextLine, wrapped
from patterns.drawings.svg import document

# Page, micrometres: what stands beside a step on A4 and on Letter. 2,500 is 7.1 pt.
WIDTH = 56_000
MOST_HEIGHT = 41_000
LETTERS = 2500
EDGE = 600
SPACE = 900
# How far a label may move up, down or aside from where it would stand best, in lines.
NUDGES = 4
# How far off an edge a short length stands that has its words over it.
CLOSE = 1100
# Half of what a line takes with the white beside it.
LINE = 200


@dataclass(frozen=True, slots=True)
class StepFigure:
    """A figure beside a step. caption: what stands under it, two lines. labels: the boxes of its words, page.

    left_out: labels that it should have and that found no room. lengths: the boxes of its dimension lines.
    lines: the boxes of the lines that no label may lie on.
    """

    svg: str
    caption: str
    labels: tuple[Box, ...]
    width: int
    height: int
    left_out: tuple[str, ...] = ()
    lengths: tuple[Box, ...] = ()
    lines: tuple[Box, ...] = ()


class Board:
    """Collects the parts of one figure. Labels come last and keep clear of each other."""

    def __init__(self, title: str, width: int = WIDTH) -> None:
        self.title, self.width = title, width
        self.parts: list[str] = []
        self.labels: list[Placed] = []
        self.boxes: list[Box] = []
        self.left_out: list[str] = []
        self.lengths: list[Box] = []
        self.lines: list[Box] = []
        self.shunned: list[tuple[Spot, Spot]] = []

    def draw(self, parts: Iterable[str]) -> None:
        self.parts += parts

    def fill(self, box: Box) -> None:
        """Take note of room that something drawn takes."""
        self.boxes.append(box)

    def keep_clear(self, start: Spot, end: Spot) -> None:
        """Let no label lie on a line that is drawn there, level or upright."""
        self.lines.append(around([Box(*start, *start), Box(*end, *end)]).grown(LINE))

    def shun(self, *spots: Spot, is_closed: bool = False) -> None:
        """Let labels stand clear of the lines through these spots, drawn in any direction, if they can."""
        self.shunned += pairwise((*spots, spots[0]) if is_closed else spots)

    def say(
        self,
        text: str,
        at: Spot,
        align: Align = "middle",
        is_needed: bool = True,
        within: Box | None = None,
        is_clear: bool = False,
    ) -> bool:
        """Write a label as near to a place as it is free; say whether there was room.

        at: the middle of its edge: of its left one for `start`, of its right one for `end`.
        is_needed: take note of it where it has no room. within: it stands in there, or not at all.
        is_clear: it stands clear of every line, or not at all.
        """
        block = Block((TextLine(text, LETTERS),))
        return self._put(block, at, align, self._found(block, at, align, within, is_clear), is_needed)

    def say_in_lines(
        self, text: str, at: Spot, align: Align, most: int, within: Box | None = None
    ) -> Box | None:
        """Write a label broken into lines at most so wide; return where it stands, None without room.

        within: as it is for `say`; what finds no room there may stand elsewhere.
        """
        block = Block(wrapped(text, LETTERS, most))
        box = self._found(block, at, align, within)
        self._put(block, at, align, box, within is None)
        return box

    def _found(
        self, block: Block, at: Spot, align: Align, within: Box | None, is_clear: bool = False
    ) -> Box | None:
        """Return where a label may stand: the first place clear of lines, or else the first."""
        first: Box | None = None
        for corner in self._tries(block, at, align):
            tried = block.at(corner.x, corner.y).box
            if self._is_free(tried) and (within is None or within.holds(tried)):
                if not self._is_on_a_line(tried):
                    return tried
                first = first or tried
        return None if is_clear else first

    def _put(self, block: Block, at: Spot, align: Align, box: Box | None, is_needed: bool) -> bool:
        if box:
            x = {"start": box.left, "middle": box.left + block.width // 2, "end": box.right}[align]
            self.labels.append(block.at(x, box.top, align))
        elif is_needed:
            self.left_out.append(" ".join(each.text for each in block.lines))
        return box is not None

    def measure(self, start: Spot, end: Spot, away: Spot, text: str) -> None:
        """Draw a dimension line beside an edge, with its length behind it; no label lies on the line."""
        self.draw(dimension(start, end, away))
        box = dimension_box(start, end, away)
        for spot in (start, end):
            self.shun(spot, Spot(spot.x + away.x, spot.y + away.y))
        self.lengths.append(box)
        if away.x:
            side: Align = "start" if away.x > 0 else "end"
            self.say(text, Spot(box.right + SPACE if away.x > 0 else box.left - SPACE, box.middle.y), side)
        else:
            below = block_height() // 2 + SPACE // 2
            level = box.bottom + below if away.y > 0 else box.top - below
            self.say(text, Spot(box.middle.x, level))

    def _tries(self, block: Block, at: Spot, align: Align) -> Iterator[Spot]:
        left = {"start": at.x, "middle": at.x - block.width // 2, "end": at.x - block.width}[align]
        left = min(max(left, EDGE), self.width - EDGE - block.width)
        top = max(at.y - block.height // 2, 0)
        for off in range(NUDGES + 1):
            for across, down in ((0, off), (0, -off), (off, 0), (-off, 0), (off, off), (-off, off)):
                yield Spot(left + across * block.height, max(top + down * block.height // 2, 0))

    def _is_free(self, box: Box) -> bool:
        apart = Box(box.left - SPACE // 2, box.top, box.right + SPACE // 2, box.bottom)
        inside = box.left >= 0 and box.right <= self.width and box.top >= 0
        taken = [*(label.box for label in self.labels), *self.boxes, *self.lengths, *self.lines]
        return inside and not any(apart.overlaps(other) for other in taken)

    def _is_on_a_line(self, box: Box) -> bool:
        return any(box.grown(LINE).meets(*ends) for ends in self.shunned)

    def figure(self, bottom: int, description: str, caption: str) -> StepFigure:
        """Return the figure; it ends below everything that is written on it."""
        boxes = tuple(label.box for label in self.labels)
        height = max(bottom, around(boxes).bottom if boxes else 0) + EDGE
        parts = [*self.parts, *(part for label in self.labels for part in label.drawn())]
        svg = document(self.width, height, self.title, description, parts)
        found = tuple(self.left_out), tuple(self.lengths), tuple(self.lines)
        return StepFigure(svg, caption, boxes, self.width, height, *found)


def text_wide(text: str) -> int:
    """Return how wide a label is."""
    return TextLine(text, LETTERS).width


def room_over() -> int:
    """Return how much room a length takes that stands close over an edge, its words included."""
    return CLOSE + DOT + SPACE // 2 + block_height()


def block_height() -> int:
    """Return how high a line of label takes."""
    return TextLine("0", LETTERS).height
