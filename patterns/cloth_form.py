"""From the cloth you have: what pieces of it there are, and what matters, read from the address of a page."""

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple
from urllib.parse import parse_qsl

from django import forms
from django.http import QueryDict
from django.utils.http import urlencode

from patterns.addresses import CLOTH_KEYS, in_address, shortened, size_query
from patterns.cloth_fields import (
    ANY_FABRIC,
    ClothCountField,
    ClothLengthField,
    fabric_field,
    grows_key,
    keep_field,
)
from patterns.cutting.known_cloth import KNOWN_CLOTH
from patterns.cutting.ladder import PROPORTIONS, growing
from patterns.cutting.sharing import Cloth
from patterns.cutting.sheets import MOST_SHEETS
from patterns.documents.words import UNIT_WORDS
from patterns.drafting.lengths import as_chosen, typed
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.drawings.laid_cloth import sides_words
from patterns.fields import capitalised
from patterns.forms import MeasureForm

ONE_WAY = "one way"
*_ROW_KEYS, KEEP = CLOTH_KEYS


class Row(NamedTuple):
    """The keys of one kind of cloth."""

    width: str
    length: str
    how_many: str
    fabric: str


FIRST, SECOND = Row(*_ROW_KEYS[:4]), Row(*_ROW_KEYS[4:])
# Without these nothing has been asked yet.
ASKED = (FIRST.width, FIRST.length, FIRST.how_many)
USUAL = {
    FIRST.how_many: "2",
    FIRST.fabric: ANY_FABRIC,
    SECOND.how_many: "1",
    SECOND.fabric: ANY_FABRIC,
    KEEP: PROPORTIONS,
}


def fabrics_of(recipe: Recipe) -> tuple[str, ...]:
    """Return the fabrics that a pattern is cut from, in its order."""
    cut = {piece.material for piece in recipe.pieces}
    return tuple(each.name for each in recipe.materials if each.kind == "fabric" and each.name in cut)


@dataclass(frozen=True, slots=True)
class Preset:
    """A usual piece of cloth, as a link offers it."""

    name: str
    words: str
    query: str


class ClothForm(forms.Form):
    """The cloth that somebody has, and the size that they begin from.

    is_asked: whether the address holds a whole question; until then nothing is a mistake.
    settings: the pattern's own measures and options, as the address has them; those that change what is cut
    are asked here, the others stay as they are.
    """

    def __init__(self, recipe: Recipe, query: QueryDict, usual_units: Units) -> None:
        own = query.copy()
        for key in CLOTH_KEYS:
            own.pop(key, None)
        self.recipe = recipe
        self.settings = MeasureForm(recipe, own, usual_units)
        self.units = self.settings.units
        self.grow, self.fabrics = growing(recipe), fabrics_of(recipe)
        self.prints = [
            each.name for each in recipe.options if any(choice.name == ONE_WAY for choice in each.choices)
        ]
        self.repeated = {key: texts for key in CLOTH_KEYS if len(texts := query.getlist(key)) > 1}
        self.is_asked = all(key in query for key in ASKED)
        usual = USUAL | {key: query[key] for key in CLOTH_KEYS if key in query}
        super().__init__(usual if self.is_asked else None, initial=usual)
        for row in (FIRST, SECOND):
            self._add_row(row)
        self.fields[KEEP] = keep_field(self.grow)

    def _add_row(self, row: Row) -> None:
        is_second = row is SECOND
        piece = "of the other" if is_second else "of one"
        self.fields[row.width] = ClothLengthField(
            f"Across, {piece}", "From selvedge to selvedge, without them.", self.units, is_second
        )
        self.fields[row.length] = ClothLengthField(
            f"Along, {piece}", "The way the selvedge runs; a print stands this way.", self.units, is_second
        )
        self.fields[row.how_many] = ClothCountField(
            label="How many of the other" if is_second else "How many"
        )
        self.fields[row.fabric] = fabric_field(self.fabrics)

    def clean(self) -> None:
        for key, texts in self.repeated.items():
            if key not in self.errors:
                shown = " and ".join(f"“{shortened(text)}”" for text in texts[:3])
                self.add_error(key, f"It is given {len(texts)} times: {shown}. Write one.")
        cleaned = self.cleaned_data
        sides = [cleaned.get(key) for key in (SECOND.width, SECOND.length)]
        for key, side, other in zip((SECOND.width, SECOND.length), sides, sides[::-1], strict=True):
            if side is None and other is not None and key not in self.errors:
                self.add_error(key, "Its other side is written, this one is not. Write both, or neither.")
        if not self.errors and len(self.cloth) > MOST_SHEETS:
            self.add_error(
                FIRST.how_many,
                f"That is {len(self.cloth)} pieces of cloth together. Write {MOST_SHEETS} or fewer.",
            )
        if any(field.errors for field in (*self.size_fields, *self.print_fields)):
            self.add_error(None, "A measure or a choice of the pattern cannot be used.")  # said at its field

    @property
    def first_fields(self) -> list[forms.BoundField]:
        return [self[key] for key in (FIRST.width, FIRST.length, FIRST.how_many)]

    @property
    def second_fields(self) -> list[forms.BoundField]:
        return [self[key] for key in (SECOND.width, SECOND.length, SECOND.how_many)]

    @property
    def first_fabric(self) -> forms.BoundField:
        return self[FIRST.fabric]

    @property
    def second_fabric(self) -> forms.BoundField:
        return self[SECOND.fabric]

    @property
    def keep_field(self) -> forms.BoundField:
        return self[KEEP]

    @property
    def has_fabrics(self) -> bool:
        """Whether it is a question which fabric a piece of cloth is for."""
        return len(self.fabrics) > 1

    @property
    def is_second_open(self) -> bool:
        is_written = any(self[key].value() for key in (SECOND.width, SECOND.length))
        return is_written or any(self[key].errors for key in SECOND)

    @property
    def size_fields(self) -> list[forms.BoundField]:
        """The boxes of the measures that grow."""
        return [self.settings[in_address(measure.name)] for measure in self.grow]

    @property
    def print_fields(self) -> list[forms.BoundField]:
        return [self.settings[in_address(name)] for name in self.prints]

    @property
    def measure_fields(self) -> list[forms.BoundField]:
        return [*self.first_fields, *self.second_fields, *self.size_fields]

    @property
    def option_fields(self) -> list[forms.BoundField]:
        return [self.first_fabric, self.second_fabric, *self.print_fields, self.keep_field]

    @property
    def cloth(self) -> list[Cloth]:
        """The cloth, sheet by sheet."""
        cleaned, found = self.cleaned_data, []
        names = {in_address(name): name for name in self.fabrics}
        for row in (FIRST, SECOND):
            width, length = cleaned[row.width], cleaned[row.length]
            if width is not None and length is not None:
                found += [Cloth(width, length, names.get(cleaned[row.fabric]))] * cleaned[row.how_many]
        return found

    @property
    def keep(self) -> str | tuple[str, ...]:
        """What matters, as `from_cloth` is asked for it."""
        chosen = self.cleaned_data[KEEP]
        for measure in self.grow:
            if chosen == grows_key(measure.name):
                return tuple(other.name for other in self.grow if other is not measure)
        return str(chosen)

    @property
    def options(self) -> dict[str, str]:
        return self.settings.options

    @property
    def measures(self) -> dict[str, Fraction]:
        return self.settings.measures

    @property
    def _others(self) -> dict[str, Fraction]:
        """The measures that are not asked here."""
        asked = {measure.name for measure in self.grow}
        return {name: value for name, value in self.measures.items() if name not in asked}

    @property
    def counted_with(self) -> str:
        """What stays as it is: `interfacing light, seam allowance 1 cm`."""
        options = [f"{name} {choice}" for name, choice in self.options.items() if name not in self.prints]
        others = [
            f"{name} {as_chosen(value, self.recipe.measure(name).power, self.units)}"
            for name, value in self._others.items()
        ]
        return ", ".join([*options, *others])

    @property
    def kept(self) -> list[tuple[str, str]]:
        """The part of the address that is not asked here."""
        options = {name: choice for name, choice in self.options.items() if name not in self.prints}
        return parse_qsl(size_query(self.recipe, self.units, self._others, options))

    @property
    def back_query(self) -> str:
        """The query of the pattern's own page, at the size that is written here."""
        return size_query(self.recipe, self.units, self.measures, self.options)

    def size_query(self, measures: dict[str, Fraction]) -> str:
        """Return the query of the pattern's own page at a size."""
        return size_query(self.recipe, self.units, {**self._others, **measures}, self.options)

    @property
    def now(self) -> str:
        return UNIT_WORDS[self.units]

    @property
    def other(self) -> str:
        return UNIT_WORDS[self._other_units]

    @property
    def other_query(self) -> str:
        """The same options in the other units, nothing else: lengths are not converted."""
        return size_query(self.recipe, self._other_units, {}, self.options)

    @property
    def _other_units(self) -> Units:
        (other,) = set(Units) - {self.units}
        return other

    @property
    def presets(self) -> list[Preset]:
        """Usual pieces for the first row; what else is written stays, as far as it can be read."""
        found = []
        for cloth in KNOWN_CLOTH[self.units]:
            sides = {FIRST.width: cloth.width, FIRST.length: cloth.length}
            boxes = {key: self[key].value() or "" for key in CLOTH_KEYS}
            boxes |= {key: typed(side, 1, self.units) for key, side in sides.items()}
            words = sides_words(cloth.width, cloth.length, self.units)
            found.append(Preset(capitalised(cloth.name), words, f"{self.back_query}&{urlencode(boxes)}"))
        return found
