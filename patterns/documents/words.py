"""The numbers of one sized pattern, written for people in its units."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from patterns.drafting.formulas.values import Measured
from patterns.drafting.lengths import as_chosen, typed, typeset, written
from patterns.drafting.recipe import ROUND
from patterns.drafting.sized import Quantity, SizedMeasure, SizedPattern, SizedText
from patterns.drafting.units import Units

from .errors import DocumentError

UNIT_WORDS = {Units.INCHES: "inches", Units.CENTIMETRES: "centimetres"}
MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def listed(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    *first, last = [*words] or [""]
    return f"{', '.join(first)} and {last}" if first else last


def day_in_words(iso: str) -> str:
    """`20 November 2026`"""
    day = date.fromisoformat(iso)
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def unit_of(power: int, units: Units) -> str:
    """What stands behind a number of that power: ` in`, ` cm²`, nothing behind a bare number."""
    return f" {units}{('', '', '²', '³')[power]}" if power else ""


def litres_behind(value: Measured, power: int, units: Units) -> str:
    """What stands behind a working in cm³ that comes to a litre or more: ` = 50 l`, ` ≈ 1.12 l`."""
    text, was_rounded = written(value, power, units)
    if not text.endswith(" l"):
        return ""
    return f" {text}" if was_rounded else f" = {text}"


@dataclass(frozen=True, slots=True)
class Working:
    """How a number came about: the formula in words, and the same with the numbers put in."""

    name: str
    formula: str
    numbers: str


class Words:
    """Writes the numbers of one sized pattern, in its units."""

    def __init__(self, sized: SizedPattern) -> None:
        self.sized = sized

    def number(self, quantity: Quantity) -> str:
        """`7 1⁄2 in`, `≈ 7 1⁄8 in`, `3`."""
        return self.length(self.value(quantity), quantity.power)

    def length(self, value: Measured, power: int = 1) -> str:
        """A number that has no formula of its own."""
        return written(value, power, self.sized.units).text

    def is_rounded(self, quantity: Quantity) -> bool:
        return written(self.value(quantity), quantity.power, self.sized.units).rounded

    def chosen(self, measure: SizedMeasure) -> str:
        """A measure exactly as it was chosen."""
        return as_chosen(measure.value, measure.power, self.sized.units)

    def text(self, parts: SizedText) -> str:
        return "".join(part if isinstance(part, str) else self.number(part) for part in parts)

    def working(self, name: str, quantity: Quantity) -> Working:
        """The working ends in its unit: `8 1⁄2 + 4 3⁄4 + 2 × 1⁄2 = 14 1⁄4 in`."""
        value, units = self.value(quantity), self.sized.units
        sums = typeset(self.sized.working(quantity)) + unit_of(quantity.power, units)
        sums += litres_behind(value, quantity.power, units)
        return Working(name, str(quantity.formula), sums)

    def taken_off(self, whole: Measured, part: Measured, rest: Measured) -> str:
        """The working of a length that is left over: `34 − 33 1⁄2 = 1⁄2 in`."""
        units = self.sized.units
        first, second = (typed(each, 1, units) for each in (whole, part))
        difference, shown = f"{typeset(first)} − {typeset(second)}", written(rest, 1, units)
        if not isinstance(rest, Fraction):
            return f"{difference} {shown.text}"
        exact = typeset(typed(rest, 1, units))
        return f"{difference} = {exact} {shown.text}" if shown.rounded else f"{difference} = {shown.text}"

    def size(self) -> str:
        """`9 in wide, 6 in high, 5 in deep`; `8 in across, 9 in high` of what is round."""
        is_round = self.sized.form in ROUND
        sides = zip(
            self.sized.finished, ("across", "high") if is_round else ("wide", "high", "deep"), strict=False
        )
        return ", ".join(f"{self._side(quantity)} {way}" for quantity, way in sides)

    def _side(self, side: Quantity) -> str:
        """A finished side that is a measure is written as it was chosen."""
        for measure in self.sized.measures:
            if measure.name == str(side.formula):
                return self.chosen(measure)
        return self.number(side)

    @staticmethod
    def value(quantity: Quantity) -> Measured:
        if quantity.value is None:
            raise DocumentError(f"{quantity.formula} has no value at this size.")
        return quantity.value
