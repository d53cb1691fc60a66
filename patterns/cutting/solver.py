"""Whether pieces can be laid on a shorter length at all, asked of OR-Tools' CP-SAT: a layout or a proof.

It is loaded when it is first asked, not before: that takes a fifth of a second and 90 MiB. One thread and a
limit of its own count of work, so that the same question has the same answer wherever nobody watches.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from threading import Event, Thread
from typing import TYPE_CHECKING, Any

from .effort import Effort
from .strip import Placed, Strip

if TYPE_CHECKING:
    from ortools.sat.python.cp_model import CpModel

# Work in one of the solver's own units of time: models as small as these take some seconds for it.
_A_UNIT = 8_000_000
# In one direction alone it is quicker.
_A_UNIT_FOLLOWING = 2_000_000
# What a question costs beside.
_A_QUESTION = 2_000
# How often, in seconds, it is asked whether it is time to stop.
_GLANCE = 0.004


@dataclass(frozen=True, slots=True)
class Solved:
    """placed: a layout on the length asked about, if one was found. is_impossible: there is none, proved."""

    placed: tuple[Placed, ...] = ()
    is_impossible: bool = False


class Solver:
    """The questions about one strip. sheet: the strip is of sheets laid end to end, of this length each."""

    def __init__(self, strip: Strip, effort: Effort, sheet: int | None = None) -> None:
        self.strip, self.effort, self.sheet = strip, effort, sheet
        # By direction, the least length on which the pieces are known to follow each other.
        self._follow: dict[bool, int] = {}
        # By length and direction, the most work that did not answer.
        self._open: dict[tuple[int, bool], int] = {}

    def solved(self, length: int, work: int, known: Sequence[Placed] = ()) -> Solved:
        """Return whether the pieces can be laid on a length; neither, where the work did not do.

        First only in one direction, which is far easier.
        known: a longer layout, to begin near.
        """
        if self.cannot_follow(length, work):
            return Solved(is_impossible=True)
        return _laid(self.strip, length, self.effort, work, known, self.sheet)

    def cannot_follow(self, length: int, work: int) -> bool:
        """Whether the pieces certainly cannot follow each other across the cloth, or along it.

        They follow each other where no line meets more of them than it has room for, wherever they lie.
        work: for each of the two questions.
        Source: J.-F. Côté, M. Dell'Amico and M. Iori, “Combinatorial Benders' cuts for the strip packing
        problem”, 2014, for what that bound is worth; from memory.
        """
        return self.strip.is_full and any(self._cannot(length, along, work) for along in (False, True))

    def _cannot(self, length: int, is_along: bool, work: int) -> bool:
        from ortools.sat.python import cp_model

        known = self._follow.get(is_along)
        if (known is not None and known <= length) or work <= self._open.get((length, is_along), 0):
            return False
        _, status = _asked(_following(self.strip, length, is_along), self.effort, work, _A_UNIT_FOLLOWING)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            self._follow[is_along] = length
        elif status != cp_model.INFEASIBLE:
            self._open[length, is_along] = work
        return bool(status == cp_model.INFEASIBLE)


def _following(strip: Strip, length: int, is_along: bool) -> "CpModel":
    """Return the model of pieces in one direction, their other sides only counted."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    whole, room = (length, strip.width) if is_along else (strip.width, length)
    intervals, thick = [], []
    for kind in strip.kinds:
        ways = kind.ways(strip.width, length)
        ways = [way[::-1] for way in ways] if is_along else ways
        before = None
        for _ in kind.members:
            start, lying = _started(model, ways, whole)
            for (long, across), lies in zip(ways, lying, strict=True):
                intervals.append(_interval(model, start, long, lies))
                thick.append(across)
            if before is not None:
                model.add(before <= start)
            before = start
    model.add_cumulative(intervals, thick, room)
    return model


def _laid(
    strip: Strip, length: int, effort: Effort, work: int, known: Sequence[Placed], sheet: int | None
) -> Solved:
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    pieces = _pieces(model, strip, length, sheet)
    if sheet is not None:
        _keep_within(model, pieces, length, sheet)
    _hint(model, pieces, known)
    solver, status = _asked(model, effort, work)
    if status == cp_model.INFEASIBLE:
        return Solved(is_impossible=strip.is_full)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Solved()
    return Solved(tuple(piece.placed(solver) for piece in pieces))


def _asked(model: "CpModel", effort: Effort, work: int, unit: int = _A_UNIT) -> tuple[Any, Any]:
    """Return the solver, and what it says of a model after so much work at the most."""
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    if effort.is_done or work <= 0:
        return solver, cp_model.UNKNOWN
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = effort.seed % 1_000_000
    solver.parameters.max_deterministic_time = work / unit
    # Of little use for so small a model, and most of what it takes before the search.
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.linearization_level = 0
    solver.parameters.use_energetic_reasoning_in_no_overlap_2d = True
    solver.parameters.use_area_energetic_reasoning_in_no_overlap_2d = True
    status = _watched(solver, model, effort)
    effort.work -= min(work, int(solver.response_proto.deterministic_time * unit) + _A_QUESTION)
    return solver, status


def _watched(solver: Any, model: "CpModel", effort: Effort) -> Any:
    """Solve, and stop when whoever watches says so."""
    if effort.watch is None:
        return solver.solve(model)
    ended = Event()

    def look() -> None:
        while not ended.wait(_GLANCE):
            if effort.is_done:
                solver.stop_search()

    watcher = Thread(target=look, daemon=True)
    watcher.start()
    try:
        return solver.solve(model)
    finally:
        ended.set()
        watcher.join()


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece in the model. ways: how it may lie, and what is true if it lies so (None: it always does)."""

    kind: int
    x: Any
    y: Any
    ways: tuple[tuple[int, int, Any], ...]

    def placed(self, solver: Any) -> Placed:
        wide, high = next(
            (wide, high) for wide, high, lies in self.ways if lies is None or solver.boolean_value(lies)
        )
        return self.kind, solver.value(self.x), solver.value(self.y), wide, high


def _pieces(model: "CpModel", strip: Strip, length: int, sheet: int | None) -> list[_Piece]:
    """Add every piece, that none overlap, and that the pieces over each line are not wider than the cloth.

    The last follows from the rest, but lets the solver see at once that too much is to lie side by side.
    """
    pieces: list[_Piece] = []
    across: list[Any] = []
    along: list[Any] = []
    sides: list[tuple[int, int]] = []
    for number, kind in enumerate(strip.kinds):
        ways = kind.ways(strip.width, length if sheet is None else sheet)
        equal = [_piece(model, number, ways, strip.width, length) for _ in kind.members]
        for one, other in pairwise(equal):
            reach = strip.width + 1
            model.add(one.y * reach + one.x <= other.y * reach + other.x)
        pieces += equal
        for piece in equal:
            for wide, high, lies in piece.ways:
                across.append(_interval(model, piece.x, wide, lies))
                along.append(_interval(model, piece.y, high, lies))
                sides.append((wide, high))
    model.add_no_overlap_2d(across, along)
    model.add_cumulative(across, [high for _, high in sides], length)
    model.add_cumulative(along, [wide for wide, _ in sides], strip.width)
    _mirror(model, strip, length, pieces)
    return pieces


def _piece(model: "CpModel", kind: int, ways: list[tuple[int, int]], width: int, length: int) -> _Piece:
    x, lying = _started(model, ways, width)
    y = model.new_int_var(0, length - min(high for _, high in ways), "")
    for (_, high), lies in zip(ways, lying, strict=True):
        if lies is not None:
            model.add(y <= length - high).only_enforce_if(lies)
    return _Piece(kind, x, y, tuple((*way, lies) for way, lies in zip(ways, lying, strict=True)))


def _started(model: "CpModel", ways: list[tuple[int, int]], whole: int) -> tuple[Any, list[Any]]:
    """Return where a piece begins, in one direction, and for each way what is true if it lies so."""
    start = model.new_int_var(0, whole - min(long for long, _ in ways), "")
    if len(ways) == 1:
        return start, [None]
    turned = model.new_bool_var("")
    lying = [~turned, turned]
    for (long, _), lies in zip(ways, lying, strict=True):
        model.add(start <= whole - long).only_enforce_if(lies)
    return start, lying


def _keep_within(model: "CpModel", pieces: list[_Piece], length: int, sheet: int) -> None:
    """No piece lies across the edge of a sheet."""
    from ortools.sat.python import cp_model

    for piece in pieces:
        for _, high, lies in piece.ways:
            starts = [[edge, edge + sheet - high] for edge in range(0, length, sheet)]
            within = model.add_linear_expression_in_domain(piece.y, cp_model.Domain.from_intervals(starts))
            if lies is not None:
                within.only_enforce_if(lies)


def _interval(model: "CpModel", start: Any, side: int, lies: Any) -> Any:
    if lies is None:
        return model.new_fixed_size_interval_var(start, side, "")
    return model.new_optional_fixed_size_interval_var(start, side, lies, "")


def _mirror(model: "CpModel", strip: Strip, length: int, pieces: list[_Piece]) -> None:
    """Of a layout and its mirror images, keep the one whose largest single piece lies lower left."""
    single = [piece for piece in pieces if strip.kinds[piece.kind].count == 1]
    if not single:
        return
    largest = max(single, key=lambda piece: strip.kinds[piece.kind].area)
    for wide, high, lies in largest.ways:
        half = [model.add(2 * largest.x <= strip.width - wide), model.add(2 * largest.y <= length - high)]
        if lies is not None:
            for each in half:
                each.only_enforce_if(lies)


def _hint(model: "CpModel", pieces: list[_Piece], known: Sequence[Placed]) -> None:
    """Begin near a known layout, its equal pieces in the order of the model."""
    if not known:
        return
    places: dict[int, list[Placed]] = {}
    for placed in sorted(known, key=lambda each: (-each[2], -each[1])):
        places.setdefault(placed[0], []).append(placed)
    for piece in pieces:
        _, x, y, wide, high = places[piece.kind].pop()
        model.add_hint(piece.x, x)
        model.add_hint(piece.y, y)
        for across, along, lies in piece.ways[1:]:
            model.add_hint(lies, (across, along) == (wide, high))
