"""Several sizes of one pattern, each in a drawing of its own, all to one scale: so they can be compared.

No words stand in the drawings: they are small, and the numbers are in the table under them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units

from . import words
from .errors import DrawingError
from .familiar import Familiar, familiar
from .finished import standing
from .geometry import Spot
from .lines import Line, line
from .page import LIFE_SIZE, Placing
from .standing import Standing, painted
from .svg import document

# Page, micrometres: from a drawing's edge to the item in it.
EDGE = 1000


@dataclass(frozen=True, slots=True)
class Row:
    """The drawings, in the order of the sizes; None for one that could not stand.

    thing: the familiar thing to the same scale. thing_words: its name and size, `a hand, about 7 in`.
    """

    items: tuple[str | None, ...]
    thing: str
    thing_words: str


def side_by_side(sizes: Sequence[tuple[str, SizedPattern]], units: Units, width: int, height: int) -> Row:
    """Return the sizes, by their names, at the largest scale at which the largest fits its drawing.

    width, height: of each drawing, page micrometres, each above 2 × EDGE.
    """
    stood = [_stood(sized) for _, sized in sizes]
    thing = familiar(units)
    reaches = [(thing.width, thing.height), *(_reach(item) for item in stood if item)]
    scale = min(
        LIFE_SIZE,
        *(
            min(Fraction(width - 2 * EDGE) / across, Fraction(height - 2 * EDGE) / up)
            for across, up in reaches
        ),
    )
    frame = _Frame(width, height, scale)
    items = (
        None if item is None else frame.item(name, sized, item)
        for (name, sized), item in zip(sizes, stood, strict=True)
    )
    return Row(tuple(items), frame.thing(thing), f"{thing.name}, {thing.size}")


def _stood(sized: SizedPattern) -> Standing | None:
    try:
        return standing(sized)
    except DrawingError:
        return None


def _reach(item: Standing) -> tuple[Fraction, Fraction]:
    """How far an item reaches across and up, mm."""
    across = [point.x for point in item.points()]
    return max(across) - min(across), max(point.y for point in item.points())


@dataclass(frozen=True, slots=True)
class _Frame:
    """What all drawings of a row have in common. scale: micrometres for each mm."""

    width: int
    height: int
    scale: Fraction

    def item(self, name: str, sized: SizedPattern, item: Standing) -> str:
        left = min(point.x for point in item.points())
        placing = self._placing(left, _reach(item)[0])
        parts = [part for shape in item.shapes for part in painted(shape, placing)]
        wide, high, deep = (words.chosen(words.known(quantity), sized.units) for quantity in sized.finished)
        title = f"{name}: {wide} wide, {high} high, {deep} deep"
        return self._document(title, "The finished item, to the same scale as the other sizes.", parts)

    def thing(self, thing: Familiar) -> str:
        parts = thing.drawn(self._placing(Fraction(0), thing.width))
        description = f"To the same scale as the sizes beside it, {thing.size}."
        return self._document(thing.name[:1].upper() + thing.name[1:], description, parts)

    def _placing(self, left: Fraction, across: Fraction) -> Placing:
        """Place what reaches `across` from `left`, mm, in the middle of the drawing."""
        start = (self.width - round(across * self.scale)) // 2 - round(left * self.scale)
        return Placing(self.scale, Spot(start, self._ground))

    @property
    def _ground(self) -> int:
        return self.height - EDGE

    def _document(self, title: str, description: str, parts: Sequence[str]) -> str:
        ground = line(Line.GROUND, Spot(0, self._ground), Spot(self.width, self._ground))
        return document(self.width, self.height, title, description, [ground, *parts])
