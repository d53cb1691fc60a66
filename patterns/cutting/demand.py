"""What each size of a recipe takes of each fabric, in whole numbers.

Sizes that take the same are one question.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import ceil, floor, lcm

from patterns.drafting.formulas.values import Measured, Value
from patterns.drafting.gauges import Gauge, Gauges, Place
from patterns.drafting.outlines import Corner, Turn
from patterns.drafting.recipe import Recipe
from patterns.drafting.sizing import is_count, is_length
from patterns.drafting.units import Units

from .certain import certain_area, whole_area
from .errors import CuttingError
from .sheets import MOST_PIECES, Rectangle, Sheet

# Beside the steps of the measures, lengths are halved and thirded: so nearly all come out whole.
_FINER = 360_360 * 64


@dataclass(frozen=True, slots=True)
class Named:
    """A piece of fabric and the gauges of how often and how large it is cut. outline: its corners, if any."""

    name: str
    fabric: str
    cut: Gauge
    width: Gauge
    height: Gauge
    turns: bool
    outline: tuple[tuple[Gauge, Gauge, Turn | None], ...]

    @property
    def corners(self) -> tuple[Gauge, ...]:
        """How far across and how far down each corner lies, one after the other."""
        return tuple(gauge for *corner, _ in self.outline for gauge in corner)


# The piece that it is of, and the numbers of the distances that its corners lie at.
Outline = tuple[int, tuple[int, ...]]


@dataclass(frozen=True, eq=False)
class Part:
    """What a size takes of one fabric. Each is made once, so that it is told apart by what it is.

    names: of the pieces, one for each copy. turns, is_full: of each, as for a `Rectangle`. least, most: width
    and height of each, rounded down and up to whole parts. kind: of one
    kind only lengths differ.
    """

    fabric: str
    names: tuple[str, ...]
    turns: tuple[bool, ...]
    is_full: tuple[bool, ...]
    least: tuple[tuple[int, int], ...]
    most: tuple[tuple[int, int], ...]
    kind: int

    @property
    def is_exact(self) -> bool:
        return self.least == self.most

    @cached_property
    def full_area(self) -> int:
        """The area of its rectangles, in squares of parts."""
        full = (sides for sides, is_full in zip(self.least, self.is_full, strict=True) if is_full)
        return sum(width * height for width, height in full)

    @cached_property
    def box_area(self) -> int:
        """The area of all its pieces with the boxes around its outlines, in squares of parts."""
        return sum(width * height for width, height in self.least)

    def rectangles(self, sides: Sequence[tuple[int, int]]) -> tuple[Rectangle, ...]:
        """Return its pieces with these sides: `least` or `most`."""
        return tuple(
            Rectangle(width, height, turns, is_full)
            for (width, height), turns, is_full in zip(sides, self.turns, self.is_full, strict=True)
        )


# What a size takes, fabric by fabric; None where a piece cannot be cut at all.
Question = tuple[Part, ...] | None


class Demand:
    """The pieces of fabric of a recipe over a grid of sizes. Interfacing and vinyl are not counted."""

    def __init__(self, recipe: Recipe, units: Units, gauges: Gauges, chosen: Mapping[str, str]) -> None:
        fabrics = [material.name for material in recipe.materials if material.kind == "fabric"]
        self.pieces = tuple(
            Named(
                each.name,
                each.material,
                gauges.gauge(each.cut),
                gauges.gauge(each.width),
                gauges.gauge(each.height),
                turns=each.upright is None or not each.upright.holds(chosen),
                outline=tuple(
                    (gauges.gauge(corner.across), gauges.gauge(corner.down), corner.arc)
                    for corner in each.outline
                ),
            )
            for each in recipe.pieces
            if each.material in fabrics and each.when.holds(chosen)
        )
        taken = {piece.fabric for piece in self.pieces}
        self.fabrics = tuple(fabric for fabric in fabrics if fabric in taken)
        ends = [value for axis in gauges.axes for value in axis.values]
        self.parts = lcm(_FINER, units.mm.denominator, *(value.denominator for value in ends))
        self._numbers: dict[Value, int] = {}
        self._known: list[Value] = []
        self._whole: list[tuple[int, int]] = []
        asked = dict.fromkeys(
            gauge for piece in self.pieces for gauge in (piece.cut, piece.width, piece.height)
        )
        self._rank = {gauge: rank for rank, gauge in enumerate(asked)}
        self._readings = [self._reading(gauge) for gauge in asked]
        # Most corners share their distances with others: each is read once.
        self._distances = [tuple(dict.fromkeys(piece.corners)) for piece in self.pieces]
        read = {gauge: self._reading(gauge) for distances in self._distances for gauge in distances}
        self._corners = [[read[gauge] for gauge in distances] for distances in self._distances]
        self._areas: dict[Outline, int] = {}
        self._finished = [self._reading(gauges.gauge(side)) for side in recipe.finished]
        self._questions: dict[tuple[int, ...], Question] = {}
        self._kinds: dict[tuple[tuple[bool, ...], ...], int] = {}

    def _reading(self, gauge: Gauge) -> Callable[[Place], int]:
        """Return the gauge as a number for each of its values, which is quicker to compare than they are."""
        known: dict[object, int] = {}
        key = gauge.key

        def read(place: Place) -> int:
            where = key(place)
            number = known.get(where)
            if number is None:
                number = known[where] = self._number(gauge(place))
            return number

        return read

    def _number(self, value: Value) -> int:
        if value not in self._numbers:
            self._numbers[value] = len(self._known)
            self._known.append(value)
            is_cut = value is not None and is_length(value)
            exact = Fraction(value) * self.parts if is_cut and value is not None else Fraction(0)
            self._whole.append((floor(exact), ceil(exact)))
        return self._numbers[value]

    def question(self, place: Place) -> Question:
        key = tuple([read(place) for read in self._readings])
        if key not in self._questions:
            self._questions[key] = self._asked(key)
        return self._questions[key]

    def _asked(self, key: tuple[int, ...]) -> Question:
        cuts = [self._count(key[self._rank[piece.cut]]) for piece in self.pieces]
        sides = [
            (self._whole[key[self._rank[piece.width]]], self._whole[key[self._rank[piece.height]]])
            for piece in self.pieces
        ]
        if not all(cuts) or not all(width[1] and height[1] for width, height in sides):
            return None
        return tuple(self._part(fabric, cuts, sides) for fabric in self.fabrics)

    def outlined_area(self, place: Place, part: Part) -> int:
        """Return how much is certainly cut of a part's outlines at a size, in squares of parts.

        It differs among sizes that are one question: a deeper bag may lose more of the same box.
        """
        return sum(
            part.names.count(self.pieces[rank].name)
            * self._area((rank, tuple([read(place) for read in corners])))
            for rank, corners in enumerate(self._corners)
            if corners and self.pieces[rank].fabric == part.fabric
        )

    def _area(self, outline: Outline) -> int:
        """Return the area that is certainly cut of an outline, in squares of parts; 0 where it has none."""
        if outline not in self._areas:
            self._areas[outline] = self._measured(*outline)
        return self._areas[outline]

    def _measured(self, rank: int, distances: tuple[int, ...]) -> int:
        arcs = [arc for *_, arc in self.pieces[rank].outline]
        number = dict(zip(self._distances[rank], distances, strict=True))
        numbers = [number[gauge] for gauge in self.pieces[rank].corners]
        whole = [self._whole[number] for number in numbers]
        if not any(arcs) and all(least == most for least, most in whole):
            places = [least for least, _ in whole]
            return whole_area(list(zip(places[::2], places[1::2], strict=True)))
        values = [self._known[number] for number in numbers]
        lengths = [value for value in values if isinstance(value, Measured)]
        if len(lengths) < len(values):
            return 0
        corners = zip(lengths[::2], lengths[1::2], arcs, strict=True)
        return certain_area([Corner(*corner) for corner in corners], self.parts)

    def _count(self, number: int) -> int:
        """How often a piece is cut; 0 where that is no count."""
        value = self._known[number]
        return int(value) if isinstance(value, Fraction) and is_count(value) else 0

    def _part(
        self, fabric: str, cuts: list[int], sides: list[tuple[tuple[int, int], tuple[int, int]]]
    ) -> Part:
        own = [rank for rank, piece in enumerate(self.pieces) if piece.fabric == fabric]
        if sum(cuts[rank] for rank in own) > MOST_PIECES:
            raise CuttingError(
                f"More than {MOST_PIECES} pieces are cut from the {fabric}: too many to look for a layout."
            )
        copies = [rank for rank in own for _ in range(cuts[rank])]
        names = tuple(self.pieces[rank].name for rank in copies)
        turns = tuple(self.pieces[rank].turns for rank in copies)
        least = tuple((sides[rank][0][0], sides[rank][1][0]) for rank in copies)
        most = tuple((sides[rank][0][1], sides[rank][1][1]) for rank in copies)
        is_full = tuple(not self.pieces[rank].outline for rank in copies)
        kind = self._kinds.setdefault((turns, is_full), len(self._kinds))
        return Part(fabric, names, turns, is_full, least, most, kind)

    def volume(self, place: Place) -> int:
        """Return width × height × depth of the finished item, in whole parts; 0 where one has no value."""
        width, height, depth = [self._whole[read(place)][0] for read in self._finished]
        return width * height * depth

    def sheet(self, width: Fraction, height: Fraction) -> Sheet:
        """Return a sheet in whole parts, rounded down: what is not there cannot be cut."""
        return Sheet(floor(width * self.parts), floor(height * self.parts))
