"""Formulas read off a grid of sizes: each is worked out once for every place that it can tell apart.

A search asks the same few formulas at thousands of sizes, and most formulas read only one or two of the
measures that change.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from operator import itemgetter

from .formulas.formula import Formula
from .formulas.names import names
from .formulas.trend import Trend, sign_of, trend
from .formulas.values import Measured, TooBigError, Value, plus, times
from .recipe import Measure, Recipe
from .sizing import given_values, is_count, is_length
from .units import Units

# Called again and again while a search runs; it raises a DraftingError to end it.
Watch = Callable[[], None]


def nobody_watches() -> None:
    """Let a search run to its end, which its own limits set."""


@dataclass(frozen=True, slots=True)
class Axis:
    """A measure that may change. values: what it may be, rising; mm, or bare numbers."""

    measure: Measure
    values: tuple[Fraction, ...]


# For each axis, which of its values.
Place = tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Gauge:
    """A formula as a function of the place. axes: those that it reads, in their order."""

    axes: tuple[int, ...]
    work_out: Callable[[Place], Value]
    key: Callable[[Place], object]
    known: dict[object, Value] = field(default_factory=dict)

    def __call__(self, place: Place) -> Value:
        key = self.key(place)
        if key not in self.known:
            self.known[key] = self.work_out(place)
        return self.known[key]


class Gauges:
    """A recipe's formulas over a grid of sizes: options chosen, the measures without an axis fixed.

    conditions: what is True wherever the size passes every refuse check and can be cut.
    """

    def __init__(
        self,
        recipe: Recipe,
        units: Units,
        fixed: Mapping[str, Fraction],
        chosen: Mapping[str, str],
        axes: Sequence[Axis],
        watch: Watch = nobody_watches,
    ) -> None:
        self.axes, self.watch = tuple(axes), watch
        self._reads = {axis.measure.name: frozenset([rank]) for rank, axis in enumerate(axes)}
        self._values = given_values(recipe, units, fixed, chosen)
        self._moving = self._settled(recipe.worked_out)
        self._gauges: dict[Formula, Gauge] = {}
        self._trends: dict[int, Mapping[str, Trend]] = {}
        pieces = [piece for piece in recipe.pieces if piece.when.holds(chosen)]
        fabrics = {material.name for material in recipe.materials if material.kind == "fabric"}
        self._cloth = [
            tuple(map(self.gauge, (piece.cut, piece.width, piece.height)))
            for piece in pieces
            if piece.material in fabrics
        ]
        refusals = [
            each.holds for each in recipe.checks if each.level == "refuse" and each.when.holds(chosen)
        ]
        edges = [edge for piece in pieces for edge in (piece.width, piece.height)]
        self.conditions = (
            *(self._condition(formula, _is_yes) for formula in dict.fromkeys(refusals)),
            *(self._condition(formula, is_length) for formula in dict.fromkeys(edges)),
            *(self._condition(formula, is_count) for formula in dict.fromkeys(each.cut for each in pieces)),
        )

    def _settled(self, worked_out: Iterable[tuple[str, Formula]]) -> list[tuple[str, Formula]]:
        """Work out the names that no axis reaches, once for all; return the others, in their order."""
        moving = []
        for name, formula in worked_out:
            self._reads[name] = self._axes_of(formula)
            if self._reads[name]:
                moving.append((name, formula))
            else:
                self._values[name] = _value(formula, self._values)
        return moving

    def _axes_of(self, formula: Formula) -> frozenset[int]:
        return frozenset().union(*(self._reads.get(name, ()) for name in names(formula.tree)))

    def gauge(self, formula: Formula) -> Gauge:
        """Return a formula as a function of the place; None where it has no value, or grows out of bounds."""
        if formula not in self._gauges:
            self._gauges[formula] = self._made(formula, self._worked_out_at(formula))
        return self._gauges[formula]

    def _condition(self, formula: Formula, is_well: Callable[[Value], bool]) -> Gauge:
        gauge = self.gauge(formula)
        return self._made(formula, lambda place: is_well(gauge(place)))

    def _made(self, formula: Formula, work_out: Callable[[Place], Value]) -> Gauge:
        axes = tuple(sorted(self._axes_of(formula)))
        return Gauge(axes, work_out, itemgetter(*axes) if axes else lambda place: ())

    def _needed(self, formula: Formula) -> list[tuple[str, Formula]]:
        """The names to be worked out before a formula, in their order."""
        wanted = set(names(formula.tree))
        needed = []
        for name, defined in reversed(self._moving):
            if name in wanted:
                wanted |= names(defined.tree)
                needed.append((name, defined))
        return needed[::-1]

    def _worked_out_at(self, formula: Formula) -> Callable[[Place], Value]:
        """Return the function that works a formula out. It leaves the values of its names behind, which none
        of the others reads before they are worked out again: that is quicker than a table for each place.
        """
        needed, values = self._needed(formula), self._values
        measures = [
            (axis, self.axes[axis].measure.name, self.axes[axis].values)
            for axis in sorted(self._axes_of(formula))
        ]

        def work_out(place: Place) -> Value:
            self.watch()
            for axis, name, steps in measures:
                values[name] = steps[place[axis]]
            for name, defined in needed:
                values[name] = _value(defined, values)
            return _value(formula, values)

        return work_out

    def trend(self, formula: Formula, along: int) -> Trend:
        """Return which way a formula goes along an axis, wherever the others stand."""
        if along not in self._trends:
            self._trends[along] = self._trends_along(along)
        return trend(formula.tree, self._trends[along])

    def _trends_along(self, along: int) -> Mapping[str, Trend]:
        moving = {name for name, _ in self._moving}
        of = {
            name: Trend(True, True, sign_of(value))
            for name, value in self._values.items()
            if value is not None and name not in moving
        }
        for rank, axis in enumerate(self.axes):
            of[axis.measure.name] = Trend(True, rank != along, sign_of(axis.values[0]))
        for name, formula in self._moving:
            of[name] = trend(formula.tree, of)
        return of

    def measures(self, place: Place) -> dict[str, Fraction]:
        """Return the measures of the axes at a place."""
        return {axis.measure.name: axis.values[rank] for axis, rank in zip(self.axes, place, strict=True)}

    def passes(self, place: Place) -> bool:
        """Whether the size passes every refuse check, and all its pieces can be cut."""
        return all(condition(place) for condition in self.conditions)

    def cloth(self, place: Place) -> Measured | None:
        """Return the cut area of the pieces of fabric, mm²: the sum of cut × width × height."""
        area: Measured | None = Fraction(0)
        for cut, width, height in self._cloth:
            area = plus(area, times(times(cut(place), width(place)), height(place)))
        return area


def _value(formula: Formula, values: Mapping[str, Value]) -> Value:
    try:
        return formula.value(values)
    except TooBigError:
        return None


def _is_yes(value: Value) -> bool:
    return value is True
