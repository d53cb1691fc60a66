"""The fields of the measure form: a box that takes a length as a person writes it, and an option."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from django import forms

from patterns.addresses import choice_in_address, shortened
from patterns.drafting.lengths import LengthError, as_chosen, read_length, read_number, typed, typeset
from patterns.drafting.lists import listed
from patterns.drafting.recipe import Measure, Option, OptionChoice
from patterns.drafting.units import Units


@dataclass(frozen=True, slots=True)
class OfferedSize:
    """A size that a link offers. typed: what it puts into which box, without loading the page again."""

    name: str
    words: str
    query: str
    typed: Mapping[str, str]

    @property
    def typed_json(self) -> str:
        return json.dumps(self.typed)


@dataclass(frozen=True, slots=True)
class Preset(OfferedSize):
    """A thing or a cloth of a usual size: a link that puts it into the boxes of a search."""


class MeasureField(forms.Field):
    """A text box that takes a length (or a bare number) as a person writes it, and gives mm, exact.

    set_by, set_value: where an option may set the measure, its name and what it sets now. The box may then
    be empty, which gives None. end: the end of the range that was passed. mend: a size with that end put in.
    """

    set_by = ""
    set_value: Fraction | None = None
    end: Fraction | None = None
    mend: OfferedSize | None = None

    def __init__(self, measure: Measure, units: Units) -> None:
        self.measure, self.units = measure, units
        self.scale = measure.scales[units]
        label = capitalised(measure.name)
        super().__init__(label=label, required=False, initial=self.typed(self.scale.default))

    def typed(self, value: Fraction) -> str:
        return typed(value, self.measure.power, self.units)

    def written(self, value: Fraction) -> str:
        return as_chosen(value, self.measure.power, self.units)

    @property
    def range_words(self) -> str:
        """From the least to the most: `3 to 20 in`."""
        return f"{typeset(self.typed(self.scale.least))} to {self.written(self.scale.most)}"

    @property
    def steps(self) -> int:
        """How many steps the slider has; the last may end short of the range."""
        return int((self.scale.most - self.scale.least) / self.scale.step)

    @property
    def least_typed(self) -> str:
        return self.typed(self.scale.least)

    @property
    def step_typed(self) -> str:
        return self.typed(self.scale.step)

    @property
    def set_words(self) -> str:
        """What an empty box stands for: `Leave it empty for 1 in, which goes with the zip size.`"""
        if self.set_value is None:
            return ""
        return f"Leave it empty for {self.written(self.set_value)}, which goes with the {self.set_by}."

    @property
    def set_typed(self) -> str:
        return "" if self.set_value is None else self.typed(self.set_value)

    def let_be_set(self, option: str, chosen: OptionChoice | None) -> None:
        """Take what a choice of the option sets; the default where it sets nothing."""
        sets = {value.name: value.values[self.units] for value in (chosen.sets if chosen else ())}
        usual = self.scale.default if self.set_value is None else self.set_value
        self.set_by, self.set_value, self.initial = option, sets.get(self.measure.name, usual), ""

    def to_python(self, text: str | None) -> Fraction | None:
        if self.set_value is not None and not (text or "").strip():
            return None
        try:
            return read_length(text or "", self.units) if self.measure.power else read_number(text or "")
        except LengthError as error:
            raise forms.ValidationError(f"{error} It may be {self.range_words}.") from None

    def validate(self, value: Fraction | None) -> None:
        if value is None or self.scale.least <= value <= self.scale.most:
            return
        is_low = value < self.scale.least
        self.end = self.scale.least if is_low else self.scale.most
        raise forms.ValidationError(
            f"{self.written(value)} is {'less' if is_low else 'more'} than this pattern is made for. "
            f"It may be {self.range_words}."
        )


@dataclass(frozen=True, slots=True)
class Choice:
    key: str
    name: str
    says: str


class OptionField(forms.Field):
    """One of a recipe's options: radio buttons; gives the name of the choice."""

    def __init__(self, option: Option) -> None:
        self.option = option
        self.choices = [Choice(choice_in_address(each.name), each.name, each.says) for each in option.choices]
        super().__init__(
            label=capitalised(option.name), required=False, initial=choice_in_address(option.default)
        )

    def chosen(self, text: str) -> OptionChoice | None:
        """The choice that a text of an address names."""
        key = choice_in_address(text)
        return next((each for each in self.option.choices if choice_in_address(each.name) == key), None)

    def to_python(self, text: str | None) -> str:
        choice = self.chosen(text or "")
        if choice is None:
            names = listed([each.name for each in self.choices], "or")
            typed_in = shortened(text or "")
            raise forms.ValidationError(f"“{typed_in}” is not one of the choices. Choose {names}.")
        return choice.name


def capitalised(words: str) -> str:
    return words[:1].upper() + words[1:]
