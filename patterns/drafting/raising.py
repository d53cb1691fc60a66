"""The nearest larger size that works: measures are raised, never lowered."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations

from .gauges import Gauge, Gauges, Place

# Among two measures of 90 steps each there are some 4,000 raises; this is enough for a dozen such sizes,
# and is tried in a quarter of a second.
MOST_RAISES = 50_000


@dataclass(slots=True)
class Raising:
    """Looks for larger sizes that may pass. tried: how many so far, of MOST_RAISES in all.

    hopeless: for each condition, the places from which no raise at all mends it.
    """

    gauges: Gauges
    tried: int = 0
    hopeless: dict[Gauge, set[Place]] = field(default_factory=dict)

    def larger(self, place: Place) -> Iterator[Place]:
        """Yield larger places, nearest first, that mend what fails here; none once MOST_RAISES were tried.

        Nearest: fewest measures raised, then the least sum of steps, then the order of the recipe.
        Whether they pass every check is still to be asked.
        """
        failed = [condition for condition in self.gauges.conditions if not condition(place)]
        if not all(self._can_be_mended(condition, place) for condition in failed):
            return
        for raised in self._raises(place, failed):
            self.gauges.watch()
            self.tried += 1
            if self.tried > MOST_RAISES:
                return
            if all(condition(raised) for condition in failed):
                yield raised

    def _raises(self, place: Place, failed: Sequence[Gauge]) -> Iterator[Place]:
        """Yield larger places, nearest first, where every failed condition reads something that changed."""
        room = [len(axis.values) - 1 - rank for axis, rank in zip(self.gauges.axes, place, strict=True)]
        free = [axis for axis, steps in enumerate(room) if steps]
        for size in range(1, len(free) + 1):
            groups = [
                group
                for group in combinations(free, size)
                if all(set(group) & set(condition.axes) for condition in failed)
            ]
            most = max((sum(room[axis] for axis in group) for group in groups), default=0)
            for total in range(size, most + 1):
                for group in groups:
                    for steps in _shared_out(total, [room[axis] for axis in group]):
                        yield _moved(place, group, steps)

    def _can_be_mended(self, condition: Gauge, place: Place) -> bool:
        """Whether any raise of what a condition reads makes it hold. No place is tried twice in vain."""
        dead = self.hopeless.setdefault(condition, set())
        start = tuple(rank if axis in condition.axes else 0 for axis, rank in enumerate(place))
        waiting, seen = [start], {start}
        while waiting:
            here = waiting.pop()
            if condition(here):
                return True
            for axis in reversed(condition.axes):
                there = (*here[:axis], here[axis] + 1, *here[axis + 1 :])
                is_new = there not in seen and there not in dead
                if is_new and there[axis] < len(self.gauges.axes[axis].values):
                    seen.add(there)
                    waiting.append(there)
        dead |= seen
        return False


def _shared_out(total: int, most: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Yield every way to share so many steps out among measures, one at least for each.

    >>> list(_shared_out(4, [3, 2]))
    [(2, 2), (3, 1)]
    """
    if not most:
        if total == 0:
            yield ()
        return
    for first in range(1, min(total, most[0]) + 1):
        for others in _shared_out(total - first, most[1:]):
            yield (first, *others)


def _moved(place: Place, group: Sequence[int], steps: Sequence[int]) -> Place:
    moved = list(place)
    for axis, by in zip(group, steps, strict=True):
        moved[axis] += by
    return tuple(moved)
