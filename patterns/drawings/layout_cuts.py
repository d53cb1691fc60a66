"""The cuts of a layout, numbered in the order in which they are made."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.units import Units

from . import words
from .geometry import Box, Point, Spot
from .labels import Block, Placed, TextLine
from .laid_cloth import Cut
from .lines import Line, line
from .page import Placing
from .svg import plate
from .tokens import LEAST_LETTERS, PETROL, SHEET

LETTERS = LEAST_LETTERS + 30
PADDING = 250
# Where on a cut its number is tried, in hundredths of it.
_SHARES = (50, 25, 75, 12, 88, 37, 63, 5, 95)


@dataclass(frozen=True, slots=True)
class Badge:
    """A cut with its number, where that finds room."""

    ends: tuple[Spot, Spot]
    number: Placed | None

    @property
    def box(self) -> Box:
        """What may not be written on."""
        return self.number.box.grown(PADDING) if self.number else Box(*self.ends[0], *self.ends[0])

    def drawn(self) -> list[str]:
        cut = line(Line.OPENING, *self.ends)
        if self.number is None:
            return [cut]
        return [cut, plate(self.box, SHEET), *self.number.drawn()]


def badges(cuts: Sequence[Cut], placing: Placing, cloth: Box) -> list[Badge]:
    """Return each cut with its number on it, no two numbers on one place. cloth: its box on the page."""
    found: list[Badge] = []
    for order, cut in enumerate(cuts, start=1):
        ends = placing.spot(_point(cut, cut.start)), placing.spot(_point(cut, cut.end))
        block = Block((TextLine(str(order), LETTERS, PETROL),))
        free = (
            placed
            for placed in _places(block, ends)
            if cloth.holds(placed.box.grown(PADDING))
            and not any(placed.box.grown(PADDING).overlaps(other.box) for other in found)
        )
        found.append(Badge(ends, next(free, None)))
    return found


def _point(cut: Cut, reached: Fraction) -> Point:
    return Point(reached, -cut.at) if cut.along == "x" else Point(cut.at, -reached)


def _places(block: Block, ends: tuple[Spot, Spot]) -> Iterator[Placed]:
    start, end = ends
    for share in _SHARES:
        x = start.x + (end.x - start.x) * share // 100
        y = start.y + (end.y - start.y) * share // 100
        yield block.at(x, y - block.height // 2, "middle")


def cuts_told(cuts: Sequence[Cut], units: Units) -> list[str]:
    """Return the cuts in words, in their order."""
    if not cuts:
        return []
    told = []
    for order, cut in enumerate(cuts, start=1):
        at, start, end = (words.cutting(length, units) for length in (cut.at, cut.start, cut.end))
        way, side = ("across", "the top") if cut.along == "x" else ("along", "the left")
        told.append(f"{order}, {way}, {at} from {side}, from {start} to {end}")
    return [f"Cuts in their order: {'; '.join(told)}."]
