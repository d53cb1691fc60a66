"""Lengths as people read and write them; inside they are exact millimetres."""

import re
import unicodedata
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from .errors import DraftingError
from .formulas.values import DIGITS
from .formulas.working import number_text
from .numerals import PATTERN, NumeralError, read_numeral
from .rounding import for_people, in_litres, in_units
from .units import MILLIMETRES, Units

# Longer than any way to write a length that we read.
MOST_CHARACTERS = 40
_DECIMAL_COMMA = r"[0-9]+,[0-9]+"
_LENGTH = re.compile(
    rf"(?P<number>{_DECIMAL_COMMA}|{PATTERN})[ \t]*(?P<unit>[^\W\d_]+|[\"″”]|'')?", re.IGNORECASE
)
_MARKS = {'"': "in", "″": "in", "”": "in", "''": "in", "inch": "in", "inches": "in"}
_SIX_DECIMALS = Decimal("0.000001")
VOLUME = 3
_POWERS = {0: "", 1: "", 2: "²", 3: "³"}


class LengthError(DraftingError):
    """A length that cannot be read; the text says what was typed, what is wrong and what to write."""


class Written(NamedTuple):
    """A number for people. text: with its unit, and ≈ before it when it was rounded."""

    text: str
    rounded: bool


def read_length(text: str, units: Units) -> Fraction:
    """Return a length in mm, exact. A number without a unit is in `units`.

    Raises LengthError.

    >>> read_length("7 1/2", Units.INCHES)
    Fraction(381, 2)
    >>> read_length("19,5 cm", Units.INCHES)
    Fraction(195, 1)
    """
    number, unit = _parts(text, "length", "Write in, cm or mm.")
    return number * MILLIMETRES[unit or units.value]


def read_number(text: str) -> Fraction:
    """Return a bare number, exact. Raises LengthError, also when a unit stands behind it."""
    number, unit = _parts(text, "number", "Leave it out.")
    if unit:
        raise LengthError(
            f"“{text.strip()}” has a unit, but a number is wanted here. Write it without “{unit}”."
        )
    return number


def _parts(text: str, wanted: str, unit_mend: str) -> tuple[Fraction, str | None]:
    typed = unicodedata.normalize("NFC", text).strip()
    if not typed:
        raise LengthError(f"There is no {wanted} here. Write one, like 7 1/2.")
    if len(typed) > MOST_CHARACTERS:
        raise LengthError(f"{len(typed)} characters are too long for a {wanted}. Write one, like 7 1/2.")
    shown = "".join(sign if sign.isprintable() else "�" for sign in typed)
    match = _LENGTH.fullmatch(typed)
    if match is None:
        raise LengthError(f"“{shown}” is not a {wanted}. {_mend(typed)}")
    unit = match["unit"]
    unit = _MARKS.get(unit.lower(), unit.lower()) if unit else None
    if unit is not None and unit not in MILLIMETRES:
        raise LengthError(f"“{shown}” is not a {wanted}: “{match['unit']}” is not a unit. {unit_mend}")
    return _number(match["number"], shown), unit


def _number(numeral: str, shown: str) -> Fraction:
    if re.fullmatch(r"[0-9]+,[0-9]{3}", numeral):
        point, whole = numeral.replace(",", "."), numeral.replace(",", "")
        raise LengthError(f"“{shown}” could mean two numbers. Write {point} or {whole}.")
    try:
        return read_numeral(numeral.replace(",", "."))
    except NumeralError as error:
        raise LengthError(str(error)) from None


def _mend(typed: str) -> str:
    if typed[0] in "-−–" and re.match(r"[-−–][ \t]*[0-9½¼¾⅛⅜⅝⅞.]", typed):
        return "A size is never less than nothing. Write it without the minus."
    if re.search(r"[0-9]e[+-]?[0-9]", typed, re.IGNORECASE):
        return "Write the number out."
    return "Write it like 7, 7.5, 7½ or 7 1/2."


def typed(value: Fraction | Decimal, power: int, units: Units) -> str:
    """Return a number as one would type it, exact, without unit: `7 1/2` or `19.5`. It reads back equal.

    >>> typed(Fraction(195), 1, Units.CENTIMETRES)
    '19.5'
    """
    return number_text(in_units(value, power, units), units, power)


def exact(value: Fraction | Decimal, power: int, units: Units) -> str:
    """Return a number for scripts: lowest terms, `15/2`; one without an end has six decimals, halves up."""
    there = in_units(value, power, units)
    if isinstance(there, Fraction):
        return str(there)
    return f"{there.quantize(_SIX_DECIMALS, ROUND_HALF_UP, DIGITS):f}"


def written(value: Fraction | Decimal, power: int, units: Units) -> Written:
    """Return a result for people, to the cutting precision: `7 1⁄2 in`, `≈ 19.1 cm`, `4.14 l`."""
    if power == VOLUME and (litres := in_litres(value, units)):
        shown, was_rounded = litres
        text = f"{number_text(shown, units, power)} l"
    else:
        shown, was_rounded = for_people(value, power, units)
        text = with_unit(number_text(shown, units, power), power, units)
    return Written(f"≈ {text}" if was_rounded else text, was_rounded)


def sides_words(width: Fraction | Decimal, height: Fraction | Decimal, units: Units) -> str:
    """Return two lengths with one unit, for the person who cuts; ≈ before the first may stand for both.

    >>> sides_words(21 * Units.INCHES.mm, 18 * Units.INCHES.mm, Units.INCHES)
    '21 × 18 in'
    """
    first, second = (written(side, 1, units).text for side in (width, height))
    number = first.rsplit(maxsplit=1)[0]
    return f"{number} × {second.removeprefix('≈ ') if number.startswith('≈') else second}"


@lru_cache(maxsize=1024)
def as_chosen(value: Fraction | Decimal, power: int, units: Units) -> str:
    """Return a measure just as it was chosen, exact, with its unit: `4 5⁄16 in`."""
    return with_unit(typed(value, power, units), power, units)


def with_unit(number: str, power: int, units: Units) -> str:
    """Return a number in plain letters set for people: a true fraction stroke, and the unit."""
    unit = f" {units.value}{_POWERS[power]}" if power else ""
    return f"{typeset(number)}{unit}"


def typeset(text: str) -> str:
    """Return the text with each 1/2 set as a fraction, by U+2044."""
    return re.sub(r"(?<![0-9/])([0-9]+)/([0-9]+)(?![0-9/])", "\\1\u2044\\2", text)
