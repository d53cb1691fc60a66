"""A customer's name, made fit to stand at the foot of every page; and the line it stands in."""

import re
import unicodedata
from functools import cache
from pathlib import Path

from . import fonts

# Longer names than this are cut: two lines at the foot hold it even in capitals.
MOST_CHARACTERS = 60
# Accents on one letter; more of them would climb into the text above.
MOST_ACCENTS = 2
# Control characters, halves of surrogate pairs, private and unassigned ones, and invisible format characters,
# among them those that turn the direction of a line round.
DROPPED = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})
ACCENTS = frozenset({"Mn", "Mc", "Me"})


def clean_name(text: str) -> str:
    """Return the name as it may be printed: one line, NFC, at most 60 characters; perhaps empty.

    >>> clean_name("  Ada\\nExample ")
    'Ada Example'
    """
    spaced = re.sub(r"\s+", " ", text)
    kept = "".join(sign for sign in spaced if unicodedata.category(sign) not in DROPPED)
    composed = unicodedata.normalize("NFC", kept)
    return _without_towers(re.sub(" +", " ", composed)).strip()[:MOST_CHARACTERS].strip()


def _without_towers(text: str) -> str:
    """Drop accents that stand on more accents than any language writes."""
    kept: list[str] = []
    height = 0
    for sign in text:
        height = height + 1 if unicodedata.category(sign) in ACCENTS else 0
        if height <= MOST_ACCENTS:
            kept.append(sign)
    return "".join(kept)


def licence_line(order_number: str, name: str) -> str:
    """Return what stands at the foot of every page: the order, then the name if our fonts can write it.

    The order comes first, so that a name written from right to left ends the line and what is copied
    from the page keeps its order.
    """
    return _line(f"Order {clean_name(order_number)}", name)


def trial_line(name: str) -> str:
    """Return the line of a book that was made without an order."""
    return _line("Trial copy, not an order", name)


def _line(first: str, name: str) -> str:
    cleaned = clean_name(name)
    return f"{first} · made for {cleaned}" if cleaned and can_print(cleaned) else first


def can_print(text: str) -> bool:
    """Whether our fonts have a sign for every character."""
    return not missing_from(text)


def missing_from(text: str) -> list[str]:
    """Return the characters that the fonts of the line have no sign for, each once, in order."""
    known = _known_to(fonts.directory() / "print")
    return sorted({sign for sign in text if ord(sign) not in known and not sign.isspace()})


@cache
def _known_to(folder: Path) -> frozenset[int]:
    """The characters that a line in upright letters can hold: of the text face and of the one for names."""
    from fontTools.ttLib import TTFont

    known: set[int] = set()
    for face in fonts.FACES:
        if face.weight == 400 and not face.is_italic:
            with TTFont(folder / f"{face.stem}.ttf", lazy=True) as font:
                known |= font.getBestCmap().keys()
    return frozenset(known)
