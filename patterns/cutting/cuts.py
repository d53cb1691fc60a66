"""The straight cuts that take a layout apart, edge to edge, in the order to make them.

Any cut that goes right through a part and through no piece may be made: what can be taken apart edge to edge
still can be afterwards, piece by piece. So all such cuts one way are made at once, and only the way is
chosen: the one that needs fewer cuts in all, then the longer ones.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import partial
from heapq import heappop, heappush
from math import lcm
from typing import Literal, NamedTuple

from .answers import Cut
from .sheets import Layout, Length, Placement, Sheet


class _Part(NamedTuple):
    """A part of the cloth and what lies in it; in whole numbers, as all that follows."""

    left: Length
    right: Length
    low: Length
    high: Length
    pieces: tuple[Placement, ...]


@dataclass(frozen=True, slots=True)
class _Plan:
    """How a part is taken apart. count: all cuts, those of its parts as well. length: of all of them."""

    count: int
    length: Length
    cuts: tuple[Cut, ...] = ()
    parts: tuple["_Plan", ...] = field(default=(), repr=False)


def cuts_of(
    layout: Layout, width: Length, length: Length, sheets: Sequence[Sheet] | None = None
) -> tuple[Cut, ...] | None:
    """Return the cuts that take a layout apart into its pieces; None where no straight cuts right through do.

    width, length: of the length goods, which are cut off at the length first. sheets: if any are given, the
    layout lies on these instead; sheets with nothing on them are not cut.
    Long cuts come first, and each comes after those that make the part it cuts.
    """
    scale = lcm(*(side.denominator for side in _sides(layout, width, length, sheets)))
    whole = [_scaled(each, scale) for each in layout]
    plans = []
    if sheets is None:
        plans.append(_plan(_Part(0, int(width * scale), 0, int(length * scale), tuple(whole)), None, {}))
    for number, sheet in enumerate(sheets or ()):
        on_it = tuple(each for each in whole if each.sheet == number)
        part = _Part(0, int(sheet.width * scale), 0, int(sheet.height * scale), on_it)
        plans.append(_plan(part, number, {}) if on_it else _NOTHING)
    if None in plans:
        return None
    cut_off = [Cut(None, "x", length, 0, width)] if sheets is None else []
    cuts = [cut for plan in plans if plan for cut in _in_order(plan)]
    return (*cut_off, *(_in_mm(cut, scale) for cut in cuts))


def _sides(layout: Layout, width: Length, length: Length, sheets: Sequence[Sheet] | None) -> Iterator[Length]:
    yield width
    yield length
    for sheet in sheets or ():
        yield from (sheet.width, sheet.height)
    for each in layout:
        yield from (each.x, each.y, each.width, each.height)


def _scaled(each: Placement, scale: int) -> Placement:
    x, y, width, height = (int(side * scale) for side in (each.x, each.y, each.width, each.height))
    return Placement(each.piece, each.sheet, x, y, width, height, each.turned)


def _in_mm(cut: Cut, scale: int) -> Cut:
    at, start, end = (Fraction(cut.at) / scale, Fraction(cut.start) / scale, Fraction(cut.end) / scale)
    return Cut(cut.sheet, cut.along, at, start, end)


_NOTHING = _Plan(0, 0)
_Known = dict[_Part, _Plan | None]


def _plan(part: _Part, sheet: int | None, known: _Known) -> _Plan | None:
    if part in known:
        return known[part]
    found: list[_Plan] = []
    along: Literal["x", "y"]
    for along in ("x", "y"):
        at, parts = _sliced(part, along)
        if not at:
            continue
        plans = [_plan(each, sheet, known) for each in parts]
        whole = [plan for plan in plans if plan is not None]
        if len(whole) < len(plans):
            known[part] = None  # a part that cannot be taken apart
            return None
        start, end = (part.left, part.right) if along == "x" else (part.low, part.high)
        cuts = tuple(Cut(sheet, along, each, start, end) for each in at)
        count = len(cuts) + sum(plan.count for plan in whole)
        total = len(cuts) * (end - start) + sum(plan.length for plan in whole)
        found.append(_Plan(count, total, cuts, tuple(whole)))
    if found:
        known[part] = min(found, key=_fewest_and_longest)
    else:
        known[part] = _NOTHING if len(part.pieces) == 1 else None
    return known[part]


def _fewest_and_longest(plan: _Plan) -> tuple[int, Length, Length]:
    return plan.count, plan.length, plan.cuts[0].start - plan.cuts[0].end


def _sliced(part: _Part, along: Literal["x", "y"]) -> tuple[list[Length], list[_Part]]:
    """Return where cuts one way go through no piece, and the parts with pieces in them that they make."""
    low, high = (part.low, part.high) if along == "x" else (part.left, part.right)
    key = partial(_span, along=along)
    blocks: list[tuple[Length, Length, list[Placement]]] = []
    for piece in sorted(part.pieces, key=key):
        start, end = key(piece)
        if blocks and start < blocks[-1][1]:
            first, last, inside = blocks[-1]
            blocks[-1] = (first, max(last, end), [*inside, piece])
        else:
            blocks.append((start, end, [piece]))
    edges = {edge for start, end, _ in blocks for edge in (start, end)}
    parts = [_between(part, along, start, end, inside) for start, end, inside in blocks]
    return sorted(edges - {low, high}), parts


def _between(
    part: _Part, along: Literal["x", "y"], start: Length, end: Length, inside: list[Placement]
) -> _Part:
    pieces = tuple(sorted(inside, key=lambda each: each.piece))
    if along == "x":
        return _Part(part.left, part.right, start, end, pieces)
    return _Part(start, end, part.low, part.high, pieces)


def _span(piece: Placement, along: Literal["x", "y"]) -> tuple[Length, Length]:
    if along == "x":
        return piece.y, piece.y + piece.height
    return piece.x, piece.x + piece.width


def _in_order(whole: _Plan) -> list[Cut]:
    """Return the cuts of a plan and of its parts, longest first among those that can be made."""
    ready = [(*_rank(whole), 0, whole)] if whole.cuts else []
    number, order = 1, list[Cut]()
    while ready:
        plan = heappop(ready)[-1]
        order.extend(plan.cuts)
        for part in plan.parts:
            if part.cuts:
                heappush(ready, (*_rank(part), number, part))
                number += 1
    return order


def _rank(plan: _Plan) -> tuple[Length, Length, Length]:
    cut = plan.cuts[0]
    return cut.start - cut.end, cut.at, cut.start
