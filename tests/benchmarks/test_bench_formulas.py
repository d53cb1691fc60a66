"""Formulas: reading, evaluating, and what hostile ones cost. Aim for a hostile one: 0.1 s, 50 MB."""

import tracemalloc

import pytest

from patterns.drafting.errors import DraftingError
from patterns.drafting.formulas.evaluate import compiled, evaluate
from patterns.drafting.formulas.grammar import read

FORMULA = "2 × height + depth − reveal + 2 × zip seam allowance"
HOSTILE = {
    "brackets": "(" * 100_000,
    "a long sum": "a+" * 249 + "a",
    "minus signs": "−" * 500,
    "squares of squares": "(" * 30 + "999999999" + ")²" * 30,
    "a huge number": "9" * 500,
    "roots of roots": "√(" * 32 + "2" + ")" * 32,
    "odd letters": "Ⅷ½²" * 120,
}


def test_read_a_formula(benchmark):
    benchmark(read, FORMULA)


def test_evaluate_a_formula(benchmark):
    run = compiled(read(FORMULA))
    values = {name: read("7 1/2").value for name in ("height", "depth", "reveal", "zip seam allowance")}
    benchmark(run, values)


def _try(text):
    try:
        return evaluate(read(text), {"a": read("7 1/2").value})
    except DraftingError:
        return None


@pytest.mark.parametrize("what", HOSTILE)
def test_hostile(benchmark, what):
    _try(HOSTILE[what])
    tracemalloc.start()
    _try(HOSTILE[what])
    benchmark.extra_info["peak KiB"] = tracemalloc.get_traced_memory()[1] // 1024
    tracemalloc.stop()
    benchmark(_try, HOSTILE[what])
