"""The sizes that a search climbs, smallest first: by proportions, by one measure alone, or by volume."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import prod

from patterns.drafting.formulas.names import names
from patterns.drafting.gauges import Axis, Place
from patterns.drafting.recipe import Measure, Recipe, Scale
from patterns.drafting.sizing import given_values
from patterns.drafting.units import Units

from .errors import CuttingError

PROPORTIONS, VOLUME = "proportions", "volume"
# All sizes of three measures of 65 steps each.
MOST_SIZES = 300_000


def growing(recipe: Recipe) -> tuple[Measure, ...]:
    """Return the measures that make the finished item larger: those of its width, height and depth."""
    wanted: set[str] = set()
    waiting = [name for side in recipe.finished for name in names(side.tree)]
    while waiting:
        name = waiting.pop()
        if name not in wanted:
            wanted.add(name)
            definition = recipe.definitions.get(name)
            waiting += names(definition.tree) if definition else ()
    return tuple(each for each in recipe.measures if each.name in wanted and each.role == "size")


@dataclass(frozen=True, slots=True)
class Ladder:
    """The sizes that may be the answer. axes: of the measures that grow, in the recipe's order.

    places: all of them; of equal rank ones are equally large.
    """

    axes: tuple[Axis, ...]
    places: Callable[[], Iterator[Place]]
    is_by_volume: bool = False


def ladder(
    recipe: Recipe,
    units: Units,
    keep: str | Sequence[str],
    measures: Mapping[str, Fraction],
    chosen: Mapping[str, str],
) -> Ladder:
    """Return the sizes to climb.

    keep: PROPORTIONS, VOLUME, or the names of all measures but one of those that grow.
    Raises CuttingError: other names; nothing that grows; too many sizes.
    """
    grow = growing(recipe)
    if not grow:
        raise CuttingError("Nothing of this pattern grows: its finished size is fixed.")
    values = given_values(recipe, units, measures, chosen)
    usual = {each.name: Fraction(str(values[each.name])) for each in grow}
    axes = tuple(Axis(each, _grid(each.scales[units])) for each in grow)
    if keep == PROPORTIONS:
        return _by_proportions(axes, units, usual)
    if keep == VOLUME:
        return _by_volume(axes)
    return _by_one(axes, [keep] if isinstance(keep, str) else keep, usual)


def _grid(scale: Scale) -> tuple[Fraction, ...]:
    return tuple(scale.least + k * scale.step for k in range((scale.most - scale.least) // scale.step + 1))


def _by_proportions(axes: tuple[Axis, ...], units: Units, usual: Mapping[str, Fraction]) -> Ladder:
    """Every t at which one of the measures reaches its next step, all rounded down to their steps."""
    for name, value in usual.items():
        if value <= 0:
            raise CuttingError(f"A {name} of 0 has no proportions. Write one above 0.")
    times = {value / usual[axis.measure.name] for axis in axes for value in axis.values}
    rungs = dict.fromkeys(
        tuple(_rank(axis, units, t * usual[axis.measure.name]) for axis in axes) for t in sorted(times)
    )
    inside = [
        rung
        for rung in rungs
        if all(0 <= rank < len(axis.values) for rank, axis in zip(rung, axes, strict=True))
    ]
    return Ladder(axes, lambda: iter(inside))


def _rank(axis: Axis, units: Units, value: Fraction) -> int:
    scale = axis.measure.scales[units]
    return (value - scale.least) // scale.step


def _by_one(axes: tuple[Axis, ...], kept: Sequence[str], usual: Mapping[str, Fraction]) -> Ladder:
    known = [axis.measure.name for axis in axes]
    free = set(known) - set(kept)
    if len(free) != 1 or not set(kept) <= set(known) or len(set(kept)) != len(kept):
        raise CuttingError(
            f"“{', '.join(kept)}” leaves no single measure to grow. Keep the proportions, "
            f"or {'all but one' if len(known) > 1 else 'none'} of {', '.join(known)}."
        )
    narrowed = tuple(
        axis if axis.measure.name in free else Axis(axis.measure, (usual[axis.measure.name],))
        for axis in axes
    )
    return Ladder(narrowed, lambda: product(*(range(len(axis.values)) for axis in narrowed)))


def _by_volume(axes: tuple[Axis, ...]) -> Ladder:
    count = prod(len(axis.values) for axis in axes)
    if count > MOST_SIZES:
        raise CuttingError(
            f"This pattern has {count:,} sizes; the most volume is looked for among {MOST_SIZES:,} at most. "
            "Keep the proportions, or all measures but one."
        )
    return Ladder(axes, lambda: product(*(range(len(axis.values)) for axis in axes)), is_by_volume=True)
