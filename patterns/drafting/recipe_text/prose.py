"""Words with formulas in braces among them: `Folds flat to {width + depth} × {height}.`"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from patterns.drafting.errors import Mistake

_BRACE = re.compile(r"[{}]")


@dataclass(frozen=True, slots=True)
class Braced:
    """The words between two braces. offset: how many characters stand before them."""

    words: str
    offset: int


def braced(words: str) -> Iterator[str | Braced | Mistake]:
    """Yield the parts of a text in order: words, what stands in braces, and each brace that is wrong."""
    start, opened = 0, 0
    for found in _BRACE.finditer(words):
        at = found.start()
        if found[0] == "{" and opened:
            yield Mistake("This brace opens before the last one is closed. Write } first.", at + 1)
            start, opened = at + 1, at + 1
        elif found[0] == "{":
            if start < at:
                yield words[start:at]
            start, opened = at + 1, at + 1
        elif not opened:
            yield Mistake("This brace closes nothing. Write { before the formula, or take it out.", at + 1)
        elif not words[start:at].strip():
            yield Mistake("The braces are empty. Write a formula in them, or take them out.", opened)
            start, opened = at + 1, 0
        else:
            yield Braced(words[start:at], start)
            start, opened = at + 1, 0
    if opened:
        yield Mistake("This brace is never closed. Write } after the formula.", opened)
    elif start < len(words):
        yield words[start:]
