"""Layouts: how far from the least length after 0.05, 1 and 10 s, beside others; what is proved.

Aims: a first answer for 12 pieces in 20 ms, for 60 in 50 ms; 90 of the bag-maker's hundred proved in 1 s.
Run by hand: `.venv/bin/python -m pytest tests/benchmarks/test_bench_laying.py -n 0` for the first answers;
`.venv/bin/python -m tests.benchmarks.test_bench_laying 1` for the gaps after one second.
"""

import sys
import time
from collections.abc import Iterable
from fractions import Fraction

import pytest
import rectpack

from patterns.cutting.answers import OnLength
from patterns.cutting.effort import Effort
from patterns.cutting.shortest import shortest
from tests.patterns.cutting.bag_cases import EIGHTH_YARD, Case, bag_cases, cut_panels

SORTS = [
    getattr(rectpack, name) for name in dir(rectpack) if name.startswith("SORT_") and name != "SORT_NONE"
]
ALGORITHMS = [
    getattr(rectpack, name)
    for name in dir(rectpack)
    if name.startswith(("Skyline", "Guillotine", "MaxRects")) and callable(getattr(rectpack, name))
]


@pytest.mark.parametrize("count", [12, 60])
def test_first_answer(benchmark, count):
    """What can be said at once: a first layout and the search that a watcher ends as it begins."""
    pieces = [piece for case in bag_cases() for piece in case.pieces if piece.width <= 42][:count]
    benchmark(lambda: shortest(pieces, Fraction(42), Effort(watch=lambda: True), EIGHTH_YARD))


def within(case: Case, seconds: float, step: Fraction | None = None) -> OnLength:
    end = time.monotonic() + seconds
    effort = Effort(int(seconds * 3_000_000), lambda: time.monotonic() >= end, may_solve=seconds >= 0.3)
    return shortest(case.pieces, case.width, effort, step)


def by_rectpack(case: Case, seconds: float) -> Fraction:
    """The least length of all its algorithms and orders, the strip made shorter while the pieces fit."""
    end, least = time.monotonic() + seconds, Fraction(0)
    parts = 4
    sides = [(int(each.width * parts), int(each.height * parts)) for each in case.pieces]
    best = sum(max(pair) for pair in sides)
    is_shorter = True
    while is_shorter and time.monotonic() < end:
        is_shorter = False
        for algorithm in ALGORITHMS:
            for sort in SORTS:
                if time.monotonic() >= end:
                    break
                packer = rectpack.newPacker(
                    pack_algo=algorithm, sort_algo=sort, rotation=case.pieces[0].turns
                )
                for pair in sides:
                    packer.add_rect(*pair)
                packer.add_bin(int(case.width * parts), best - 1)
                packer.pack()
                if packer.rect_list() and len(packer.rect_list()) == len(sides):
                    best = max(y + height for _, _, y, _, height, _ in packer.rect_list())
                    is_shorter = True
    return Fraction(best, parts) or least


def gap(length: Fraction, best: Fraction) -> float:
    return float(length / best - 1) * 100


def told(what: str, gaps: Iterable[float]) -> None:
    found = list(gaps)
    print(f"{what}: mean {sum(found) / len(found):.2f} %, worst {max(found):.2f} %", flush=True)  # noqa: T201


def main(seconds: float) -> None:
    for turns in (True, False):
        cases = list(cut_panels(turns))
        how = "turnable" if turns else "fixed"
        told(f"{how} panels", (gap(within(case, seconds).length, case.best) for case in cases))
        told(f"{how} panels, rectpack", (gap(by_rectpack(case, seconds), case.best) for case in cases))
    answers = [within(case, seconds, EIGHTH_YARD) for case in bag_cases()]
    proved = sum(answer.proved(EIGHTH_YARD) for answer in answers)
    told(f"bags: {proved} of {len(answers)} proved", (gap(each.length, each.bound) for each in answers))


if __name__ == "__main__":
    main(float(sys.argv[1]))
