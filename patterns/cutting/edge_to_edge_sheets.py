"""The fewest sheets to cut pieces from edge to edge: ways are tried, then every box where these are few."""

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import combinations, islice
from random import Random

from .boxes import Box, Kind, Spot, spots_of
from .edge_to_edge_exact import Fronts, Room, counts_of, fronts, strides_of, ways_to_part
from .effort import Effort
from .free_rectangles import another_way, filled, first_ways

# Sizes of sheets, whole numbers.
Places = Sequence[tuple[int, int]]
# Choices of so many different sheets that are tried.
MOST_CHOICES = 60
# Ways to part the pieces in two that are looked at, for each number of sheets.
MOST_WAYS = 300_000


def fewest_by_cuts(
    kinds: Sequence[Kind], places: Places, effort: Effort, bound: int
) -> tuple[list[Spot] | None, int]:
    """Return where the pieces lie on the fewest sheets found, and how many no layout can do without."""
    area = sum(kind.area * kind.copies for kind in kinds)
    is_proved = True
    for count in range(bound, len(places) + 1):
        choices = list(islice(_choices(places, count), MOST_CHOICES + 1))
        is_sure = len(choices) <= MOST_CHOICES
        share = effort.work // (2 * len(choices))
        for choice in choices[:MOST_CHOICES]:
            chosen = [places[number] for number in choice]
            if sum(width * height for width, height in chosen) < area:
                continue
            spots, is_answer = _on(kinds, chosen, effort, share)
            if spots is not None:
                return [spot._replace(sheet=choice[spot.sheet]) for spot in spots], bound
            is_sure = is_sure and is_answer
        is_proved = is_proved and is_sure
        if is_proved:
            bound = count + 1
    return None, bound


def _choices(places: Places, count: int) -> Iterator[tuple[int, ...]]:
    """Yield choices of so many sheets, first ones first; of those that differ only in equal sheets, one."""
    seen = set()
    for choice in islice(combinations(range(len(places)), count), 50 * MOST_CHOICES):
        sizes = tuple(sorted(places[number] for number in choice))
        if sizes not in seen:
            seen.add(sizes)
            yield choice


def _on(kinds: Sequence[Kind], places: Places, effort: Effort, share: int) -> tuple[list[Spot] | None, bool]:
    """Return where the pieces lie on these sheets, or None and whether that is sure."""
    until = effort.work - share
    ways = first_ways(kinds)
    for way in ways:
        spots, homeless = filled(way, kinds, places, effort)
        if not homeless:
            return spots, True
        if effort.is_done:
            return None, False
    if ways_to_part(kinds) <= MOST_WAYS:
        return _by_every_box(kinds, places, effort)
    lot = Random(effort.seed)  # noqa: S311
    way, last, least = ways[0], list[int](), sum(kind.area * kind.copies for kind in kinds)
    while not effort.is_done and effort.work > until:
        tried = another_way(way, last, lot)
        spots, homeless = filled(tried, kinds, places, effort)
        if not homeless:
            return spots, True
        out = sum(kinds[kind].area for kind in homeless)
        if out <= least:
            least, last, way = out, homeless, tried
    return None, False


def _by_every_box(kinds: Sequence[Kind], places: Places, effort: Effort) -> tuple[list[Spot] | None, bool]:
    width, height = (max(place[axis] for place in places) for axis in (0, 1))
    spare = sum(map(_area, places)) - sum(kind.area * kind.copies for kind in kinds)
    boxes = fronts(kinds, Room(width, height, spare, len(set(places)) == 1), effort)
    if boxes is None:
        return None, False
    shared = _Shared(kinds, places, boxes, effort)
    found = shared.boxes_for(len(boxes) - 1, 0)
    if found is None:
        return None, not effort.is_done
    each = (partial(spots_of, box, number) for number, box in enumerate(found) if box)
    return [spot for spots in each for spot in spots()], True


class _Shared:
    """The search for which pieces lie on which sheet. fruitless: what is known not to go on those left."""

    def __init__(self, kinds: Sequence[Kind], places: Places, boxes: Fronts, effort: Effort) -> None:
        self.kinds, self.places, self.boxes, self.effort = kinds, places, boxes, effort
        self.strides = strides_of(kinds)
        self.fruitless = set[tuple[int, int]]()

    def boxes_for(self, number: int, sheet: int) -> list[Box | None] | None:
        """Return a box for each sheet from this one on, so that they hold a multiset of the pieces."""
        if not number:
            return [None] * (len(self.places) - sheet)
        if sheet == len(self.places) or (number, sheet) in self.fruitless or self.effort.is_done:
            return None
        for part in self._parts(number, sheet):
            box = self._fitting(part, sheet)
            rest = self.boxes_for(number - part, sheet + 1) if box or not part else None
            if rest is not None:
                return [box, *rest]
        self.fruitless.add((number, sheet))
        return None

    def _parts(self, number: int, sheet: int) -> list[int]:
        """Return what could lie on a sheet, largest first; on the last all that is left."""
        if sheet == len(self.places) - 1:
            return [number]
        counts = counts_of(number, self.kinds)
        parts = [(0, 0)]
        for count, kind, stride in zip(counts, self.kinds, self.strides, strict=False):
            parts = [
                (area + times * kind.area, part + times * stride)
                for times in range(count + 1)
                for area, part in parts
            ]
        self.effort.work -= 1 + len(parts) // 2
        beyond = sum(map(_area, self.places[sheet + 1 :]))
        most = max(area for area, _ in parts)
        return [part for area, part in sorted(parts, reverse=True) if most - area <= beyond]

    def _fitting(self, number: int, sheet: int) -> Box | None:
        width, height = self.places[sheet]
        for box in self.boxes[number]:
            if box.width <= width and box.height <= height:
                return box
        return None


def _area(place: tuple[int, int]) -> int:
    return place[0] * place[1]
