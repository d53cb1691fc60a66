"""Which names a formula can hold, and what to call a thing whose name it cannot."""

import re
import unicodedata
from functools import lru_cache

from patterns.drafting.errors import FormulaError
from patterns.drafting.formulas.grammar import PHRASES, RESERVED, read, tidy_name
from patterns.drafting.formulas.tree import Name
from patterns.drafting.numerals import VULGAR

from .keys import shown

# A name stands in a table cell and in formulas of at most 500 characters.
MOST_LETTERS = 60

_DASH = re.compile(r"[-‐‑‒–—―−]")
_NUMBER = re.compile(rf"(?<![^\W\d_])[0-9]+(?:[.,/⁄][0-9]+)*|[{''.join(VULGAR)}]")
_RESERVED = re.compile(rf"(?<![^\W_'])(?:{'|'.join(RESERVED)})(?![^\W_'])|π")
_PHRASE = re.compile(rf"\b(?:{'|'.join(PHRASES)})\b")
_NEITHER_LETTER_NOR_SPACE = re.compile(r"[^\w' ]|[_\d](?<![0-9])")
_UP_TO_TEN = ("nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_IN_WORDS = {str(number): word for number, word in enumerate(_UP_TO_TEN)} | {"½": "half", "¼": "quarter"}


def tidied(name: str) -> str:
    """Return any name of a recipe as it is kept: NFC, lower case, one space between its words."""
    return tidy_name(unicodedata.normalize("NFC", name))


def name_mistake(name: str) -> str | None:
    """Return what is wrong with a tidied name for formulas, and a better one; None if it is good.

    >>> name_mistake("one-way width")
    '“one-way width” cannot be a name: a hyphen is read as minus. Call it “one way width”.'
    """
    if is_name(name):
        return None
    if not name:
        return "A name is missing. Write one."
    if len(name) > MOST_LETTERS:
        return too_long(name)
    proposal = _proposal(name)
    mend = f"Call it “{proposal}”." if proposal else "Write it with letters and spaces only."
    return f"“{name}” cannot be a name: {_reason(name)}. {mend}"


def too_long(name: str) -> str:
    """Return the sentence about a name with too many letters."""
    return f"“{shown(name)}” is too long for a name: {len(name)} characters, {MOST_LETTERS} are the most."


@lru_cache(maxsize=1024)
def is_name(name: str) -> bool:
    """Whether a formula reads these words as one name."""
    if len(name) > MOST_LETTERS:
        return False
    try:
        return read(name) == Name(name)
    except FormulaError:
        return False


def _reason(name: str) -> str:
    if _DASH.search(name):
        return "a hyphen is read as minus"
    if found := _PHRASE.search(name):
        return f"“{found[0]}” has a meaning in formulas"
    if found := _RESERVED.search(name):
        return f"“{found[0]}” has a meaning in formulas"
    if found := _NUMBER.search(name):
        return f"“{found[0]}” is read as a number"
    strange = next((sign for sign in name if not (sign.isalpha() or sign in " '0123456789")), name[0])
    return f"“{strange}” has no place in one"


def _proposal(name: str) -> str | None:
    """The name without what it cannot hold, if anything good is left."""
    words = _DASH.sub(" ", name)
    words = _PHRASE.sub(lambda found: found[0].split()[0], words)
    words = _NUMBER.sub(lambda found: f" {_in_words(found[0])} ", words)
    words = _RESERVED.sub(" ", words)
    words = tidied(_NEITHER_LETTER_NOR_SPACE.sub(" ", words))
    return words if is_name(words) else None


def _in_words(number: str) -> str:
    return _IN_WORDS.get(number, "")
