"""Proves that truings hold: for every size, and every combination of options in which they exist."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, product
from math import prod
from typing import Literal

from .formulas.atoms import Bounds
from .formulas.dimensions import YES_NO, kind_of
from .formulas.formula import Formula
from .formulas.identity import Identity, identity
from .formulas.names import names
from .formulas.polynomial import SMALL_PRIMES
from .formulas.tree import Node, Number
from .formulas.values import Measured, TooBigError, Value, compare
from .recipe import Constant, Measure, Recipe, Scale, Truing, When
from .sizing import choose, given_values
from .units import Units

Result = Literal["proved", "false", "undecided"]

# A difference of two formulas that is not 0 shows at nearly every size; a choice between two can hide
# it in a corner of the range. This many take some 5 ms.
MOST_SIZES_TRIED = 300
# Two prints, an interfacing and a base with three choices each have 81. Beyond this nobody reads the answer.
MOST_COMBINATIONS = 200


@dataclass(frozen=True, slots=True)
class Example:
    """A size at which the two sides differ.

    measures: of every measure, mm or bare. options: of every option.
    one, other: what the sides come to; power: 1 for lengths in mm, 0 for bare numbers, 2 and 3.
    """

    units: Units
    measures: Mapping[str, Fraction]
    options: Mapping[str, str]
    one: Measured
    other: Measured
    power: int


@dataclass(frozen=True, slots=True)
class Proof:
    """What came of one truing with one combination of the options that it depends on.

    difference: one − other; None if proved. example: only where it is false.
    """

    truing: Truing
    options: Mapping[str, str]
    result: Result
    difference: Formula | None = None
    example: Example | None = None


def prove(recipe: Recipe) -> tuple[Proof, ...]:
    """Return a proof, or what is wrong, for every truing and every combination of options that matters to it.

    Proved is proved for every size in the ranges of both unit systems, wherever both sides have a value.
    A truing that never exists gets one answer, undecided; so does one with too many combinations.
    """
    prover = _Prover(recipe)
    return tuple(proof for truing in recipe.truings for proof in prover.proofs(truing))


def _all_hold(conditions: Iterable[When], option: str, choice: str) -> bool:
    return all(
        choice in choices for condition in conditions for name, choices in condition.options if name == option
    )


class _Prover:
    """What is asked of one recipe for each of its truings."""

    def __init__(self, recipe: Recipe) -> None:
        self.recipe = recipe
        self.definitions = {name: formula.tree for name, formula in recipe.definitions.items()}
        self.reads = {name: names(tree) for name, tree in self.definitions.items()}
        self.lengths = {
            name: piece for piece in recipe.pieces for name in recipe.lengths_of_pieces[piece.name]
        }
        self.ranges = _ranges(recipe, list(Units))

    def proofs(self, truing: Truing) -> Iterator[Proof]:
        allowed = self.allowed(truing)
        if not 0 < prod(map(len, allowed.values())) <= MOST_COMBINATIONS:
            yield Proof(truing, {}, "undecided")
            return
        found = self.compared(truing, self.definitions, self.ranges)
        if found.difference is not None:
            allowed = self.with_what_sets_values(truing, allowed)
        for choices in product(*allowed.values()):
            yield self.proof(truing, dict(zip(allowed, choices, strict=True)), found)

    def allowed(self, truing: Truing) -> dict[str, list[str]]:
        """Return the options that the truing depends on, each with the choices under which it exists.

        It exists with all pieces whose lengths it reads, also through amounts. Not with those that another
        piece's formula reads: an edge has its value even if its piece is not cut.
        """
        read = self.reached(truing, through=self.reads.keys() - self.lengths.keys())
        conditions = [truing.when, *(piece.when for name, piece in self.lengths.items() if name in read)]
        depends = frozenset().union(*(condition.names for condition in conditions))
        return {
            option.name: [
                each.name for each in option.choices if _all_hold(conditions, option.name, each.name)
            ]
            for option in self.recipe.options
            if option.name in depends
        }

    def with_what_sets_values(self, truing: Truing, allowed: dict[str, list[str]]) -> dict[str, list[str]]:
        """Add the options that set a name which the truing reads: it may hold with one choice only.

        Not those that only set a measure: the customer may then change it.
        """
        measures = {measure.name for measure in self.recipe.measures}
        read = self.reached(truing, through=self.reads) - measures
        more = {}
        for option in self.recipe.options:
            choices = [choice.name for choice in option.choices]
            sets = {value.name for choice in option.choices for value in choice.sets}
            if option.name in allowed or sets & read:
                more[option.name] = allowed.get(option.name, choices)
        return more if prod(map(len, more.values())) <= MOST_COMBINATIONS else allowed

    def reached(self, truing: Truing, through: Collection[str]) -> set[str]:
        """Return every name that the truing comes to read, directly or through the definitions given."""
        reached: set[str] = set()
        waiting = [*names(truing.one.tree), *names(truing.other.tree)]
        while waiting:
            name = waiting.pop()
            if name not in reached:
                reached.add(name)
                waiting += self.reads[name] if name in through else ()
        return reached

    def proof(self, truing: Truing, options: Mapping[str, str], found: Identity) -> Proof:
        if found.difference is None:
            return Proof(truing, options, "proved")
        example = self.example(truing, options)
        if example is None and all(self.is_equal_in(units, truing, options) for units in Units):
            return Proof(truing, options, "proved")
        return Proof(truing, options, "false" if example else "undecided", Formula(found.difference), example)

    def compared(
        self, truing: Truing, definitions: Mapping[str, Node], ranges: Mapping[str, Bounds]
    ) -> Identity:
        return identity(truing.one.tree, truing.other.tree, definitions, order=ranges, ranges=ranges)

    def is_equal_in(self, units: Units, truing: Truing, options: Mapping[str, str]) -> bool:
        """Whether the sides are equal in one unit system: what is fixed there counts as its number."""
        ranges = _ranges(self.recipe, [units], options)
        fixed = {
            name: _number(least, self.recipe.powers[name])
            for name, (least, most) in ranges.items()
            if least == most
        }
        return self.compared(truing, self.definitions | fixed, ranges).difference is None

    def example(self, truing: Truing, options: Mapping[str, str]) -> Example | None:
        """Return the first size tried at which both sides have a value and the values differ."""
        chosen = choose(self.recipe, options)
        reached = self.reached(truing, through=self.reads)
        needed = [(name, formula) for name, formula in self.recipe.worked_out if name in reached]
        measures = [measure for measure in self.recipe.measures if measure.name in reached]
        for units, moved in islice(_sizes(measures), MOST_SIZES_TRIED):
            values = given_values(self.recipe, units, moved, chosen)
            sides = _sides(truing, values, needed)
            if sides is not None and compare(*sides) != 0:
                return self.shown(truing, units, chosen, values, sides)
        return None

    def shown(
        self,
        truing: Truing,
        units: Units,
        chosen: Mapping[str, str],
        values: Mapping[str, Value],
        sides: tuple[Measured, Measured],
    ) -> Example:
        power = kind_of(truing.one.tree, self.recipe.powers)
        assert power != YES_NO
        measures = {measure.name: _exact(values[measure.name]) for measure in self.recipe.measures}
        return Example(units, measures, chosen, *sides, power)


def _exact(value: Value) -> Fraction:
    assert isinstance(value, Fraction)  # measures are chosen, not worked out
    return value


def _number(value: Fraction | None, power: int) -> Number:
    assert value is not None
    return Number(value, "mm" if power else None)


def _sides(
    truing: Truing, values: dict[str, Value], needed: Sequence[tuple[str, Formula]]
) -> tuple[Measured, Measured] | None:
    """Work out what the truing needs, and both sides; None where one of them has no value."""
    try:
        for name, formula in needed:
            values[name] = formula.value(values)
        one, other = truing.one.value(values), truing.other.value(values)
    except TooBigError:
        return None
    if one is None or other is None:
        return None
    assert not isinstance(one, bool)
    assert not isinstance(other, bool)
    return one, other


def _ranges(
    recipe: Recipe, systems: Sequence[Units], options: Mapping[str, str] | None = None
) -> dict[str, Bounds]:
    """Return the least and most of each name that is chosen, set or fixed, in the recipe's order.

    options: the choices already made.
    """
    made = options or {}
    ends: dict[str, list[Fraction]] = {}
    choices = [
        choice
        for option in recipe.options
        for choice in option.choices
        if made.get(option.name, choice.name) == choice.name
    ]
    things: list[Measure | Constant] = [*recipe.measures, *recipe.constants]
    for thing in [*things, *(value for choice in choices for value in choice.sets)]:
        ends.setdefault(thing.name, []).extend(end for units in systems for end in _ends(thing, units))
    return {name: (min(known), max(known)) for name, known in ends.items()}


def _ends(thing: Measure | Constant, units: Units) -> tuple[Fraction, Fraction]:
    if isinstance(thing, Measure):
        return thing.scales[units].least, thing.scales[units].most
    return thing.values[units], thing.values[units]


def _sizes(measures: Sequence[Measure]) -> Iterator[tuple[Units, dict[str, Fraction]]]:
    """Yield sizes to try, always the same ones: what differs from the defaults.

    The defaults; one measure at an end of its range; then all of them spread over their ranges
    (Halton's sequence, 1960: a prime for each measure), in turn in both unit systems.
    """
    for units in Units:
        yield units, {}
    for measure in measures:
        for units in Units:
            yield units, {measure.name: measure.scales[units].least}
            yield units, {measure.name: measure.scales[units].most}
    if not measures:
        return
    for place in range(1, MOST_SIZES_TRIED):
        for units in Units:
            yield (
                units,
                {
                    measure.name: _on_the_way(
                        measure.scales[units], _halton(place, SMALL_PRIMES[number % len(SMALL_PRIMES)])
                    )
                    for number, measure in enumerate(measures)
                },
            )


def _on_the_way(scale: Scale, part: Fraction) -> Fraction:
    """Return the step that lies a part of the way from the least to the most."""
    steps = (scale.most - scale.least) // scale.step
    return scale.least + part * (steps + 1) // 1 * scale.step


def _halton(place: int, base: int) -> Fraction:
    """Return the digits of place, mirrored behind the point.

    >>> _halton(6, 2)
    Fraction(3, 8)
    """
    part, weight = Fraction(0), Fraction(1, base)
    while place:
        place, digit = divmod(place, base)
        part += digit * weight
        weight /= base
    return part
