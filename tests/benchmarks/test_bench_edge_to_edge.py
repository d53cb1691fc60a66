"""Edge-to-edge layouts of a bag-maker's cases: how long they take, and how far above the bound they end.

Aim: a first answer in 50 ms; with half a second's effort a gap of under 5 % of length, on average under 2 %.
Each benchmark says in its extra_info the mean and the worst gap, and how many purchases are proved least.
Run by hand: `.venv/bin/python -m pytest tests/benchmarks/test_bench_edge_to_edge.py -n 0 --benchmark-only`.
"""

from fractions import Fraction
from random import Random

import pytest

from patterns.cutting.answers import rounded_up
from patterns.cutting.bounds import excluded
from patterns.cutting.edge_to_edge import on_sheets_by_cuts, shortest_by_cuts
from patterns.cutting.effort import Effort
from patterns.cutting.sheets import Rectangle, Sheet

INCH = Fraction(127, 5)
WIDTHS = (42 * INCH, 54 * INCH, 60 * INCH, Fraction(1100))
EIGHTH_OF_A_YARD = 36 * INCH / 8
CASES = 40


def bag_case(seed):
    """Return panels in pairs, straps, pockets and tabs in quarters of an inch, and the width of the cloth."""
    lot = Random(seed)
    size, turns = 2 + 22 * seed // (CASES - 1), lot.random() < 0.7
    pieces = []
    while len(pieces) < size:
        kind = lot.choice(["panel", "panel", "strap", "pocket", "tab"])
        least, most = {"panel": (32, 90), "strap": (10, 20), "pocket": (20, 48), "tab": (8, 20)}[kind]
        width = Fraction(lot.randint(least, most), 4) * INCH
        height = Fraction(lot.randint(60, 160) if kind == "strap" else lot.randint(least, most), 4) * INCH
        pieces += [Rectangle(width, height, turns)] * min(lot.choice([1, 2, 2, 4]), size - len(pieces))
    return pieces, WIDTHS[seed % 4]


def bound_of(pieces, width):
    """Return a length, in quarters of an inch, that any layout has at least."""
    least = max(min(high for wide, high in piece.sides if wide <= width) for piece in pieces)
    area = sum(piece.width * piece.height for piece in pieces)
    bound = max(least, rounded_up(area / width, INCH / 4))
    while excluded(pieces, [Sheet(width, bound)]):
        bound += INCH / 4
    return bound


def summary(answers, step):
    gaps, proved = [], 0
    for layout, _, bound in answers:
        length = max(each.y + each.height for each in layout)
        gaps.append(float(length / bound - 1))
        proved += rounded_up(length, step) == rounded_up(bound, step)
    return {
        "mean gap": f"{100 * sum(gaps) / len(gaps):.2f} %",
        "worst gap": f"{100 * max(gaps):.2f} %",
        "proved": f"{proved} of {len(gaps)}",
    }


@pytest.fixture(scope="module")
def cases():
    found = [bag_case(seed) for seed in range(CASES)]
    return [(pieces, width, bound_of(pieces, width)) for pieces, width in found]


@pytest.mark.parametrize("work", [30_000, 500_000])
@pytest.mark.parametrize("step", [None, EIGHTH_OF_A_YARD], ids=["exact", "eighths of a yard"])
def test_bag_cases(benchmark, cases, work, step):
    def every_case():
        return [shortest_by_cuts(pieces, width, Effort(work), bound, step) for pieces, width, bound in cases]

    answers = benchmark.pedantic(every_case, rounds=1)
    benchmark.extra_info.update(summary(answers, step))


@pytest.mark.parametrize("count", [12, 24, 60])
def test_first_answer(benchmark, count):
    pieces = [piece for seed in range(CASES - 6, CASES) for piece in bag_case(seed)[0]][:count]
    bound = bound_of(pieces, WIDTHS[0])
    benchmark(lambda: shortest_by_cuts(pieces, WIDTHS[0], Effort(10_000), bound))


@pytest.mark.parametrize("count", [12, 24])
def test_fat_quarters(benchmark, count):
    lot = Random(count)
    pieces = [Rectangle(lot.randint(8, 40), lot.randint(8, 40)) for _ in range(count)]
    found = benchmark.pedantic(lambda: on_sheets_by_cuts(pieces, [Sheet(72, 84)] * 12, Effort(), 1), rounds=3)
    benchmark.extra_info.update(sheets=found[0], bound=found[1])
