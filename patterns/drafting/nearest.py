"""The nearest size that works, for one that is refused.

Among the sizes that pass every check of level refuse: fewest measures changed, then the least sum of
changes counted in steps, then a rise before a fall, then the order of the recipe.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import combinations, islice, product
from typing import NamedTuple

from .formulas.values import TooBigError, Value
from .recipe import Measure, Recipe, Scale
from .sizing import all_values, choose, is_count, is_length, outline_fault
from .units import Units

# Two measures of 85 steps each, in three pairs, are some 20,000 sizes: about a second.
MOST_TRIED = 20_000
# Put in order before any is tried: all pairs of a dozen measures, and a bound for ranges of tiny steps.
MOST_WEIGHED = 200_000


def nearest_size(
    recipe: Recipe,
    units: Units,
    measures: Mapping[str, Fraction],
    options: Mapping[str, str],
    most_moved: int = 1,
) -> Mapping[str, Fraction] | None:
    """Return every measure of the nearest size that is not refused, or None if none was found.

    measures, options: as for `sizing.size`. Measures of role size move on to their grid, at most
    most_moved of them; a making measure moves only if it is out of its range, to the end of it.
    """
    chosen = choose(recipe, options)
    start = _within_making_ranges(recipe, units, all_values(recipe, units, measures, chosen))
    passes = _Passes(recipe, units, chosen)
    candidates = islice(_candidates(recipe, units, start, most_moved), MOST_TRIED)
    tried = ({**start, **moved} for moved in candidates)
    return next((size for size in tried if passes(size)), None)


def _within_making_ranges(recipe: Recipe, units: Units, values: Mapping[str, Value]) -> dict[str, Fraction]:
    start = {}
    for measure in recipe.measures:
        value, scale = values[measure.name], measure.scales[units]
        assert isinstance(value, Fraction)
        start[measure.name] = min(max(value, scale.least), scale.most) if measure.role == "making" else value
    return start


def _candidates(
    recipe: Recipe, units: Units, start: Mapping[str, Fraction], most_moved: int
) -> Iterator[Mapping[str, Fraction]]:
    """Yield what could be moved, nearest first."""
    sizes = [measure for measure in recipe.measures if measure.role == "size"]
    outside = {each.name for each in sizes if not _is_within(start[each.name], each.scales[units])}
    for count in range(len(outside), most_moved + 1):
        groups = [group for group in combinations(sizes, count) if outside <= {each.name for each in group}]
        yield from _moves(groups, units, start)


def _is_within(value: Fraction, scale: Scale) -> bool:
    return scale.least <= value <= scale.most


def _moves(
    groups: Sequence[tuple[Measure, ...]], units: Units, start: Mapping[str, Fraction]
) -> Iterator[Mapping[str, Fraction]]:
    """Yield every way to move all measures of one of the groups, nearest first."""
    ways = (
        _Way(rank, group, moves)
        for rank, group in enumerate(groups)
        for moves in _all_moves(group, units, start)
    )
    for way in sorted(islice(ways, MOST_WEIGHED), key=_Way.weight):
        yield {measure.name: move.to for measure, move in zip(way.group, way.moves, strict=True)}


class _Move(NamedTuple):
    steps: Fraction
    to: Fraction


class _Way(NamedTuple):
    """One way to move a group of measures. rank: where the group stands in the order of the recipe."""

    rank: int
    group: tuple[Measure, ...]
    moves: tuple[_Move, ...]

    def weight(self) -> tuple[Fraction, int, int, tuple[bool, ...]]:
        falls = tuple(move.steps < 0 for move in self.moves)
        return sum((abs(move.steps) for move in self.moves), Fraction(0)), sum(falls), self.rank, falls


def _all_moves(
    group: tuple[Measure, ...], units: Units, start: Mapping[str, Fraction]
) -> Iterator[tuple[_Move, ...]]:
    return product(*(_grid(start[measure.name], measure.scales[units]) for measure in group))


def _grid(value: Fraction, scale: Scale) -> Iterator[_Move]:
    """Every other value on the grid, with the number of steps to it."""
    for k in range((scale.most - scale.least) // scale.step + 1):
        there = scale.least + k * scale.step
        if there != value:
            yield _Move((there - value) / scale.step, there)


class _Passes:
    """Whether a size, whose ranges are kept, passes every refuse check."""

    def __init__(self, recipe: Recipe, units: Units, chosen: Mapping[str, str]) -> None:
        self.recipe, self.units, self.chosen = recipe, units, chosen
        self.checks = [
            check.holds for check in recipe.checks if check.level == "refuse" and check.when.holds(chosen)
        ]
        pieces = [piece for piece in recipe.pieces if piece.when.holds(chosen)]
        self.cuts = [piece.cut for piece in pieces]
        self.edges = [edge for piece in pieces for edge in recipe.edges[piece.name]]
        self.outlined = [piece for piece in pieces if piece.outline]

    def __call__(self, measures: Mapping[str, Fraction]) -> bool:
        try:
            values = all_values(self.recipe, self.units, measures, self.chosen)
            return (
                all(check.value(values) is True for check in self.checks)
                and all(is_length(values[edge]) for edge in self.edges)
                and all(is_count(cut.value(values)) for cut in self.cuts)
                and not any(outline_fault(self.recipe, piece, values) for piece in self.outlined)
            )
        except TooBigError:
            return False
