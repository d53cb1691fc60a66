"""The range chart: its sizes judged, where the rules bite, the drawing; and the whole of the page's content.

Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`. Aim: 2,000 sizes, with the
drawing, in less than 3 s.
"""

from functools import partial

import pytest
from django.http import QueryDict

from patterns.cutting.fat_quarter import fits_fat_quarters
from patterns.drafting.bites import bites
from patterns.drafting.ranges import range_grid
from patterns.drafting.units import Units
from patterns.drawings.range_chart import range_svg
from patterns.range_form import others_form
from patterns.range_page import letter, range_page
from patterns.starters import read_starter, slugs

IN = Units.INCHES
FITS = partial(fits_fat_quarters, units=IN)
# Over 2,000 sizes of each: 2,829 of the basket, 3,445 of the gift bag, 2,401 of the tote, 1,911 of the pouch.
PAIRS = {"fold-flat-basket": ("width", "depth"), "round-bucket": ("diameter", "height")}
LARGEST = ("width", "height")


def drawn(recipe, across: str, up: str) -> str:
    grid = range_grid(recipe, IN, across, up, {}, {}, FITS)
    letters = {bite.place: letter(rank) for rank, bite in enumerate(bites(grid))}
    return range_svg(grid, recipe.title, letters, "fits a fat quarter", ())


@pytest.mark.parametrize("slug", slugs())
def test_judged_and_drawn(benchmark, slug):
    assert benchmark(drawn, read_starter(slug), *PAIRS.get(slug, LARGEST)).startswith("<svg")


@pytest.mark.parametrize("slug", slugs())
def test_content_of_the_page(benchmark, slug):
    pair = PAIRS.get(slug, LARGEST)
    form = others_form(read_starter(slug), QueryDict(), IN, pair)
    assert benchmark(range_page, "A pattern", form, pair).key
