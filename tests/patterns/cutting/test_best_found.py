import sys

import pytest

from patterns.cutting.best_found import best_found
from patterns.cutting.errors import EndedError
from patterns.cutting.from_cloth import from_cloth
from patterns.cutting.ladder import PROPORTIONS, VOLUME
from patterns.cutting.sharing import Cloth
from patterns.drafting.gauges import nobody_watches
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs

IN = Units.INCHES
INCH = IN.mm
CLOTH = [Cloth(21 * INCH, 18 * INCH)] * 3


def ended_after(calls):
    """A watch that ends a search when it was called so often."""
    left = [calls]

    def watch():
        left[0] -= 1
        if left[0] < 0:
            raise EndedError("The test ends it.")

    return watch


@pytest.mark.parametrize("slug", ["fold-flat-basket", "zip-pouch"])
def test_by_proportions_it_is_what_from_cloth_finds(slug):
    recipe = read_starter(slug)
    found = best_found(recipe, IN, CLOTH, PROPORTIONS, {}, {}, nobody_watches)
    assert found == from_cloth(recipe, IN, CLOTH, PROPORTIONS)


@pytest.mark.parametrize("keep", [PROPORTIONS, VOLUME])
@pytest.mark.parametrize("calls", [0, 10, 100, 1_000, 5_000])
def test_a_search_that_is_ended_claims_nothing(keep, calls):
    """What it found until then can be cut and sewn; larger sizes are neither ruled out nor named."""
    recipe = read_starter("fold-flat-basket")
    found = best_found(recipe, IN, CLOTH, keep, {}, {}, ended_after(calls))
    if found.was_ended:
        assert not found.proved
        assert found.still_open == ()
        assert found.how_many_open == 0
    if found.measures is not None:
        assert not size(recipe, "", IN, found.measures).is_refused
        assert len(found.placements) == sum(piece.cut for piece in found.pieces)


def test_whatever_was_found_is_kept():
    """Ended by and by later, the volume that is found only grows."""
    recipe, volumes = read_starter("fold-flat-basket"), []
    for calls in (0, 200, 2_000, 20_000):
        found = best_found(recipe, IN, CLOTH, VOLUME, {}, {}, ended_after(calls)).measures
        volumes.append(found["width"] * found["height"] * found["depth"] if found else 0)
    assert volumes[0] == 0
    assert volumes == sorted(volumes)
    assert volumes[-1]


@pytest.mark.parametrize("slug", slugs())
def test_a_search_never_works_long_unwatched(slug):
    """Between two looks at the clock, Python's calls are counted, a million of which take some 0.1 s.

    The hardest question of a page: many pieces of cloth of many sizes, and the most volume.
    """
    cloth = [Cloth(side * INCH, 18 * INCH) for side in range(20, 44)]
    calls, most, in_all = 0, 0, 0

    def count(frame, event, argument):
        nonlocal calls
        calls += event == "call"

    def watch():
        nonlocal calls, most, in_all
        calls, most, in_all = 0, max(most, calls), in_all + calls
        if in_all > 1_500_000:
            raise EndedError("The test ends it.")

    sys.setprofile(count)
    try:
        best_found(read_starter(slug), IN, cloth, VOLUME, {}, {}, watch)
    finally:
        sys.setprofile(None)
    assert max(most, calls) < 1_000_000
