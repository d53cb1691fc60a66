"""Short edge-to-edge layouts where there are too many pieces for every box: a search that is never sure.

Pieces are laid one after the other into a strip shorter than the best so far, in orders that change a little
each time; or in rows, and some rows anew; or the best is taken apart into groups, and these are laid anew.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from .boxes import Kind, Spot
from .effort import Effort
from .free_rectangles import Way, another_way, filled, first_ways
from .regrouping import regrouped
from .rows import Rows, in_rows, rows_of


def length_of(spots: Sequence[Spot]) -> int:
    return max(spot.y + spot.height for spot in spots)


@dataclass(slots=True)
class Strip:
    """A search for a short layout. best: the shortest so far. aim: short enough to stop."""

    kinds: tuple[Kind, ...]
    width: int
    aim: int
    effort: Effort
    lot: Random
    best: list[Spot]

    @property
    def length(self) -> int:
        return length_of(self.best)

    @property
    def is_done(self) -> bool:
        return self.length <= self.aim or self.effort.is_done

    def try_first_ways(self) -> None:
        """Try every rule; each time in a strip that is shorter than the best."""
        for way in first_ways(self.kinds):
            self.shorten(way)
            if self.is_done:
                return

    def shorten(self, way: Way) -> None:
        """Go on one way while it leads to something shorter."""
        while not self.is_done:
            spots, homeless = filled(way, self.kinds, [(self.width, self.length - 1)], self.effort)
            if homeless:
                return
            self.best = spots

    def search_orders(self, most_work: int) -> None:
        """Change the order of the pieces a little, again and again, as long as no more is left out."""
        until = self.effort.work - most_work
        way = self.lot.choice(first_ways(self.kinds))
        least: int | None = None
        last = list[int]()
        while not self.is_done and self.effort.work > until:
            tried = another_way(way, last, self.lot)
            spots, homeless = filled(tried, self.kinds, [(self.width, self.length - 1)], self.effort)
            out = sum(self.kinds[kind].area for kind in homeless)
            if not homeless:
                self.best, least, last, way = spots, None, [], tried
            elif least is None or out <= least:
                least, last, way = out, homeless, tried

    def search_rows(self, most_work: int) -> None:
        """Lay rows, and some of them anew again and again; then go on from the best so far likewise."""
        until = self.effort.work - most_work
        rows = in_rows(self.kinds, self.width, self.effort, self.lot)
        for start in (rows, Rows(self.kinds, self.width, rows_of(self.best), self.effort, self.lot)):
            until_now = (self.effort.work + until) // 2 if start is rows else until
            while start is not None and not self.is_done and self.effort.work > until_now:
                start.lay_anew()
                if start.length < self.length:
                    self.best = start.spots

    def regroup(self, most_work: int) -> None:
        """Take the best apart into groups that are laid anew, again and again."""
        until = self.effort.work - most_work
        while not self.is_done and self.effort.work > until:
            anew = regrouped(self.best, self.kinds, self.width, self.effort, self.lot)
            if anew is not None:
                self.best = anew


def stacked(kinds: Sequence[Kind], width: int) -> list[Spot]:
    """Return a layout that is always there: one piece above the other, each as low as it may lie."""
    spots, y = list[Spot](), 0
    for number, kind in enumerate(kinds):
        across, along = min((way for way in kind.sides if way[0] <= width), key=lambda way: way[1])
        for _ in range(kind.copies):
            spots.append(Spot(number, 0, 0, y, across, along))
            y += along
    return spots
