"""What is known while a recipe text is read: its lines, its names so far, its mistakes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final, NoReturn, cast

from patterns.drafting.errors import FormulaError, Mistake, RecipeTextError
from patterns.drafting.formulas.dimensions import YES_NO, Kind, kind_of, kind_words
from patterns.drafting.formulas.formula import Formula
from patterns.drafting.formulas.literals import literals
from patterns.drafting.formulas.names import names
from patterns.drafting.formulas.spell import spell
from patterns.drafting.formulas.tree import Number
from patterns.drafting.recipe import Blank, Text
from patterns.drafting.spelling import nearest_spelling
from patterns.drafting.units import Units

from .bounds import MOST_MISTAKES, first
from .keys import Key, shown, spelled
from .prose import Braced, braced
from .scan import Parsed

# The starters have 30 to 60 names and some 200 formulas; the largest bag that anyone draws up has ten
# times that.
MOST_NAMES = 300
MOST_FORMULAS = 2_000
# The 200 formulas of a starter have 6,000 letters. Reading and trying out takes up to 5 µs for each letter.
MOST_FORMULA_LETTERS = 30_000

# Stands where a formula could not be read; a recipe that holds it is never handed out.
BROKEN: Final = Formula(Number(Fraction(0)))

LENGTH: Final = frozenset({1})
NUMBER: Final = frozenset({0})
MEASURED: Final = frozenset({0, 1, 2, 3})
CHECKED: Final = frozenset({YES_NO})

_MENDS = {
    LENGTH: "Look for a missing measure or constant, or for a × or ² too many.",
    NUMBER: "Divide it by a length, or take the measure out.",
    CHECKED: "Compare two things with <, ≤, >, ≥, = or ≠.",
}


Known = Mapping[str, str]
"""Names that may be written: tidied, and as they are kept."""


@dataclass(slots=True)
class Reading:
    """One text being read.

    kinds: of every name that formulas may read, None where its own text is wrong.
    places: where each name was given. settings: the measures that choices set.
    options, materials, pieces, cautions: the names there are; options with their choices.
    sound: the formulas of each key that can be worked out, as far as reading them tells.
    formulas, letters: how many there were so far. read_by: what formulas read, found once for each.
    values: what the names stand for at the default size.
    """

    parsed: Parsed
    mistakes: dict[Mistake, None] = field(default_factory=dict)
    kinds: dict[str, Kind | None] = field(default_factory=dict)
    places: dict[str, Key] = field(default_factory=dict)
    options: dict[str, Known] = field(default_factory=dict)
    settings: set[str] = field(default_factory=set)
    materials: Known = field(default_factory=dict)
    pieces: Known = field(default_factory=dict)
    cautions: Known = field(default_factory=dict)
    formulas: int = 0
    letters: int = 0
    read_by: dict[int, tuple[Formula, frozenset[str]]] = field(default_factory=dict)
    sound: dict[Key, list[Formula]] = field(default_factory=dict)
    values: dict[Units, dict[str, Fraction]] = field(default_factory=lambda: {units: {} for units in Units})

    def wrong(self, key: Key, message: str, column: int = 0) -> None:
        """Note a mistake at a key. Raises RecipeTextError once there are more than anyone would read."""
        self.mistakes[Mistake(message, column, spelled(key), self.parsed.line(key))] = None
        if len(self.mistakes) > MOST_MISTAKES:
            self.refuse()

    def stop(self, key: Key, message: str) -> NoReturn:
        """Note a mistake after which it is no use to go on. Raises RecipeTextError."""
        self.wrong(key, message)
        self.refuse()

    def refuse(self) -> NoReturn:
        raise RecipeTextError(first(list(self.mistakes)))

    def declare(self, name: str, key: Key, kind: Kind | None) -> bool:
        """Take a tidied name that formulas may read into use; say whether it is new."""
        is_new = self._is_new(name, key)
        self.kinds[name] = kind if is_new else None
        return is_new

    def declare_option(self, name: str, key: Key) -> None:
        """Take the name of an option into use: formulas do not read it, yet forms and addresses hold both."""
        self._is_new(name, key)

    def declare_setting(self, name: str, key: Key) -> None:
        """Take note that the choices of an option set a measure: those of one option only."""
        if name in self.settings:
            self.wrong(key, f"Another option sets “{shown(name)}” already. Let one option set it.")
        self.settings.add(name)

    def _is_new(self, name: str, key: Key) -> bool:
        if name in self.places:
            before = self.places[name]
            place = f"{spelled(before)} in line {self.parsed.line(before)}"
            self.wrong(
                key, f"“{shown(name)}” is used twice: {place} has it too. Give one of the two another name."
            )
            return False
        self.places[name] = key
        if len(self.places) > MOST_NAMES:
            self.stop(key, f"The recipe has more than {MOST_NAMES} names. Take out what no formula needs.")
        return True

    def unknown(self, key: Key, what: str, name: str, known: Iterable[str]) -> None:
        """Note a name that nothing answers, and the nearest one that there is."""
        listed = list(known)
        near = nearest_spelling(name, listed)
        if near:
            mend = f"Did you mean “{near}”?"
        elif listed:
            mend = f"There are: {shown(', '.join(listed))}."
        else:
            mend = "There are none."
        self.wrong(key, f"“{shown(name)}” is no {what}. {mend}")

    def formula(
        self, key: Key, words: str, wants: frozenset[Kind], offset: int = 0
    ) -> tuple[Formula, Kind | None]:
        """Read and check a formula; return it with its kind, None if something is wrong with it.

        wants: the kinds that may stand here. offset: how far into its value the formula begins.
        """
        formula = self.read(key, words, offset)
        return formula, self.checked(key, formula, wants, offset)

    def read(self, key: Key, words: str, offset: int = 0) -> Formula:
        """Read a formula, without a look at its names; BROKEN if it cannot be read."""
        self.formulas += 1
        self.letters += len(words)
        if self.formulas > MOST_FORMULAS:
            self.stop(key, f"The recipe has more than {MOST_FORMULAS:,} formulas. Shorten it.")
        if self.letters > MOST_FORMULA_LETTERS:
            message = f"The formulas of the recipe have more than {MOST_FORMULA_LETTERS:,} letters in all."
            self.stop(key, f"{message} Give parts that come again names of their own.")
        try:
            formula = Formula.read(words)
        except FormulaError as error:
            self.wrong_within(key, error, offset)
            formula = BROKEN
        return formula

    def names_in(self, formula: Formula) -> frozenset[str]:
        """Return the names that a formula reads."""
        if id(formula) not in self.read_by:
            self.read_by[id(formula)] = (formula, names(formula.tree))
        return self.read_by[id(formula)][1]

    def wrong_within(self, key: Key, error: FormulaError, offset: int) -> None:
        for mistake in error.mistakes:
            self.wrong(key, mistake.message, mistake.column + offset)

    def checked(self, key: Key, formula: Formula, wants: frozenset[Kind], offset: int = 0) -> Kind | None:
        """Return the kind of a formula; None, and the mistakes noted, if it cannot stand here."""
        if formula is BROKEN:
            return None
        for number in literals(formula.tree):
            message = (
                f"“{spell(number)}” has a unit. Make it a constant with in and cm, and write its name here."
            )
            self.wrong(key, message, number.at + offset)
        try:
            kind = kind_of(formula.tree, self.kinds)
        except FormulaError as error:
            self.wrong_within(key, error, offset)
            return None
        if kind not in wants:
            self.unfit(key, kind, wants, offset)
            return None
        self.sound.setdefault(key, []).append(formula)
        return kind

    def unfit(self, key: Key, kind: Kind, wants: frozenset[Kind], offset: int) -> None:
        column = offset + 1 if offset else 0
        if kind == YES_NO:
            self.wrong(key, "Only a check may compare. Write here what gives a number or a length.", column)
            return
        wanted = kind_words(next(iter(wants)))
        self.wrong(key, f"This is {kind_words(kind)}; {wanted} belongs here. {_MENDS[wants]}", column)

    def text(self, key: Key, words: str) -> Text:
        """Read words with formulas in braces among them."""
        parts: list[str | Blank] = []
        for part in braced(words):
            if isinstance(part, str):
                parts.append(part)
            elif isinstance(part, Braced):
                formula, kind = self.formula(key, part.words, MEASURED, part.offset)
                parts.append(Blank(formula, cast(int, kind or 0)))
            else:
                self.wrong(key, part.message, part.column)
        return tuple(parts)
