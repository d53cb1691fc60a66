"""By the cloth you have: what pieces of it there are, and what matters, read from the address of a page."""

from fractions import Fraction
from typing import NamedTuple

from django import forms

from patterns.addresses import CLOTH_KEYS, in_address, shortened
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
from patterns.drafting.lengths import as_chosen, sides_words, typed
from patterns.drafting.recipe import Recipe
from patterns.fields import Preset, capitalised
from patterns.forms import MeasureForm, in_a_row

*_ROW_KEYS, KEEP = CLOTH_KEYS


class Row(NamedTuple):
    """The keys of one kind of cloth."""

    width: str
    length: str
    how_many: str
    fabric: str


FIRST, SECOND = Row(*_ROW_KEYS[:4]), Row(*_ROW_KEYS[4:])
# Until both are written nothing has been asked, unless somebody pressed the button.
ASKED = (FIRST.width, FIRST.length)
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


class ClothForm(forms.Form):
    """The cloth that somebody has.

    settings: the measures and options of the same address: the size that they begin from.
    is_asked: whether a whole question was written, or looked for; until then nothing is a mistake.
    """

    def __init__(self, settings: MeasureForm) -> None:
        recipe, query = settings.recipe, settings.searched
        self.recipe, self.settings, self.units = recipe, settings, settings.units
        self.grow, self.fabrics = growing(recipe), fabrics_of(recipe)
        self.repeated = {key: texts for key in CLOTH_KEYS if len(texts := query.get(key, [])) > 1}
        given = {key: query[key][-1] for key in CLOTH_KEYS if key in query}
        self.is_asked = settings.looks_for_size or all(given.get(key, "").strip() for key in ASKED)
        usual = USUAL | given
        super().__init__(usual if self.is_asked else None, initial=usual)
        for row in (FIRST, SECOND):
            self._add_row(row)
        self.fields[KEEP] = keep_field(self.grow)

    def _add_row(self, row: Row) -> None:
        is_second = row is SECOND
        piece = "The other piece" if is_second else "One piece"
        self.fields[row.width] = ClothLengthField(
            f"{piece}, across", "From selvedge to selvedge, without them.", self.units, is_second
        )
        self.fields[row.length] = ClothLengthField(
            f"{piece}, along", "The way the selvedge runs; a print stands this way.", self.units, is_second
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
    def measure_fields(self) -> list[forms.BoundField]:
        return [*self.first_fields, *self.second_fields]

    @property
    def option_fields(self) -> list[forms.BoundField]:
        return [self.first_fabric, self.second_fabric, self.keep_field]

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
    def counted_with(self) -> str:
        """What stays as it is: `interfacing light, seam allowance 1 cm`."""
        grow = {measure.name for measure in self.grow}
        options = [f"{name} {choice}" for name, choice in self.options.items()]
        others = [
            f"{name} {as_chosen(value, self.recipe.measure(name).power, self.units)}"
            for name, value in self.measures.items()
            if name not in grow
        ]
        return ", ".join([*options, *others])

    @property
    def begins_from(self) -> str:
        """The size whose proportions count: `9 × 6 × 5 in`."""
        grow = {measure.name for measure in self.grow}
        own = {name: value for name, value in self.measures.items() if name in grow}
        return in_a_row(self.recipe, self.units, own)

    @property
    def presets(self) -> list[Preset]:
        """Usual pieces for the first row; what else is written stays, as far as it can be read."""
        found = []
        for cloth in KNOWN_CLOTH[self.units]:
            sides = {FIRST.width: cloth.width, FIRST.length: cloth.length}
            boxes = {key: typed(side, 1, self.units) for key, side in sides.items()}
            words = sides_words(cloth.width, cloth.length, self.units)
            query = self.settings.page_query(typed=boxes)
            found.append(Preset(capitalised(cloth.name), words, query, boxes))
        return found
