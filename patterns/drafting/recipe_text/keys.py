"""Keys of a recipe text: the way from its top to a value."""

import re

Key = tuple[str | int, ...]
"""Names of tables and keys; a number is a place in a list, from 0."""

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t"}
_TO_ESCAPE = re.compile(r'["\\\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff\u202a-\u202e\u2066-\u2069]')
# As much of a name or value as a message repeats.
_MOST_SHOWN = 60


def escaped(text: str) -> str:
    """Return the inside of a TOML string on one line."""
    return _TO_ESCAPE.sub(lambda found: _ESCAPES.get(found[0], f"\\u{ord(found[0]):04X}"), text)


def quoted(text: str) -> str:
    return f'"{escaped(text)}"'


def spelled_part(name: str) -> str:
    """Return a name as a key of TOML: bare where it may be."""
    return name if _BARE.fullmatch(name) else quoted(name)


def spelled(key: Key) -> str:
    """Return a key as a person finds it: places in a list count from 1.

    >>> spelled(("steps", 2, "does"))
    'steps[3].does'
    """
    text = ""
    for part in key:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            text += f".{spelled_part(shown(part))}" if text else spelled_part(shown(part))
    return text


def shown(text: str) -> str:
    """Return what was typed, cut short where it is long, for use in a message."""
    return text if len(text) <= _MOST_SHOWN else f"{text[: _MOST_SHOWN - 1]}…"
