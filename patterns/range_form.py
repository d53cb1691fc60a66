"""What a range chart is asked: the two measures along its edges, and what all the others are."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import combinations

from django import forms
from django.http import QueryDict
from django.utils.http import urlencode

from patterns.addresses import ACROSS_KEY, UP_KEY, from_address, in_address, shortened, size_query
from patterns.drafting.lists import listed
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.fields import capitalised
from patterns.forms import MeasureForm

# Offered as links: all pairs of five measures. Any other pair can be chosen in the form.
MOST_PAIRS = 10
Pair = tuple[str, str]


class AxisField(forms.Field):
    """One of a recipe's measures, as a select offers it; gives its name."""

    def __init__(self, label: str, names: Sequence[str]) -> None:
        super().__init__(label=label, required=False)
        self.names = names

    @property
    def choices(self) -> list[tuple[str, str]]:
        return [(in_address(name), capitalised(name)) for name in self.names]

    def to_python(self, text: str | None) -> str:
        for name in self.names:
            if in_address(name) == text:
                return name
        raise forms.ValidationError(
            f"“{shortened(text or '')}” is not a measure of this pattern. Choose {listed(self.names, 'or')}."
        )


class AxesForm(forms.Form):
    """The two measures of a chart. What the address does not name is chosen: the width and the depth."""

    def __init__(self, recipe: Recipe, query: QueryDict) -> None:
        names = [measure.name for measure in recipe.measures]
        given = {from_address(key): query.getlist(key) for key in query}
        self.repeated = [key for key in (ACROSS_KEY, UP_KEY) if len(given.get(key, [])) > 1]
        data = {
            in_address(key): _spelt(given[key][-1], names) for key in (ACROSS_KEY, UP_KEY) if given.get(key)
        }
        usual = usual_pair(recipe)
        data.setdefault(in_address(ACROSS_KEY), _other_than(data.get(in_address(UP_KEY)), usual))
        data.setdefault(in_address(UP_KEY), _other_than(data[in_address(ACROSS_KEY)], usual[::-1]))
        super().__init__(data)
        self.fields[in_address(ACROSS_KEY)] = AxisField("From left to right", names)
        self.fields[in_address(UP_KEY)] = AxisField("From bottom to top", names)
        self.full_clean()

    def clean(self) -> None:
        for key in self.repeated:
            self.add_error(in_address(key), "It is given twice. Choose one.")
        across, up = self.pair
        if across and across == up:
            self.add_error(
                in_address(UP_KEY), f"The {up} goes from left to right already. Choose another measure."
            )

    @property
    def pair(self) -> Pair:
        """Both measures; empty for one that could not be read."""
        across, up = (self.cleaned_data.get(in_address(key), "") for key in (ACROSS_KEY, UP_KEY))
        return across, up


def _spelt(text: str, names: Sequence[str]) -> str:
    """Return what an address says as it would be offered: `Seam allowance` is `seam-allowance`."""
    name = next((each for each in names if each.casefold() == from_address(text)), None)
    return text if name is None else in_address(name)


def _other_than(taken: str | None, usual: Sequence[str]) -> str:
    """Return the first usual measure that is not taken, as an address writes it."""
    return next(key for name in usual if (key := in_address(name)) != taken)


def usual_pair(recipe: Recipe) -> Pair:
    """Return the measures of a chart that nobody chose: width and depth, else the first two.

    The recipe has two measures or more.
    """
    width, _, depth = (str(side) for side in recipe.finished)
    names = [measure.name for measure in sorted(recipe.measures, key=lambda each: each.role != "size")]
    if width != depth and {width, depth} <= set(names):
        return width, depth
    return names[0], names[1]


def pairs(recipe: Recipe) -> list[Pair]:
    """Return the pairs of measures that set the size, for links: the later one from left to right."""
    sizes = [measure.name for measure in recipe.measures if measure.role == "size"]
    return list(combinations(sizes, 2))[:MOST_PAIRS]


def others_form(recipe: Recipe, query: QueryDict, usual_units: Units, pair: Iterable[str]) -> MeasureForm:
    """Return the form of the measures that stay where they are; values of the pair's are left aside."""
    aside = {ACROSS_KEY, UP_KEY, *(name.casefold() for name in pair)}
    rest = QueryDict(mutable=True)
    for key in query:
        if from_address(key) not in aside:
            rest.setlist(key, query.getlist(key))
    return MeasureForm(recipe, rest, usual_units)


def range_query(
    recipe: Recipe, units: Units, pair: Pair, measures: Mapping[str, Fraction], options: Mapping[str, str]
) -> str:
    """Return the query that brings a chart back."""
    others = {name: value for name, value in measures.items() if name not in pair}
    return f"{axes_query(pair)}&{size_query(recipe, units, others, options)}"


def axes_query(pair: Pair) -> str:
    across, up = map(in_address, pair)
    return urlencode({in_address(ACROSS_KEY): across, in_address(UP_KEY): up})
