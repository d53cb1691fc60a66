"""From cloth to size: the largest size of a recipe that can be cut from the cloth that somebody has.

Every larger size is refused by the recipe, or excluded by a proof, or named as open: never guessed.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from patterns.drafting.formulas.values import Measured
from patterns.drafting.gauges import Gauges, Place, Watch, nobody_watches
from patterns.drafting.recipe import Recipe
from patterns.drafting.sizing import all_values, choose
from patterns.drafting.units import Units

from .demand import Demand
from .errors import CuttingError, EndedError
from .ladder import Ladder, ladder
from .laying import USUAL_WORK, Work
from .sharing import Cloth, Sharing
from .sheets import MOST_SHEETS, Layout

MOST_OPEN = 10


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A piece of fabric at the size that was found."""

    name: str
    material: str
    cut: int
    width: Measured
    height: Measured


@dataclass(frozen=True, slots=True)
class Laid:
    """One copy of a piece: mm from the upper left corner of its sheet. turned: by a quarter."""

    piece: str
    material: str
    sheet: int
    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction
    turned: bool


@dataclass(frozen=True, slots=True)
class FromCloth:
    """The largest size that could be laid out.

    measures: all of them; None where no size fits. larger: the next size, whether or not it could be sewn;
    None where the pattern ends. still_open: larger sizes that were neither laid nor excluded, smallest first,
    the first MOST_OPEN of how_many_open. was_ended: before all had been looked at: which larger sizes are
    open is not known then.
    """

    measures: Mapping[str, Fraction] | None
    pieces: tuple[CutPiece, ...] = ()
    placements: tuple[Laid, ...] = ()
    larger: Mapping[str, Fraction] | None = None
    still_open: tuple[Mapping[str, Fraction], ...] = ()
    how_many_open: int = 0
    was_ended: bool = False

    @property
    def proved(self) -> bool:
        """Whether every larger size is refused or excluded."""
        return not self.how_many_open and not self.was_ended


def from_cloth(
    recipe: Recipe,
    units: Units,
    cloth: Sequence[Cloth],
    keep: str | Sequence[str],
    measures: Mapping[str, Fraction] | None = None,
    options: Mapping[str, str] | None = None,
    work: int = USUAL_WORK,
    watch: Watch = nobody_watches,
) -> FromCloth:
    """Return the largest size on the recipe's steps that can be cut from the cloth.

    cloth: sheet by sheet. keep: PROPORTIONS, VOLUME, or the names of the measures that stay while one grows.
    measures, options: as for `sizing.size`. work: how much is tried, in places for a piece.
    watch: called while it is looked for; where it raises an EndedError, the best that was found is returned.
    Raises CuttingError: cloth for what is no fabric, too much of it, nothing that grows. SizingError: as
    `sizing.size`.
    """
    if not 1 <= len(cloth) <= MOST_SHEETS:
        raise CuttingError(
            f"A size is looked for on 1 to {MOST_SHEETS} pieces of cloth, not on {len(cloth)}."
        )
    chosen, given = choose(recipe, options or {}), measures or {}
    all_values(recipe, units, given, chosen)  # names that the recipe does not have are told at once
    steps = ladder(recipe, units, keep, given, chosen)
    gauges = Gauges(recipe, units, given, chosen, steps.axes, watch)
    demand = Demand(recipe, units, gauges, chosen)
    sharing = Sharing(demand, cloth, Work(work, watch))
    if not _stay_in_range(recipe, units, given, steps):
        return FromCloth(None)
    search = _Search(steps, gauges, demand, sharing)
    return _Told(recipe, units, given, chosen, search).answer()


def _stay_in_range(recipe: Recipe, units: Units, given: Mapping[str, Fraction], steps: Ladder) -> bool:
    """Whether the measures that stay are within their ranges; those that grow never leave theirs."""
    stay = {axis.measure.name: axis.values[0] for axis in steps.axes if len(axis.values) == 1}
    moving = {axis.measure.name for axis in steps.axes} - set(stay)
    fixed = {name: value for name, value in given.items() if name not in moving} | stay
    scales = {name: recipe.measure(name).scales[units] for name in fixed}
    return all(scales[name].least <= value <= scales[name].most for name, value in fixed.items())


# Sizes that are equally large.
_Rung = Sequence[Place]
_Found = tuple[Place, Layout]


@dataclass
class _Search:
    """found: the largest size that was laid out so far. left: larger ones for which no layout was found.

    was_ended: whether its watch ended it.
    """

    steps: Ladder
    gauges: Gauges
    demand: Demand
    sharing: Sharing
    found: _Found | None = None
    left: list[Place] = field(default_factory=list)
    was_ended: bool = False

    def run(self) -> None:
        """Look for the largest size; afterwards those left are open, smallest first."""
        try:
            for rung in self.rungs[self._foothold() :]:
                fitting = self._fitting(rung)
                best = self._best(fitting, is_thorough=False) or self._best(fitting, is_thorough=True)
                if best is not None:
                    self.found, self.left = best, []
                else:
                    self.left += fitting
            self.left = [place for place in self.left if not self._is_excluded(place)]
        except EndedError:
            self.left, self.was_ended = [], True

    @cached_property
    def rungs(self) -> Sequence[_Rung]:
        """All sizes, smallest first."""
        if not self.steps.is_by_volume:
            return [(place,) for place in self.steps.places()]
        volume = self.demand.volume
        by_volume: dict[int, list[Place]] = {}
        for place in self.steps.places():
            self.gauges.watch()
            by_volume.setdefault(volume(place), []).append(place)
        return [by_volume[size] for size in sorted(by_volume) if size]

    def _is_excluded(self, place: Place) -> bool:
        return self.sharing.is_too_much(
            self.demand.question(place), lambda part: self.demand.outlined_area(place, part)
        )

    def _foothold(self) -> int:
        """Halve the ladder again and again for a size that can be laid, so that there is one to begin with.

        Returns the number of the rung above it.
        """
        low, high = 0, len(self.rungs)
        while low < high:
            middle = (low + high) // 2
            best = self._best(self._fitting(self.rungs[middle]), is_thorough=False)
            if best is not None:
                self.found, low = best, middle + 1
            else:
                high = middle
        return low

    def _fitting(self, rung: _Rung) -> _Rung:
        """The sizes of a rung that are neither excluded nor refused.

        First what takes the least fabric, then what comes first in the recipe's order.
        """
        fitting = [place for place in rung if not self._is_excluded(place) and self.gauges.passes(place)]
        return sorted(fitting, key=lambda place: (self._area(place), place)) if len(fitting) > 1 else fitting

    def _best(self, fitting: _Rung, is_thorough: bool) -> _Found | None:
        """Return the first of the sizes that can be laid."""
        for place in fitting:
            layout = self.sharing.layout(self.demand.question(place), is_thorough)
            if layout is not None:
                return place, layout
        return None

    def _area(self, place: Place) -> Fraction:
        area = self.gauges.cloth(place)
        assert area is not None  # it passes the checks, so all its pieces have a size
        return Fraction(area)

    def next_above(self, place: Place) -> Place | None:
        """Return the next size of the whole ladder."""
        number = next(number for number, rung in enumerate(self.rungs) if place in rung)
        return self.rungs[number + 1][0] if number + 1 < len(self.rungs) else None


@dataclass(frozen=True, slots=True)
class _Told:
    """The answer of a search in lengths and names."""

    recipe: Recipe
    units: Units
    given: Mapping[str, Fraction]
    chosen: Mapping[str, str]
    search: _Search

    def answer(self) -> FromCloth:
        search = self.search
        search.run()
        measures = search.gauges.measures
        first = tuple(measures(place) for place in search.left[:MOST_OPEN])
        count, was_ended = len(search.left), search.was_ended
        if search.found is None:
            return FromCloth(None, still_open=first, how_many_open=count, was_ended=was_ended)
        place, layout = search.found
        larger = search.next_above(place)
        return FromCloth(
            measures=self._all_measures(place),
            pieces=self._pieces(place),
            placements=self._placements(place, layout),
            larger=None if larger is None else measures(larger),
            still_open=first,
            how_many_open=count,
            was_ended=was_ended,
        )

    def _all_measures(self, place: Place) -> Mapping[str, Fraction]:
        moved = {**self.given, **self.search.gauges.measures(place)}
        values = all_values(self.recipe, self.units, moved, self.chosen)
        return {each.name: Fraction(str(values[each.name])) for each in self.recipe.measures}

    def _pieces(self, place: Place) -> tuple[CutPiece, ...]:
        found = []
        for piece in self.search.demand.pieces:
            cut, width, height = (gauge(place) for gauge in (piece.cut, piece.width, piece.height))
            assert isinstance(cut, Fraction)
            assert isinstance(width, Measured)
            assert isinstance(height, Measured)
            found.append(CutPiece(piece.name, piece.fabric, int(cut), width, height))
        return tuple(found)

    def _placements(self, place: Place, layout: Layout) -> tuple[Laid, ...]:
        """The layout, fabric after fabric, in mm."""
        parts = self.search.demand.parts
        names = [
            (name, part.fabric) for part in self.search.demand.question(place) or () for name in part.names
        ]
        return tuple(
            Laid(
                *named,
                sheet=each.sheet,
                x=Fraction(each.x) / parts,
                y=Fraction(each.y) / parts,
                width=Fraction(each.width) / parts,
                height=Fraction(each.height) / parts,
                turned=each.turned,
            )
            for named, each in zip(names, layout, strict=True)
        )
