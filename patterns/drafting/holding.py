"""From contents to size: the sizes of a recipe that hold so many of a thing, and what a given size holds.

What can be filled is the recipe's to say (`Recipe.holds`): a box, or what is round. The things are equal
boxes in columns, layers and rows, all of a length.
"""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from heapq import heapify, heappop
from math import prod
from typing import NamedTuple

from .errors import HoldingError
from .filling import Room, is_no_larger
from .fitting import Grid, Wants, in_whole_parts, sides_of, space, spare
from .formulas.formula import Formula
from .formulas.names import names
from .formulas.values import Measured, Value, times
from .gauges import Axis, Gauges, Place, Watch, nobody_watches
from .raising import Raising
from .recipe import BoxRoom, Recipe, RoundRoom, Scale
from .sizing import all_values, choose
from .things import Arrangement, RoundSpace, Space, Things
from .units import Units

MOST_THINGS = 1_000
# A measure from 1 to 100 in by sixteenths has some 1,600 steps.
MOST_STEPS = 5_000
# Where it cannot be told from the formulas which way they go, all sizes of the measures that hang together
# are looked through: two have some thousand, three of 60 steps each as many as this, which takes seconds.
MOST_PLACES = 250_000


@dataclass(frozen=True, slots=True)
class Holding:
    """A size with the things in it. measures: those of role size. area: of cut fabric, mm².

    room: what can be filled. spare: what the things leave of it, in each direction by itself.
    """

    measures: Mapping[str, Fraction]
    area: Measured
    arrangement: Arrangement
    room: Space | RoundSpace
    spare: Space


@dataclass(frozen=True, slots=True)
class Held:
    """What a size holds. arrangement and spare: None where not even one thing goes in."""

    count: int
    room: Space | RoundSpace | None
    arrangement: Arrangement | None = None
    spare: Space | None = None


def sizes_that_hold(
    recipe: Recipe,
    units: Units,
    things: Things,
    count: int,
    options: Mapping[str, str] | None = None,
    measures: Mapping[str, Fraction] | None = None,
    limit: int = 5,
    watch: Watch = nobody_watches,
) -> tuple[Holding, ...]:
    """Return the sizes that hold so many things, best first; none, if no size does.

    For each way to arrange them the least sizes on the recipe's steps are taken, and raised, never lowered,
    to the nearest that passes every refuse check. Best is the least cut area of fabric, then the least
    volume, then the least measures in the order of the recipe. A size is left out where a better one is no
    larger in any measure.
    measures: what stays as it is, mm or bare numbers; the others of role size are looked for.
    watch: is called all the while, and may raise a DraftingError to end the search.
    Raises HoldingError: the recipe does not say what it holds, no such number of things, or too many sizes
    to look through. SizingError: a name or a choice that the recipe does not have.
    """
    holds = _holds(recipe)
    if not 1 <= count <= MOST_THINGS:
        raise HoldingError(f"{count:,} things are not counted here. Ask for 1 to {MOST_THINGS:,}.")
    chosen, fixed = choose(recipe, options or {}), measures or {}
    values = all_values(recipe, units, fixed, chosen)
    if not all(_is_within(value, recipe.measure(name).scales[units]) for name, value in fixed.items()):
        return ()
    axes = _axes(recipe, units, holds, fixed, values)
    gauges = Gauges(recipe, units, fixed, chosen, axes, watch)
    return _Search(recipe, gauges, holds, things, fixed).best(count, limit)


def held(
    recipe: Recipe,
    units: Units,
    things: Things,
    options: Mapping[str, str] | None = None,
    measures: Mapping[str, Fraction] | None = None,
) -> Held:
    """Return how many things a size holds, and how; whether it passes the checks is not looked at.

    measures, options: as for `sizing.size`. Of ways that hold equally many, the one that turns least.
    Raises HoldingError and SizingError as `sizes_that_hold`.
    """
    holds = _holds(recipe)
    values = all_values(recipe, units, measures or {}, choose(recipe, options or {}))
    room = space(formula.value(values) for formula in holds)
    if room is None:
        return Held(0, None)
    is_round, (parts, turned) = isinstance(holds, RoundRoom), in_whole_parts(things)
    whole = [side.whole(value, parts) for side, value in zip(sides_of(holds), room, strict=True)]
    grids = [thing.fullest(whole, is_round) for thing in turned]
    grid, turn = max(zip(grids, things.turns, strict=True), key=lambda way: prod(way[0]))
    if not prod(grid):
        return Held(0, room)
    best = Arrangement(*grid, things.turned(turn))
    return Held(prod(grid), room, best, spare(room, best))


def _holds(recipe: Recipe) -> BoxRoom | RoundRoom:
    if recipe.holds is None:
        raise HoldingError(
            f"“{recipe.title}” does not say what it holds, so nobody can ask. Its recipe text wants a table "
            "[holds] with the width, height and depth that can be filled, or with the diameter and height of "
            "what is round."
        )
    return recipe.holds


def _is_within(value: Fraction, scale: Scale) -> bool:
    return scale.least <= value <= scale.most


def _axes(
    recipe: Recipe,
    units: Units,
    holds: Iterable[Formula],
    fixed: Mapping[str, Fraction],
    values: Mapping[str, Value],
) -> list[Axis]:
    """Return the measures that are looked for, with what each may be.

    Those that decide what can be filled run over their whole range; the others start at what they are, and
    rise only where a check wants it.
    """
    read = _read_by(recipe, holds)
    axes = []
    for measure in recipe.measures:
        if measure.role != "size" or measure.name in fixed:
            continue
        grid = _grid(measure.name, measure.scales[units])
        if measure.name not in read:
            start = values[measure.name]
            assert isinstance(start, Fraction)  # measures are given, not worked out
            grid = (start, *(value for value in grid if value > start))
        axes.append(Axis(measure, grid))
    return axes


def _read_by(recipe: Recipe, formulas: Iterable[Formula]) -> set[str]:
    """Return every name that formulas read, also through other names."""
    found: set[str] = set()
    waiting = [*formulas]
    while waiting:
        new = names(waiting.pop().tree) - found
        found |= new
        waiting += [recipe.definitions[name] for name in new if name in recipe.definitions]
    return found


def _grid(name: str, scale: Scale) -> tuple[Fraction, ...]:
    steps = (scale.most - scale.least) // scale.step
    if steps >= MOST_STEPS:
        raise HoldingError(f"The {name} has too many steps to look through: {steps:,}. Say what it is.")
    return tuple(scale.least + step * scale.step for step in range(steps + 1))


class _Search:
    """One question being answered over the grid of a recipe's sizes."""

    def __init__(
        self,
        recipe: Recipe,
        gauges: Gauges,
        holds: BoxRoom | RoundRoom,
        things: Things,
        fixed: Mapping[str, Fraction],
    ) -> None:
        self.gauges, self.things, self.fixed = gauges, things, fixed
        self.names = [measure.name for measure in recipe.measures if measure.role == "size"]
        self.is_round = isinstance(holds, RoundRoom)
        parts, self.turned = in_whole_parts(things)
        self.room = Room(gauges, sides_of(holds), parts)
        if self.room.places > MOST_PLACES:
            raise HoldingError(
                f"Too many sizes of “{recipe.title}” hang together to look through them all: "
                f"{self.room.places:,}. Say what one of its measures is."
            )
        self.finished = tuple(map(gauges.gauge, recipe.finished))

    def best(self, count: int, limit: int) -> tuple[Holding, ...]:
        found = self._found(count)
        best: list[Place] = []
        for place in self._ranked(found):
            if not any(is_no_larger(better, place) for better in best):
                best.append(place)
            if len(best) == limit:
                break
        return tuple(self._holding(place, found[place]) for place in best)

    def _ranked(self, places: Iterable[Place]) -> Iterator[Place]:
        """Yield places by their area, then by their volume, then by their measures."""
        areas = ((self.gauges.cloth(place), place) for place in places)
        waiting = [(_comparable(area), place) for area, place in areas if area is not None]
        heapify(waiting)  # only the first few are asked for
        while waiting:
            area, place = heappop(waiting)
            equals = [place]
            while waiting and waiting[0][0] == area:
                equals.append(heappop(waiting)[1])
            yield from sorted(equals, key=lambda place: (self._volume(place), place))

    def _found(self, count: int) -> Mapping[Place, "_Way"]:
        """Return the places that hold the things and pass the checks, each with its plainest arrangement."""
        ways = self._ways(count)
        least: dict[Place, list[Wants]] = {}
        for wants in ways:
            for place in self.room.least_places(wants):
                least.setdefault(place, []).append(wants)
        raising = Raising(self.gauges)
        found: dict[Place, _Way] = {}
        for place in sorted(least, key=lambda place: (sum(place), place)):
            here = least[place]
            if self.gauges.passes(place):
                settled: Iterable[tuple[Place, Wants]] = ((place, wants) for wants in here)
            else:
                settled = self._first_with_room(here, raising.larger(place))
            for there, wants in settled:
                found[there] = min(ways[wants], found.get(there, ways[wants]))
        return found

    def _ways(self, count: int) -> Mapping[Wants, "_Way"]:
        """Return the ways to arrange the things by the room that they want; of equals the plainest.

        What is wanted is as much as some size just has, so that most of the ways are equals.
        """
        ways: dict[Wants, _Way] = {}
        levels = [self.room.levels(side) for side in range(len(self.room.sides))]
        tops = [None if each is None else each[-1] for each in levels]
        for rank, thing in enumerate(self.turned):
            for grid in _grids(count, thing.most(tops, self.is_round, count)):
                wants = _raised(thing.wants(grid, self.is_round), levels)
                if wants is not None:
                    way = _Way(rank, prod(grid), grid.high, grid.across, grid.deep)
                    ways[wants] = min(way, ways.get(wants, way))
        return ways

    def _first_with_room(
        self, waiting: list[Wants], places: Iterable[Place]
    ) -> Iterator[tuple[Place, Wants]]:
        """Yield each of what is wanted with the first of the places that has room for it and passes."""
        for place in places:
            met = {wants for wants in waiting if self.room.holds(wants, place)}
            if not met or not self.gauges.passes(place):
                continue
            yield from ((place, wants) for wants in met)
            waiting = [wants for wants in waiting if wants not in met]
            if not waiting:
                return

    def _volume(self, place: Place) -> Fraction:
        """Return the volume of the finished item; 0 where it has none."""
        width, height, depth = (gauge(place) for gauge in self.finished)
        return _comparable(times(times(width, height), depth) or Fraction(0))

    def _holding(self, place: Place, way: "_Way") -> Holding:
        room = space(side(place) for side in self.room.gauged)
        area = self.gauges.cloth(place)
        assert room is not None  # it holds something
        assert area is not None  # it was ranked
        thing = self.things.turned(self.things.turns[way.turn])
        arrangement = Arrangement(way.across, way.high, way.deep, thing)
        known = {**self.fixed, **self.gauges.measures(place)}
        measures = {name: known[name] for name in self.names}
        return Holding(measures, area, arrangement, room, spare(room, arrangement))


class _Way(NamedTuple):
    """A way to arrange the things; the plainer of two is less: turned less, fewer places empty, fewer layers.

    turn: its rank among the turns.
    """

    turn: int
    places: int
    high: int
    across: int
    deep: int


def _raised(wants: Wants, levels: Sequence[Sequence[int] | None]) -> Wants | None:
    """Return what is wanted, each raised to the next level; None where there is none so high."""
    raised = []
    for wanted, level in zip(wants, levels, strict=True):
        if level is None:
            raised.append(wanted)
        elif wanted > level[-1]:
            return None
        else:
            raised.append(level[bisect_left(level, wanted)])
    return tuple(raised)


def _grids(count: int, most: Grid) -> Iterator[Grid]:
    """Yield every number across, high and deep for so many things, with no row, column or layer to spare.

    >>> [tuple(grid) for grid in _grids(4, Grid(2, 9, 9))]
    [(1, 4, 1), (1, 2, 2), (1, 1, 4), (2, 2, 1), (2, 1, 2)]
    """
    for across in range(1, min(count, most.across) + 1):
        for deep in range(1, min(-(-count // across), most.deep) + 1):
            high = -(-count // (across * deep))
            is_tight = (across - 1) * deep * high < count and across * (deep - 1) * high < count
            if high <= most.high and is_tight:
                yield Grid(across, high, deep)


def _comparable(value: Measured) -> Fraction:
    """A number to sort by: rounded ones that differ by less than anything that is cut are equal."""
    return Fraction(round(value, 15)) if isinstance(value, Decimal) else value
