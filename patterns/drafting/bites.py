"""Where each rule of a recipe starts to bite: along lines through a range of sizes, and in words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from .judging import Judge, Rule
from .lengths import as_chosen
from .lists import listed
from .ranges import Axis, RangeGrid, counted, line
from .recipe import Scale
from .units import Units

# Along a line each step is worked out, even where the picture leaves some out: 2,000 are 250 in by eighths.
MOST_ON_A_LINE = 2_000
NOWHERE = "nowhere"
LEVEL_WORDS = {"refuse": "Refused", "advise": "Advised against"}


@dataclass(frozen=True, slots=True)
class Run:
    """Neighbouring values at which a rule does not hold. is_from_start, is_to_end: of the whole line."""

    first: Fraction
    last: Fraction
    is_from_start: bool
    is_to_end: bool


@dataclass(frozen=True, slots=True)
class Section:
    """Where a rule does not hold along one axis, at one value of the other."""

    at: Fraction
    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Bite:
    """Where a rule bites. place: in the rules. failed: at how many sizes of the picture it does not hold.

    along, other: the axis that is walked, and the other one. sections: at the least, the default and the
    most of the other; one section where the rule says the same wherever the other stands (is_alike).
    """

    place: int
    rule: Rule
    failed: int
    along: Axis
    other: Axis
    is_alike: bool
    sections: tuple[Section, ...]


def bites(grid: RangeGrid) -> tuple[Bite, ...]:
    """Return where each rule bites that does not hold somewhere on the picture, in the order of the rules."""
    search = _Search(grid)
    return tuple(search.bite(place, failed) for place, failed in grid.failures.items())


class _Search:
    def __init__(self, grid: RangeGrid) -> None:
        self.grid = grid
        self.walks: dict[str, Mapping[Fraction, list[tuple[Fraction, tuple[int, ...]]]]] = {}

    def bite(self, place: int, failed: int) -> Bite:
        """A rule that reads only one measure is told along that one."""
        rows = [[place in cell.failed for cell in row] for row in self.grid.cells]
        across, up = self.grid.across, self.grid.up
        is_level = all(len(set(row)) == 1 for row in rows)
        is_upright = all(row == rows[0] for row in rows)
        along, other = (across, up) if is_upright and not is_level else (up, across)
        is_alike = is_level or is_upright
        scale = other.scale
        stops = [scale.default] if is_alike else sorted({scale.least, scale.default, scale.most})
        walk = self._walked(along, other)
        sections = tuple(Section(at, _runs(place, walk[at])) for at in stops)
        return Bite(place, self.grid.rules[place], failed, along, other, is_alike, sections)

    def _walked(self, along: Axis, other: Axis) -> Mapping[Fraction, list[tuple[Fraction, tuple[int, ...]]]]:
        """What fails along an axis, step by step, at the least, the default and the most of the other."""
        if along.name not in self.walks:
            stops = sorted({other.scale.least, other.scale.default, other.scale.most})
            steps = _whole_line(along.scale)
            grid = self.grid
            axes = {along.name: steps, other.name: stops}
            judge = Judge(grid.recipe, grid.units, grid.others, grid.options, axes)
            self.walks[along.name] = {
                at: [(value, judge((step, stop)).failed) for step, value in enumerate(steps)]
                for stop, at in enumerate(stops)
            }
        return self.walks[along.name]


def _whole_line(scale: Scale) -> tuple[Fraction, ...]:
    every = 1
    while counted(scale, every) > MOST_ON_A_LINE:
        every *= 2
    return line(scale, every)


def _runs(place: int, walk: Sequence[tuple[Fraction, tuple[int, ...]]]) -> tuple[Run, ...]:
    runs: list[list[int]] = []
    for step, (_, failed) in enumerate(walk):
        if place in failed:
            if runs and runs[-1][1] == step - 1:
                runs[-1][1] = step
            else:
                runs.append([step, step])
    end = len(walk) - 1
    return tuple(Run(walk[first][0], walk[last][0], first == 0, last == end) for first, last in runs)


def bite_words(bite: Bite, units: Units) -> str:
    """Return where a rule bites in words: `Refused from depth 10 1⁄2 in up, at width 9 in.`"""
    level, other = LEVEL_WORDS[bite.rule.level], bite.other.name
    if bite.is_alike:
        found = bite.sections[0].runs
        if any(run.is_from_start and run.is_to_end for run in found):
            return f"{level} at every size here."
        runs = _runs_words(found, bite.along, units)
        return f"{level} {runs}, at every {other}."
    told: dict[str, list[str]] = {}
    for section in sorted(bite.sections, key=lambda section: not section.runs):
        runs = _runs_words(section.runs, bite.along, units)
        told.setdefault(runs, []).append(_value(section.at, bite.other, units))
    if list(told) == [NOWHERE]:
        return f"{level} at {_sizes(bite.failed)}, none of them at {other} {listed(told[NOWHERE], 'or')}."
    parts = [
        f"nowhere at {other} {listed(stops, 'or')}"
        if runs == NOWHERE
        else f"{runs}, at {other} {listed(stops, 'and')}"
        for runs, stops in told.items()
    ]
    return f"{level} {'; '.join(parts)}."


def _sizes(count: int) -> str:
    return "1 size" if count == 1 else f"{count:,} sizes"


def _runs_words(runs: Sequence[Run], along: Axis, units: Units) -> str:
    return " and ".join(_run_words(run, along, units) for run in runs) or NOWHERE


def _run_words(run: Run, along: Axis, units: Units) -> str:
    name = along.name
    first, last = (_value(value, along, units) for value in (run.first, run.last))
    if run.is_from_start and run.is_to_end:
        return f"at every {name}"
    if run.first == run.last:
        return f"at {name} {first}"
    if run.is_to_end:
        return f"from {name} {first} up"
    return f"up to {name} {last}" if run.is_from_start else f"from {name} {first} to {last}"


def _value(value: Fraction, axis: Axis, units: Units) -> str:
    return as_chosen(value, axis.measure.power, units)
