"""One table of a recipe text: what it must hold and may hold, and each value in its own type."""

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from typing import TypeVar, cast

from patterns.drafting.formulas.dimensions import Kind
from patterns.drafting.formulas.formula import Formula
from patterns.drafting.lengths import LengthError, read_length, read_number
from patterns.drafting.recipe import ALWAYS, Text, When
from patterns.drafting.spelling import nearest_spelling
from patterns.drafting.units import Units

from .bounds import odd_character
from .keys import Key, quoted, shown, spelled, spelled_part
from .names import MOST_LETTERS, name_mistake, tidied, too_long
from .reading import BROKEN, MOST_NAMES, Known, Reading
from .scan import Bare

Allowed = TypeVar("Allowed")

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
# Commands and addresses write option=choice; texts put formulas in braces.
_NOT_IN_NAMES = frozenset("={}&")
_TABLES = frozenset({"finished", "measures", "choices"})
# What the tables of a list are, where the list is not called by it.
_EACH = {"outline": "corners", "work": "things that it does"}


class Names(Enum):
    """How the names of a table are kept."""

    TIDIED = "lower case"
    AS_WRITTEN = "as they are written, for people to read; capitals do not tell two apart"
    OF_FORMULAS = "lower case, and only what a formula can read"


@dataclass(frozen=True, slots=True)
class Table:
    """A table being read. What is missing or of a wrong type is noted, and something harmless returned.

    is_there: False where something else stands in its place, which is noted already.
    """

    reading: Reading
    key: Key
    data: Mapping[str, object]
    is_there: bool = True

    def only(self, needed: tuple[str, ...], optional: tuple[str, ...] = ()) -> "Table":
        """Note every key of the table that is missing or unknown, and return the table."""
        known = (*needed, *optional)
        meant = set()
        for name in self.data:
            if name not in known:
                near = nearest_spelling(name, [each for each in known if each not in self.data])
                meant.add(near)
                mend = f"Did you mean “{near}”?" if near else f"The keys here are: {', '.join(known)}."
                self.wrong(f"The key “{shown(name)}” is not known here. {mend}", name)
        for name in needed:
            if self.is_there and name not in self.data and name not in meant:
                where = "here" if self.key else "at the top of the text"
                self.wrong(f"“{name}” is missing {where}. Write {self.example(name)}.")
        return self

    def wrong(self, message: str, *name: str | int, column: int = 0) -> None:
        self.reading.wrong((*self.key, *name), message, column)

    def example(self, name: str) -> str:
        """Return how to write a key that is missing."""
        if name in _TABLES:
            return f"a table [{name}]"
        is_range = name in tuple(Units) and self.key[0] in ("measures", "sizes")
        return f"{name} = {{ … }}" if is_range else f'{name} = "…"'

    def string(self, name: str) -> str:
        """Return a text as it stands; "" if there is none."""
        value = self.data.get(name, "")
        if not isinstance(value, str):
            self.wrong(_wrong_type(name, value), name)
            return ""
        value = unicodedata.normalize("NFC", value)
        if name in self.data and not value.strip():
            self.wrong("The text is empty. Write something, or delete the line.", name)
        elif message := odd_character(value):
            self.wrong(message, name)
        return value

    def line(self, name: str) -> str:
        """Return a text of one line."""
        value = self.string(name)
        if "\n" in value:
            self.wrong("The text must stand in one line. Take out the line breaks.", name)
        return value

    def text(self, name: str) -> Text:
        """Return words with formulas among them."""
        return self.reading.text((*self.key, name), self.string(name))

    def formula(self, name: str, wants: frozenset[Kind]) -> Formula:
        return self.formula_and_kind(name, wants)[0]

    def maybe_formula(self, name: str, wants: frozenset[Kind]) -> Formula | None:
        return self.formula(name, wants) if name in self.data else None

    def formula_and_kind(self, name: str, wants: frozenset[Kind]) -> tuple[Formula, Kind | None]:
        """Return a formula of one of the kinds, and which; None if something is wrong with it."""
        words = self.string(name)
        return self.reading.formula((*self.key, name), words, wants) if words.strip() else (BROKEN, None)

    def numeral(self, name: str, units: Units | None) -> Fraction | None:
        """Return a length in mm, or without units a bare number; None if there is none that can be read."""
        words = self.string(name)
        if not words.strip():
            return None
        try:
            return read_length(words, units) if units else read_number(words)
        except LengthError as error:
            self.wrong(str(error), name)
            return None

    def one_of(self, name: str, allowed: tuple[Allowed, ...]) -> Allowed:
        return self.maybe_one_of(name, allowed) or allowed[0]

    def maybe_one_of(self, name: str, allowed: tuple[Allowed, ...]) -> Allowed | None:
        words = self.string(name)
        if not words.strip():
            return None
        if words in allowed:
            return cast(Allowed, words)
        near = nearest_spelling(words, cast(tuple[str, ...], allowed))
        mend = f"Did you mean “{near}”?" if near else f"Write one of: {', '.join(map(str, allowed))}."
        self.wrong(f"“{shown(words)}” is no {name} that is known. {mend}", name)
        return None

    def table(self, name: str) -> "Table":
        """Return an inner table; an empty one if there is none."""
        value = self.data.get(name, {})
        if not isinstance(value, dict):
            self.wrong(f"A table belongs here; {_described(value)} stands here.", name)
            return Table(self.reading, (*self.key, name), {}, is_there=False)
        return Table(self.reading, (*self.key, name), value)

    def named_tables(self, name: str, names: Names = Names.TIDIED) -> Iterator[tuple[str, "Table"]]:
        """Yield the tables in a table of names, each name tidied; one that stands twice only once."""
        outer = self.table(name)
        for word, raw in outer.names(names):
            yield word, outer.table(raw)

    def names(self, names: Names = Names.TIDIED) -> Iterator[tuple[str, str]]:
        """Yield the keys of a table of names: as they are kept, and as they are written."""
        seen: dict[str, str] = {}
        if len(self.data) > MOST_NAMES:
            self.reading.stop(
                self.key, f"There are {len(self.data):,} names here; {MOST_NAMES} are the most. Shorten it."
            )
        for raw in self.data:
            word = tidied(raw)
            looked_at = name_mistake if names is Names.OF_FORMULAS else _name_mistake
            message = odd_character(word) or looked_at(word)
            if message:
                self.wrong(message, raw)
            if word in seen:
                line = self.reading.parsed.line((*self.key, seen[word]))
                self.wrong(
                    f"“{shown(word)}” stands here twice, first in line {line}. Keep one of the two.", raw
                )
                continue
            seen[word] = raw
            yield (
                " ".join(unicodedata.normalize("NFC", raw).split()) if names is Names.AS_WRITTEN else word,
                raw,
            )

    def listed_tables(self, name: str) -> Iterator["Table"]:
        """Yield the tables of an array of tables."""
        value = self.data.get(name, [])
        if not isinstance(value, list):
            header = spelled((*self.key, name))
            self.wrong(
                f"Write [[{header}]], with two brackets, before each of the {_EACH.get(name, name)}.", name
            )
            return
        for place, item in enumerate(value):
            if isinstance(item, dict):
                yield Table(self.reading, (*self.key, name, place), item)
            else:
                self.wrong(f"A table belongs here; {_described(item)} stands here.", name, place)

    def known_name(self, name: str, what: str, known: Known) -> str:
        """Return a name, one of `known`, as it is kept there; "" if it is none of them."""
        word = self.line(name)
        return self._known(word, what, known, name) or "" if word.strip() else ""

    def known_names(self, name: str, what: str, known: Known) -> tuple[str, ...]:
        """Return a list of names, each of them one of `known`."""
        value = self.data.get(name, [])
        if not isinstance(value, list):
            mend = f'Write {spelled_part(shown(name))} = ["…"].'
            self.wrong(f"A list belongs here; {_described(value)} stands here. {mend}", name)
            return ()
        found: dict[str, None] = {}
        for place, item in enumerate(value):
            if not isinstance(item, str):
                self.wrong(f"A name in quotes belongs here; {_described(item)} stands here.", name, place)
                continue
            word = self._known(item, what, known, name, place)
            if word in found:
                self.wrong(f"“{shown(word)}” stands twice in this list. Take one out.", name, place)
            elif word is not None:
                found[word] = None
        return tuple(found)

    def _known(self, word: str, what: str, known: Known, *place: str | int) -> str | None:
        kept = known.get(tidied(word))
        if kept is None:
            self.reading.unknown((*self.key, *place), what, word, known.values())
        return kept

    def when(self, name: str = "when") -> When:
        """Return the choices under which something holds; always, if nothing is said."""
        if name not in self.data:
            return ALWAYS
        inner = self.table(name)
        options: list[tuple[str, tuple[str, ...]]] = []
        for option, raw in inner.names():
            if option not in self.reading.options:
                self.reading.unknown((*inner.key, raw), "option", option, self.reading.options)
                continue
            choices = inner.known_names(raw, f"choice of “{option}”", self.reading.options[option])
            if inner.data[raw] == []:
                inner.wrong("The list is empty, so this never exists. Name a choice.", raw)
            options.append((option, choices))
        return When(tuple(options)) if options else ALWAYS

    def day(self, name: str) -> date:
        value = self.data.get(name, "")
        if isinstance(value, date):
            self.wrong(f'A date stands in quotes. Write {name} = "{value:%Y-%m-%d}".', name)
            return date.min
        words = self.string(name)
        if _DATE.fullmatch(words):
            try:
                return date.fromisoformat(words)
            except ValueError as error:
                self.wrong(f"“{words}” is no day of the calendar: {error}. Write another.", name)
        elif words.strip():
            self.wrong(f"“{shown(words)}” is not a date. Write year, month and day like 2026-11-20.", name)
        return date.min


def _wrong_type(name: str, value: object) -> str:
    mend = ""
    if isinstance(value, int | Bare):
        number = str(value).lower() if isinstance(value, int) else value.text
        mend = f" Write {spelled_part(shown(name))} = {quoted(shown(number))}."
    return f"A text in quotes belongs here; {_described(value)} stands here.{mend}"


def _described(value: object) -> str:
    match value:
        case bool():
            return f"a bare {str(value).lower()}"
        case int() | Bare():
            return "a number without quotes"
        case str():
            return "a text"
        case list():
            return "a list"
        case dict():
            return "a table"
        case _:
            return "a date or time without quotes"


def _name_mistake(word: str) -> str | None:
    """What is wrong with any name, whether or not formulas read it."""
    if not word:
        return "A name is missing. Write one."
    if len(word) > MOST_LETTERS:
        return too_long(word)
    strange = next((sign for sign in word if sign in _NOT_IN_NAMES), None)
    return f"“{strange}” has no place in a name. Take it out." if strange else None
