"""A measure along an edge of a chart: where its values lie on the page, and which of them are written."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, count, pairwise

from patterns.drafting.lengths import typed, typeset
from patterns.drafting.ranges import Axis
from patterns.drafting.units import Units

from .words import label

# The finest steps that numbers are written at: in inches and bare numbers, and in centimetres.
_HALVES = (Fraction(1, 16), Fraction(1, 8), Fraction(1, 4), Fraction(1, 2))
_TENTHS = (Fraction(1, 10), Fraction(1, 5), Fraction(1, 2))
_DECADE = (Fraction(1), Fraction(2), Fraction(5))


@dataclass(frozen=True, slots=True)
class AxisLine:
    """An axis on the page. start, end: micrometres, where its first cell begins and its last one ends.

    Each value lies in the middle between those beside it, the first and the last as far from the ends.
    """

    axis: Axis
    units: Units
    start: int
    end: int

    @property
    def name_words(self) -> str:
        """`width, in`"""
        return f"{self.axis.name}, {self.units.value}" if self.axis.measure.power else self.axis.name

    def at(self, value: Fraction) -> int:
        """Return where a value lies on the page, whether or not it is one of the axis's own."""
        low, high = _ends(self.axis.values)
        return self.start + round((value - low) / (high - low) * (self.end - self.start))

    @property
    def edges(self) -> tuple[int, ...]:
        """Where the cells begin and end, one more than there are values."""
        low, high = _ends(self.axis.values)
        middles = [(one + other) / 2 for one, other in pairwise(self.axis.values)]
        return tuple(self.at(value) for value in (low, *middles, high))

    def number(self, value: Fraction) -> str:
        """Return a value as it stands in a drawing, without its unit."""
        return label(typeset(typed(value, self.axis.measure.power, self.units)))

    def written(self, room: int) -> tuple[Fraction, ...]:
        """Return the values that are written, rising: both ends, and round ones that stand `room` apart."""
        least, most = self.axis.scale.least, self.axis.scale.most
        if abs(self.at(most) - self.at(least)) < room:
            return (least,)
        between = next(found for step in self._steps() if (found := self._multiples(step, room)) is not None)
        clear = [
            value
            for value in between
            if abs(self.at(value) - self.at(least)) >= room and abs(self.at(most) - self.at(value)) >= room
        ]
        return (least, *clear, most)

    def _steps(self) -> Iterator[Fraction]:
        """Yield round steps, rising, in mm or as bare numbers; none finer than the measure's own."""
        is_length = self.axis.measure.power == 1
        fine = _TENTHS if is_length and self.units is Units.CENTIMETRES else _HALVES
        unit = self.units.mm if is_length else Fraction(1)
        steps = chain(fine, (10**decade * step for decade in count() for step in _DECADE))
        yield from (step * unit for step in steps if step * unit >= self.axis.scale.step)

    def _multiples(self, step: Fraction, room: int) -> list[Fraction] | None:
        """Return the multiples of a step between the ends, None where they would stand too near."""
        least, most = self.axis.scale.least, self.axis.scale.most
        if step < most - least and abs(self.at(least + step) - self.at(least)) < room:
            return None
        return [k * step for k in range(least // step + 1, -(-most // step))]


def _ends(values: tuple[Fraction, ...]) -> tuple[Fraction, Fraction]:
    if len(values) == 1:
        return values[0] - 1, values[0] + 1
    return values[0] - (values[1] - values[0]) / 2, values[-1] + (values[-1] - values[-2]) / 2
