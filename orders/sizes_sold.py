"""Which sizes sell: the rows of SizeSold, gathered for a table and a picture."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import groupby
from typing import Any

from orders.models import SizeSoldQuerySet
from orders.sizes import MILLIONTHS, in_words, millionths
from patterns.drafting.units import Units

# More bars than this are not taken in at a glance: then neighbouring values share one.
MOST_BARS = 16

# How wide a band may be: in inches, in centimetres, and of bare numbers.
STEPS: Mapping[str, tuple[Fraction, ...]] = {
    "in": tuple(Fraction(text) for text in ("1/4", "1/2", "1", "2", "3", "6", "12", "24")),
    "cm": tuple(Fraction(text) for text in ("1/2", "1", "2", "5", "10", "20", "50")),
    "": tuple(Fraction(text) for text in ("1", "2", "5", "10", "20", "50", "100")),
}


@dataclass(frozen=True, slots=True)
class Value:
    """How often one value of a measure was sold.

    number: in `units`, exact; a bare number has none. first: as in `SizeSoldQuerySet.by_value`.
    """

    measure: str
    units: str
    number: Fraction
    nanometres: int | None
    sold: int
    first: int

    @property
    def words(self) -> str:
        return in_words(self.number, self.units)

    @property
    def decimal(self) -> str:
        """With a point, for a spreadsheet; to six decimals where it has no end."""
        return f"{millionths(self.number) / Decimal(MILLIONTHS):f}"


@dataclass(frozen=True, slots=True)
class Bar:
    label: str
    sold: int


@dataclass(frozen=True, slots=True)
class Tally:
    """One measure in one unit system. is_banded: a bar stands for a range of values."""

    measure: str
    units: str
    sold: int
    bars: tuple[Bar, ...]
    is_banded: bool

    @property
    def in_units(self) -> str:
        return {"in": "in inches", "cm": "in centimetres", "": "as a number"}[self.units]


def values(sizes: SizeSoldQuerySet) -> Iterator[tuple[int, Value]]:
    """Each value sold, with its pattern's id; by pattern, measure, units and size."""
    for row in sizes.by_value():
        yield row["pattern_id"], _value(row)


def tallies(sizes: SizeSoldQuerySet, usual: Units) -> dict[int, list[Tally]]:
    """The tallies of each pattern, by the pattern's id, in the order of its measures. One query.

    usual: the unit system whose tallies stand first.
    """
    found: dict[int, list[tuple[int, Tally]]] = {}
    of_one = groupby(values(sizes), key=lambda pair: (pair[0], pair[1].measure, pair[1].units))
    for (pattern_id, measure, units), pairs in of_one:
        sold = [value for _, value in pairs]
        first = min(value.first for value in sold)
        found.setdefault(pattern_id, []).append((first, tally(measure, units, sold)))
    return {pattern_id: _in_order(pairs, usual) for pattern_id, pairs in found.items()}


def _in_order(pairs: list[tuple[int, Tally]], usual: Units) -> list[Tally]:
    """Measures in the order in which they were first sold; of one measure, the systems side by side."""
    firsts: dict[str, int] = {}
    for first, one in pairs:
        firsts[one.measure] = min(first, firsts.get(one.measure, first))
    return sorted((one for _, one in pairs), key=lambda one: (firsts[one.measure], one.units != usual))


def tally(measure: str, units: str, sold: list[Value]) -> Tally:
    """Gather the values of one measure, smallest first: a bar each, or bands where they are many."""
    is_banded = len(sold) > MOST_BARS
    bars = _bands(sold, units) if is_banded else (Bar(value.words, value.sold) for value in sold)
    return Tally(measure, units, sum(value.sold for value in sold), tuple(bars), is_banded)


def _bands(sold: list[Value], units: str) -> Iterable[Bar]:
    """Bands of one width, empty ones too, so that the picture keeps its scale."""
    least, most = sold[0].number, sold[-1].number
    step = next((step for step in STEPS[units] if most // step - least // step < MOST_BARS), None)
    step = step or STEPS[units][-1] * (1 + (most - least) // (STEPS[units][-1] * MOST_BARS))
    for band in range(least // step, most // step + 1):
        inside = sum(value.sold for value in sold if value.number // step == band)
        start, end = in_words(band * step, units), in_words((band + 1) * step, units)
        yield Bar(f"{start} to under {end}", inside)


def _value(row: Mapping[str, Any]) -> Value:
    number = Fraction(row["text"])  # our own exact text, in lowest terms
    return Value(row["measure"], row["units"], number, row["nanometres"], row["sold"], row["first"])
