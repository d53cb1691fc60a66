"""The fields of the section “Cloth and everything else to buy”: what cloth, how wide, at what price."""

from fractions import Fraction

from django import forms

from patterns.addresses import in_address, shortened
from patterns.cutting.choices import MOST_ITEMS
from patterns.cutting.forms import ClothForm, usual
from patterns.cutting.shrinkage import MOST_PER_CENT
from patterns.drafting.lengths import typed, typeset
from patterns.drafting.lists import listed
from patterns.drafting.recipe import MaterialKind
from patterns.drafting.units import Units
from patterns.fields import Choice, capitalised
from patterns.typed_numbers import is_empty, typed_amount, typed_count, typed_length, typed_number

# Wider cloth is not woven, and narrower one is a ribbon.
WIDTHS = {Units.INCHES: (1, 200), Units.CENTIMETRES: (3, 500)}
# A longer repeat is a picture and not a print.
MOST_REPEAT = {Units.INCHES: 80, Units.CENTIMETRES: 200}
YES = "yes"


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
        if is_empty(text):
            return None
        width = typed_length(text, self.units)
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
        value = typed_number(written)
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
        if is_empty(text):
            return 1
        return typed_count(text, MOST_ITEMS, "cannot be made at once")


class PriceField(forms.Field):
    """A box that takes what a length or a piece costs, in minor units; empty gives None."""

    def __init__(self, currency: str, label: str, says: str) -> None:
        self.says, self.unit = says, currency
        super().__init__(label=label, required=False, initial="")

    def to_python(self, text: str | None) -> int | None:
        if is_empty(text):
            return None
        return typed_amount(text, self.unit)


class RepeatField(forms.Field):
    """A box that takes how long the repeat of a print is, mm; empty gives None."""

    def __init__(self, units: Units, label: str, says: str) -> None:
        self.says, self.units, self.unit = says, units, units.value
        super().__init__(label=label, required=False, initial="")

    def to_python(self, text: str | None) -> Fraction | None:
        if is_empty(text):
            return None
        repeat = typed_length(text, self.units)
        most = MOST_REPEAT[self.units]
        if not 0 < repeat <= most * self.units.mm:
            raise forms.ValidationError(
                f"“{shortened(text or '')}” is no repeat of a print. "
                f"Write a length above 0, up to {most} {self.units}."
            )
        return repeat


class FabricField(forms.Field):
    """A list of the fabrics; gives the name of one, empty for all of them."""

    def __init__(self, fabrics: tuple[str, ...], label: str, says: str) -> None:
        self.fabrics, self.says = fabrics, says
        each = [Choice(in_address(name), capitalised(name), "") for name in fabrics]
        self.groups = [("", [Choice("", "All its fabrics", ""), *each])]
        super().__init__(label=label, required=False, initial="")

    def to_python(self, text: str | None) -> str:
        key = (text or "").strip().casefold()
        name = next((name for name in ("", *self.fabrics) if in_address(name).casefold() == key), None)
        if name is None:
            names = listed(self.fabrics, "or")
            raise forms.ValidationError(f"“{shortened(text or '')}” is none of its fabrics. Choose {names}.")
        return name


class TickField(forms.Field):
    """A box to tick; gives whether it is."""

    is_tick = True

    def __init__(self, label: str, says: str) -> None:
        self.says = says
        super().__init__(label=label, required=False, initial="")

    def to_python(self, text: str | None) -> bool:
        if (text or "").strip().casefold() not in ("", YES):
            raise forms.ValidationError(
                f"“{shortened(text or '')}” is no tick. Write {YES}, or leave it out."
            )
        return bool((text or "").strip())
