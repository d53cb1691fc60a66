"""Which sizes have as much room as is wanted: the recipe's fill formulas, turned round.

The formulas may be anything, rising or not, so they are not solved but read off the grid of sizes.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, product

from .errors import HoldingError
from .fitting import Side, Wants
from .formulas.trend import Trend
from .gauges import Gauges, Place

# A thousand things that may lie anyhow look at some thousand places; where it cannot be told from the
# formulas which way they go, at a hundred times as many. That takes a second or two.
MOST_LOOKS = 100_000
# As many sizes as two measures have together.
MOST_LEVELS = 5_000


class Room:
    """The room that can be filled, at every place of a grid, side by side in whole parts of a mm."""

    def __init__(self, gauges: Gauges, sides: Sequence[Side], parts: int) -> None:
        self.gauges, self.sides, self.parts = gauges, tuple(sides), parts
        self.lengths = [len(axis.values) for axis in gauges.axes]
        self.start: Place = (0,) * len(self.lengths)
        self.gauged = [gauges.gauge(side.formula) for side in sides]
        self._whole: list[dict[object, int]] = [{} for _ in sides]
        self._looked = 0
        self._parts = _parts(self, range(len(sides)))

    @property
    def places(self) -> int:
        """How many sizes must be looked through, one after the other, for a single answer."""
        return max(part.places for part in self._parts)

    def look(self) -> None:
        """Count the places that are looked at. Raises HoldingError once they are too many."""
        self.gauges.watch()
        self._looked += 1
        if self._looked > MOST_LOOKS:
            raise HoldingError(
                "There are too many ways to lay so many things into this pattern to look through them all. "
                "Ask for fewer, or do not let them be turned."
            )

    def at(self, side: int, place: Place) -> int:
        """Return what a side measures there."""
        gauge, known = self.gauged[side], self._whole[side]
        key = gauge.key(place)
        if key not in known:
            known[key] = self.sides[side].whole(gauge(place), self.parts)
        return known[key]

    def holds(self, wants: Wants, place: Place) -> bool:
        return all(self.at(side, place) >= wanted for side, wanted in enumerate(wants))

    def levels(self, side: int) -> Sequence[int] | None:
        """Return all that a side measures anywhere, rising: what is wanted may be raised to the next of them.

        None where they take long to find.
        """
        axes = self.gauged[side].axes
        if math.prod(self.lengths[axis] for axis in axes) > MOST_LEVELS:
            return None
        return sorted({self.at(side, place) for place in self.over(axes)})

    def over(self, axes: Iterable[int]) -> Iterator[Place]:
        """Yield the places on some axes, in order; on the others it is the first."""
        free = set(axes)
        lengths = enumerate(self.lengths)
        return product(*(range(length if axis in free else 1) for axis, length in lengths))

    def least_places(self, wants: Wants) -> Iterator[Place]:
        """Yield the places with that room of which none is larger than another in every measure.

        Axes that the room does not depend on stay at their first value.
        """
        return _together(self._parts, wants, self.start)

    def goes(self, side: int, axis: int) -> Trend:
        """Which way a side goes along an axis."""
        return self.gauges.trend(self.sides[side].formula, axis)


def _parts(room: Room, sides: Iterable[int]) -> list["_Part"]:
    """Return the sides of the room that share no measure as parts of their own."""
    parts: list[tuple[set[int], set[int]]] = []
    for side in sides:
        axes = set(room.gauged[side].axes)
        met = [part for part in parts if part[1] & axes]
        parts = [part for part in parts if part not in met]
        own = {side}.union(*(part[0] for part in met))
        parts.append((own, axes.union(*(part[1] for part in met))))
    return [_Part(room, tuple(sorted(own)), tuple(sorted(axes))) for own, axes in parts]


def _together(parts: Sequence["_Part"], wants: Wants, start: Place) -> Iterator[Place]:
    """Yield the least places of parts that share no axis, put together."""
    for found in product(*(part.least(wants) for part in parts)):
        yield tuple(map(max, start, *found)) if found else start


class _Part:
    """Sides of the room that hang together, and the axes they read.

    inner: the axis that is searched along, one that the fewest sides read, so that few must be met at once;
    None where no axis is read. along: the sides that read it. apart: the others, in parts of their own.
    falls: no side along it grows while another axis rises, so that only the least room for the others
    counts. rises: every side along it grows with it, so that it need not be walked.
    """

    def __init__(self, room: Room, sides: tuple[int, ...], axes: tuple[int, ...]) -> None:
        self.room, self.sides, self.axes = room, sides, axes
        self.inner = min(axes, key=lambda axis: (self._read_by(axis), -room.lengths[axis]), default=None)
        self.along = [side for side in sides if self.inner is None or self.inner in room.gauged[side].axes]
        self.apart = [side for side in sides if side not in self.along]
        self.others = _parts(room, self.apart)
        self.falls = all(
            room.goes(side, axis).falls
            for side in self.along
            for axis in room.gauged[side].axes
            if axis != self.inner
        )
        self.rises = self.inner is not None and all(room.goes(side, self.inner).rises for side in self.along)
        self._columns: dict[object, list[int]] = {}
        self._with_room: dict[Wants, list[Place]] = {}
        self._known: dict[Wants, list[Place]] = {}

    def _read_by(self, axis: int) -> int:
        return sum(axis in self.room.gauged[side].axes for side in self.sides)

    @property
    def places(self) -> int:
        """How many places must be looked through."""
        lengths = self.room.lengths
        inner = 1 if self.inner is None or self.rises else lengths[self.inner]
        if self.falls:
            return max([inner, *(part.places for part in self.others)])
        return inner * math.prod(lengths[axis] for axis in self.axes if axis != self.inner)

    def least(self, wants: Wants) -> list[Place]:
        """Return the least places with the room wanted of its sides; on the other axes it is the first."""
        own = tuple(wants[side] for side in self.sides)
        if own not in self._known:
            self._known[own] = self._least(wants)
        return self._known[own]

    def _least(self, wants: Wants) -> list[Place]:
        found: list[Place] = []
        for outer in self._outer(wants):
            self.room.look()
            rank = self._first(wants, outer)
            if rank is not None:
                here = self._at(outer, rank)
                # What comes later cannot be less in every measure: its outer ranks come later in order.
                if self.falls or not any(is_no_larger(each, here) for each in found):
                    found.append(here)
        return found

    def _outer(self, wants: Wants) -> Iterable[Place]:
        """Return the places on the other axes from which to search, in order unless none is less."""
        if self.falls:
            return _together(self.others, wants, self.room.start)
        key = tuple(wants[side] for side in self.apart)
        if key not in self._with_room:
            self._with_room[key] = [
                place
                for place in self.room.over(axis for axis in self.axes if axis != self.inner)
                if all(self._has_room(side, wants, place) for side in self.apart)
            ]
        return self._with_room[key]

    def _has_room(self, side: int, wants: Wants, place: Place) -> bool:
        return self.room.at(side, place) >= wants[side]

    def _at(self, outer: Place, rank: int) -> Place:
        inner = self.inner
        return outer if inner is None else (*outer[:inner], rank, *outer[inner + 1 :])

    def _first(self, wants: Wants, outer: Place) -> int | None:
        """Return the first rank on the inner axis at which every side along it has its room."""
        length = 1 if self.inner is None else self.room.lengths[self.inner]
        start = max(self._reached(side, wants, outer) for side in self.along)
        if self.rises or len(self.along) == 1:
            return start if start < length else None
        return next(
            (
                rank
                for rank in range(start, length)
                if all(self._has_room(side, wants, self._at(outer, rank)) for side in self.along)
            ),
            None,
        )

    def _reached(self, side: int, wants: Wants, outer: Place) -> int:
        """Return the first rank at which one side has its room; the number of ranks if it never has."""
        if self.rises and self.inner is not None:
            ranks = range(self.room.lengths[self.inner])
            return bisect_left(ranks, wants[side], key=lambda rank: self.room.at(side, self._at(outer, rank)))
        return bisect_left(self._highest(side, outer), wants[side])

    def _highest(self, side: int, outer: Place) -> list[int]:
        """Return for each rank on the inner axis the most that a side measures at it or before it."""
        key = (side, *(outer[axis] for axis in self.room.gauged[side].axes if axis != self.inner))
        if key not in self._columns:
            ranks = range(1 if self.inner is None else self.room.lengths[self.inner])
            measured = (self.room.at(side, self._at(outer, rank)) for rank in ranks)
            self._columns[key] = list(accumulate(measured, max))
        return self._columns[key]


def is_no_larger(one: Place, other: Place) -> bool:
    return all(rank <= than for rank, than in zip(one, other, strict=True))
