"""What somebody says of the cloth they buy, read from the address of the pattern's own page."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from django import forms
from django.utils.http import urlencode

from patterns.addresses import BUYING_KEYS, shortened
from patterns.cutting.choices import MOST_ITEMS
from patterns.cutting.forms import SHOP_STEPS, ClothForm, usual
from patterns.cutting.sheets import Length
from patterns.cutting.shopping_words import per_cent, shop_length
from patterns.cutting.shrinkage import MOST_PER_CENT
from patterns.cutting.wish import Wish, form_named
from patterns.drafting.lengths import LengthError, as_chosen, read_length, read_number, typed, typeset
from patterns.drafting.lists import listed
from patterns.drafting.recipe import MaterialKind, Recipe
from patterns.drafting.units import Units
from patterns.fields import Choice

CLOTH, WIDTH, ROLL, ROLL_WIDTH, SHRINKS, MAKE = BUYING_KEYS
# Wider cloth is not woven, and narrower one is a ribbon.
WORDS = {
    CLOTH: "cloth",
    WIDTH: "measured width",
    ROLL: "interfacing roll",
    ROLL_WIDTH: "measured roll",
    SHRINKS: "shrinkage",
    MAKE: "number to make",
}
WIDTHS = {Units.INCHES: (1, 200), Units.CENTIMETRES: (3, 500)}


def form_in_address(name: str) -> str:
    """Return the name of a cloth form as an address writes it.

    >>> form_in_address("precut 2 1⁄2 in strip")
    'precut-2-1-2-in-strip'
    """
    return name.casefold().replace(" ", "-").replace("⁄", "-")


class FormField(forms.Field):
    """A list of the usual forms of a material; gives the name of one, empty for the usual one."""

    def __init__(self, kind: MaterialKind, units: Units, label: str, says: str, usual_words: str) -> None:
        self.kind, self.units, self.says = kind, units, says
        self.forms = usual(units, kind)
        self.groups = [
            ("", [Choice("", usual_words, "")]),
            ("Sold by length", [self._choice(form) for form in self.forms.values() if form.is_by_length]),
            (
                "Sold as a piece",
                [self._choice(form) for form in self.forms.values() if not form.is_by_length],
            ),
        ]
        super().__init__(label=label, required=False, initial="")

    def _choice(self, form: ClothForm) -> Choice:
        usable = [form.usable_width, *([] if form.height is None else [Fraction(form.height)])]
        words = " × ".join(typeset(typed(side, 1, self.units)) for side in usable)
        can = "" if form.is_by_length and not form.edges else f", of which {words} {self.units} can be used"
        return Choice(form_in_address(form.name), form.name, can)

    def to_python(self, text: str | None) -> str:
        key = form_in_address((text or "").strip())
        if not key:
            return ""
        name = next((name for name in self.forms if form_in_address(name) == key), None)
        if name is None:
            names = listed(list(self.forms), "or")
            raise forms.ValidationError(f"“{shortened(text or '')}” is not on the list. Choose {names}.")
        return name


class WidthField(forms.Field):
    """A box that takes a measured width; empty gives None."""

    def __init__(self, units: Units, label: str, says: str) -> None:
        self.says, self.units, self.unit = says, units, units.value
        super().__init__(label=label, required=False, initial="")

    def to_python(self, text: str | None) -> Fraction | None:
        if not (text or "").strip():
            return None
        try:
            width = read_length(text or "", self.units)
        except LengthError as error:
            raise forms.ValidationError(str(error)) from None
        least, most = WIDTHS[self.units]
        if not least * self.units.mm <= width <= most * self.units.mm:
            raise forms.ValidationError(
                f"“{shortened(text or '')}” is no width of cloth. Write {least} to {most} {self.units}."
            )
        return width


class PerCentField(forms.Field):
    """A box that takes how much cloth shrinks, per cent; empty is nothing."""

    unit = "%"

    def __init__(self, label: str, says: str) -> None:
        self.says = says
        super().__init__(label=label, required=False, initial="")

    def to_python(self, text: str | None) -> Fraction:
        written = (text or "").strip().removesuffix("%")
        if not written.strip():
            return Fraction(0)
        try:
            value = read_number(written)
        except LengthError as error:
            raise forms.ValidationError(str(error)) from None
        if not 0 <= value <= MOST_PER_CENT:
            raise forms.ValidationError(
                f"“{shortened(text or '')}” is more than cloth shrinks. Write 0 to {MOST_PER_CENT}."
            )
        return value


class HowManyField(forms.Field):
    """A box that takes how many are made; empty is one."""

    unit = ""

    def __init__(self, label: str, says: str) -> None:
        self.says = says
        super().__init__(label=label, required=False, initial="1")

    def to_python(self, text: str | None) -> int:
        if not (text or "").strip():
            return 1
        try:
            number = read_number(text or "")
        except LengthError as error:
            raise forms.ValidationError(str(error)) from None
        if number.denominator != 1 or not 1 <= number <= MOST_ITEMS:
            raise forms.ValidationError(
                f"“{shortened(text or '')}” cannot be made at once. "
                f"Write a whole number from 1 to {MOST_ITEMS}."
            )
        return int(number)


class BuyingForm(forms.Form):
    """The cloth that is bought. Nothing said is the usual; what the recipe has no cloth for is not asked.

    given: the texts of an address by `BUYING_KEYS`.
    """

    def __init__(self, recipe: Recipe, units: Units, given: Mapping[str, Sequence[str]]) -> None:
        self.units = units
        self.repeated = {key: texts for key, texts in given.items() if len(texts) > 1}
        fields = _fields(recipe, units)
        super().__init__(
            {key: given[key][-1] if given.get(key) else field.initial for key, field in fields.items()}
        )
        self.fields.update(fields)
        self.full_clean()

    def clean(self) -> None:
        for key, texts in self.repeated.items():
            if key in self.fields and key not in self.errors:
                shown = " and ".join(f"“{shortened(text)}”" for text in texts[:3])
                self.add_error(key, f"It is given {len(texts)} times: {shown}. Write one.")
        name, width = self.cleaned_data.get(CLOTH), self.cleaned_data.get(WIDTH)
        if name and width and not form_named(self.units, "fabric", name).is_by_length:
            self.add_error(
                WIDTH, f"A {name} has a width of its own. Leave this empty, or choose cloth sold by length."
            )

    @property
    def boxes(self) -> list[forms.BoundField]:
        return list(self)

    @property
    def wanting(self) -> list[str]:
        """What must be mended, in words."""
        return [WORDS[key] for key in self.errors]

    @property
    def wish(self) -> Wish:
        """What was said and could be read. Raises CuttingError: that makes no sense together."""
        read = self.cleaned_data
        return Wish(
            form=read.get(CLOTH, ""),
            width=read.get(WIDTH),
            interfacing=read.get(ROLL, ""),
            interfacing_width=read.get(ROLL_WIDTH),
            shrinkage=read.get(SHRINKS, Fraction(0)),
            count=read.get(MAKE, 1),
        )

    @property
    def query(self) -> str:
        """The part of an address that brings back what is said; empty where all is usual."""
        wish, pairs = self.wish, {}
        for key, name in ((CLOTH, wish.form), (ROLL, wish.interfacing)):
            if name:
                pairs[key] = form_in_address(name)
        for key, width in ((WIDTH, wish.width), (ROLL_WIDTH, wish.interfacing_width)):
            if width is not None:
                pairs[key] = typed(Fraction(width), 1, self.units)
        if wish.shrinkage:
            pairs[SHRINKS] = typed(wish.shrinkage, 0, self.units)
        if wish.count != 1:
            pairs[MAKE] = str(wish.count)
        return urlencode(pairs)

    @property
    def other_units_query(self) -> str:
        """What of it holds in the other unit system too."""
        kept = {SHRINKS: typed(self.wish.shrinkage, 0, self.units)} if self.wish.shrinkage else {}
        return urlencode({**kept, **({MAKE: str(self.wish.count)} if self.wish.count != 1 else {})})

    @property
    def words(self) -> str:
        """What is not the usual: `fat quarter; interfacing 45 in wide; 3 to make`. Empty where all is."""
        wish = self.wish
        width, roll = self._wide(wish.width), self._wide(wish.interfacing_width)
        parts = [
            f"cloth {width}" if width else wish.form,
            f"interfacing {roll or wish.interfacing}" if roll or wish.interfacing else "",
            f"the cloth shrinks {per_cent(wish.shrinkage)}" if wish.shrinkage else "",
            f"{wish.count} to make" if wish.count > 1 else "",
        ]
        return "; ".join(part for part in parts if part)

    def _wide(self, width: Length | None) -> str:
        return "" if width is None else f"{as_chosen(Fraction(width), 1, self.units)} wide"


def _fields(recipe: Recipe, units: Units) -> dict[str, forms.Field]:
    kinds = {material.kind for material in recipe.materials}
    step = shop_length(SHOP_STEPS[units][0], units)
    found: dict[str, forms.Field] = {}
    if "fabric" in kinds:
        found[CLOTH] = FormField(
            "fabric",
            units,
            "Cloth",
            f"Sold by length means in steps of {step}.",
            _usual_words(units, "fabric"),
        )
        found[WIDTH] = WidthField(
            units, "Or the width you measured", "Between the selvedges; all of it is used."
        )
    if "interfacing" in kinds:
        says = "How wide the roll is that yours is cut from."
        found[ROLL] = FormField(
            "interfacing", units, "Interfacing roll", says, _usual_words(units, "interfacing")
        )
        found[ROLL_WIDTH] = WidthField(units, "Or the roll you measured", "From edge to edge.")
    if "fabric" in kinds:
        says = "In its first wash, both ways; empty for none."
        found[SHRINKS] = PerCentField("The cloth shrinks", says)
    found[MAKE] = HowManyField("How many to make", f"All of this size, laid together. Up to {MOST_ITEMS}.")
    return found


def _usual_words(units: Units, kind: MaterialKind) -> str:
    first = next(iter(usual(units, kind).values()))
    return f"Usual: {first.name}, or wider"
