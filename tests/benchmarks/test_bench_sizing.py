"""Sizing: one pattern of each starter, workings only when read, the search for the nearest size.

Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`.
"""

from fractions import Fraction

import pytest

from patterns.drafting.nearest import nearest_size
from patterns.drafting.sized_json import from_json, to_json
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs

IN = Units.INCHES


@pytest.mark.parametrize("slug", slugs())
def test_one_size(benchmark, slug):
    recipe = read_starter(slug)
    benchmark(size, recipe, slug, IN, {recipe.measures[0].name: Fraction(17, 2) * IN.mm})


def test_all_workings(benchmark):
    sized = size(read_starter("fold-flat-basket"), "fold-flat-basket", IN)
    benchmark(lambda: [sized.working(edge) for piece in sized.pieces for edge in (piece.width, piece.height)])


def test_nearest_of_one_measure(benchmark):
    recipe = read_starter("fold-flat-basket")
    benchmark(nearest_size, recipe, IN, {"height": 2 * IN.mm}, {})


def test_nearest_of_two_measures(benchmark):
    recipe = read_starter("fold-flat-basket")
    measures = {"height": 2 * IN.mm, "width": 40 * IN.mm}
    benchmark(nearest_size, recipe, IN, measures, {}, 2)


def test_json_out_and_in(benchmark):
    sized = size(read_starter("fold-flat-basket"), "fold-flat-basket", IN)
    benchmark(lambda: from_json(to_json(sized)))
