"""From contents to size: a usual question, and the hardest that may be asked.

Aim: under 0.2 s. Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`.
"""

from fractions import Fraction

import pytest

from patterns.drafting.holding import MOST_THINGS, held, sizes_that_hold
from patterns.drafting.things import Solid, Things
from patterns.drafting.units import Units
from patterns.drawings.arrangement import arrangement_svg
from patterns.starters import read_starter, slugs

IN, CM = Units.INCHES, Units.CENTIMETRES
FILLED = [slug for slug in slugs() if read_starter(slug).holds]


def things(units: Units, *sides: str) -> Things:
    return Things(Solid(*(Fraction(side) * units.mm for side in sides)), turning="any")


@pytest.mark.parametrize("slug", FILLED)
@pytest.mark.parametrize("units", Units)
def test_twelve_sheets(benchmark, slug, units):
    assert benchmark(
        sizes_that_hold,
        read_starter(slug),
        units,
        Things(Solid(Fraction(148), Fraction(210), Fraction(4))),
        12,
    )


@pytest.mark.parametrize("slug", FILLED)
@pytest.mark.parametrize("units", Units)
def test_forty_small_things(benchmark, slug, units):
    scale = Fraction(1) if units is CM else Fraction(2, 5)
    what = Things(Solid(*(Fraction(side) * scale for side in (42, 64, 26))), turning="any")
    assert benchmark(sizes_that_hold, read_starter(slug), units, what, 40)


@pytest.mark.parametrize("slug", FILLED)
@pytest.mark.parametrize("units", Units)
def test_a_thousand_beads(benchmark, slug, units):
    """Small ones, that may lie anyhow: most ways to arrange them, and most sizes to try."""
    assert benchmark(
        sizes_that_hold, read_starter(slug), units, things(units, "0.5", "0.7", "0.3"), MOST_THINGS
    )


def test_what_a_size_holds(benchmark):
    assert benchmark(held, read_starter("zip-pouch"), CM, things(CM, "2", "3", "1")).count


def test_drawing_of_a_thousand(benchmark):
    what = things(CM, "2", "3", "1")
    found = sizes_that_hold(read_starter("fold-flat-basket"), CM, what, MOST_THINGS)[0]
    assert benchmark(arrangement_svg, "Basket", found.room, found.arrangement, MOST_THINGS, CM)
