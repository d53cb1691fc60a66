"""The fields of a search by the cloth somebody has: a piece's sides, how many, what for, what matters."""

from fractions import Fraction

from django import forms

from patterns.addresses import in_address, shortened
from patterns.cutting.ladder import PROPORTIONS, VOLUME
from patterns.cutting.sheets import MOST_SHEETS
from patterns.drafting.lengths import as_chosen
from patterns.drafting.lists import listed
from patterns.drafting.recipe import Measure
from patterns.drafting.units import Units
from patterns.fields import Choice, capitalised
from patterns.typed_numbers import is_empty, typed_count, typed_length

# In the units of the form: ten metres, and a little more. A layout of longer cloth could not be read.
MOST_LONG = {Units.INCHES: 400, Units.CENTIMETRES: 1000}
ANY_FABRIC = "any"


class ClothLengthField(forms.Field):
    """A box for one side of a piece of cloth; gives mm, exact. may_be_empty: gives None then."""

    def __init__(self, label: str, says: str, units: Units, may_be_empty: bool = False) -> None:
        self.says, self.units, self.may_be_empty = says, units, may_be_empty
        super().__init__(label=label, required=False)

    def to_python(self, text: str | None) -> Fraction | None:
        if self.may_be_empty and is_empty(text):
            return None
        length = typed_length(text, self.units)
        most = MOST_LONG[self.units] * self.units.mm
        if not 0 < length <= most:
            problem = "is no piece of cloth" if not length else "is more than can be drawn"
            raise forms.ValidationError(
                f"{as_chosen(length, 1, self.units)} {problem}. Write a length above 0, up to "
                f"{as_chosen(most, 1, self.units)}."
            )
        return length


class ClothCountField(forms.Field):
    """A box for how many equal pieces of cloth there are."""

    units = ""
    says = f"Equal pieces, up to {MOST_SHEETS}."

    def to_python(self, text: str | None) -> int:
        return typed_count(text, MOST_SHEETS, "is not a number of pieces")


class RadioField(forms.Field):
    """Radio buttons; gives the key of the choice."""

    def __init__(self, label: str, choices: list[Choice]) -> None:
        self.choices = choices
        super().__init__(label=label, required=False)

    def to_python(self, text: str | None) -> str:
        if text not in {choice.key for choice in self.choices}:
            names = listed([choice.name for choice in self.choices], "or")
            raise forms.ValidationError(
                f"“{shortened(text or '')}” is not one of the choices. Choose {names}."
            )
        return text


def fabric_field(fabrics: tuple[str, ...]) -> RadioField:
    """Return the question which fabric a piece of cloth is for."""
    one_of_them = [Choice(in_address(name), capitalised(name), "") for name in fabrics]
    any_of_them = Choice(ANY_FABRIC, "Any of them", "Each piece of cloth serves one fabric.")
    return RadioField("It is for", [any_of_them, *one_of_them] if len(fabrics) > 1 else [any_of_them])


def keep_field(grow: tuple[Measure, ...]) -> RadioField:
    """Return the question what matters. grow: the measures that make the item larger."""
    names = [measure.name for measure in grow]
    one_grows = [
        Choice(
            grows_key(name),
            f"The largest {name}",
            f"The {listed([other for other in names if other != name], 'and the')} "
            f"{'stays' if len(names) == 2 else 'stay'} as written.",
        )
        for name in names
        if len(names) > 1
    ]
    return RadioField(
        "What matters",
        [
            Choice(PROPORTIONS, "The proportions", "All measures grow together, as you wrote them."),
            *one_grows,
            Choice(VOLUME, "The most room", "Whatever shape holds most; what you wrote does not count."),
        ],
    )


def grows_key(name: str) -> str:
    return f"grow-{in_address(name)}"
