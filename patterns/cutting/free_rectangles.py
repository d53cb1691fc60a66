"""Edge-to-edge layouts, one piece after the other: each goes to a corner of a free rectangle that it fits
best, and what is left of that is cut into two, so that the layout stays edge to edge.

Source: the “guillotine” algorithms in J. Jylänki, “A thousand ways to pack the bin”, 2010, from memory.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import product
from random import Random

from .boxes import Kind, Spot
from .effort import Effort

# A free rectangle: its sheet, where it begins, its width and height.
_Free = tuple[int, int, int, int, int]
# From what is left of a free rectangle across and along, and the free rectangle, how well a piece fits.
_Fit = Callable[[int, int, _Free], tuple[int, ...]]
_FITS: tuple[_Fit, ...] = (
    lambda across, along, free: (free[0], across if across < along else along, free[2]),
    lambda across, along, free: (free[0], free[3] * free[4], across),
    lambda across, along, free: (free[0], free[2], across, free[1]),
    lambda across, along, free: (free[0], across, free[2]),
    lambda across, along, free: (free[0], along, free[1]),
)
# From what is left across and along, and the piece's width and height: whether what is left across is as
# high as the piece only, and so what is left along as wide as the free rectangle.
_Split = Callable[[int, int, int, int], bool]
_SPLITS: tuple[_Split, ...] = (
    lambda across, along, width, height: across < along,
    lambda across, along, width, height: across * height < width * along,
    lambda across, along, width, height: True,
    lambda across, along, width, height: False,
    lambda across, along, width, height: across >= along,
)


@dataclass(frozen=True, slots=True)
class Way:
    """One way to lay pieces. order: their kinds, as they are laid. fit, split: numbers of the rules."""

    order: tuple[int, ...]
    fit: int
    split: int


def first_ways(kinds: Sequence[Kind]) -> list[Way]:
    """Return the ways that are tried first: every rule, with the largest pieces first."""
    numbers = [number for number, kind in enumerate(kinds) for _ in range(kind.copies)]
    orders = {
        tuple(sorted(numbers, key=lambda number: (measure(*kinds[number].sides[-1]), number))): None
        for measure in (
            lambda width, height: -width * height,
            lambda width, height: -max(width, height),
            lambda width, height: -height,
            lambda width, height: -width,
            lambda width, height: -min(width, height),
        )
    }
    rules = product(range(len(_FITS)), range(len(_SPLITS)))
    return [Way(order, fit, split) for fit, split in rules for order in orders]


def another_way(way: Way, homeless: Sequence[int], lot: Random) -> Way:
    """Return a way like the last: what found no place earlier, two pieces exchanged, now and then a rule."""
    order = list(way.order)
    if homeless and lot.random() < 0.5:
        piece = lot.choice(homeless)
        order.remove(piece)
        order.insert(lot.randrange(len(order) + 1) // 2, piece)
    else:
        one, other = lot.randrange(len(order)), lot.randrange(len(order))
        order[one], order[other] = order[other], order[one]
    if lot.random() < 0.25:
        return Way(tuple(order), lot.randrange(len(_FITS)), lot.randrange(len(_SPLITS)))
    return replace(way, order=tuple(order))


def filled(
    way: Way, kinds: Sequence[Kind], sheets: Sequence[tuple[int, int]], effort: Effort
) -> tuple[list[Spot], list[int]]:
    """Lay pieces on sheets; return where they lie, and the kinds of those that found no place."""
    frees: list[_Free] = [(number, 0, 0, width, height) for number, (width, height) in enumerate(sheets)]
    fit, split = _FITS[way.fit], _SPLITS[way.split]
    spots, homeless = list[Spot](), list[int]()
    for number in way.order:
        best: tuple[tuple[int, ...], _Free, int, int] | None = None
        for width, height in kinds[number].sides:
            for free in frees:
                across, along = free[3] - width, free[4] - height
                if across >= 0 and along >= 0:
                    value = fit(across, along, free)
                    if best is None or value < best[0]:
                        best = (value, free, width, height)
        effort.work -= 1 + len(frees) * len(kinds[number].sides) // 4
        if best is None:
            homeless.append(number)
            continue
        _, free, width, height = best
        spots.append(Spot(number, free[0], free[1], free[2], width, height))
        frees.remove(free)
        frees.extend(_rest(free, width, height, split))
    return spots, homeless


def _rest(free: _Free, width: int, height: int, split: _Split) -> list[_Free]:
    """Return what is left of a free rectangle beside and above a piece in its corner."""
    sheet, x, y, whole_width, whole_height = free
    across, along = whole_width - width, whole_height - height
    is_level = split(across, along, width, height)
    rest = []
    if across:
        rest.append((sheet, x + width, y, across, height if is_level else whole_height))
    if along:
        rest.append((sheet, x, y + height, whole_width if is_level else width, along))
    return rest
