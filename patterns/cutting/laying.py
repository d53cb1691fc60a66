"""A layout of pieces on given sheets, by a skyline: each piece goes where it fits best, in several orders.

It always gives the same layout for the same question, and its work is counted, not timed. Where it finds
none, there may still be one: whether there can be none is the subject of `bounds` and `settling`.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, product
from typing import NamedTuple

from patterns.drafting.gauges import Watch, nobody_watches

from .sheets import Layout, Placement, Rectangle, Sheet, in_whole_numbers

# Each place that is looked at takes about a microsecond.
USUAL_WORK = 300_000


@dataclass(slots=True)
class Work:
    """How much may still be tried, in places for a piece. All searches for one answer share it.

    watch: called while they run.
    """

    left: int = USUAL_WORK
    watch: Watch = nobody_watches

    @property
    def is_done(self) -> bool:
        return self.left <= 0


def lay(
    pieces: Sequence[Rectangle],
    sheets: Sequence[Sheet],
    work: Work | None = None,
    most_ways: int | None = None,
) -> Layout | None:
    """Return a layout of all the pieces on the sheets, or None if none was found.

    most_ways: in how many ways it is tried at most; in all, if none is said.
    Raises CuttingError: more pieces or sheets than a layout is looked for at once.

    >>> from fractions import Fraction
    >>> lay([Rectangle(Fraction(3), Fraction(2))], [Sheet(Fraction(2), Fraction(3))])[0].turned
    True
    """
    whole = in_whole_numbers(pieces, sheets)
    work = work or Work()
    for way in islice(_ways(whole.pieces, whole.sheets), most_ways):
        if work.is_done:
            return None
        layout = _laid(way, work)
        if layout is not None:
            return whole.in_mm(layout)
    return None


class _Cost(NamedTuple):
    """What a place costs. top: how high the piece reaches. wasted: what can no longer be used below it.

    gap: how much of the level that it lies on is left beside it.
    """

    top: int
    wasted: int
    gap: int
    x: int


_Rule = Callable[[_Cost], tuple[int, ...]]
_RULES: tuple[_Rule, ...] = (
    lambda cost: (cost.top, cost.wasted, cost.x),
    lambda cost: (cost.wasted, cost.gap, cost.top, cost.x),
    lambda cost: (abs(cost.gap), cost.top, cost.wasted, cost.x),
)
# Largest first. Pieces that are equal keep their order.
_ORDERS: tuple[Callable[[Rectangle], tuple[int, ...]], ...] = (
    lambda piece: (-int(piece.width * piece.height), -int(max(piece.width, piece.height))),
    lambda piece: (-int(max(piece.width, piece.height)), -int(min(piece.width, piece.height))),
    lambda piece: (-int(piece.height), -int(piece.width)),
    lambda piece: (-int(piece.width), -int(piece.height)),
    lambda piece: (-int(min(piece.width, piece.height)), -int(max(piece.width, piece.height))),
    lambda piece: (-int(piece.width + piece.height),),
)


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to try it. is_transposed: along the other axis, as if each sheet lay on its side."""

    pieces: tuple[Rectangle, ...]
    sheets: tuple[Sheet, ...]
    order: tuple[int, ...]
    rule: _Rule
    is_transposed: bool


def _ways(pieces: tuple[Rectangle, ...], sheets: tuple[Sheet, ...]) -> Iterator[_Way]:
    aside = (
        tuple(Rectangle(piece.height, piece.width, piece.turns) for piece in pieces),
        tuple(Sheet(sheet.height, sheet.width) for sheet in sheets),
    )
    seen = set()
    for measure, rule, is_transposed in product(_ORDERS, _RULES, (False, True)):
        laid, on = aside if is_transposed else (pieces, sheets)
        order = tuple(sorted(range(len(laid)), key=lambda number: measure(laid[number])))
        if (order, rule, is_transposed) not in seen:
            seen.add((order, rule, is_transposed))
            yield _Way(laid, on, order, rule, is_transposed)


def _laid(way: _Way, work: Work) -> Layout | None:
    """Try one way; what finds no place comes first the next time, once for each piece."""
    order, late = way.order, set[int]()
    while not work.is_done:
        placed, homeless = _placed(way, order, work)
        if homeless is None:
            return tuple(placed[number] for number in range(len(order)))
        if homeless in late or order[0] == homeless:
            return None
        late.add(homeless)
        order = (homeless, *(number for number in order if number != homeless))
    return None


def _placed(
    way: _Way, order: Sequence[int], work: Work
) -> tuple[dict[int, Placement], None] | tuple[dict[int, Placement], int]:
    """Return where the pieces lie, and the first that finds no place."""
    skylines = [[_Level(0, 0, int(sheet.width))] for sheet in way.sheets]
    placed: dict[int, Placement] = {}
    for number in order:
        work.watch()
        placement = _best(way, number, skylines, work)
        if placement is None:
            return placed, number
        placed[number] = placement
    return placed, None


class _Level(NamedTuple):
    """A level stretch of a skyline."""

    x: int
    y: int
    width: int


def _best(way: _Way, number: int, skylines: list[list[_Level]], work: Work) -> Placement | None:
    """Put a piece on the first sheet that has a place for it, at the best one there."""
    piece = way.pieces[number]
    for rank, (sheet, skyline) in enumerate(zip(way.sheets, skylines, strict=True)):
        spots = [
            (way.rule(cost), start, turn, cost)
            for turn, (width, height) in enumerate(piece.sides)
            for start, cost in _spots(skyline, sheet, int(width), int(height))
        ]
        work.left -= len(skyline) * len(piece.sides)
        if spots:
            _, start, turn, cost = min(spots)
            width, height = (int(side) for side in piece.sides[turn])
            _raise(skyline, start, width, cost.top)
            x, y = cost.x, cost.top - height
            if way.is_transposed:
                return Placement(number, rank, y, x, height, width, turn == 1)
            return Placement(number, rank, x, y, width, height, turn == 1)
    return None


def _spots(skyline: list[_Level], sheet: Sheet, width: int, height: int) -> Iterator[tuple[int, _Cost]]:
    """Yield each place that a rectangle can have, its left edge where a level of the skyline begins."""
    for start, level in enumerate(skyline):
        right = level.x + width
        if right > sheet.width:
            return
        under = [level]
        for other in skyline[start + 1 :]:
            if other.x >= right:
                break
            under.append(other)
        y = max(other.y for other in under)
        if y + height <= sheet.height:
            wasted = sum((y - other.y) * (min(other.x + other.width, right) - other.x) for other in under)
            yield start, _Cost(y + height, wasted, level.width - width, level.x)


def _raise(skyline: list[_Level], start: int, width: int, top: int) -> None:
    """Lay a rectangle on the skyline: from the level `start` on it stands at `top`, so far across."""
    x = skyline[start].x
    right = x + width
    after = [level for level in skyline[start:] if level.x + level.width > right]
    if after and after[0].x < right:
        first = after[0]
        after[0] = _Level(right, first.y, first.x + first.width - right)
    raised = _Level(x, top, width)
    before = skyline[:start]
    if before and before[-1].y == top:
        last = before.pop()
        raised = _Level(last.x, top, last.width + width)
    if after and after[0].y == top:
        raised = _Level(raised.x, top, raised.width + after.pop(0).width)
    skyline[:] = [*before, raised, *after]
