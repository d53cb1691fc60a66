"""Proofs: all truings of each starter, a false one with its example, and formulas made to be slow.

Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`.
"""

import tracemalloc

import pytest

from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.identity import identity
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.truing import prove
from patterns.starters import read_starter, slugs, text_of

PAIRS = {
    "linear": ("2 × height + depth + 2 × seam − 2 × seam", "2 × height + depth"),
    "root": ("√(height² − (depth ÷ 2)²)", "√(4 × height² − depth²) ÷ 2"),
    "smaller of": ("smaller of (a, b) + larger of (a, b)", "a + b"),
    "three choices": ("larger of (smaller of (a, b), c)", "smaller of (larger of (a, c), larger of (b, c))"),
    "rounding": ("round up (a + 3 × b, to b)", "round up (a, to b) + 3 × b"),
}
# Each storey is read twice by the next: 26 of them would grow beyond any bound.
HOSTILE = {
    "terms": ("(u + v + w + y) × (u − z)", "# × #"),
    "digits": ("7", "# × #"),
    "denominators": ("1 ÷ (u + v)", "# + 1 ÷ (# + w)"),
    "choices": ("smaller of (u, v)", "smaller of (# + 1, # × w)"),
}


@pytest.mark.parametrize("slug", slugs())
def test_all_truings_of_a_starter(benchmark, slug):
    recipe = read_starter(slug)
    proofs = benchmark(prove, recipe)
    benchmark.extra_info["truings"] = len(recipe.truings)
    assert {proof.result for proof in proofs} == {"proved"}


@pytest.mark.parametrize("pair", PAIRS)
def test_one_truing(benchmark, pair):
    one, other = map(read, PAIRS[pair])
    assert benchmark(identity, one, other, {}).result == "equal"


def test_false_truings_with_their_examples(benchmark):
    recipe = read_recipe(
        text_of("fold-flat-basket").replace("depth + 2 × seam allowance", "depth + seam allowance")
    )
    assert any(proof.example for proof in benchmark(prove, recipe))


@pytest.mark.parametrize("trap", HOSTILE)
def test_hostile_formulas(benchmark, trap):
    first, step = HOSTILE[trap]
    names = ["a" * length for length in range(1, 27)]
    storeys = [first, *(step.replace("#", name) for name in names)]
    definitions = {name: read(text) for name, text in zip(names, storeys, strict=False)}
    one, other = read(names[-1]), read("u")
    tracemalloc.start()
    assert identity(one, other, definitions).result == "undecided"
    benchmark.extra_info["MB"] = round(tracemalloc.get_traced_memory()[1] / 1e6, 1)
    tracemalloc.stop()
    benchmark(identity, one, other, definitions)
