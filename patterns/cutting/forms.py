"""The forms in which cloth is sold, and what of each can be used.

A form is sold by length, off a roll, or as a whole piece. Lengths are mm, exact. What is usual is a starting
point: width and edges are always the customer's to measure and to change.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from patterns.drafting.lengths import as_chosen
from patterns.drafting.recipe import MaterialKind
from patterns.drafting.units import MILLIMETRES, Units

from .errors import CuttingError
from .fat_quarter import SIDES
from .sheets import MOST_SHEETS, Length

_IN, _CM = Units.INCHES.mm, Units.CENTIMETRES.mm
YARD, METRE = MILLIMETRES["yd"], MILLIMETRES["m"]
# Source: common practice; many shops cut 1/4 yd, or 25 or 50 cm, at the least.
SHOP_STEPS: Mapping[Units, tuple[Fraction, ...]] = {
    Units.INCHES: (YARD / 8, YARD / 4, YARD / 2),
    Units.CENTIMETRES: (10 * _CM, 25 * _CM, 50 * _CM),
}
# A roll is no longer than this, and no cloth is wider.
LONGEST = 100 * METRE


@dataclass(frozen=True, slots=True)
class ClothForm:
    """Cloth as a shop sells it.

    name: what to ask for. width: across, as sold. edges: how much of the width cannot be used, all selvedges
    together. height: along the cloth; None where it is sold by length. step: what a length is rounded up
    to; None for any length. at_most: of whole pieces, how many there are.
    Raises CuttingError: a measure of nothing or less, edges that leave nothing.
    """

    name: str
    width: Length
    edges: Length = 0
    height: Length | None = None
    step: Length | None = None
    at_most: int | None = None

    def __post_init__(self) -> None:
        self._above_nothing("width", self.width)
        if self.height is not None:
            self._above_nothing("height", self.height)
        if self.step is not None:
            self._above_nothing("step", self.step)
        if self.edges < 0 or self.edges >= self.width:
            raise CuttingError(f"{self.name}: the edges leave nothing to use. Make them less than its width.")
        if self.at_most is not None and not 1 <= self.at_most <= MOST_SHEETS:
            raise CuttingError(f"{self.name}: {self.at_most} pieces. Write 1 to {MOST_SHEETS}.")

    def _above_nothing(self, what: str, value: Length) -> None:
        if not 0 < value <= LONGEST:
            raise CuttingError(
                f"{self.name}: its {what} is {as_chosen(Fraction(value), 1, Units.CENTIMETRES)}. "
                "Write a measure above 0 and at most 100 m."
            )

    @property
    def usable_width(self) -> Fraction:
        return Fraction(self.width) - self.edges

    @property
    def is_by_length(self) -> bool:
        return self.height is None


def off_the_roll(width: Length, units: Units, edges: Length = 0, step: Length | None = None) -> ClothForm:
    """Return cloth of that width, sold by length in the shop's step; the usual one if none is said.

    A width that the customer measured between the selvedges has no edges to leave.
    """
    name = f"{as_chosen(Fraction(width), 1, units)} wide"
    return ClothForm(name, width, edges, step=SHOP_STEPS[units][0] if step is None else step)


def scrap(width: Length, height: Length, units: Units, how_many: int = 1) -> ClothForm:
    """Return cloth that is at hand: pieces of given measures, all of which can be used."""
    name = f"scrap {as_chosen(Fraction(width), 1, units)} × {as_chosen(Fraction(height), 1, units)}"
    return ClothForm(name, width, height=height, at_most=how_many)


# Widths as sold, and the selvedges to leave, both together. 42 in is what quilting cotton sold as 44 or 45 in
# has between its selvedges. Source: common practice and US quilting magazines; some shops say 40.
_WIDTHS: Mapping[Units, tuple[tuple[int, Fraction], ...]] = {
    Units.INCHES: ((44, 2 * _IN), (42, Fraction(0)), (54, 2 * _IN), (60, 2 * _IN)),
    Units.CENTIMETRES: ((110, 3 * _CM), (140, 4 * _CM), (150, 4 * _CM)),
}
# Source: trade, part memory. Rolls of interfacing and of vinyl have no selvedge.
_ROLLS: Mapping[Units, Mapping[MaterialKind, tuple[int, ...]]] = {
    Units.INCHES: {"interfacing": (20, 45, 60), "vinyl": (54,)},
    Units.CENTIMETRES: {"interfacing": (90, 112, 150), "vinyl": (140,)},
}


def by_length(units: Units, kind: MaterialKind = "fabric") -> tuple[ClothForm, ...]:
    """Return the usual widths sold by length, the most usual first. kind: fabric, interfacing or vinyl."""
    rolls = _ROLLS[units].get(kind)
    if rolls is not None:
        return tuple(off_the_roll(width * units.mm, units) for width in rolls)
    return tuple(off_the_roll(width * units.mm, units, edges) for width, edges in _WIDTHS[units])


def _piece(
    units: Units, name: str, width: Fraction | int, height: Fraction | int, edges: int = 0
) -> ClothForm:
    return ClothForm(name, width * units.mm, edges * units.mm, height * units.mm)


_FAT_QUARTERS: Mapping[Units, ClothForm] = {
    # Source: US quilting magazine, What are fat quarters and fat eighths? 18 × 22 in nominal, 18 × 21 usable.
    Units.INCHES: ClothForm(
        "fat quarter", 22 * _IN, 22 * _IN - SIDES[Units.INCHES][0], SIDES[Units.INCHES][1]
    ),
    Units.CENTIMETRES: ClothForm(
        "fat quarter", *SIDES[Units.CENTIMETRES][:1], 0, SIDES[Units.CENTIMETRES][1]
    ),
}
_PIECES: Mapping[Units, tuple[ClothForm, ...]] = {
    Units.INCHES: (
        _piece(Units.INCHES, "fat eighth", 22, 9, edges=1),
        _piece(Units.INCHES, "quarter yard", 44, 9, edges=2),
        _piece(Units.INCHES, "half yard", 44, 18, edges=2),
        _piece(Units.INCHES, "precut 5 in square", 5, 5),
        _piece(Units.INCHES, "precut 10 in square", 10, 10),
        _piece(Units.INCHES, "precut 2 1⁄2 in strip", 44, Fraction(5, 2), edges=2),
    ),
    Units.CENTIMETRES: (
        _piece(Units.CENTIMETRES, "25 cm cut", 110, 25, edges=3),
        _piece(Units.CENTIMETRES, "50 cm cut", 110, 50, edges=3),
        _piece(Units.CENTIMETRES, "1 m cut", 110, 100, edges=3),
        _piece(Units.CENTIMETRES, "precut 12 cm square", 12, 12),
        _piece(Units.CENTIMETRES, "precut 25 cm square", 25, 25),
        _piece(Units.CENTIMETRES, "precut 6 cm strip", 110, 6, edges=3),
    ),
}


def fat_quarter(units: Units) -> ClothForm:
    return _FAT_QUARTERS[units]


def whole_pieces(units: Units) -> tuple[ClothForm, ...]:
    """Return the usual forms that are sold as whole pieces, fat quarters first."""
    return (_FAT_QUARTERS[units], *_PIECES[units])


def usual(units: Units, kind: MaterialKind = "fabric") -> Mapping[str, ClothForm]:
    """Return all usual forms of a kind of material by their names, in the order to offer them."""
    pieces = whole_pieces(units) if kind == "fabric" else ()
    return {form.name: form for form in (*by_length(units, kind), *pieces)}


def in_rows(width: Length, height: Length, side: Length) -> int:
    """Return how many squares come out of a piece of cloth in rows.

    >>> in_rows(22, 18, 5)
    12
    """
    if side <= 0:
        raise CuttingError("The side of a square is nothing. Write a measure above 0.")
    return floor(Fraction(width) / side) * floor(Fraction(height) / side)


# Yards of one width that are counted as those of another; inches are the width as sold, at the most.
# Source: fabric width conversion chart in pattern catalogues, credited to a US cooperative extension service
# (credit from memory). It is approximate: it says nothing about a layout, which may take more or less.
WIDTH_CHART: tuple[Mapping[int, Fraction], ...] = (
    {36: Fraction(2), 45: Fraction(13, 8), 54: Fraction(11, 8), 60: Fraction(5, 4)},
)


def by_the_chart(yards: Fraction, width: int, other: int) -> Fraction | None:
    """Return the yards of another width that the chart sets beside these; None where it has no such line.

    >>> by_the_chart(Fraction(2), 36, 60)
    Fraction(5, 4)
    """
    for line in WIDTH_CHART:
        if line.get(width) == yards:
            return line.get(other)
    return None
