"""One cut piece in a small drawing, for the steps of a book: names on the lines themselves, no distances.

A name that has no room on its line is a number there, and stands in full under the piece; where that would
leave the piece itself too small, only the names that have room are written.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from patterns.drafting.sized import SizedPattern, SizedPiece

from . import marks
from .fills import Fabric, fill, ground_of
from .geometry import Box, Spot, around
from .labels import Block, Placed, TextLine, Turned, corners_near, first_free, wrapped
from .lines import Line, along
from .margins import Led, column, rows
from .marks import Laid, room, rooms
from .naming import Ended
from .outline import outline_of
from .page import LIFE_SIZE, Placing, cloth
from .svg import document, plate

Label = Placed | Turned

# Page, micrometres. 2,500 is 7.1 pt: such a drawing is printed at the width that it is asked for.
LETTERS = 2500
EDGE = 800
SPACE = 1200
# From the piece to the numbers beside it, and their own width.
TO_NUMBERS = 2000
NUMBERS = 3000
# On the piece: from a line to a name beside it, and the rings in which a free place is sought.
RING = 600
RINGS = 3


def small_piece_svg(sized: SizedPattern, piece: SizedPiece, width: int, height: int) -> str:
    """Return the small drawing of one piece. width, height: the room that it is printed in, page micrometres.

    Raises DrawingError: a length of it is missing or nothing at this size, or a mark lies off it.
    """
    most = height - 2 * EDGE
    # What the numbers stand for takes room from the piece, and a smaller piece has more numbers.
    while most * 2 > height:
        sheet = _SmallSheet(sized, piece, width, most, has_numbers=True)
        if sheet.bottom <= height:
            return sheet.svg()
        most -= sheet.bottom - height
    return _SmallSheet(sized, piece, width, height - 2 * EDGE, has_numbers=False).svg()


class _SmallSheet:
    """One drawing being laid out: the piece, and under it what its numbers stand for.

    most: how high the piece itself may be.
    """

    def __init__(
        self, sized: SizedPattern, piece: SizedPiece, width: int, most: int, has_numbers: bool
    ) -> None:
        self.piece, self.width, self.has_numbers = piece, width, has_numbers
        material = sized.materials_by_name.get(piece.material)
        self.fabric = Fabric(material.tint if material else None)
        wide, high = (cloth(length, least=Fraction(1, 10)) for length in (piece.width, piece.height))
        beside = EDGE + (TO_NUMBERS + NUMBERS if has_numbers and piece.marks else 0)
        scale = min(Fraction(width - 2 * beside) / wide, Fraction(most) / high, LIFE_SIZE)
        placing = Placing(scale, Spot((width - round(wide * scale)) // 2, EDGE))
        corner = placing.origin
        self.box = Box(*corner, corner.x + placing.length(wide), corner.y + placing.length(high))
        self.outline = outline_of(piece, placing)
        self.marks = [marks.laid(mark, piece, placing, sized.units) for mark in piece.marks]
        self.rooms = {mark: rooms(mark, self.box) for mark in self.marks}
        self.names: list[Label] = []
        self.numbered: list[Laid] = []
        self._name_all()
        self.led = self._lead() if has_numbers else []
        self.bottom = self._bottom()

    def _name_all(self) -> None:
        """Find each mark a place for its name, those that take most room of their own first."""
        for mark in sorted(self.marks, key=lambda mark: (mark.kind != "opening", mark.way != "point")):
            found = self._on_the_piece(mark, mark.name)
            if found:
                self.names.append(found)
            else:
                self.numbered.append(mark)
        self.numbered.sort(key=lambda mark: (mark.way == "upright", mark.start.y, mark.start.x))
        if self.piece.shape == "circle":
            return  # it has no top
        top = Block((TextLine(f"↑ {marks.upper_edge(mark.name for mark in self.marks)}", LETTERS),))
        found = first_free(top, self._top_corners(top), self._taken(None), self.box.grown(-RING))
        self.names += [found] if found else []

    def _top_corners(self, block: Block) -> Iterator[Spot]:
        for down in range(RING, self.box.height // 2, RING):
            for share in (50, 25, 75):
                middle = self.box.left + self.box.width * share // 100
                yield Spot(middle - block.width // 2, self.box.top + down)

    def _taken(self, mine: Laid | None) -> list[Box]:
        """Return what a label of this mark may not cover: other marks, and the names that are there."""
        others = [box for mark in self.marks if mark is not mine for box in self.rooms[mark]]
        names = (name.box for name in self.names)
        # Two names side by side would read as one.
        apart = (Box(name.left - SPACE, name.top, name.right + SPACE, name.bottom) for name in names)
        return [*self.outline.outside, *others, *apart]

    def _on_the_piece(self, mark: Laid, text: str) -> Label | None:
        if mark.way == "round":
            return None
        text_line = TextLine(text, LETTERS)
        block = Block((text_line,))
        inside = self.box.grown(-RING // 2)
        taken = self._taken(mark)
        if mark.way == "upright" and _is_line(mark):
            boxes = (box for box in _along_upright(mark, block) if inside.holds(box))
            free = (box for box in boxes if not any(box.overlaps(other) for other in taken))
            return next((Turned(text_line, box) for box in free), None)
        if mark.way == "level" and _is_line(mark):
            return first_free(block, _along_level(mark, block), taken, inside)
        thing = room(mark, self.box)
        return first_free(block, corners_near(block, thing, RING, RINGS), [*taken, thing], inside)

    def svg(self) -> str:
        parts = self._piece()
        for label in self.led:
            parts += label.drawn()
        for name in self.names:
            parts += [plate(name.box, ground_of(self.fabric)), *name.drawn()]
        if self.has_numbers and self.numbered:
            parts += self._key().drawn()
        return document(self.width, self.bottom, self.piece.name, self._description(), parts)

    def _bottom(self) -> int:
        return (self._key().box.bottom if self.has_numbers and self.numbered else self.box.bottom) + EDGE

    def _lead(self) -> list[Led]:
        """Return the numbers beside and under the piece; one that fits on the piece is put there."""
        beside: list[Ended] = []
        under: list[Ended] = []
        for number, mark in enumerate(self.numbered, 1):
            block = Block((TextLine(str(number), LETTERS),))
            found = None if _is_line(mark) else self._on_the_piece(mark, str(number))
            if found:
                self.names.append(found)
            else:
                (under if mark.way == "upright" else beside).append((mark.end, block))
        led = column(beside, self.box.right + TO_NUMBERS, EDGE, TO_NUMBERS)
        return led + rows(under, self.box.bottom + SPACE // 2, self.width, led)

    def _key(self) -> Placed:
        """Return what the numbers stand for, under all else."""
        most = self.width - 2 * EDGE
        told = (
            wrapped(f"{number} {mark.name}", LETTERS, most) for number, mark in enumerate(self.numbered, 1)
        )
        bottom = around([self.box, *(led.label.box for led in self.led)]).bottom
        return Block(tuple(each for text in told for each in text)).at(EDGE, bottom + SPACE)

    def _piece(self) -> list[str]:
        box = self.box
        parts = fill(self.fabric, self.outline.spots, self.outline.path)
        for mark in sorted(self.marks, key=lambda mark: mark.kind == "opening"):
            parts += marks.drawn(mark, box, ground_of(self.fabric))
        return [*parts, along(Line.CUT, self.outline.path)]

    def _description(self) -> str:
        marked = f" Marked on it: {', '.join(mark.name for mark in self.marks)}." if self.marks else ""
        top = "" if self.piece.shape == "circle" else ", its top edge at the top"
        return f"The piece flat and to scale{top}.{marked}"


def _is_line(mark: Laid) -> bool:
    """Whether a mark is a line that can carry its name, not a bracket, a tick or a cross."""
    return mark.way in ("level", "upright") and mark.kind not in ("opening", "clip")


def _along_level(mark: Laid, block: Block) -> Iterator[Spot]:
    """Return places for a name on its line, then just under it, then just over it."""
    off = RING // 2
    for top in (mark.start.y - block.height // 2, mark.start.y + off, mark.start.y - off - block.height):
        for middle in _shares(mark.start.x, mark.end.x):
            yield Spot(middle - block.width // 2, top)


def _along_upright(mark: Laid, block: Block) -> Iterator[Box]:
    """Return boxes for a turned name on its line, then just right and just left of it."""
    wide, high, off = block.height, block.width, RING // 2
    for left in (mark.start.x - wide // 2, mark.start.x + off, mark.start.x - off - wide):
        for middle in _shares(mark.start.y, mark.end.y):
            yield Box(left, middle - high // 2, left + wide, middle - high // 2 + high)


def _shares(start: int, end: int) -> Sequence[int]:
    """Return places along a line, the middle first, then ever further from it."""
    return [
        start + (end - start) * (50 + away) // 100 for off in range(0, 46, 3) for away in {off: 0, -off: 0}
    ]
