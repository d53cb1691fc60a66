"""The largest size that is found from cloth while somebody waits."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import prod

from patterns.drafting.gauges import Watch
from patterns.drafting.recipe import Recipe
from patterns.drafting.sizing import all_values, choose
from patterns.drafting.units import Units

from .from_cloth import FromCloth, from_cloth
from .ladder import PROPORTIONS, VOLUME, growing
from .sharing import Cloth

STRETCH = Fraction(3, 2)


def best_found(
    recipe: Recipe,
    units: Units,
    cloth: Sequence[Cloth],
    keep: str | Sequence[str],
    measures: Mapping[str, Fraction],
    options: Mapping[str, str],
    watch: Watch,
) -> FromCloth:
    """Return what `from_cloth` does; for the most volume, of many sizes, also where it was ended early.

    A shape is quickly climbed by its proportions, so a few shapes are first: when time is short, the largest
    of them may be the best that is known.
    Raises CuttingError, SizingError: as `from_cloth`.
    """
    if keep != VOLUME:
        return from_cloth(recipe, units, cloth, keep, measures, options, watch=watch)
    found = [
        from_cloth(recipe, units, cloth, PROPORTIONS, shape, options, watch=watch)
        for shape in _shapes(recipe, units, measures, options)
    ]
    whole = from_cloth(recipe, units, cloth, VOLUME, measures, options, watch=watch)
    if not whole.was_ended:
        return whole
    best = max([whole, *found], key=lambda each: _volume(recipe, units, each.measures, options))
    # What comes next by its proportions is not what comes next by volume.
    return replace(best, larger=None, still_open=(), how_many_open=0, was_ended=True)


def _shapes(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction], options: Mapping[str, str]
) -> Iterator[Mapping[str, Fraction]]:
    """Yield the measures with the proportions that were written, then with each stretched or not."""
    values = all_values(recipe, units, measures, choose(recipe, options))
    grow = {each.name: Fraction(str(values[each.name])) for each in growing(recipe)}
    for factors in product((Fraction(1), STRETCH), repeat=len(grow)):
        if min(factors, default=STRETCH) == 1:  # all stretched are the same proportions again
            yield {**measures, **{name: grow[name] * by for name, by in zip(grow, factors, strict=True)}}


def _volume(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction] | None, options: Mapping[str, str]
) -> Fraction:
    """Return width × height × depth of the finished item, mm³; an irrational side to 60 digits."""
    if measures is None:
        return Fraction(0)
    values = all_values(recipe, units, measures, choose(recipe, options))
    sides = [side.value(values) for side in recipe.finished]
    return prod((Fraction(str(side)) for side in sides if side is not None), start=Fraction(1))
