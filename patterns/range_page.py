"""What the page of a range chart shows: finished words, numbers and the drawing."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from django.utils.safestring import SafeString, mark_safe

from patterns.addresses import size_query
from patterns.cutting.fat_quarter import SIDES, fits_fat_quarters
from patterns.drafting.bites import bite_words, bites
from patterns.drafting.judging import Cut, Rule, Verdict
from patterns.drafting.lengths import as_chosen
from patterns.drafting.lists import listed
from patterns.drafting.ranges import (
    MOST_CORNER_MEASURES,
    Axis,
    NamedCase,
    RangeGrid,
    chart_sizes,
    corners,
    range_grid,
)
from patterns.drafting.recipe import Recipe
from patterns.drawings.range_chart import VERDICT_WORDS, Marked, range_svg, sample_svg
from patterns.forms import MeasureForm, in_a_row
from patterns.range_form import Pair, pairs, range_query

FIT_WORD = "fits a fat quarter"
FIT_WORDS: Mapping[bool | None, str] = {True: "yes", False: "no", None: "not known"}
VERDICT_CLASSES: Mapping[Verdict, str] = {"refused": "is-refused", "advised": "is-advice", "good": "is-well"}


@dataclass(frozen=True, slots=True)
class KeyLine:
    """What a ground of the chart means, and how many sizes have it."""

    sample: SafeString
    words: str
    count: str


@dataclass(frozen=True, slots=True)
class BitingCheck:
    """A check that does not hold everywhere on the chart. letter: of its line there."""

    letter: str
    rule: Rule
    words: str
    share: str


@dataclass(frozen=True, slots=True)
class CaseRow:
    """A size with a name. number: of its ring on the chart, if it has one."""

    number: str
    name: str
    measures: str
    query: str
    verdict: str
    verdict_class: str
    failed: tuple[str, ...]
    fits: str


@dataclass(frozen=True, slots=True)
class OtherChart:
    """A link to the chart of two other measures."""

    words: str
    query: str
    is_this: bool


@dataclass(frozen=True, slots=True)
class RangePage:
    """A chart as it is shown.

    count: how many sizes there are. held: what stays where it is. notes: how the chart is read.
    silent: the checks that hold everywhere on it.
    """

    drawing: SafeString
    count: str
    held: str
    key: tuple[KeyLine, ...]
    notes: tuple[str, ...]
    biting: tuple[BitingCheck, ...]
    silent: tuple[str, ...]
    corners: tuple[CaseRow, ...]
    corner_words: str
    sizes: tuple[CaseRow, ...]

    @property
    def news(self) -> str:
        """The chart in a sentence, for somebody who does not see it."""
        told = ", ".join(f"{line.count} {line.words}" for line in self.key)
        return f"The chart is drawn. {self.count}: {told}."


def range_page(title: str, form: MeasureForm, pair: Pair) -> RangePage:
    """Return what is shown over a pair of measures. form: a form without mistakes, of all the others."""
    recipe, units = form.recipe, form.units

    def fits(cuts: Sequence[Cut]) -> bool | None:
        return fits_fat_quarters(cuts, units)

    grid = range_grid(recipe, units, *pair, form.measures, form.options, fits)
    letters = {rule: letter(rank) for rank, rule in enumerate(grid.failures)}
    named = chart_sizes(recipe, units, form.measures, form.options, fits)
    numbers = ["", *(str(number) for number in range(1, len(named)))]
    marks = [_marked(number, case, grid) for number, case in zip(numbers, named, strict=True)]
    drawing = range_svg(grid, f"{title}: the range of {pair[0]} by {pair[1]}", letters, FIT_WORD, marks)
    at_corners = corners(recipe, units, form.measures, form.options, fits)
    return RangePage(
        drawing=mark_safe(drawing),  # noqa: S308 - our own drawing, its words escaped there
        count=_sizes(sum(grid.counts.values())),
        held=_held(grid),
        key=tuple(_key_lines(grid)),
        notes=tuple(_notes(grid, len(named) > 1)),
        biting=tuple(_biting(grid, letters)),
        silent=tuple(_silent(grid)),
        corners=tuple(_case_row("", case, form) for case in at_corners),
        corner_words=_corner_words(recipe),
        sizes=tuple(_case_row(number, case, form) for number, case in zip(numbers, named, strict=True)),
    )


def other_charts(form: MeasureForm, pair: Pair) -> list[OtherChart]:
    """Return links to the charts of the measures that set the size, everything else as it is."""
    recipe, units = form.recipe, form.units
    return [
        OtherChart(
            f"{across} by {up}",
            range_query(recipe, units, (across, up), form.measures, form.options),
            {across, up} == set(pair),
        )
        for across, up in pairs(recipe)
    ]


def letter(rank: int) -> str:
    """Return A to Z, then AA, AB …

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    first, last = divmod(rank, 26)
    return (letter(first - 1) if first else "") + chr(ord("A") + last)


def _sizes(count: int) -> str:
    return "1 size" if count == 1 else f"{count:,} sizes"


def _key_lines(grid: RangeGrid) -> Iterator[KeyLine]:
    for verdict, words in VERDICT_WORDS.items():
        sample = mark_safe(sample_svg(verdict))  # noqa: S308 - our own drawing
        yield KeyLine(sample, words, f"{grid.counts.get(verdict, 0):,}")


def _biting(grid: RangeGrid, letters: Mapping[int, str]) -> Iterator[BitingCheck]:
    everything = _sizes(sum(grid.counts.values()))
    for bite in bites(grid):
        share = f"At {bite.failed:,} of the {everything} here."
        yield BitingCheck(letters[bite.place], bite.rule, bite_words(bite, grid.units), share)


def _notes(grid: RangeGrid, has_named_sizes: bool) -> Iterator[str]:
    """How the chart is read: only what stands on it."""
    if grid.failures:
        yield (
            "A line with a letter is where a check starts to bite: a whole line refuses, a dashed one "
            "advises. Its short strokes are on the side where it bites."
        )
    yield _fits(grid)
    rings = (
        " A ring is one of the named sizes at its own two measures; the last table says what it is, and what "
        "the checks say of it with all its measures."
    )
    yield f"The diamond is the default size.{rings if has_named_sizes else ''}"
    yield from (_thinned(axis, grid) for axis in (grid.across, grid.up) if axis.every > 1)


def _marked(number: str, case: NamedCase, grid: RangeGrid) -> Marked:
    at = {**grid.others, **_defaults(grid), **case.measures}
    return Marked(number or case.name, at[grid.across.name], at[grid.up.name], is_default=not number)


def _defaults(grid: RangeGrid) -> dict[str, Fraction]:
    return {axis.name: axis.scale.default for axis in (grid.across, grid.up)}


def _held(grid: RangeGrid) -> str:
    """`height 6 in, seam allowance 1⁄2 in; interfacing light, lining print one way`"""
    powers = grid.recipe.powers
    measures = [f"{name} {as_chosen(value, powers[name], grid.units)}" for name, value in grid.others.items()]
    options = [f"{option} {choice}" for option, choice in grid.options.items()]
    return "; ".join(", ".join(words) for words in (measures, options) if words)


def _thinned(axis: Axis, grid: RangeGrid) -> str:
    apart = as_chosen(axis.scale.step * axis.every, axis.measure.power, grid.units)
    return (
        f"Of the {axis.name}, one step in {axis.every} is shown: {apart} from each to the next. "
        "Both ends and the default are always among them."
    )


def _fits(grid: RangeGrid) -> str:
    """How many sizes fit, where they are, and what that means."""
    asked = sum(grid.fit_counts.values())
    if not asked:
        return "Every size here is refused, so none is cut."
    fit, unknown = grid.fit_counts.get(True, 0), grid.fit_counts.get(None, 0)
    across, along = (as_chosen(side, 1, grid.units) for side in SIDES[grid.units])
    counted = "None" if not fit else "All" if fit == asked else f"{fit:,}"
    line = ": those on the side of the strokes of the heavy line" if 0 < fit < asked else ""
    doubt = f" Of {unknown:,} it is not known." if unknown else ""
    return (
        f"{counted} of the {_sizes(asked)} that are not refused can be cut from one fat quarter of each "
        f"fabric{line}.{doubt} A fat quarter is {across} across the cloth and {along} along it, the way a "
        "print stands."
    )


def _silent(grid: RangeGrid) -> Iterator[str]:
    """The recipe's own checks that hold at every size shown; ranges and edges go without saying."""
    own = {check.says for check in grid.recipe.checks}
    for rank, rule in enumerate(grid.rules):
        if rule.says in own and rank not in grid.failures:
            yield rule.says


def _case_row(number: str, case: NamedCase, form: MeasureForm) -> CaseRow:
    recipe, units = form.recipe, form.units
    return CaseRow(
        number=number,
        name=case.name,
        measures=in_a_row(recipe, units, case.measures),
        query=size_query(recipe, units, {**form.measures, **case.measures}, form.options),
        verdict=VERDICT_WORDS[case.verdict],
        verdict_class=VERDICT_CLASSES[case.verdict],
        failed=tuple(rule.says for rule in case.failed),
        fits="" if case.verdict == "refused" else FIT_WORDS[case.fits],
    )


def _corner_words(recipe: Recipe) -> str:
    """What is the same at all corners."""
    sizes = [measure.name for measure in recipe.measures if measure.role == "size"]
    moved = listed(sizes[:MOST_CORNER_MEASURES], "and")
    rest = sizes[MOST_CORNER_MEASURES:]
    kept = f", the {listed(rest, 'and the')} at the default" if rest else ""
    return f"The {moved}, each at its least or its most{kept}; everything else as it is in the chart."
