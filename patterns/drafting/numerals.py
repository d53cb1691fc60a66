"""Numbers as a person writes them: `7`, `7.5`, `½`, `7½`, `7 ½`, `1/2`, `1⁄2`, `7 1/2`.

Everything that reads a number reads it here, exactly, and never by `Fraction(text)`, which takes
exponents, underscores and the digits of other scripts.
"""

import re
from fractions import Fraction

from .errors import DraftingError

# Far above anything that is sewn (9 digits of millimetres are 1,000 km), far below what would make
# exact arithmetic slow.
MOST_DIGITS = 9
MOST_DECIMALS = 6

VULGAR = {
    "½": Fraction(1, 2),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅐": Fraction(1, 7),
    "⅑": Fraction(1, 9),
    "⅒": Fraction(1, 10),
}
_VULGAR = "".join(VULGAR)
_NOT_GLUED = r"(?![0-9²³/⁄])"

# A fraction that a slash or a small ² or ³ follows at once is not read: it could mean two things.
PATTERN = (
    rf"[0-9]+[ \t]+[0-9]+[/⁄][0-9]+{_NOT_GLUED}"
    rf"|[0-9]+[ \t]*[{_VULGAR}]"
    rf"|[{_VULGAR}]"
    rf"|[0-9]+[/⁄][0-9]+{_NOT_GLUED}"
    r"|[0-9]+\.[0-9]+"
    r"|[0-9]+"
)
_NUMERAL = re.compile(PATTERN)
_PARTS = re.compile(
    rf"(?:(?P<whole>[0-9]+)[ \t]*)??(?:(?P<vulgar>[{_VULGAR}])|(?P<over>[0-9]+)[/⁄](?P<under>[0-9]+))"
    r"|(?P<decimal>[0-9]+(?:\.(?P<places>[0-9]+))?)"
)


class NumeralError(DraftingError):
    """A number that cannot be taken as written."""


def read_numeral(text: str) -> Fraction:
    """Return the exact number that `text`, all of which matches PATTERN, writes.

    Raises NumeralError: too many digits, a fraction over 0, a mixed number whose fraction is 1 or more.

    >>> read_numeral("7 1/2")
    Fraction(15, 2)
    """
    if not _NUMERAL.fullmatch(text):
        raise NumeralError(f"“{text}” is not a number. Write it like 7, 7.5, 7½ or 7 1/2.")
    _bound(text)
    parts = _PARTS.fullmatch(text)
    assert parts is not None  # PATTERN and _PARTS take the same texts
    if parts["decimal"]:
        return _decimal(parts["decimal"])
    whole = int(parts["whole"] or 0)
    if parts["vulgar"]:
        return whole + VULGAR[parts["vulgar"]]
    return whole + _fraction(text, int(parts["over"]), int(parts["under"]), parts["whole"] is not None)


def _bound(text: str) -> None:
    if any(len(digits) > MOST_DIGITS for digits in re.findall(r"(?<!\.)\b[0-9]+", text)):
        raise NumeralError(f"“{_shortened(text)}” is too long. Write at most {MOST_DIGITS} digits in a row.")
    decimals = text.partition(".")[2]
    if len(decimals) > MOST_DECIMALS:
        raise NumeralError(
            f"“{_shortened(text)}” is too fine. Write at most {MOST_DECIMALS} digits after the point."
        )


def _decimal(text: str) -> Fraction:
    whole, _, places = text.partition(".")
    return Fraction(int(whole + places), 10 ** len(places))


def _fraction(text: str, over: int, under: int, is_mixed: bool) -> Fraction:
    if under == 0:
        raise NumeralError(f"“{text}” divides by 0. Write another number under the stroke.")
    if is_mixed and over >= under:
        whole = text.split()[0]
        raise NumeralError(
            f"“{text}” has a fraction of 1 or more beside the {whole}. "
            f"Write {whole} + {over}/{under}, or a fraction smaller than 1."
        )
    return Fraction(over, under)


def _shortened(text: str) -> str:
    return text if len(text) <= 20 else f"{text[:19]}…"


def mixed(value: Fraction) -> str:
    """Return an exact number as whole and fraction: `7 1/2`, `-3/8`, `12`.

    >>> mixed(Fraction(15, 2))
    '7 1/2'
    """
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value.numerator), value.denominator)
    if not rest:
        return f"{sign}{whole}"
    fraction = f"{rest}/{value.denominator}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def decimal_text(value: Fraction) -> str | None:
    """Return an exact number with a decimal point, or None if it has no end within the decimals we read.

    >>> decimal_text(Fraction(381, 20))
    '19.05'
    """
    scaled = value * 10**MOST_DECIMALS
    if scaled.denominator != 1:
        return None
    sign = "-" if value < 0 else ""
    whole, places = divmod(abs(scaled.numerator), 10**MOST_DECIMALS)
    tail = f"{places:0{MOST_DECIMALS}d}".rstrip("0")
    return f"{sign}{whole}.{tail}" if tail else f"{sign}{whole}"
