"""What a customer reads, as words alone, and what is wrong with a line of it."""

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

# What reads badly, each with its name.
_FAULTS = {
    "an unfilled blank": r"[{}]|None\b",
    "something called out": r"!",
    "two spaces": r"  ",
    "a space before a stop": r" [.,:;](?![0-9])",
    "two stops": r"[.,:;][.,:;](?!\.)",
    "a straight apostrophe or quotation mark": r"['\"]",
    "a doubled word": r"\b(?i:([a-z]{2,}) \1)\b",
    "one of several": r"(?<![0-9⁄.] )(?<![0-9⁄.,])\b1 (?!is\b|as\b|across\b)[a-z]+s\b",
    "an inch with decimals": r"[0-9]\.[0-9]+ in\b(?![²³])",
    "an inch in millimetres": r"\b(?:3\.175|6\.35|9\.525|12\.7|19\.05|25\.4) ?mm\b",
    "a unit twice": r"\b(?:in in|cm cm|mm mm)\b",
    "nothing at all": r"(?<![0-9.⁄] )(?<![0-9.,⁄])\b0 (?:in|cm)\b",
    "less than nothing": r"−[0-9]",
    "twice about": r"≈ ≈|\babout ≈",
    "a for an": r"\b[Aa] (?:8|11|18)(?![0-9])|\b[Aa] (?!one\b|once\b|us[eu]|uni)[aeiou][a-z]",
    "an for a": r"\b[Aa]n (?![aeiouAEIOUhH]|8|11\b|18\b|S|F|M|N|L|R|X)[A-Za-z0-9]",
    "a full stop without a space": r"[a-z]\.[A-Z]",
    "a sentence that begins small": r"[a-z]\. [a-z]",
}
FAULTS = {name: re.compile(pattern) for name, pattern in _FAULTS.items()}


def faults_of(line: str) -> list[str]:
    """Return what is wrong with a line as it is read."""
    return [f"{name}: {line}" for name, found in FAULTS.items() if found.search(line)]


def words_in(content: object) -> Iterator[str]:
    """Yield every text that a page's content holds, however deep; of a drawing what is written in it."""
    if isinstance(content, str):
        yield from _lines(content)
    elif is_dataclass(content) and not isinstance(content, type):
        for field in fields(content):
            yield from words_in(getattr(content, field.name))
    elif isinstance(content, dict):
        yield from words_in(tuple(content.values()))
    elif isinstance(content, tuple | list):
        for part in content:
            yield from words_in(part)


def _lines(text: str) -> Iterator[str]:
    if "<" in text:
        yield from (part.strip() for part in re.findall(r">([^<>]+)<", text) if part.strip())
    else:
        yield text
