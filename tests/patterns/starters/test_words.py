"""Everything a customer reads, of every starter with every option, in both unit systems, small and large."""

import pytest

from patterns.documents.book_content import book_content
from patterns.documents.chart_content import chart_content
from patterns.documents.paper import PAPERS
from patterns.documents.worksheet_content import worksheet_content
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs
from tests.reading import faults_of, words_in
from tests.slips import every_combination
from tests.starters import Size, all_words, said, sized_at, unit_of


@pytest.fixture(params=slugs())
def recipe(request: pytest.FixtureRequest) -> Recipe:
    return read_starter(request.param)


def ends(recipe: Recipe, units: Units) -> list[Size]:
    """The default size, the smallest, the largest, and the smallest and largest of each measure alone."""
    scales = {measure.name: (measure, measure.scales[units]) for measure in recipe.measures}
    least, most = (
        {name: getattr(scale, end) / unit_of(measure, units) for name, (measure, scale) in scales.items()}
        for end in ("least", "most")
    )
    alone = [{name: size[name]} for size in (least, most) for name in size]
    return [{}, least, most, *alone]


@pytest.mark.parametrize("units", Units)
def test_recipe_reads_well_with_every_option(recipe: Recipe, units: Units) -> None:
    """Of a size that is refused a customer reads only why."""
    lines: set[str] = set()
    for measures in ends(recipe, units):
        for options in every_combination(recipe):
            sized = sized_at(recipe, units, measures, options)
            lines |= {said(sized, check.otherwise) for check in sized.failed}
            if not sized.is_refused:
                lines |= set(all_words(sized).splitlines())
    assert [fault for line in sorted(lines) for fault in faults_of(line)] == []


def test_what_does_not_depend_on_a_size_reads_well(recipe: Recipe) -> None:
    lines = [recipe.note, *(measure.says for measure in recipe.measures), *(o.says for o in recipe.options)]
    lines += [choice.says for option in recipe.options for choice in option.choices]
    lines += [truing.says for truing in recipe.truings]
    lines += [named.name for named in recipe.sizes]
    assert [fault for line in lines for fault in faults_of(line)] == []


@pytest.mark.parametrize("units", Units)
def test_sheets_and_book_read_well(recipe: Recipe, units: Units) -> None:
    """With the first and the last choice of every option, which differ the most."""
    everything = every_combination(recipe)
    lines: set[str] = set()
    for options in (everything[0], everything[-1]):
        lines |= set(words_in(chart_content(recipe, units, options)))
        lines |= set(words_in(worksheet_content(recipe, units, options)))
        lines |= set(words_in(book_content(sized_at(recipe, units, {}, options), PAPERS["a4"])))
    assert [fault for line in sorted(lines) for fault in faults_of(line)] == []


@pytest.mark.parametrize(
    "wrong",
    [
        "Sew 0.33 in from the edge.",
        "A seam of 12.7 mm.",
        "Cut 1 pieces.",
        "Cut  two pieces.",
        "Cut {width}.",
        "A inch more.",
        "Leave a 8 in gap.",
        "Leave 0 in unsewn.",
        "Sew sew the side.",
        "The machine's needle.",
        "Trim it .",
        "It is −2 cm wide.",
    ],
)
def test_what_reads_badly_is_found(wrong: str) -> None:
    assert len(faults_of(wrong)) == 1


def test_what_reads_well_is_left_alone() -> None:
    right = "It is 1 1⁄2 in wide, ≈ 0.7 cm more than an 8 in strip holds; 10 in is a use of 92.3 in³."
    assert faults_of(right) == []
