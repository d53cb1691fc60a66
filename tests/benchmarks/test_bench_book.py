"""How long a book takes: the body once for a size (aim: 0.45 s, warm), the stamp for each order (30 ms).

Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`.
"""

from fractions import Fraction

import pytest

from patterns.documents.book import body
from patterns.documents.book_content import book_content
from patterns.documents.paper import PAPERS
from patterns.documents.stamp import stamp
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs


@pytest.fixture(params=slugs())
def sized(request):
    recipe = read_starter(request.param)
    given = {recipe.measures[0].name: Fraction("8.5") * Units.INCHES.mm}
    return size(recipe, request.param, Units.INCHES, given)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_body_warm(benchmark, sized, paper):
    benchmark.pedantic(body, (sized, paper), rounds=5, warmup_rounds=1)


def test_content(benchmark, sized):
    benchmark(book_content, sized, PAPERS["a4"])


def test_stamp(benchmark, sized):
    made = body(sized, "a4")
    benchmark(stamp, made, "Order 1042 · made for Ada Example")
