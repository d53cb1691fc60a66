"""Which books are looked at: every recipe at its ends, in both units, on both papers, with its options."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, product
from typing import Literal, get_args

from patterns.documents.kinds import BookKind
from patterns.documents.paper import PAPERS, PaperName
from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Measure, Recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units

Extent = Literal["smallest", "default", "largest"]
# Options are walked in rows: all first choices, the usual ones, all last choices.
Choices = Literal["first", "usual", "last"]
# So many measures may move from an end of the range that the recipe refuses, the fewest first.
MOST_MOVED = (1, 2)


@dataclass(frozen=True, slots=True)
class Case:
    """A book to look at."""

    recipe: str
    extent: Extent
    units: Units
    paper: PaperName
    choices: Choices
    kind: BookKind = "book"

    @property
    def name(self) -> str:
        """What its files are called."""
        return f"{self.recipe}-{self.kind}-{self.extent}-{self.units.value}-{self.paper}-{self.choices}"


def every_case(recipes: Sequence[str], kind: BookKind = "book") -> Iterator[Case]:
    """Yield every book of these recipes, recipe by recipe."""
    for recipe in recipes:
        for extent, units, paper, choices in product(*_factors()):
            yield Case(recipe, extent, units, paper, choices, kind)


def few_cases(recipes: Sequence[str], kind: BookKind = "book") -> Iterator[Case]:
    """Yield each recipe once as it is usually chosen, then every pair of all else, the recipes in turn."""
    factors = _factors()
    usual = list(product(factors[1], factors[2]))
    found = []
    for at, recipe in enumerate(recipes):
        units, paper = usual[at % len(usual)]
        found.append(Case(recipe, "default", units, paper, "usual", kind))
    for at, (extent, units, paper, choices) in enumerate(in_pairs(factors)):
        found.append(Case(recipes[at % len(recipes)], extent, units, paper, choices, kind))
    yield from dict.fromkeys(found)


def _factors() -> tuple[tuple, ...]:
    return get_args(Extent), tuple(Units), tuple(PAPERS), get_args(Choices)


def in_pairs(factors: Sequence[Sequence]) -> Iterator[tuple]:
    """Yield rows, a value of each factor in each, until every two values of two factors stood in one row.

    Always the row next that brings most pairs; of two alike the first.

    >>> [*in_pairs([("a", "b"), (1, 2)])]
    [('a', 1), ('a', 2), ('b', 1), ('b', 2)]
    """
    rows = list(product(*factors))
    wanted = {pair for row in rows for pair in _pairs(row)}
    while wanted:
        row = max(rows, key=lambda each: len(wanted & _pairs(each)))
        wanted -= _pairs(row)
        yield row


def _pairs(row: tuple) -> frozenset:
    return frozenset(combinations(enumerate(row), 2))


def sized_for(case: Case, recipe: Recipe) -> SizedPattern:
    """Return the pattern at the size that a case asks for, or at the nearest that is not refused.

    Raises LookupError: none near it can be made.
    """
    options = _chosen(recipe, case.choices)
    for measures in _wanted(recipe, case):
        sized = size(recipe, case.recipe, case.units, measures, options)
        if not sized.is_refused:
            return sized
        for most in MOST_MOVED:
            found = nearest_size(recipe, case.units, measures, options, most)
            if found is not None:
                return size(recipe, case.recipe, case.units, found, options)
    raise LookupError(f"No size near the {case.extent} of {case.recipe} can be made.")


def _chosen(recipe: Recipe, choices: Choices) -> Mapping[str, str]:
    if choices == "usual":
        return {}
    at = 0 if choices == "first" else -1
    return {option.name: option.choices[at].name for option in recipe.options}


def _wanted(recipe: Recipe, case: Case) -> Iterator[Mapping[str, Fraction]]:
    """Yield what is asked for: all measures at their ends, then only those that say how large it is."""
    if case.extent == "default":
        yield {}
        return
    yield {each.name: _end(each, case) for each in recipe.measures}
    yield {each.name: _end(each, case) for each in recipe.measures if each.role == "size"}


def _end(measure: Measure, case: Case) -> Fraction:
    scale = measure.scales[case.units]
    return scale.least if case.extent == "smallest" else scale.most
