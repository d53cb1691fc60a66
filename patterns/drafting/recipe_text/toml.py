"""Writes tables as TOML in one spelling, no line longer than a recipe text may have."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from .bounds import MOST_LINE_BYTES
from .keys import escaped, quoted, spelled_part

Value: TypeAlias = "str | Sequence[str] | Mapping[str, Value]"

# What stands in brackets or braces is broken up where its line would be longer than this: it is read across.
_WIDEST = 110
# A text that has to be broken is broken into lines of about this many characters.
_FOLD = 100


@dataclass(frozen=True, slots=True)
class Table:
    """A table under its header. is_listed: one of an array of tables."""

    key: tuple[str, ...]
    values: Mapping[str, Value]
    is_listed: bool = False


def tables_text(tables: Iterable[Table]) -> str:
    """Return the text of tables, a blank line between them."""
    blocks = []
    for table in tables:
        parts = [_header(table)] if table.key else []
        parts += [line for name, value in table.values.items() for line in _pair(spelled_part(name), value)]
        blocks.append("".join(f"{part}\n" for part in parts))
    return "\n".join(blocks)


def _header(table: Table) -> str:
    key = ".".join(map(spelled_part, table.key))
    return f"[[{key}]]" if table.is_listed else f"[{key}]"


def _pair(key: str, value: Value) -> Iterator[str]:
    """Yield the lines of a key and its value: one, if it is not too long."""
    line = f"{key} = {_inline(value)}"
    if isinstance(value, str):
        yield line if _fits(line, value) else f'{key} = """\n{_folded(value)}"""'
    elif len(line) <= _WIDEST:
        yield line
    elif isinstance(value, Mapping):
        for name, inner in value.items():
            yield from _pair(f"{key}.{spelled_part(name)}", inner)
    else:
        items = "".join(f"    {quoted(item)},\n" for item in value)
        yield f"{key} = [\n{items}]"


def _fits(line: str, value: str) -> bool:
    return "\n" not in value and len(line.encode()) <= MOST_LINE_BYTES


def _inline(value: Value) -> str:
    if isinstance(value, str):
        return quoted(value)
    if not isinstance(value, Mapping):
        return f"[{', '.join(map(quoted, value))}]"
    if not value:
        return "{}"
    return f"{{ {', '.join(f'{spelled_part(name)} = {_inline(inner)}' for name, inner in value.items())} }}"


def _folded(text: str) -> str:
    """Return the inside of a text over many lines; in a long paragraph a backslash ends each."""
    return "\n".join(_folded_paragraph(paragraph) for paragraph in text.split("\n"))


def _folded_paragraph(text: str) -> str:
    if len(escaped(text).encode()) <= MOST_LINE_BYTES // 2:
        return escaped(text)
    lines, start = [], 0
    while len(text) - start > _FOLD:
        end = text.rfind(" ", start, start + _FOLD) + 1
        # The reader drops spaces after the fold, so a line must not begin with one.
        if end <= start or text[end] == " ":
            end = start + _FOLD
        lines.append(_unspaced(text[start:end]))
        start = end
    lines.append(_unspaced(text[start:]))
    return "\\\n".join(lines)


def _unspaced(line: str) -> str:
    """A folded line, its first character spelled out if it is a space."""
    return f"\\u0020{escaped(line[1:])}" if line.startswith(" ") else escaped(line)
