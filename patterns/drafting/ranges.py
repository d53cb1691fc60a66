"""Which sizes of a recipe are refused, advised against and good: over two measures, and at the corners.

Everything is worked out exactly, at sizes on the recipe's own steps; of what lies between two of them nothing
is said.
"""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import product

from .judging import Cut, Judge, Judgement, Rule, Verdict
from .lists import listed
from .recipe import Measure, Recipe, Scale
from .units import Units

# A picture of so many sizes takes about a second, and each can still be told from the next on a telephone.
MOST_CELLS = 4_000
# 2⁶ = 64 corners fill a table; no bag has so many measures that set its size.
MOST_CORNER_MEASURES = 6

# Whether the pieces of a size can be cut from what is asked about; None where that is not known.
Fits = Callable[[Sequence[Cut]], bool | None]


@dataclass(frozen=True, slots=True)
class Axis:
    """A measure along an edge of the picture. values: rising; mm, or bare numbers.

    every: each so-many-th step of the recipe is among them, and the ends and the default always.
    """

    measure: Measure
    scale: Scale
    values: tuple[Fraction, ...]
    every: int

    @property
    def name(self) -> str:
        return self.measure.name


@dataclass(frozen=True, slots=True)
class Cell:
    """One size. failed: places in the rules. fits: None where it is not known, and of one that is refused."""

    verdict: Verdict
    failed: tuple[int, ...]
    fits: bool | None


@dataclass(frozen=True)
class RangeGrid:
    """What is said of every size over two measures.

    cells: a row for each value of `up`, in it one for each of `across`.
    others: the measures that stay where they are. options: every option, as chosen.
    """

    recipe: Recipe
    units: Units
    across: Axis
    up: Axis
    others: Mapping[str, Fraction]
    options: Mapping[str, str]
    rules: tuple[Rule, ...]
    cells: tuple[tuple[Cell, ...], ...]

    @cached_property
    def counts(self) -> Mapping[Verdict, int]:
        """How many sizes are refused, advised against and good."""
        return Counter(cell.verdict for row in self.cells for cell in row)

    @cached_property
    def fit_counts(self) -> Mapping[bool | None, int]:
        """How many of the sizes that are not refused fit, do not, and are not known to."""
        return Counter(cell.fits for row in self.cells for cell in row if cell.verdict != "refused")

    @cached_property
    def failures(self) -> Mapping[int, int]:
        """At how many sizes each rule does not hold, in the order of the rules; without those that hold."""
        counted = Counter(rule for row in self.cells for cell in row for rule in cell.failed)
        return dict(sorted(counted.items()))


@dataclass(frozen=True, slots=True)
class NamedCase:
    """A size with a name. measures: of role size. failed: the rules that do not hold, refusals first."""

    name: str
    measures: Mapping[str, Fraction]
    verdict: Verdict
    failed: tuple[Rule, ...]
    fits: bool | None


def range_grid(
    recipe: Recipe,
    units: Units,
    across: str,
    up: str,
    measures: Mapping[str, Fraction],
    options: Mapping[str, str],
    fits: Fits,
) -> RangeGrid:
    """Return what is said of every size over two measures.

    across, up: names of two measures. measures: what the others are; the rest have their defaults.
    fits: asked of every size that is not refused.
    Raises KeyError: no such measure. ValueError: twice the same. SizingError: no such option or choice.
    """
    if across == up:
        raise ValueError(f"“{across}” cannot be along both edges.")
    level, upright = axes_of(recipe.measure(across), recipe.measure(up), units)
    judge = Judge(recipe, units, measures, options, {across: level.values, up: upright.values})
    cells = tuple(
        tuple(_cell(judge((x, y)), fits) for x in range(len(level.values)))
        for y in range(len(upright.values))
    )
    others = {name: value for name, value in judge.measures.items() if name not in (across, up)}
    return RangeGrid(recipe, units, level, upright, others, judge.chosen, judge.rules, cells)


def _cell(judged: Judgement, fits: Fits) -> Cell:
    return Cell(judged.verdict, judged.failed, _fit(judged, fits))


def _fit(judged: Judgement, fits: Fits) -> bool | None:
    return None if judged.verdict == "refused" else fits(judged.cuts)


def axes_of(across: Measure, up: Measure, units: Units) -> tuple[Axis, Axis]:
    """Return both axes, the longer one thinned again and again until there are no more sizes than may be."""
    scales, every = (across.scales[units], up.scales[units]), [1, 1]
    while True:
        counts = [counted(scale, each) for scale, each in zip(scales, every, strict=True)]
        if counts[0] * counts[1] <= MOST_CELLS:
            break
        every[counts.index(max(counts))] *= 2
    level, upright = (line(scale, each) for scale, each in zip(scales, every, strict=True))
    return Axis(across, scales[0], level, every[0]), Axis(up, scales[1], upright, every[1])


def counted(scale: Scale, every: int) -> int:
    """How many values a line has, with the ends and the default, which may lie between its steps."""
    between = {end for end in (scale.default, scale.most) if (end - scale.least) % (scale.step * every)}
    return int((scale.most - scale.least) // (scale.step * every)) + 1 + len(between)


def line(scale: Scale, every: int) -> tuple[Fraction, ...]:
    """Return the values of a line, rising: each so-many-th step from the least, the most and the default."""
    step = scale.step * every
    on_step = {scale.least + k * step for k in range((scale.most - scale.least) // step + 1)}
    return tuple(sorted(on_step | {scale.default, scale.most}))


def corners(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction], options: Mapping[str, str], fits: Fits
) -> tuple[NamedCase, ...]:
    """Return the corners of the range: the measures that set the size at their least and most, in every way.

    measures: what the making measures are; the rest have their defaults. Where more than six measures set
    the size, only the first six go to their ends.
    Raises SizingError: no such measure, option or choice.
    """
    sizes = [measure for measure in recipe.measures if measure.role == "size"]
    moved = sizes[:MOST_CORNER_MEASURES]
    ends = {each.name: _ends(each.scales[units]) for each in moved}
    judge = Judge(recipe, units, _making(recipe, measures), options, ends)
    places = product(*(range(len(values)) for values in ends.values()))
    return tuple(_corner(judge, ends, place, fits) for place in places)


def _ends(scale: Scale) -> tuple[Fraction, ...]:
    return (scale.least, scale.most) if scale.least < scale.most else (scale.least,)


def _corner(
    judge: Judge, ends: Mapping[str, tuple[Fraction, ...]], place: tuple[int, ...], fits: Fits
) -> NamedCase:
    at = dict(zip(ends, place, strict=True))
    size = {name: values[at[name]] for name, values in ends.items()}
    least, most = ([name for name in ends if at[name] == end] for end in (0, 1))
    words = [f"{end} {listed(names, 'and')}" for end, names in (("least", least), ("most", most)) if names]
    return _case(", ".join(words), size, judge, place, fits)


def chart_sizes(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction], options: Mapping[str, str], fits: Fits
) -> tuple[NamedCase, ...]:
    """Return the default size, and each size that the recipe names.

    measures, options, errors: as for `corners`.
    """
    usual = Judge(recipe, units, _making(recipe, measures), options, {}).measures
    default = {each.name: usual[each.name] for each in recipe.measures if each.role == "size"}
    named = [(each.name, {**default, **each.values[units]}) for each in recipe.sizes]
    return tuple(
        _case(name, size, Judge(recipe, units, {**measures, **size}, options, {}), (), fits)
        for name, size in [("default", default), *named]
    )


def _making(recipe: Recipe, measures: Mapping[str, Fraction]) -> dict[str, Fraction]:
    sizes = {measure.name for measure in recipe.measures if measure.role == "size"}
    return {name: value for name, value in measures.items() if name not in sizes}


def _case(
    name: str, size: Mapping[str, Fraction], judge: Judge, place: tuple[int, ...], fits: Fits
) -> NamedCase:
    judged = judge(place)
    failed = sorted((judge.rules[rank] for rank in judged.failed), key=lambda rule: rule.level != "refuse")
    return NamedCase(name, size, judged.verdict, tuple(failed), _fit(judged, fits))
