"""What is written on a piece at full size: what it is, which way the cloth runs, the name of every mark.

Every text stands inside the piece, free of its lines; a piece that is too small has its words under it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .fills import Fabric, ground_of
from .geometry import Box, Spot, around
from .labels import Block, TextLine, Turned, corners_near, first_free, wrapped
from .lines import Line, lines
from .marks import Laid, rooms
from .outline import Outline
from .tokens import QUIET_INK

# Letters of the heading and of all else, µm: the first pair with which all words find a place.
SIZES = ((8000, 4400), (6000, 3700), (4400, 3000), (3200, 2470))
# Letters of a heading under its piece, and how wide it may be under a narrow one.
UNDER, LEAST_UNDER = (5000, 3500), 60_000
# Between words and lines.
AWAY = 1000
# The arrow of the grain, its head, and the room that it and its words take across.
ARROWS = (70_000, 45_000, 25_000)
HEAD = 2600
ARROW_ROOM = 7000
# Of the width of a piece, hundredths: no line of its heading is longer.
WIDEST = 70
# How finely a place for words is looked for.
PLACES = 28
GROUND = ground_of(Fabric(None))


@dataclass(frozen=True, slots=True)
class Part:
    """Something on a template: its markup, and the boxes that it lies in."""

    rooms: tuple[Box, ...]
    drawn: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Heading:
    """The words in the middle of a piece: lines, and whether each is one of its names."""

    lines: tuple[tuple[str, bool], ...]

    def block(self, sizes: tuple[int, int], most: int) -> Block:
        large, small = sizes
        found: list[TextLine] = []
        for text, is_name in self.lines:
            found += wrapped(text, large if is_name else small, most, *(() if is_name else (QUIET_INK,)))
        return Block(tuple(found))


@dataclass(frozen=True, slots=True)
class Worded:
    """A mark with its label's text."""

    mark: Laid
    text: str


def lettered(outline: Outline, heading: Heading, marks: Sequence[Worded], grain: str) -> list[Part]:
    """Return all words of a piece in their places, its heading first.

    grain: the words along the arrow that runs up the piece. A heading that finds no place at the least size
    of letters stands under the piece, and so does the name of a mark that finds none even then.
    """
    for shown in (heading, None):
        for sizes in SIZES:
            found, left_over = _Lettering(outline, marks).all(shown, sizes, grain)
            if not left_over:
                below = [] if shown else [heading.block(UNDER, max(outline.box.width, LEAST_UNDER))]
                return [*found, *_under(outline.box, below)]
    below = [heading.block(UNDER, max(outline.box.width, LEAST_UNDER)), *left_over]
    return [*found, *_under(outline.box, below)]


def _under(box: Box, blocks: Sequence[Block]) -> Iterator[Part]:
    top = box.bottom + 2 * AWAY
    for block in blocks:
        placed = block.at(box.left, top)
        yield Part((placed.box,), tuple(placed.drawn()))
        top = placed.box.bottom + AWAY


class _Lettering:
    """One try, with letters of one size."""

    def __init__(self, outline: Outline, marks: Sequence[Worded]) -> None:
        self.box = outline.box
        self.marks = marks
        self.taken = [*outline.outside, *(room for each in marks for room in rooms(each.mark, self.box))]
        self.inside = self.box.grown(-2 * AWAY)

    def all(
        self, heading: Heading | None, sizes: tuple[int, int], grain: str
    ) -> tuple[list[Part], list[Block]]:
        """Return what found a place, and the blocks that found none."""
        found: list[Part] = []
        left_over: list[Block] = []
        if heading:
            block = heading.block(sizes, max(self.box.width * WIDEST // 100, 10_000))
            place = self._near_middle(block.width, block.height)
            if place is None:
                return found, [block]
            placed = block.at(place.middle.x, place.top, "middle")
            found.append(self._took(placed.box, placed.drawn()))
        found += self._grain(TextLine(grain, sizes[1], QUIET_INK))
        for each in self.marks:
            part = self._label(each, sizes[1])
            if part is None:
                left_over.append(Block((TextLine(each.text, sizes[1]),)))
            else:
                found.append(part)
        return found, left_over

    def _took(self, box: Box, drawn: Sequence[str]) -> Part:
        self.taken.append(box.grown(AWAY))
        return Part((box,), tuple(drawn))

    def _is_free(self, box: Box) -> bool:
        return self.inside.holds(box) and not any(box.overlaps(other) for other in self.taken)

    def _near_middle(self, width: int, height: int) -> Box | None:
        """Return the free box nearest to the middle of the piece."""
        middle = self.box.middle
        across, down = (max(side // PLACES, 1000) for side in (self.box.width, self.box.height))
        steps = sorted(
            ((x * across, y * down) for x in range(-PLACES, PLACES + 1) for y in range(-PLACES, PLACES + 1)),
            key=lambda step: (step[0] ** 2 + step[1] ** 2, step),
        )
        for x, y in steps:
            left, top = middle.x + x - width // 2, middle.y + y - height // 2
            box = Box(left, top, left + width, top + height)
            if self._is_free(box):
                return box
        return None

    def _grain(self, words: TextLine) -> Iterator[Part]:
        """Yield the arrow, as long as has room, its words beside it."""
        for long in ARROWS:
            place = self._near_middle(ARROW_ROOM, max(long, words.width))
            if place is not None:
                shaft = place.left + HEAD // 2
                top, bottom = Spot(shaft, place.top), Spot(shaft, place.bottom)
                ends = [
                    (Spot(end.x - HEAD // 2, end.y + way), end, Spot(end.x + HEAD // 2, end.y + way))
                    for end, way in ((top, HEAD), (bottom, -HEAD))
                ]
                upright = (place.height - words.width) // 2
                left = place.left + HEAD
                text = Turned(
                    words, Box(left, place.top + upright, left + words.height, place.bottom - upright)
                )
                yield self._took(place, [lines(Line.MARK, [(top, bottom), *ends]), *text.drawn()])
                return

    def _label(self, each: Worded, size: int) -> Part | None:
        """Return the name of a mark beside it, at the first place that is free."""
        mark, line = each.mark, TextLine(each.text, size)
        if mark.way == "upright":
            for box in self._along_upright(mark, line):
                if self._is_free(box):
                    return self._took(box, Turned(line, box).drawn())
            return None
        block = Block((line,))
        if mark.way == "point":
            corners: Iterator[Spot] = corners_near(block, rooms(mark, self.box)[0], AWAY, 8)
        elif mark.line is not None:
            corners = self._along_level(around(mark.line.box for _ in "1"), block)
        else:
            corners = self._along_level(rooms(mark, self.box)[0], block)
        placed = first_free(block, corners, self.taken, self.inside)
        return None if placed is None else self._took(placed.box, placed.drawn())

    def _along_level(self, box: Box, block: Block) -> Iterator[Spot]:
        """Yield places over a level mark and under it, from left to right; within a mark all round."""
        step = max(box.width // PLACES, 2000)
        is_round = box.height > block.height * 2
        tops = (
            range(box.top + AWAY, box.bottom - block.height, 2000)
            if is_round
            else (box.top - AWAY // 2 - block.height, box.bottom + AWAY // 2)
        )
        for top in tops:
            for left in range(box.left + 6 * AWAY, max(box.right - block.width, box.left + 7 * AWAY), step):
                yield Spot(left, top)

    def _along_upright(self, mark: Laid, line: TextLine) -> Iterator[Box]:
        """Yield places left and right of an upright mark, from top to bottom."""
        box = rooms(mark, self.box)[0]
        step = max(box.height // PLACES, 2000)
        lefts = (box.left - AWAY // 2 - line.height, box.right + AWAY // 2)
        for left in lefts:
            for top in range(box.top + 6 * AWAY, max(box.bottom - line.width, box.top + 7 * AWAY), step):
                yield Box(left, top, left + line.height, top + line.width)
