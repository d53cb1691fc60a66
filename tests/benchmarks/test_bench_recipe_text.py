"""Recipe texts: reading (aim: 50 ms), writing, and what hostile ones cost (aim: 0.1 s, 50 MB).

Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`. `extra_info`: added memory.
"""

import tracemalloc

import pytest

from patterns.drafting.errors import RecipeTextError
from patterns.drafting.formulas import formula
from patterns.drafting.recipe_text import read_recipe, write_recipe
from patterns.starters import read_starter, slugs, text_of
from tests.hostile_texts import HOSTILE


@pytest.mark.parametrize("slug", slugs())
def test_read_a_text(benchmark, slug):
    benchmark(read_recipe, text_of(slug))


@pytest.mark.parametrize("slug", slugs())
def test_read_a_text_for_the_first_time(benchmark, slug):
    """No formula was read before."""
    read_recipe(text_of(slug))
    benchmark.pedantic(read_recipe, (text_of(slug),), setup=formula._read.cache_clear, rounds=10)


@pytest.mark.parametrize("slug", slugs())
def test_write_a_text(benchmark, slug):
    benchmark(write_recipe, read_starter(slug))


def _try(text):
    try:
        return read_recipe(text)
    except RecipeTextError as error:
        return error


@pytest.mark.parametrize("what", HOSTILE)
def test_hostile(benchmark, what):
    tracemalloc.start()
    _try(HOSTILE[what])
    benchmark.extra_info["added MB"] = round(tracemalloc.get_traced_memory()[1] / 1e6, 1)
    tracemalloc.stop()
    benchmark.pedantic(_try, (HOSTILE[what],), setup=formula._read.cache_clear, rounds=3)
