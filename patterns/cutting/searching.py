"""The search for a shorter layout: a box of some length is filled in one order after another.

Always against a target length, never on an open strip, where a strap would stand upright; and in two forms,
the skyline rising along the cloth or, the box on its side, across it. What counts in between is the area of
the pieces that found no place.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product
from random import Random

from .effort import Effort
from .largest_left import largest_left
from .length_bound import Lengths
from .skyline import Box, Item, Rule, box_of, filled
from .strip import Kind, Placed, Strip

RULES = tuple(Rule(*rule) for rule in product((True, False), (1, 0, 2), (True, False)))
_FIRST_RULES = (Rule(True, 1, True), Rule(False, 0, False), Rule(True, 2, False), Rule(False, 1, True))
# How often another rule is tried with an order.
_CHANCE_OF_RULE = 0.04
# Largest first, in several senses: sides as they lie in the box, the longer one across.
_SIZES: tuple[Callable[[int, int], tuple[int, ...]], ...] = (
    lambda wide, high: (-wide * high, -wide),
    lambda wide, high: (-wide, -high),
    lambda wide, high: (-high, -wide),
    lambda wide, high: (-wide - high, -wide),
    lambda wide, high: (-min(wide, high), -max(wide, high)),
    lambda wide, high: (-max(wide, high), -min(wide, high)),
)
# Work for a piece placed, and for beginning: microseconds.
_A_PIECE, _A_FILLING = 3, 10
# A search that is far from its bound goes for a share of the gap; each time that it fails, for half of it.
_FIRST_SHARE, _LAST_SHARE = 4, 1 << 12
# Changes to an order before another order is taken up.
_AT_A_TIME = 50
# So often an order is taken up before another length is tried.
_ROUNDS = 24
# How much the better orders are favoured: a power of a number drawn from 0 to 1.
_LEAN = 3


@dataclass(slots=True)
class Trial:
    """An order that is being bettered. left: the area that found no place when it was last tried."""

    is_across: bool
    rule: Rule
    items: list[Item]
    left: int = 1 << 200


@dataclass(slots=True)
class Search:
    """goal: the least length worth finding. length, placed: the best found, in units."""

    strip: Strip
    lengths: Lengths
    effort: Effort
    length: int = 0
    placed: list[Placed] = field(default_factory=list)
    trials: list[Trial] = field(default_factory=list)
    lot: Random = field(init=False)
    along: Box = field(init=False)
    across: Box | None = None
    aside: tuple[Kind, ...] = ()

    def __post_init__(self) -> None:
        self.lot = Random(self.effort.seed)  # noqa: S311 (no secret)
        self.along = box_of(self.strip.kinds, self.strip.width, self.lengths.most)
        self.aside = tuple(kind.on_its_side() for kind in self.strip.kinds)
        self.trials = list(first_trials(self.strip.kinds, self.aside))

    def below(self, length: int) -> int:
        """Return the longest layout that is shorter, whatever the shop cuts: small steps lead far."""
        return self.lengths.down(length - 1)

    def begin(self, goal: int) -> None:
        """Find a first layout, and from it shorter ones by halving, each length in every first order."""
        for share in (32, 8, 4, 2, 1):
            if self._any(goal + goal // share, self.trials[:4]):
                break
        else:
            self._stack()
        low = goal
        while not self.effort.is_done and low <= self.below(self.length):
            target = min(low + (self.length - low) // 3, self.below(self.length))
            if not self._any(target, self.trials):
                if (self.length - target) * 400 <= self.length:
                    break
                low = target + 1

    def _stack(self) -> None:
        """Lay all pieces as the order has them on a strip that is long enough for whatever comes."""
        trial = next(each for each in self.trials if not each.is_across)
        self._try(trial, trial.items, self.lengths.most, 0)

    def _any(self, target: int, trials: Sequence[Trial]) -> bool:
        for trial in list(trials):
            if self._try(trial, trial.items, target, 0) == 0:
                self.trials.remove(trial)
                self.trials.insert(0, trial)
                return True
            if self.effort.is_done:
                return False
        return False

    def tidy(self, most: int) -> None:
        """Of what the first orders lay on a length, keep what leaves the largest rectangle over."""
        best = largest_left(self.placed, self.strip.width, most)
        for trial in first_trials(self.strip.kinds, self.aside):
            if self.effort.is_done:
                return
            length, placed = self.length, self.placed
            self.length, self.placed = 0, []
            self._try(trial, trial.items, most, 0)
            left = largest_left(self.placed, self.strip.width, most) if self.placed else 0
            if left > best:
                best = left
            else:
                self.length, self.placed = length, placed

    def better(self, goal: Callable[[], int], work: int) -> None:
        """Change orders by lot, until the goal is met, or so much work is done."""
        end = self.effort.work - work
        share = _FIRST_SHARE
        while self.length > goal() and not self.effort.is_done and self.effort.work > end:
            gap = self.length - goal()
            target = min(self.below(self.length), self.length - gap // share)
            if self._at(max(target, goal()), end):
                continue
            share = share * 2 if share < _LAST_SHARE and gap // share > 0 else _FIRST_SHARE

    def _at(self, target: int, end: int) -> bool:
        """Look for a layout of a length; what is left over of each order becomes less and less."""
        for trial in self.trials:
            if self.effort.is_done or self.effort.work <= end:
                return False
            trial.left = 1 << 200
            left = self._try(trial, trial.items, target, trial.left)
            trial.left = (1 << 200) if left is None else left
            if left == 0:
                return True
        self.trials.sort(key=lambda trial: trial.left)
        for _ in range(_ROUNDS):
            trial = self.trials[int(len(self.trials) * self.lot.random() ** _LEAN)]
            for _ in range(_AT_A_TIME):
                if self.effort.is_done or self.effort.work <= end:
                    return False
                items, rule = changed(trial.items, self.lot), trial.rule
                if self.lot.random() < _CHANCE_OF_RULE:
                    trial.rule = self.lot.choice(RULES)
                left = self._try(trial, items, target, trial.left)
                if left is None:
                    trial.rule = rule
                else:
                    trial.items, trial.left = items, left
                    if left == 0:
                        return True
        return False

    def _try(self, trial: Trial, items: list[Item], target: int, most_left: int) -> int | None:
        """Return what is left over at a target; a layout of all pieces is kept."""
        if trial.is_across:
            box = self._box_across(target)
            found = filled(box, self.strip.width, items, trial.rule, most_left)
        else:
            found = filled(self.along, target, items, trial.rule, most_left)
        placed = found[1] if found else ()
        self.effort.work -= _A_FILLING + _A_PIECE * (len(placed) or len(items) // 2)
        if found is None:
            return None
        if len(placed) == len(items):
            self.keep([(kind, y, x, h, w) for kind, x, y, w, h in placed] if trial.is_across else found[1])
            return 0
        return found[0]

    def _box_across(self, target: int) -> Box:
        if self.across is None or self.across.width != target:
            self.across = box_of(self.aside, target, self.strip.width)
        return self.across

    def keep(self, placed: list[Placed]) -> None:
        length = max(y + height for _, _, y, _, height in placed)
        if not self.placed or length < self.length:
            self.length, self.placed = length, placed


def _by(size: Callable[[int, int], tuple[int, ...]]) -> Callable[[Item], tuple[int, ...]]:
    return lambda item: size(item[1], item[2])


def first_trials(upright: Sequence[Kind], aside: Sequence[Kind]) -> Iterator[Trial]:
    """Yield the first orders: in each form, by each size, every piece flat first or upright first."""
    for number, (size, is_flat, is_across) in enumerate(product(_SIZES, (True, False), (False, True))):
        items: list[Item] = []
        for kind, each in enumerate(aside if is_across else upright):
            wide, high = each.width, each.height
            if each.turns and (wide < high) == is_flat:
                wide, high = high, wide
            other = (high, wide) if each.turns else (0, 0)
            items += [(kind, wide, high, *other)] * each.count
        items = sorted(items, key=_by(size))
        yield Trial(is_across, _FIRST_RULES[number * 5 // 4 % 4], items)


def changed(items: Sequence[Item], lot: Random) -> list[Item]:
    """Two pieces change places, or one goes elsewhere, or is tried the other way round first."""
    after = list(items)
    one, other, chance = int(lot.random() * len(after)), int(lot.random() * len(after)), lot.random()
    kind, wide, high, two_wide, two_high = after[one]
    if chance < 0.3:
        after.insert(other, after.pop(one))
    elif chance < 0.5 and two_wide:
        after[one] = (kind, two_wide, two_high, wide, high)
    else:
        after[one], after[other] = after[other], after[one]
    return after
