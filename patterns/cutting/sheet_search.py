"""The search for a layout on given sheets: each is filled in turn with what is left, in many orders."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

from .effort import Effort
from .searching import RULES, Trial, changed, first_trials
from .sheets import Layout, Placement, Rectangle, Sheet
from .skyline import Box, Item, box_of, filled
from .strip import Kind, Placed, kinds_of, unit_of

_A_PIECE, _A_FILLING = 3, 10
# Nothing ends a filling before all has been tried.
_ANY = 1 << 200
# Below, rule changes are drawn as often as in the search on a length.
_CHANCE_OF_RULE = 0.04


@dataclass(slots=True)
class SheetSearch:
    """kinds: the pieces in units, upright and on their side. trials: the orders, bettered as it goes."""

    pieces: Sequence[Rectangle]
    sheets: Sequence[Sheet]
    effort: Effort
    unit: Fraction = field(init=False)
    upright: tuple[Kind, ...] = field(init=False)
    aside: tuple[Kind, ...] = field(init=False)
    boxes: dict[tuple[int, int, bool], Box] = field(default_factory=dict)
    lot: Random = field(init=False)

    def __post_init__(self) -> None:
        self.unit = unit_of([side for piece in self.pieces for side in (piece.width, piece.height)])
        self.upright = kinds_of(self.pieces, self.unit, self.unit)
        self.aside = tuple(kind.on_its_side() for kind in self.upright)
        self.lot = Random(self.effort.seed)  # noqa: S311 (no secret)

    def laid(self, chosen: Sequence[int], work: int) -> Layout | None:
        """Return a layout on some of the sheets, given by their places, after so much work at the most."""
        end = self.effort.work - work
        trials = list(first_trials(self.upright, self.aside))
        for trial in trials:
            layout, trial.left = self._tried(trial, trial.items, chosen)
            if layout is not None:
                return layout
            if self.effort.is_done:
                return None
        while self.effort.work > end and not self.effort.is_done:
            trials.sort(key=lambda trial: trial.left)
            trial = trials[int(len(trials) * self.lot.random() ** 3)]
            items, rule = changed(trial.items, self.lot), trial.rule
            if self.lot.random() < _CHANCE_OF_RULE:
                trial.rule = self.lot.choice(RULES)
            layout, left = self._tried(trial, items, chosen)
            if layout is not None:
                return layout
            if left <= trial.left:
                trial.items, trial.left = items, left
            else:
                trial.rule = rule
        return None

    def _tried(self, trial: Trial, items: list[Item], chosen: Sequence[int]) -> tuple[Layout | None, int]:
        """Return a layout, or the area of what finds no place."""
        laid: list[tuple[int, list[Placed]]] = []
        left = list(items)
        counts = [*(kind.count for kind in self.upright), 1]
        for number in chosen:
            box, height = self._box(self.sheets[number], trial.is_across)
            now = Box(box.width, counts, box.by_width, box.by_height, box.narrow, 0)
            found = filled(now, height, left, trial.rule, _ANY)
            assert found is not None  # there is room for any rest
            laid.append((number, found[1]))
            counts, left = _without(counts, left, found[1])
            self.effort.work -= _A_FILLING + _A_PIECE * len(found[1])
            if not left:
                return self._layout(laid, trial.is_across), 0
        return None, sum(item[1] * item[2] for item in left)

    def _box(self, sheet: Sheet, is_across: bool) -> tuple[Box, int]:
        width, height = int(sheet.width // self.unit), int(sheet.height // self.unit)
        if is_across:
            width, height = height, width
        key = width, height, is_across
        if key not in self.boxes:
            self.boxes[key] = box_of(self.aside if is_across else self.upright, width, height)
        return self.boxes[key], height

    def _layout(self, laid: Sequence[tuple[int, list[Placed]]], is_across: bool) -> Layout:
        members = [list(kind.members) for kind in self.upright]
        layout = []
        for sheet, placed in laid:
            for kind, left, low, wide, high in placed:
                x, y, width, height = (low, left, high, wide) if is_across else (left, low, wide, high)
                sides = (self.upright[kind].width, self.upright[kind].height)
                at = (x * self.unit, y * self.unit, width * self.unit, height * self.unit)
                layout.append(Placement(members[kind].pop(0), sheet, *at, (width, height) != sides))
        return tuple(sorted(layout, key=lambda each: each.piece))


def _without(
    counts: Sequence[int], items: Sequence[Item], placed: Sequence[Placed]
) -> tuple[list[int], list[Item]]:
    """Return the counts and the order of what is left; of equal pieces the last in the order."""
    left = list(counts)
    for kind, *_ in placed:
        left[kind] -= 1
    rest, over = [], left[:]
    for item in reversed(items):
        if over[item[0]]:
            over[item[0]] -= 1
            rest.append(item)
    return left, rest[::-1]
