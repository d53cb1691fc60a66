"""Layouts: how far from the least length after 0.05, 1 and 10 s, beside others; what is proved.

Aims: a first answer for 12 pieces in 20 ms, for 60 in 50 ms; 90 of the bag-maker's hundred proved in 1 s.
Run by hand: `.venv/bin/python -m pytest tests/benchmarks/test_bench_laying.py -n 0` for the first answers;
`.venv/bin/python -m tests.benchmarks.test_bench_laying 1` for the gaps after one second.
"""

import resource
import sys
import time
from collections.abc import Iterable
from fractions import Fraction

import pytest
import rectpack
from ortools.sat.python import cp_model

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
    """Counted in time of the processor, which other work on the machine does not change."""
    end = time.process_time() + seconds
    effort = Effort(int(seconds * 3_000_000), lambda: time.process_time() >= end, may_solve=seconds >= 0.3)
    return shortest(case.pieces, case.width, effort, step)


def by_rectpack(case: Case, seconds: float) -> Fraction:
    """The least length of all its algorithms and orders, the strip made shorter while the pieces fit."""
    end, least = time.process_time() + seconds, Fraction(0)
    parts = 4
    sides = [(int(each.width * parts), int(each.height * parts)) for each in case.pieces]
    best = sum(max(pair) for pair in sides)
    is_shorter = True
    while is_shorter and time.process_time() < end:
        is_shorter = False
        for algorithm in ALGORITHMS:
            for sort in SORTS:
                if time.process_time() >= end:
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


def by_solver(case: Case, seconds: float) -> Fraction:
    """The least length that CP-SAT finds by itself, in one thread: no overlap, and nothing else said."""
    parts = 4
    sides = [(int(each.width * parts), int(each.height * parts)) for each in case.pieces]
    wide, most = int(case.width * parts), sum(max(pair) for pair in sides)
    model, across, along = cp_model.CpModel(), [], []
    length = model.new_int_var(0, most, "length")
    for width, height in sides:
        sizes = [(width, height), (height, width)][: 2 if case.pieces[0].turns else 1]
        ways = [model.new_bool_var("") for _ in sizes]
        model.add_exactly_one(ways)
        shapes = [sum(way * size[axis] for way, size in zip(ways, sizes, strict=True)) for axis in (0, 1)]
        for shape, end, intervals in ((shapes[0], wide, across), (shapes[1], most, along)):
            start, stop = model.new_int_var(0, end, ""), model.new_int_var(0, end, "")
            side = model.new_int_var(0, end, "")
            model.add(side == shape)
            intervals.append(model.new_interval_var(start, side, stop, ""))
        model.add(stop <= length)
    model.add_no_overlap_2d(across, along)
    model.minimize(length)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds, solver.parameters.num_workers = seconds, 1
    found = solver.solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return Fraction(int(solver.objective_value) if found else most, parts)


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
        told(f"{how} panels, CP-SAT alone", (gap(by_solver(case, seconds), case.best) for case in cases))
    answers = [within(case, seconds, EIGHTH_YARD) for case in bag_cases()]
    proved = sum(answer.proved(EIGHTH_YARD) for answer in answers)
    told(f"bags: {proved} of {len(answers)} proved", (gap(each.length, each.bound) for each in answers))
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(f"the most memory that was held: {most} MiB", flush=True)  # noqa: T201


if __name__ == "__main__":
    main(float(sys.argv[1]))
