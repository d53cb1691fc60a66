"""Sizes as the command line writes them: `14.8x21x0.4cm`, the unit once, at the end, for all."""

import re
from fractions import Fraction

from patterns.drafting.lengths import LengthError, read_length
from patterns.drafting.units import Units
from patterns.management.arguments import ArgumentError

_TIMES = re.compile(r"[x×]", re.IGNORECASE)
_UNIT = re.compile(r"(?:[a-z]+|[\"″”]|'')\Z", re.IGNORECASE)


def unit_at_end(text: str) -> str | None:
    """Return the unit that a length or a size ends with, as it is typed.

    >>> unit_at_end("14.8x21cm"), unit_at_end("7x8½")
    ('cm', None)
    """
    unit = _UNIT.search(text.strip())
    return unit[0] if unit else None


def read_extent(text: str, sides: int, units: Units) -> tuple[Fraction, ...]:
    """Return the sides of `AxB` or `AxBxC` in mm, exact; a unit at the end wins over `units`.

    Raises ArgumentError: not so many sides, one that cannot be read, one that is nothing.

    >>> read_extent("14.8x21x0.4cm", 3, Units.INCHES)
    (Fraction(148, 1), Fraction(210, 1), Fraction(4, 1))
    """
    example = "x".join(("21", "29.7", "0.5")[:sides])
    numbers = _TIMES.split(text)
    if len(numbers) != sides:
        raise ArgumentError(f"“{text}” is not a size. Write {sides} lengths like {example}.")
    written = unit_at_end(text) or ""
    lengths = [*(f"{number}{written}" for number in numbers[:-1]), numbers[-1]]
    try:
        extent = tuple(read_length(each, units) for each in lengths)
    except LengthError as error:
        raise ArgumentError(f"{text}: {error}") from None
    if not all(extent):
        raise ArgumentError(f"“{text}” has a side of nothing. Write lengths above 0, like {example}.")
    return extent
