"""Words one after the other, as a sentence has them."""

from collections.abc import Sequence


def listed(words: Sequence[str], joint: str) -> str:
    """Return words as a list. words: one or more.

    >>> listed(["none", "light", "heavy"], "or")
    'none, light or heavy'
    """
    *first, last = words
    return f"{', '.join(first)} {joint} {last}" if first else last
