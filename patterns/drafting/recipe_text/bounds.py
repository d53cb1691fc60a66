"""The bounds of a recipe text that hold before anything parses it."""

import re
import unicodedata
from collections.abc import Iterator

from patterns.drafting.errors import Mistake, RecipeTextError

# The longest starter has 20 KB; ten times that leaves room and is still read in a blink.
MOST_BYTES = 200_000
# A long paragraph has 1,000 bytes. A line that is longer than this holds no sentence but a trap: one dotted
# key of 60 KB keeps the TOML parser busy for 10 s and takes 3 GB.
MOST_LINE_BYTES = 2_000
# More than anyone mends in one go; an answer stays short enough to be shown as a page.
MOST_MISTAKES = 200

# Control characters other than tab and newline; what parts lines or marks the byte order; signs that turn the
# direction of reading, so that a text looks different from what it says; and what is no character at all.
_NO_CHARACTERS = "".join(
    f"{chr(plane + 0xFFFE)}{chr(plane + 0xFFFF)}" for plane in range(0, 0x110000, 0x10000)
)
_ODD = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ufeff\u202a-\u202e\u2066-\u2069"
    rf"\ud800-\udfff\ufdd0-\ufdef{_NO_CHARACTERS}]"
)


def bounded(text: str | bytes) -> str:
    """Return the text in NFC with plain line ends, if it keeps within the bounds.

    A byte order mark at the very beginning, which some editors write, is dropped.
    Raises RecipeTextError: too long, a line too long, not UTF-8, characters that have no place in a text.
    """
    if len(text) > MOST_BYTES:
        _too_long(len(text), "bytes" if isinstance(text, bytes) else "characters")
    words = _decoded(text) if isinstance(text, bytes) else text
    words = words.removeprefix("\ufeff").replace("\r\n", "\n")
    mistakes = [*_odd_lines(words)]
    if not mistakes:
        size = len(words.encode())
        if size > MOST_BYTES:
            _too_long(size, "bytes")
        mistakes = [*_long_lines(words)]
    if mistakes:
        raise RecipeTextError(first(mistakes))
    return unicodedata.normalize("NFC", words)


def first(mistakes: list[Mistake]) -> tuple[Mistake, ...]:
    """Return the mistakes in the order of the text; of very many the first, and a word about the rest."""
    ordered = sorted(mistakes, key=lambda mistake: (mistake.line, mistake.column))
    if len(ordered) <= MOST_MISTAKES:
        return tuple(ordered)
    return (
        *ordered[:MOST_MISTAKES],
        Mistake(f"There are more mistakes; these are the first {MOST_MISTAKES}."),
    )


def odd_character(text: str) -> str | None:
    """Return the sentence about the first character that has no place in a text, or None if there is none."""
    found = _ODD.search(text)
    return _odd_sentence(found) if found else None


def _odd_sentence(found: re.Match[str]) -> str:
    name = unicodedata.name(found[0], "")
    what = f"{name.lower()}, U+{ord(found[0]):04X}," if name else f"U+{ord(found[0]):04X}"
    return f"A character that cannot be seen ({what.rstrip(',')}) has no place in a recipe. Delete it."


def _too_long(size: int, unit: str) -> None:
    message = f"The text has {size:,} {unit}; {MOST_BYTES:,} bytes are the most. Shorten it."
    raise RecipeTextError((Mistake(message),))


def _decoded(text: bytes) -> str:
    if text.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise RecipeTextError((Mistake("The text is saved as UTF-16. Save it as UTF-8.", line=1),))
    try:
        return text.decode()
    except UnicodeDecodeError as error:
        line = text.count(b"\n", 0, error.start) + 1
        message = f"The byte 0x{text[error.start]:02X} here is not UTF-8. Save the text as UTF-8."
        raise RecipeTextError((Mistake(message, line=line),)) from None


def _odd_lines(text: str) -> Iterator[Mistake]:
    """The first odd character of each line."""
    if not _ODD.search("".join(set(text))):
        return  # quick for a long text, which has few different characters
    for line, words in enumerate(text.split("\n"), start=1):
        if found := _ODD.search(words):
            yield Mistake(_odd_sentence(found), found.start() + 1, line=line)


def _long_lines(text: str) -> Iterator[Mistake]:
    for line, words in enumerate(text.encode().split(b"\n"), start=1):
        if len(words) > MOST_LINE_BYTES:
            message = (
                f"The line has {len(words):,} bytes; {MOST_LINE_BYTES:,} are the most. "
                'Break it: a text between """ and """ may run over many lines.'
            )
            yield Mistake(message, line=line)
