"""The measure form: one recipe's measures and options, read from the address of a page."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from django import forms
from django.http import QueryDict
from django.utils.http import urlencode

from patterns.addresses import (
    BUYING_KEYS,
    BY_KEY,
    LOOK_KEY,
    SEARCH_KEYS,
    UNITS_KEY,
    WAYS,
    choice_in_address,
    from_address,
    in_address,
    shortened,
    size_query,
)
from patterns.buying_form import BuyingForm
from patterns.documents.words import UNIT_WORDS
from patterns.drafting.lengths import typed, with_unit
from patterns.drafting.lists import listed
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.fields import MeasureField, OfferedSize, OptionField

# Strangers can write anything into an address: this much of it is answered.
MOST_STRANGERS = 5


@dataclass(frozen=True, slots=True)
class UnitsSwitch:
    """The other unit system, whose own defaults it offers."""

    now: str
    other: str
    default: str
    query: str


class MeasureForm(forms.Form):
    """The measures and options of a recipe. What the address does not name has its default.

    units: of this form: those of the address, else the shop's usual ones.
    asked, chosen: the fields of the measures and of the options, by their key in the address.
    notes: what was found in the address and left out, in words.
    buying: what the address says of the cloth; its mistakes are its own, and the size stands without it.
    by: the way in which the size is chosen, as the address has it. searched: what was typed to look for one,
    each text that the address has. looks_for_size: whether it was asked to look, although perhaps nothing
    was typed. currency: of the prices of cloth; empty where none are asked.
    """

    def __init__(self, recipe: Recipe, query: QueryDict, usual_units: Units, currency: str = "") -> None:
        self.recipe = recipe
        self.notes: list[str] = []
        given = {from_address(key): query.getlist(key) for key in query}
        self.units = self._units(given.pop(UNITS_KEY, []), usual_units)
        look = given.pop(LOOK_KEY, [])
        self.looks_further, self.looks_for_cloth = look == ["further"], look == ["for-cloth"]
        self.looks_for_size = look == ["for-size"]
        by = given.pop(BY_KEY, [""])[-1]
        self.by = by if by in WAYS else ""
        found = {key: given.pop(from_address(key), []) for key in SEARCH_KEYS}
        self.searched = {key: texts for key, texts in found.items() if texts}
        cloth = {key: given.pop(from_address(key), []) for key in BUYING_KEYS}
        self.buying = BuyingForm(recipe, self.units, cloth, currency)
        self.asked = {in_address(each.name): MeasureField(each, self.units) for each in recipe.measures}
        self.chosen = {in_address(each.name): OptionField(each) for each in recipe.options}
        fields: dict[str, forms.Field] = {**self.asked, **self.chosen}
        in_form = {in_address(name): texts for name, texts in given.items() if in_address(name) in fields}
        self._note_strangers(name for name in given if in_address(name) not in fields)
        self.repeated = {key: texts for key, texts in in_form.items() if len(texts) > 1}
        data = {key: texts[-1] for key, texts in in_form.items()}
        self._let_options_set(data)
        super().__init__({key: data.get(key, field.initial) for key, field in fields.items()})
        self.fields.update(fields)
        self.full_clean()

    def _units(self, given: list[str], usual: Units) -> Units:
        if not given:
            return usual
        if len(set(given)) == 1 and given[0] in set(Units):
            return Units(given[0])
        shown = " and ".join(f"“{shortened(text)}”" for text in given[:2])
        self.notes.append(f"the units {shown} are not in or cm, so this is in {UNIT_WORDS[usual]}.")
        return usual

    def _note_strangers(self, names: Iterable[str]) -> None:
        for name in list(names)[:MOST_STRANGERS]:
            self.notes.append(f"this pattern has no measure or option “{shortened(name)}”.")

    def _let_options_set(self, data: Mapping[str, str]) -> None:
        """Let the box of a measure that an option may set be empty, and know what that stands for."""
        for key, field in self.chosen.items():
            choice = field.chosen(data.get(key, field.initial))
            for name in {value.name for each in field.option.choices for value in each.sets}:
                if in_address(name) in self.asked:
                    self.asked[in_address(name)].let_be_set(field.option.name, choice)

    def clean(self) -> None:
        for key, texts in self.repeated.items():
            if key not in self.errors:
                shown = " and ".join(f"“{shortened(text)}”" for text in texts[:3])
                self.add_error(key, f"It is given {len(texts)} times: {shown}. Write one.")
        for field in self.asked.values():
            if field.end is not None:
                field.mend = self.offered("", field.written(field.end), {field.measure.name: field.end})

    @property
    def measure_fields(self) -> list[forms.BoundField]:
        return [self[key] for key in self.asked]

    @property
    def option_fields(self) -> list[forms.BoundField]:
        return [self[key] for key in self.chosen]

    @property
    def measures(self) -> dict[str, Fraction]:
        """The measures that were written and could be read, by name: mm or bare numbers."""
        read = ((field.measure.name, self.cleaned_data.get(key)) for key, field in self.asked.items())
        return {name: value for name, value in read if value is not None}

    @property
    def options(self) -> dict[str, str]:
        """The choices that could be read, by the option's name."""
        cleaned = self.cleaned_data
        return {field.option.name: cleaned[key] for key, field in self.chosen.items() if key in cleaned}

    @property
    def wanting_words(self) -> str:
        """What must be mended before there is a size: `Mend the width and the height first.`"""
        wanting = [f"the {each}" for each in (*map(from_address, self.errors), *self.buying.wanting)]
        return f"Mend {listed(wanting, 'and')} first."

    @property
    def is_all_read(self) -> bool:
        """Whether the size and the cloth could both be read."""
        return self.is_valid() and self.buying.is_valid()

    def query(self, measures: Mapping[str, Fraction] | None = None) -> str:
        """Return the query of this size with its cloth, or of the same one with other measures put in."""
        size = size_query(self.recipe, self.units, {**self.measures, **(measures or {})}, self.options)
        return joined(size, self.buying.query)

    def page_query(
        self,
        measures: Mapping[str, Fraction] | None = None,
        by: str | None = None,
        typed: Mapping[str, str] | None = None,
    ) -> str:
        """Return the query of the pattern's own page: the size, the way it is chosen, what was typed there.

        by: another way. typed: what else stands in the boxes of a search.
        """
        by = self.by if by is None else by
        searched = {**{key: texts[-1] for key, texts in self.searched.items()}, **(typed or {})}
        return joined(self.query(measures), urlencode({**({BY_KEY: by} if by else {}), **searched}))

    @property
    def choices_query(self) -> str:
        """The address's query of these units and choices, every measure left to its default."""
        return size_query(self.recipe, self.units, {}, self.options)

    def offered(self, name: str, words: str, measures: Mapping[str, Fraction]) -> OfferedSize:
        """Return this size with other measures put in, as a link on the pattern's own page offers it."""
        return OfferedSize(name, words, self.page_query(measures), self._boxes(measures))

    def found(self, words: str, measures: Mapping[str, Fraction]) -> OfferedSize:
        """Return a size that was looked for with these choices: all else is put in as it is here."""
        own = {name: choice_in_address(choice) for name, choice in self.options.items()}
        boxes = {
            **dict.fromkeys(self.asked, ""),
            **self._boxes({**self.measures, **measures}),
            **{in_address(name): choice for name, choice in own.items()},
        }
        return OfferedSize("", words, self.page_query(measures), boxes)

    def _boxes(self, measures: Mapping[str, Fraction]) -> dict[str, str]:
        return {in_address(name): self.asked[in_address(name)].typed(each) for name, each in measures.items()}

    def written(self, measure: str, value: Fraction) -> str:
        """Return a value of a measure with its unit, exact."""
        return self.asked[in_address(measure)].written(value)

    @property
    def starting_sizes(self) -> list[OfferedSize]:
        """The recipe's size chart, as places to start from."""
        rows = [(named.name, named.values[self.units]) for named in self.recipe.sizes]
        return [self.offered(name, in_a_row(self.recipe, self.units, row), row) for name, row in rows]

    def starting_size(self, name: str) -> OfferedSize | None:
        """The named size; None where the chart has none of that name."""
        return next((offered for offered in self.starting_sizes if offered.name == name), None)

    @property
    def switch(self) -> UnitsSwitch:
        (other,) = set(Units) - {self.units}
        sizes = [measure for measure in self.recipe.measures if measure.role == "size"]
        defaults = {measure.name: measure.scales[other].default for measure in sizes}
        return UnitsSwitch(
            now=UNIT_WORDS[self.units],
            other=UNIT_WORDS[other],
            default=in_a_row(self.recipe, other, defaults),
            query=joined(
                size_query(self.recipe, other, {}, self.options),
                self.buying.other_units_query,
                urlencode({BY_KEY: self.by}) if self.by else "",
            ),
        )


def joined(*queries: str) -> str:
    """Return one query of several, those that are empty left out."""
    return "&".join(query for query in queries if query)


def in_a_row(recipe: Recipe, units: Units, measures: Mapping[str, Fraction]) -> str:
    """Return measures in the recipe's order, the finished sides first: `23 × 15 × 12 cm, folds 3`."""
    finished = {str(side) for side in recipe.finished}
    named = [measure for measure in recipe.measures if measure.name in measures]
    sides = [typed(measures[each.name], 1, units) for each in named if each.name in finished]
    others = [
        f"{each.name} {with_unit(typed(measures[each.name], each.power, units), each.power, units)}"
        for each in named
        if each.name not in finished
    ]
    return ", ".join([with_unit(" × ".join(sides), 1, units), *others] if sides else others)
