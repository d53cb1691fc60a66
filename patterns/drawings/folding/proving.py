"""The sizes at which a recipe's steps are followed before it is sold."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import islice, product
from typing import Final

from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units

# Each option has two or three choices, and the most in a starter are 24 ways of choosing; following the steps
# at one size takes 10 to 20 ms.
MOST_WAYS: Final = 24


def sizes_to_follow(recipe: Recipe) -> Iterator[SizedPattern]:
    """Yield the sizes, in both units, that must be followed: those that the recipe does not refuse.

    With each way of choosing, the default size; with the usual choices also each measure at its least and at
    its most, alone and all together. A recipe whose steps do nothing to the cloth has none.
    """
    if not any(step.work for step in recipe.steps):
        return
    for units in Units:
        for options in islice(_ways(recipe), MOST_WAYS):
            yield from _unrefused(recipe, units, {}, options)
        for measures in _extremes(recipe, units):
            yield from _unrefused(recipe, units, measures, {})


def _unrefused(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction], options: Mapping[str, str]
) -> Iterator[SizedPattern]:
    sized = size(recipe, "", units, measures, options)
    if not sized.is_refused:
        yield sized


def _ways(recipe: Recipe) -> Iterator[dict[str, str]]:
    """Yield every way of choosing, the usual one first."""
    usual = {option.name: option.default for option in recipe.options}
    yield usual
    choices = [[choice.name for choice in option.choices] for option in recipe.options]
    for chosen in product(*choices):
        ways = dict(zip(usual, chosen, strict=True))
        if ways != usual:
            yield ways


def _extremes(recipe: Recipe, units: Units) -> Iterator[dict[str, Fraction]]:
    scales = {measure.name: measure.scales[units] for measure in recipe.measures}
    for name, scale in scales.items():
        yield {name: scale.least}
        yield {name: scale.most}
    yield {name: scale.least for name, scale in scales.items()}
    yield {name: scale.most for name, scale in scales.items()}
