"""Which books are looked at: none of what was promised is left out."""

from itertools import combinations

import pytest

from patterns.documents.proofs.cases import Case, every_case, few_cases, in_pairs, sized_for
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs


def test_every_recipe_in_every_size_unit_and_paper_with_its_options_at_their_ends():
    cases = set(every_case(slugs()))
    assert len(cases) == len(slugs()) * 3 * 2 * 2 * 3
    assert Case("zip-pouch", "smallest", Units.CENTIMETRES, "letter", "last") in cases


def test_the_few_have_every_recipe_at_its_default_and_all_else_in_pairs():
    few = list(few_cases(slugs()))
    assert {case.recipe for case in few if (case.extent, case.choices) == ("default", "usual")} == set(
        slugs()
    )
    rows = [(case.extent, case.units, case.paper, case.choices) for case in few]
    every = [(case.extent, case.units, case.paper, case.choices) for case in every_case(slugs())]
    assert {pair for row in every for pair in combinations(row, 2)} == {
        pair for row in rows for pair in combinations(row, 2)
    }
    assert len(few) == len(set(few)) < len(every) / 10


def test_pairs_are_met_in_few_rows():
    factors = [(0, 1, 2), (0, 1, 2), (0, 1), (0, 1)]
    rows = list(in_pairs(factors))
    for first, second in combinations(range(4), 2):
        met = {(row[first], row[second]) for row in rows}
        assert len(met) == len(factors[first]) * len(factors[second])
    assert len(rows) <= 10


@pytest.mark.parametrize("slug", slugs())
def test_ends_are_sizes_that_are_sold(slug):
    recipe = read_starter(slug)
    sizes = {}
    for extent in ("smallest", "default", "largest"):
        sized = sized_for(Case(slug, extent, Units.INCHES, "a4", "usual"), recipe)
        assert not sized.is_refused
        sizes[extent] = {each.name: each.value for each in sized.measures}
    for measure in recipe.measures:
        name, scale = measure.name, measure.scales[Units.INCHES]
        assert scale.least <= sizes["smallest"][name] <= sizes["default"][name] <= sizes["largest"][name]
    assert sizes["smallest"] != sizes["default"] != sizes["largest"]


def test_options_are_taken_at_their_ends():
    recipe = read_starter("zip-pouch")
    found = [
        sized_for(Case("zip-pouch", "default", Units.INCHES, "a4", choices), recipe).options["interfacing"]
        for choices in ("first", "usual", "last")
    ]
    assert found == ["none", "light", "heavy"]
