"""Where everything stands in a recipe text, and what is wrong with it as TOML.

One walk along the text, linear in its length, that goes on after a mistake: the parser proper stops at the
first one, knows no lines afterwards, and is slow on keys and brackets that are nested deep. It only sees
what came through here.
"""

import re
import tomllib
from bisect import bisect_right
from dataclasses import dataclass
from typing import NoReturn

from patterns.drafting.errors import Mistake, RecipeTextError

from .bounds import MOST_MISTAKES, first
from .keys import Key, quoted, shown, spelled

# The deepest key is a header, [pieces."exterior panel".marks."middle fold"].
MOST_DOTS = 3
# The deepest value is a choice: { sets = { "zip tape width" = { in = "1", cm = "2.4" } } }.
MOST_DEPTH = 4
# 300 names and 2,000 formulas need well under 10,000; the parser keeps about 1 KB for each.
MOST_KEYS = 10_000

_PART = r"""(?:[A-Za-z0-9_-]++|"(?:[^"\\\n]|\\[^\n])*+"|'[^'\n]*+')"""
_PARTS = re.compile(_PART)
_KEY = re.compile(rf"{_PART}(?:[ \t]*+\.[ \t]*+{_PART})*+")
_SPACE = re.compile(r"[ \t]*+")
_BLANK = re.compile(r"(?:[ \t\n]|#[^\n]*+)*+")
_REST_OF_LINE = re.compile(r"[^\n]*+")
# No assertion stands within what is possessive: Python 3.11.2, Debian 12's own, then finds nothing.
_STRINGS = {
    '"""': re.compile(r'"""(?:"{0,2}(?:[^"\\]|\\.))*+"{3,5}', re.DOTALL),
    "'''": re.compile(r"'''(?:'{0,2}[^'])*+'{3,5}"),
    '"': re.compile(r'"(?:[^"\\\n]|\\[^\n])*+"'),
    "'": re.compile(r"'[^'\n]*+'"),
}
_BARE_VALUE = re.compile(r"true|false|[+-]?(?:inf|nan)|[+-]?[0-9][0-9A-Za-z_+.:-]*+(?: [0-9][0-9A-Z:.+-]*+)?")
_ESCAPE = 'A backslash begins an escape like \\" or \\n. Write \\\\ for a backslash itself.'


@dataclass(frozen=True, slots=True)
class Bare:
    """A decimal number without quotes, as it was typed."""

    text: str


@dataclass(frozen=True, slots=True)
class Parsed:
    """A text as TOML holds it, and the line of every key in it."""

    data: dict[str, object]
    lines: dict[Key, int]

    def line(self, key: Key) -> int:
        """Return the line of a key; of one that is not there, that of the table it belongs in."""
        while key and key not in self.lines:
            key = key[:-1]
        return self.lines.get(key, 0)


def parsed(text: str) -> Parsed:
    """Return what a bounded text holds. Raises RecipeTextError with every mistake in its TOML."""
    scanner = _Scanner(text)
    scanner.run()
    if scanner.mistakes:
        raise RecipeTextError(first(scanner.mistakes))
    try:
        return Parsed(tomllib.loads(text, parse_float=Bare), scanner.lines)
    except tomllib.TOMLDecodeError as error:
        raise RecipeTextError((_translated(str(error), text),)) from None


def _translated(message: str, text: str) -> Mistake:
    """What the parser found and the scan does not look for, as a mistake."""
    reason, _, place = message.partition(" (at ")
    found = re.match(r"line ([0-9]+), column ([0-9]+)", place)
    line = int(found[1]) if found else text.count("\n") + 1
    if "Unescaped" in reason or "hex" in reason or "Escaped" in reason:
        return Mistake(_ESCAPE, line=line)
    if "Cannot" in reason or "Duplicate" in reason:
        return Mistake("What stands here was given above in another way. Keep one of the two.", line=line)
    return Mistake(f"This cannot be read as TOML: {reason[:1].lower()}{reason[1:]}.", line=line)


class _SlipError(Exception):
    """Something is wrong here; the scan goes on in the next line, or not at all."""

    def __init__(self, mistake: Mistake, is_last: bool = False) -> None:
        self.mistake = mistake
        self.is_last = is_last
        super().__init__(mistake.message)


class _Scanner:
    """One walk. is_lost: under a header that is wrong, where the same names may come again."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.newlines = [found.start() for found in re.finditer("\n", text)]
        self.header: Key = ()
        self.is_lost = False
        self.lines: dict[Key, int] = {}
        self.given: set[Key] = set()
        self.lists: dict[Key, int] = {}
        self.keys = 0
        self.mistakes: list[Mistake] = []

    def run(self) -> None:
        while self.skip(_BLANK) and len(self.mistakes) <= MOST_MISTAKES:
            try:
                self.statement()
            except _SlipError as slip:
                self.mistakes.append(slip.mistake)
                if slip.is_last:
                    return
                self.skip(_REST_OF_LINE)

    def skip(self, pattern: re.Pattern[str]) -> bool:
        """Go over what the pattern takes; say whether something is left."""
        found = pattern.match(self.text, self.at)
        if found:
            self.at = found.end()
        return self.at < len(self.text)

    def line(self) -> int:
        return bisect_right(self.newlines, self.at - 1) + 1 if self.at else 1

    def rest_of_line(self) -> str:
        found = _REST_OF_LINE.match(self.text, self.at)
        return found[0].strip() if found else ""

    def slip(self, message: str, line: int = 0, key: Key = (), is_last: bool = False) -> NoReturn:
        raise _SlipError(Mistake(message, key=spelled(key), line=line or self.line()), is_last)

    def statement(self) -> None:
        if self.text[self.at] == "[":
            self.table_header()
        else:
            self.pair(self.header, 0)
        self.skip(_SPACE)
        rest = self.rest_of_line()
        if rest and not rest.startswith("#"):
            self.slip(f"“{shown(rest)}” cannot follow here. Put it on a line of its own, or take it out.")

    def table_header(self) -> None:
        marks = 2 if self.text.startswith("[[", self.at) else 1
        raw = self.rest_of_line()
        self.header, self.is_lost = (), True
        self.at += marks
        self.skip(_SPACE)
        line = self.line()
        key = self.key(raw.strip("[]"), "header")
        self.skip(_SPACE)
        if not self.text.startswith("]" * marks, self.at):
            self.unclosed_header(raw, marks)
        self.at += marks
        whole = (*self.placed(key[:-1]), key[-1])
        if whole in (self.given if marks == 2 else self.lists):
            message = "This header stands in one bracket and in two. Write it in the same way everywhere."
            self.slip(message, line, whole)
        if marks == 2:
            self.lists[whole] = self.lists.get(whole, -1) + 1
            whole = (*whole, self.lists[whole])
        if self.note(whole, line):
            self.header, self.is_lost = whole, False

    def unclosed_header(self, raw: str, marks: int) -> NoReturn:
        inner = raw.strip("[]").strip()
        if " " in inner and '"' not in inner:
            *before, last = inner.split(".")
            proposal = ".".join([*before, quoted(last.strip())])
            mend = f"Write {'[' * marks}{proposal}{']' * marks}."
            self.slip(f"A name with spaces or signs stands in quotes. {mend}")
        self.slip(f"The header “{shown(raw)}” is not closed. Write {']' * marks} at its end.")

    def placed(self, key: Key) -> Key:
        """Return the key with the place in each list that it goes through: the last one so far."""
        placed: Key = ()
        for part in key:
            placed += (part,)
            if isinstance(part, str) and placed in self.lists:
                placed += (self.lists[placed],)
        return placed

    def note(self, key: Key, line: int) -> bool:
        """Keep the line of a key; say whether the key is new."""
        if key in self.given:
            message = f"{spelled(key[-1:])} stands here twice, first in line {self.lines[key]}."
            self.mistakes.append(Mistake(f"{message} Keep one of the two.", key=spelled(key), line=line))
            return False
        self.given.add(key)
        for length in range(1, len(key) + 1):
            self.lines.setdefault(key[:length], line)
        return True

    def key(self, raw: str, where: str) -> Key:
        """Read a key, dots and all. raw: what stands where it should, for the message."""
        found = _KEY.match(self.text, self.at)
        if not found:
            name = raw.strip().strip("\"'")
            if not name:
                self.slip(f"A name is missing in this {where}. Write one, or delete the line.")
            self.slip(f"“{shown(name)}” cannot be read as a name. Write {quoted(shown(name))}, in quotes.")
        parts = _PARTS.findall(found[0])
        if len(parts) > MOST_DOTS + 1:
            message = f"A name with {len(parts) - 1:,} dots stands here; {MOST_DOTS} are the most. "
            self.slip(message + "A name that holds dots itself stands in quotes.")
        self.count(len(parts))
        key = tuple(self.decoded(part) for part in parts)
        self.at = found.end()
        return key

    def count(self, keys: int) -> None:
        self.keys += keys
        if self.keys > MOST_KEYS:
            self.slip(f"The text has more than {MOST_KEYS:,} keys. Shorten it.", is_last=True)

    def decoded(self, part: str) -> str:
        if part[0] == "'" or (part[0] == '"' and "\\" not in part):
            return part[1:-1]
        if part[0] != '"':
            return part
        try:
            return str(tomllib.loads(f"key = {part}")["key"])
        except tomllib.TOMLDecodeError:
            self.slip(_ESCAPE)

    def pair(self, table: Key, depth: int) -> None:
        line, raw = self.line(), self.rest_of_line()
        key = self.key(raw.partition("=")[0], "line")
        whole = (*table, *key)
        self.skip(_SPACE)
        if not self.text.startswith("=", self.at):
            self.no_equals(raw)
        self.at += 1
        if not self.is_lost:
            self.note(whole, line)
        self.value(whole, depth)

    def no_equals(self, raw: str) -> NoReturn:
        name, equals, _ = raw.partition("=")
        if equals and not set(name) & set("\"'[]{}"):
            self.slip(f"A name with spaces or signs stands in quotes. Write {quoted(name.strip())} = …")
        self.slip(f'“{shown(raw)}” is neither a header nor a key with its value. Write name = "value".')

    def value(self, key: Key, depth: int) -> None:
        self.skip(_SPACE)
        sign = self.text[self.at : self.at + 1]
        if sign in ("", "\n", "#"):
            self.slip("A value is missing after the sign =. Write one in quotes.", key=key)
        elif sign in "\"'":
            self.string(key)
        elif sign in "[{":
            self.container(sign, key, depth + 1)
        else:
            self.bare(key)

    def string(self, key: Key) -> None:
        mark = self.text[self.at : self.at + 3]
        mark = mark if mark in ('"""', "'''") else mark[0]
        found = _STRINGS[mark].match(self.text, self.at)
        if found:
            self.at = found.end()
            return
        if len(mark) == 3:
            message = f"The text that begins here is never closed. Write {mark} where it ends."
            self.slip(message, key=key, is_last=True)
        self.slip(
            f"The text that begins here is not closed in its line. Write {mark} where it ends.", key=key
        )

    def bare(self, key: Key) -> None:
        found = _BARE_VALUE.match(self.text, self.at)
        end = found.end() if found else self.at
        if found and self.text[end : end + 1] in ("", " ", "\t", "\n", ",", "]", "}", "#"):
            self.at = end
            return
        rest = self.rest_of_line()
        self.slip(f"“{shown(rest)}” stands without quotes. Write {quoted(shown(rest))}.", key=key)

    def container(self, sign: str, key: Key, depth: int) -> None:
        if depth > MOST_DEPTH:
            message = (
                f"Brackets and braces stand more than {MOST_DEPTH} deep here. Nothing in a recipe needs that."
            )
            self.slip(message, is_last=True)
        if sign == "[":
            self.list_of_values(key, depth)
        else:
            self.inline_table(key, depth)

    def list_of_values(self, key: Key, depth: int) -> None:
        start, place = self.line(), 0
        self.at += 1
        while True:
            self.skip(_BLANK)
            if self.text.startswith("]", self.at):
                break
            self.count(1)
            self.lines[(*key, place)] = self.line()
            self.value((*key, place), depth)
            place += 1
            self.skip(_BLANK)
            if not self.text.startswith(",", self.at):
                break
            self.at += 1
        if not self.text.startswith("]", self.at):
            message = (
                f"The list that begins in line {start} is not closed. Write ] at its end, and commas between."
            )
            self.slip(message, key=key)
        self.at += 1

    def inline_table(self, key: Key, depth: int) -> None:
        self.at += 1
        self.skip(_SPACE)
        is_empty = self.text.startswith("}", self.at)
        while not is_empty:
            self.skip(_SPACE)
            self.pair(key, depth)
            self.skip(_SPACE)
            if not self.text.startswith(",", self.at):
                break
            self.at += 1
            self.skip(_SPACE)
            if self.text.startswith("}", self.at):
                self.slip("A comma stands before the } here. Take it out.", key=key)
        if not self.text.startswith("}", self.at):
            message = "The braces that begin here are not closed in their line."
            self.slip(f"{message} Write }} at the end, and commas between.", key=key)
        self.at += 1
