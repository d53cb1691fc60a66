"""What the checks say of many sizes, without any of them being worked out for somebody to read.

A picture of a whole range asks this of thousands of sizes; `sizing.size` says the same of one, with words.
"""

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from operator import itemgetter
from typing import Generic, Literal, TypeVar

from .formulas.formula import Formula
from .formulas.names import names
from .formulas.values import Measured, TooBigError, Value
from .lengths import as_chosen
from .recipe import Level, Measure, Piece, Recipe
from .sizing import choose, given_values, is_count, is_length, outline_fault, refuse_strangers
from .units import Units

Verdict = Literal["refused", "advised", "good"]
# For each axis, which of its values.
Place = tuple[int, ...]
Result = TypeVar("Result")


@dataclass(frozen=True, slots=True)
class Rule:
    """Something that a size must or should fulfil, in the words that its check has when one size is made."""

    level: Level
    says: str


BOUNDED = Rule("refuse", "Every number of the size can be worked out.")


@dataclass(frozen=True, slots=True)
class Cut:
    """A piece to be cut from cloth. count: how many. width, height: mm. turns: a layout may turn it.

    is_full: it is a rectangle; an outline leaves corners of its own free, where other pieces may lie.
    """

    material: str
    count: int
    width: Measured
    height: Measured
    turns: bool
    is_full: bool = True


@dataclass(frozen=True, slots=True)
class Judgement:
    """What is said of one size. failed: the rules that do not hold, by their places in `Judge.rules`.

    cuts: the pieces of fabric; empty for a size that is refused, which nobody cuts.
    """

    verdict: Verdict
    failed: tuple[int, ...] = ()
    cuts: tuple[Cut, ...] = ()


@dataclass(frozen=True, slots=True)
class _Asked(Generic[Result]):
    """Something worked out from the values of a place, once for all places that it cannot tell apart."""

    work_out: Callable[[Mapping[str, Value]], Result]
    key: Callable[[Place], Hashable]
    known: dict[Hashable, Result] = field(default_factory=dict)

    def at(self, place: Place, values: Mapping[str, Value]) -> Result:
        key = self.key(place)
        if key not in self.known:
            self.known[key] = self.work_out(values)
        return self.known[key]


class Judge:
    """All the rules of a recipe, to be asked about every size of a grid.

    axes: measure → the values it goes through. measures: what the others are; the rest have their defaults.
    options: as for `sizing.size`.
    rules: the ranges, the recipe's checks, what can be cut, and that the numbers stay in bounds.
    Raises SizingError: a measure, option or choice that the recipe does not have.
    """

    def __init__(
        self,
        recipe: Recipe,
        units: Units,
        measures: Mapping[str, Fraction],
        options: Mapping[str, str],
        axes: Mapping[str, Sequence[Fraction]],
    ) -> None:
        self.recipe, self.units, self.axes = recipe, units, tuple(axes.items())
        self.chosen = choose(recipe, options)
        self._pieces = [piece for piece in recipe.pieces if piece.when.holds(self.chosen)]
        self._checks = [check for check in recipe.checks if check.when.holds(self.chosen)]
        refuse_strangers(recipe, [*measures, *axes])
        self._values = given_values(recipe, units, measures, self.chosen)
        self._reads = {name: frozenset([rank]) for rank, name in enumerate(axes)}
        self._names = [(name, self._named(name, formula)) for name, formula in self._needed()]
        judged = list(self._judged())
        self.rules = (*(rule for rule, _ in judged), BOUNDED)
        self._holds = [asked for _, asked in judged]
        fabrics = {material.name for material in recipe.materials if material.kind == "fabric"}
        self._cloth = [self._cut(piece) for piece in self._pieces if piece.material in fabrics]

    def __call__(self, place: Place) -> Judgement:
        """Judge the size at a place of the grid."""
        values = self._values
        for (name, steps), step in zip(self.axes, place, strict=True):
            values[name] = steps[step]
        try:
            for name, asked in self._names:
                values[name] = asked.at(place, values)
            failed = tuple(rank for rank, asked in enumerate(self._holds) if not asked.at(place, values))
        except TooBigError:
            return Judgement("refused", (len(self.rules) - 1,))
        if any(self.rules[rank].level == "refuse" for rank in failed):
            return Judgement("refused", failed)
        cuts = tuple(asked.at(place, values) for asked in self._cloth)
        return Judgement("advised" if failed else "good", failed, cuts)

    @property
    def measures(self) -> Mapping[str, Fraction]:
        """What each measure is; of one that goes through values, the last that was asked about."""
        return {
            measure.name: value
            for measure in self.recipe.measures
            if isinstance(value := self._values[measure.name], Fraction)
        }

    def _needed(self) -> list[tuple[str, Formula]]:
        """The names that a rule or the edge of a piece reads, each after those it reads itself."""
        wanted = {edge for piece in self._pieces for edge in self.recipe.edges[piece.name]}
        wanted |= {name for piece in self._pieces for name in names(piece.cut.tree)}
        wanted |= {name for piece in self._pieces for name in _names_of_outline(piece)}
        wanted |= {name for check in self._checks for name in names(check.holds.tree)}
        needed = []
        for name, formula in reversed(self.recipe.worked_out):
            if name in wanted:
                wanted |= names(formula.tree)
                needed.append((name, formula))
        return needed[::-1]

    def _named(self, name: str, formula: Formula) -> _Asked[Value]:
        """Formulas come after those that they read, so what these read is known already."""
        asked = self._asked(formula.value, names(formula.tree))
        self._reads[name] = self._read_by(names(formula.tree))
        return asked

    def _asked(
        self, work_out: Callable[[Mapping[str, Value]], Result], read: frozenset[str]
    ) -> _Asked[Result]:
        ranks = sorted(self._read_by(read))
        return _Asked(work_out, itemgetter(*ranks) if ranks else lambda place: ())

    def _read_by(self, read: frozenset[str]) -> frozenset[int]:
        return frozenset().union(*(self._reads.get(name, ()) for name in read))

    def _judged(self) -> Iterator[tuple[Rule, _Asked[bool]]]:
        for measure in self.recipe.measures:
            yield self._range(measure)
        for check in self._checks:
            asked = self._asked(_is_yes(check.holds), names(check.holds.tree))
            yield Rule(check.level, check.says), asked
        for piece in self._pieces:
            yield from self._cuttable(piece)

    def _range(self, measure: Measure) -> tuple[Rule, _Asked[bool]]:
        scale, name = measure.scales[self.units], measure.name
        least, most = (as_chosen(end, measure.power, self.units) for end in (scale.least, scale.most))

        def holds(values: Mapping[str, Value]) -> bool:
            value = values[name]
            return value is not None and scale.least <= value <= scale.most

        rule = Rule("refuse", f"The {name} is between {least} and {most}.")
        return rule, self._asked(holds, frozenset([name]))

    def _cuttable(self, piece: Piece) -> Iterator[tuple[Rule, _Asked[bool]]]:
        cut, edges = piece.cut, self.recipe.edges[piece.name]
        yield (
            Rule("refuse", f"The {piece.name} is cut a whole number of times."),
            self._asked(lambda values: is_count(cut.value(values)), names(cut.tree)),
        )
        yield (
            Rule("refuse", f"The {piece.name} has a width and a height."),
            self._asked(lambda values: all(is_length(values[edge]) for edge in edges), frozenset(edges)),
        )
        if piece.outline:
            yield (
                Rule("refuse", f"The outline of the {piece.name} can be cut."),
                self._asked(self._has_outline(piece), _names_of_outline(piece).union(edges)),
            )

    def _has_outline(self, piece: Piece) -> Callable[[Mapping[str, Value]], bool]:
        """What asks whether the outline can be cut, if there are edges to cut at all."""
        edges = self.recipe.edges[piece.name]
        return lambda values: (
            not all(is_length(values[edge]) for edge in edges)
            or outline_fault(self.recipe, piece, values) is None
        )

    def _cut(self, piece: Piece) -> _Asked[Cut]:
        edges = self.recipe.edges[piece.name]
        turns = piece.upright is None or not piece.upright.holds(self.chosen)

        def cut(values: Mapping[str, Value]) -> Cut:
            """Only of a size that is not refused: its count is whole, its edges are lengths."""
            count = piece.cut.value(values)
            width, height = (values[edge] for edge in edges)
            assert isinstance(count, Fraction)
            assert isinstance(width, Measured)
            assert isinstance(height, Measured)
            return Cut(piece.material, int(count), width, height, turns, not piece.outline)

        return self._asked(cut, names(piece.cut.tree) | set(edges))


def _names_of_outline(piece: Piece) -> frozenset[str]:
    sides = (side for corner in piece.outline for side in (corner.across, corner.down))
    return frozenset().union(*(names(side.tree) for side in sides))


def _is_yes(holds: Formula) -> Callable[[Mapping[str, Value]], bool]:
    return lambda values: holds.value(values) is True
