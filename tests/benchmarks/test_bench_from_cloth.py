"""From cloth to size. Aim: under 0.5 s for proportions or two kept measures, 5 s for the most volume.

Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`.
"""

import pytest

from patterns.cutting.from_cloth import from_cloth
from patterns.cutting.ladder import PROPORTIONS, VOLUME, growing
from patterns.cutting.sharing import Cloth
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs

INCH = Units.INCHES.mm
CLOTH = {
    "two fat quarters": [Cloth(18 * INCH, 21 * INCH)] * 2,
    "six fat quarters": [Cloth(18 * INCH, 21 * INCH)] * 6,
    "a yard of each": [Cloth(42 * INCH, 36 * INCH)] * 2,
    "pieces left over": [
        *[Cloth(18 * INCH, 21 * INCH)] * 3,
        Cloth(42 * INCH, 18 * INCH),
        Cloth(30 * INCH, 12 * INCH),
    ],
}


@pytest.mark.parametrize("cloth", CLOTH)
@pytest.mark.parametrize("slug", slugs())
def test_by_proportions(benchmark, slug, cloth):
    benchmark(from_cloth, read_starter(slug), Units.INCHES, CLOTH[cloth], PROPORTIONS)


@pytest.mark.parametrize("slug", slugs())
def test_one_measure_grows(benchmark, slug):
    recipe = read_starter(slug)
    keep = tuple(measure.name for measure in growing(recipe))[:-1]
    benchmark(from_cloth, recipe, Units.INCHES, CLOTH["a yard of each"], keep)


@pytest.mark.parametrize("cloth", CLOTH)
@pytest.mark.parametrize("slug", slugs())
def test_most_volume(benchmark, slug, cloth):
    question = (read_starter(slug), Units.INCHES, CLOTH[cloth], VOLUME)
    benchmark.pedantic(from_cloth, question, rounds=1)
