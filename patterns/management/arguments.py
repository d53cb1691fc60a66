"""A size as it is written on the command line: `width=8 1/2 seam-allowance=1cm --option interfacing=none`."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import TypeVar

from patterns.drafting.errors import DraftingError
from patterns.drafting.formulas.grammar import tidy_name
from patterns.drafting.lengths import LengthError, read_length, read_number
from patterns.drafting.recipe import Measure, Option, Recipe
from patterns.drafting.units import Units

Item = TypeVar("Item", Measure, Option)


class ArgumentError(DraftingError):
    """A word of the command line that cannot be read; the text names it and the mend."""


def read_measures(recipe: Recipe, words: Iterable[str], units: Units) -> Mapping[str, Fraction]:
    """Return the measures that `name=value …` gives: mm, or bare numbers.

    Names may have hyphens for spaces; a typed unit wins over `units`.
    Raises ArgumentError: no such measure, one twice, a value that cannot be read.
    """
    known = {measure.name: measure for measure in recipe.measures}
    return {
        measure.name: _measured(measure, value, units)
        for measure, value in _pairs(words, known, "measure", "width=8 1/2")
    }


def read_options(recipe: Recipe, words: Iterable[str]) -> Mapping[str, str]:
    """Return the choices that `name=choice …` gives. Raises ArgumentError."""
    known = {option.name: option for option in recipe.options}
    return {
        option.name: _choice(option, value)
        for option, value in _pairs(words, known, "option", "interfacing=none")
    }


def whole_number(name: str, text: str, most: int) -> int:
    """Return a whole number from 1 to the most. name: as a message calls it, `--count`.

    Raises ArgumentError.
    """
    try:
        number = read_number(text)
    except LengthError as error:
        raise ArgumentError(f"{name}: {error}") from None
    if number.denominator != 1 or not 1 <= number <= most:
        raise ArgumentError(f"{name}: “{text}” is not a whole number from 1 to {most:,}.")
    return int(number)


def _pairs(
    words: Iterable[str], known: Mapping[str, Item], what: str, example: str
) -> Iterator[tuple[Item, str]]:
    given = set()
    for word in words:
        name, is_pair, value = word.partition("=")
        name = tidy_name(name.replace("-", " "))
        if not is_pair:
            raise ArgumentError(f"“{word}” is not a {what}. Write it like {example}.")
        if name not in known:
            raise ArgumentError(f"There is no {what} “{name}”. There are: {', '.join(known) or 'none'}.")
        if name in given:
            raise ArgumentError(f"The {what} “{name}” is given twice. Give it once.")
        given.add(name)
        yield known[name], value


def _measured(measure: Measure, value: str, units: Units) -> Fraction:
    try:
        return read_length(value, units) if measure.power else read_number(value)
    except LengthError as error:
        raise ArgumentError(f"{measure.name}: {error}") from None


def _choice(option: Option, value: str) -> str:
    for choice in option.choices:
        if _plain(choice.name) == _plain(value):
            return choice.name
    choices = ", ".join(choice.name for choice in option.choices)
    raise ArgumentError(f"“{value}” is no choice of “{option.name}”. There are: {choices}.")


def _plain(choice: str) -> str:
    """`No. 3 coil` may be written no-3-coil."""
    return tidy_name(choice.replace("-", " ").replace(".", ""))
