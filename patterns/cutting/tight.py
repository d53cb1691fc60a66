"""The search for a layout that wastes next to nothing: many are begun at once, and the best go on.

The narrowest valley of the skyline is where the next piece lies, at its left, or it is given up as high as
its lower wall; nearly all layouts that are pushed down and to the left come about in this way. How much may
be given up is known beforehand: what the box has more than the pieces. So a box that the pieces nearly fill
leaves few choices, and what is wasted for certain counts at once (`waste.py`). After every piece, only the
best of all the layouts that are begun go on. Short tries with other preferences find more than a long one.
That none is found proves nothing.
Source: beam search, B. T. Lowerre, “The Harpy speech recognition system”, 1976; from memory.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from heapq import heappush, heappushpop
from operator import itemgetter
from random import Random
from typing import NamedTuple

from .effort import Effort
from .sky import Sky
from .strip import Kind, Placed, Strip
from .waste import Waste

# A box with more to spare than this share of it leaves so many choices that other searches do better.
_MOST_SPARE = 16
# More pieces make each try too long.
MOST_TIGHT = 40
# So many layouts go on in the shortest tries.
_GO_ON = 60
# Work for a try, and for a layout that is begun: microseconds.
_A_TRY, _A_LAYOUT = 50, 10
# At the most, what speaks for a layout: that its pieces are large, that they are liked, what it may still
# waste; what speaks against it: each place of its skyline, and chance.
_FOR_SIZE, _FOR_LIKED, _FOR_SPARE, _FOR_PLACES, _FOR_CHANCE = 4.0, 2.0, 8.0, 1.0, 0.5


class _Begun(NamedTuple):
    """A layout that is begun. counts: what is left of each kind. spare: what may yet be given up.

    worth: what speaks for its pieces. last: the piece that came last.
    """

    sky: Sky
    counts: tuple[int, ...]
    spare: int
    worth: float = 0.0
    last: Placed | None = None


class _Kept(NamedTuple):
    """One that goes on. spared: what it may waste beyond what is certain. before: without its last piece."""

    begun: _Begun
    spared: int
    before: "_Kept | None" = None

    def placed(self) -> Iterator[Placed]:
        """Yield all its pieces."""
        kept: _Kept | None = self
        while kept is not None and kept.begun.last is not None:
            yield kept.begun.last
            kept = kept.before


# A layout with a piece more than one that was kept: all that may speak for it, what it may still waste at the
# most, the one that was kept, and itself.
_Hope = tuple[float, int, _Kept, _Begun]


@dataclass(slots=True)
class Tight:
    """The tries for one strip; tries: how many there were."""

    strip: Strip
    effort: Effort
    tries: int = 0
    lot: Random = field(init=False)

    def __post_init__(self) -> None:
        self.lot = Random(self.effort.seed)  # noqa: S311 (no secret)

    def is_worth_trying(self, length: int) -> bool:
        """Whether a length leaves little to spare, and the pieces are few and fill their rectangles."""
        spare = self.strip.width * length - self.strip.area
        is_little = 0 <= spare * _MOST_SPARE <= self.strip.width * length
        return is_little and self.strip.is_full and self.strip.count <= MOST_TIGHT

    def filled(self, length: int, work: int) -> tuple[Placed, ...]:
        """Return a layout on a length, in units; nothing where none was found with so much work."""
        end = self.effort.work - work
        ways = [kind.ways(self.strip.width, length) for kind in self.strip.kinds]
        upright = Waste(ways, self.strip.width, length)
        aside = Waste([[way[::-1] for way in each] for each in ways], length, self.strip.width)
        while not self.effort.is_done and self.effort.work > end:
            # Every other try the box lies on its side.
            is_across = self.tries % 2 == 1
            found = self._try(aside if is_across else upright, end)
            self.tries += 1
            if found:
                return tuple((kind, y, x, h, w) for kind, x, y, w, h in found) if is_across else found
        return ()

    def _try(self, waste: Waste, end: int) -> tuple[Placed, ...]:
        lot, kinds = self.lot, self.strip.kinds
        most = _GO_ON * in_turn(self.tries // 2 + 1)
        spare = waste.width * waste.height - self.strip.area
        growing = _Growing(waste, most, lot, *_preferences(kinds, spare, lot))
        begun = _Begun(Sky((0,), (waste.width,)), tuple(kind.count for kind in kinds), spare)
        kept = [_Kept(begun, spare)]
        self.effort.work -= _A_TRY
        for _ in range(self.strip.count):
            hopes = growing.hopes(kept)
            self.effort.work -= len(hopes) * _A_LAYOUT
            kept = growing.best(hopes)
            if not kept or self.effort.is_done or self.effort.work <= end:
                break
        else:
            return tuple(kept[0].placed())
        return ()


def _preferences(kinds: Sequence[Kind], spare: int, lot: Random) -> tuple[list[float], float, float, float]:
    """Draw what speaks for a piece of each kind, for what may be wasted, against a place, and for chance."""
    largest = max(kind.area for kind in kinds)
    for_size, for_liked = _FOR_SIZE * lot.random(), _FOR_LIKED * lot.random()
    worths = [for_size * kind.area / largest + for_liked * lot.random() for kind in kinds]
    for_spare = _FOR_SPARE * lot.random() / max(1, spare)
    return worths, for_spare, _FOR_PLACES * lot.random(), _FOR_CHANCE * lot.random()


def in_turn(number: int) -> int:
    """Return how much longer than the shortest a try is: 1, 1, 2, 1, 1, 2, 4, 1, …

    Whatever the best length is, this takes little longer than it.
    Source: M. Luby, A. Sinclair and D. Zuckerman, “Optimal speedup of Las Vegas algorithms”, 1993;
    from memory.

    >>> [in_turn(number) for number in range(1, 16)]
    [1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8]
    """
    while number & (number + 1):
        number -= (1 << (number.bit_length() - 1)) - 1
    return (number + 1) // 2


@dataclass(frozen=True, slots=True)
class _Growing:
    """One try. most: so many layouts go on. worths: of a piece, by kind. for_…: weights, as said above."""

    waste: Waste
    most: int
    lot: Random
    worths: list[float]
    for_spare: float
    for_places: float
    for_chance: float

    def hopes(self, kept: Sequence[_Kept]) -> list[_Hope]:
        """Return all layouts with a piece more, the most hopeful first; of mirror images one."""
        found: dict[tuple[tuple[int, ...], Sky], _Hope] = {}
        for before in kept:
            for begun in self._grown(before.begun):
                sky, counts, spare, worth, _ = begun
                key = counts, sky.or_mirrored
                if key not in found:
                    spared = min(before.spared, spare)
                    against = self.for_places * len(sky.tops) + self.for_chance * self.lot.random()
                    found[key] = worth + self.for_spare * spared - against, spared, before, begun
        return sorted(found.values(), key=itemgetter(0), reverse=True)

    def best(self, hopes: Sequence[_Hope]) -> list[_Kept]:
        """Return the best of them, taking off what each wastes for certain.

        That is only worked out as long as there is hope for one of the best.
        """
        best: list[tuple[float, int, _Kept]] = []
        for number, (worth, hoped, before, begun) in enumerate(hopes):
            if len(best) == self.most and worth <= best[0][0]:
                break
            spared = min(hoped, self.waste.spared(begun.sky, begun.counts, begun.spare))
            if spared >= 0:
                add = heappush if len(best) < self.most else heappushpop
                kept = _Kept(begun, spared, before)
                add(best, (worth - self.for_spare * (hoped - spared), number, kept))
        return [kept for *_, kept in best]

    def _grown(self, begun: _Begun) -> Iterator[_Begun]:
        """Yield a layout for each piece that the narrowest valley takes, and for those that give it up."""
        sky, counts, spare, worth, _ = begun
        height = self.waste.height
        while spare >= 0:
            valley = sky.narrowest_valley(height)
            _, x, y, most_wide, _, _ = valley
            most_high = height - y
            for kind, ways in enumerate(self.waste.ways):
                if not counts[kind]:
                    continue
                left = (*counts[:kind], counts[kind] - 1, *counts[kind + 1 :])
                more = worth + self.worths[kind]
                for wide, high in ways:
                    if wide <= most_wide and high <= most_high:
                        last = (kind, x, y, wide, high)
                        yield _Begun(sky.laid(valley, wide, high), left, spare, more, last)
            if valley.wall == height:
                return
            spare -= most_wide * (valley.wall - y)
            sky = sky.given_up(valley)
