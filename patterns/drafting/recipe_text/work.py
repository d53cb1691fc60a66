"""What the steps of a recipe text do to the cloth: tables [[steps.work]] under a step."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.recipe import Piece
from patterns.drafting.work import (
    AMOUNTS,
    LISTS,
    VERBS,
    WORDS,
    ZIP_LINES,
    Act,
    Kind,
    Verb,
    joined_lines,
    united_lines,
)

from .names import tidied
from .reading import LENGTH, NUMBER, Known
from .table import Table

# More than one thing a sentence of the longest recipe; following them takes some 10 µs each.
MOST_ACTS: Final = 300
# Kinds whose names the cloths of the recipe give.
_WHAT: Final[Mapping[Kind, str]] = {"cloth": "cloth", "cloths": "cloth", "mark": "mark", "marks": "mark"}

# Behind which key stand the cloths whose lines an act names: "" for the act's own word; else behind `on`.
_WHOSE_LINES: Final[Mapping[Verb, str]] = {
    "sew": "of",
    **dict.fromkeys(("join", "pair", "pull", "ring", "narrow", "halve", "surround", "rim"), ""),
    **dict.fromkeys(("unite", "fourfold"), ""),
    "attach": "to",
    "pin": "to",
}


class WorkReader:
    """Reads acts, each with the names of the cloths that any step cuts or joins, and of their marks."""

    def __init__(self, pieces: Sequence[Piece], steps: object) -> None:
        self.count = 0
        self.lines = _cloths(pieces, steps)
        self.cloths = {cloth: cloth for cloth in self.lines}
        self.marks = {
            f"{cloth} {line}": f"{cloth} {line}" for cloth in self.lines for line in self.lines[cloth]
        }

    def read(self, table: Table) -> Act | None:
        """Return one act; None, and the mistake noted, where nothing says which it is."""
        self.count += 1
        if self.count > MOST_ACTS:
            table.reading.stop(table.key, f"The steps do more than {MOST_ACTS} things. Shorten them.")
        verbs = [verb for verb in VERBS if verb in table.data]
        if not verbs:
            table.wrong(f"Nothing is done here. Write one of: {', '.join(VERBS)}.")
            return None
        verb = verbs[0]
        grammar = VERBS[verb]
        table.only(tuple(grammar.needed), tuple(grammar.optional))
        there = {key: kind for key, kind in grammar.kinds.items() if key in table.data}
        names = tuple(
            (key, self._names(table, key, kind, verb)) for key, kind in there.items() if kind not in AMOUNTS
        )
        amounts = tuple((key, _amount(table, key, kind)) for key, kind in there.items() if kind in AMOUNTS)
        return Act(verb, names, amounts)

    def _names(self, table: Table, key: str, kind: Kind, verb: Verb) -> tuple[str, ...]:
        if kind in WORDS:
            return (table.one_of(key, WORDS[kind]),)
        if kind == "new":
            return (tidied(table.line(key)),)
        known: Known
        if kind in ("piece", "pieces"):
            known, what = table.reading.pieces, "piece"
        elif kind in ("line", "lines"):
            known, what = self._lines_there(table, verb), "mark of it"
        else:
            known, what = (self.cloths if kind in ("cloth", "cloths") else self.marks), _WHAT[kind]
        if kind not in LISTS:
            return (table.known_name(key, what, known),)
        found = table.known_names(key, what, known)
        if table.data[key] == []:
            table.wrong("The list is empty. Write a name, or take the whole act out.", key)
        return found

    def _lines_there(self, table: Table, verb: Verb) -> Mapping[str, str]:
        """The marks of the cloths that this act is about."""
        cloths = table.data.get(_WHOSE_LINES.get(verb, "on") or verb)
        listed = cloths if isinstance(cloths, list) else [cloths]
        names = [tidied(cloth) for cloth in listed if isinstance(cloth, str)]
        return {line: line for cloth in names for line in self.lines.get(cloth, ())}


def _amount(table: Table, key: str, kind: Kind) -> Formula:
    return table.formula(key, LENGTH if kind == "length" else NUMBER)


def _cloths(pieces: Sequence[Piece], steps: object) -> dict[str, dict[str, None]]:
    """Return the marks of each cloth that the steps cut or join, whichever options make it."""
    halves: dict[str, list[Piece]] = {}
    found: dict[str, dict[str, None]] = {}
    by_name = {piece.name: piece for piece in pieces}
    for words in _acts(steps):
        cloth = words.get("as", "")
        if words.get("cut") in by_name:
            piece = by_name[words["cut"]]
            halves.setdefault(cloth, []).append(piece)
            found.setdefault(cloth, {}).update((mark.name, None) for mark in piece.marks)
        if "measure" in words:
            found.setdefault(cloth, {})
        if "attach" in words:  # a side with its base has the marks of the side
            found.setdefault(cloth, {}).update(found.get(words.get("to", ""), {}))
        for half in halves.get(words.get("join", ""), ()):
            lines = [(mark.name, mark.kind, mark.down_from_top is not None) for mark in half.marks]
            joined = joined_lines(lines, words.get("at", ""), words.get("middle", ""))
            found.setdefault(cloth, {}).update((name, None) for name, _, _ in joined)
        if words.get("zip"):
            found.setdefault(words["zip"], {}).update(dict.fromkeys(ZIP_LINES))
        back, front = (found.get(words.get(key, ""), {}) for key in ("unite", "with"))
        if back and front:
            united = united_lines(back, front, words.get("at", ""), words.get("middle", ""))
            found.setdefault(cloth, {}).update((name, None) for name, _, _ in united)
    return found


def _acts(steps: object) -> Iterator[Mapping[str, str]]:
    """Yield what acts name, as far as it can be read; what is wrong is noted when the act is read."""
    for step in steps if isinstance(steps, list) else ():
        acts = step.get("work") if isinstance(step, dict) else None
        for act in acts if isinstance(acts, list) else ():
            if isinstance(act, dict):
                yield {key: tidied(word) for key, word in act.items() if isinstance(word, str)}
