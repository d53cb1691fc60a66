"""Layouts in rows: the row that wastes least of the cloth's width first; then some rows are laid anew.

A row holds few pieces, so that every box they can make is looked at, and a few rows together still do.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from .boxes import Box, Kind, Spot, counted, spots_of
from .edge_to_edge_exact import Room, counts_of, fronts, lowest, ways_to_part
from .effort import Effort
from .rows_and_columns import extent, in_groups

# How many ways to part its pieces in two a row may have, and rows that are laid anew together.
MOST_WAYS_A_ROW = 2_000
MOST_WAYS_ANEW = 12_000
# A row may waste such a share of the area of what may lie in it.
_SPARED = 12
# As good as before, but otherwise: so often.
_OTHERWISE = 0.4


@dataclass(slots=True)
class Rows:
    """Rows of pieces across the cloth, each of them edge to edge; every row's y begins at 0."""

    kinds: Sequence[Kind]
    width: int
    rows: list[list[Spot]]
    effort: Effort
    lot: Random

    @property
    def length(self) -> int:
        return sum(extent(row, 1)[1] for row in self.rows)

    @property
    def spots(self) -> list[Spot]:
        spots, low = list[Spot](), 0
        for row in self.rows:
            spots += [spot._replace(y=spot.y + low) for spot in row]
            low += extent(row, 1)[1]
        return spots

    def lay_anew(self) -> None:
        """Draw rows, and lay their pieces into less length; now and then into the same."""
        order = list(range(len(self.rows)))
        self.lot.shuffle(order)
        chosen, taken = [order[0]], list(self.rows[order[0]])
        for number in order[1:]:
            if _ways([*taken, *self.rows[number]], self.kinds) <= MOST_WAYS_ANEW:
                chosen.append(number)
                taken += self.rows[number]
        self.effort.work -= 20 + 4 * len(taken)
        if len(chosen) == 1 or _ways(taken, self.kinds) > MOST_WAYS_ANEW:
            return
        height = sum(extent(self.rows[number], 1)[1] for number in chosen)
        is_otherwise = self.lot.random() < _OTHERWISE
        kinds, places = counted(taken, self.kinds)
        box, _ = lowest(kinds, self.width, height if is_otherwise else height - 1, self.effort)
        if box is not None:
            kept = [row for number, row in enumerate(self.rows) if number not in chosen]
            anew = [spot._replace(kind=places[spot.kind]) for spot in spots_of(box)]
            self.rows = [*kept, *rows_of(anew)]


def rows_of(spots: Sequence[Spot]) -> list[list[Spot]]:
    """Return the rows of a layout, each as if it lay at 0."""
    rows = in_groups(spots, 1)
    lows = [extent(row, 1)[0] for row in rows]
    return [[spot._replace(y=spot.y - low) for spot in row] for row, low in zip(rows, lows, strict=True)]


def in_rows(kinds: Sequence[Kind], width: int, effort: Effort, lot: Random) -> Rows | None:
    """Return all pieces in rows, one good row after the other; None where the effort did not do."""
    left = [kind.copies for kind in kinds]
    rows = list[list[Spot]]()
    while any(left):
        chosen = _drawn(kinds, left, lot)
        some, places = counted([Spot(kind, 0, 0, 0, 0, 0) for kind in chosen], kinds)
        box = _best_row(some, width, effort)
        if box is None:
            return None
        row = [spot._replace(kind=places[spot.kind]) for spot in spots_of(box)]
        for spot in row:
            left[spot.kind] -= 1
        rows.append(row)
    return Rows(kinds, width, rows, effort, lot)


def _drawn(kinds: Sequence[Kind], left: Sequence[int], lot: Random) -> list[int]:
    """Draw pieces for a row: the largest that is left, and others while they are not too many."""
    pieces = [kind for kind, count in enumerate(left) for _ in range(count)]
    chosen, others = [pieces[0]], pieces[1:]
    lot.shuffle(others)
    counts = {pieces[0]: 1}
    ways = 3
    for kind in others:
        count = counts.get(kind, 0)
        more = ways * (count + 3) // (count + 1)
        if more <= MOST_WAYS_A_ROW:
            counts[kind], ways = count + 1, more
            chosen.append(kind)
    return chosen


def _best_row(kinds: Sequence[Kind], width: int, effort: Effort) -> Box | None:
    """Return the row with the largest part of it used, that has a piece of the largest kind in it."""
    longest = 2 * max(side for kind in kinds for way in kind.sides for side in way)
    area = sum(kind.area * kind.copies for kind in kinds)
    boxes = fronts(kinds, Room(width, longest, area // _SPARED, is_one=False), effort)
    if boxes is None:
        return None
    best, most_used = None, (0, 1)
    for number, front in enumerate(boxes):
        counts = counts_of(number, kinds) if front else [0]
        if not counts[0]:
            continue
        used = sum(count * kind.area for count, kind in zip(counts, kinds, strict=True))
        for box in front:
            if used * most_used[1] > most_used[0] * width * box.height:
                best, most_used = box, (used, width * box.height)
    return best


def _ways(spots: Sequence[Spot], kinds: Sequence[Kind]) -> int:
    return ways_to_part(counted(spots, kinds)[0])
