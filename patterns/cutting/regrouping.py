"""A layout improved by taking it apart into a few groups of pieces, and laying these anew.

Groups that waste little stay as they are and count as one piece each; those that waste much are taken apart
further. There are few enough in the end for every box that they can make.
"""

from collections.abc import Sequence
from random import Random

from .boxes import Kind, Spot, spots_of
from .edge_to_edge_exact import lowest, ways_to_part
from .effort import Effort
from .rows_and_columns import extent, in_groups

# How many ways to part the groups in two there may be, drawn anew each time.
_MOST_WAYS = (12_000, 40_000)
# Into the same length, but otherwise: so often.
_OTHERWISE = 0.4


def regrouped(
    spots: Sequence[Spot], kinds: Sequence[Kind], width: int, effort: Effort, lot: Random
) -> list[Spot] | None:
    """Return a layout of the same pieces that is shorter, or now and then as long; None if none was found."""
    groups = _groups([*spots], kinds, lot)
    of_kind: dict[tuple[tuple[int, int], ...], list[list[Spot]]] = {}
    for group in groups:
        of_kind.setdefault(_ways_to_lie(group, kinds), []).append(group)
    merged = tuple(Kind(ways, len(alike)) for ways, alike in of_kind.items())
    length = extent(spots, 1)[1]
    effort.work -= 20 + 10 * len(spots)
    target = length if lot.random() < _OTHERWISE else length - 1
    box, _ = lowest(merged, width, target, effort)
    if box is None:
        return None
    left = list(of_kind.values())
    return [spot for place in spots_of(box) for spot in _in_place(left[place.kind].pop(), place)]


def _groups(spots: list[Spot], kinds: Sequence[Kind], lot: Random) -> list[list[Spot]]:
    """Take a layout apart, mostly where it wastes, as long as the groups are few enough."""
    limit = lot.choice(_MOST_WAYS)
    whole, groups = list[list[Spot]](), [spots]
    while groups:
        weights = [1 + _waste(group) for group in groups]
        group = groups.pop(lot.choices(range(len(groups)), weights)[0])
        parts = in_groups(group, lot.randrange(2))
        if len(parts) == 1:
            parts = in_groups(group, 0)
        if len(parts) == 1:
            parts = in_groups(group, 1)
        if len(parts) == 1 or _count_of_ways([*whole, *groups, *parts], kinds) > limit:
            whole.append(group)
        else:
            whole += [part for part in parts if len(part) == 1]
            groups += [part for part in parts if len(part) > 1]
    return whole


def _count_of_ways(groups: Sequence[Sequence[Spot]], kinds: Sequence[Kind]) -> int:
    counts: dict[tuple[tuple[int, int], ...], int] = {}
    for group in groups:
        ways = _ways_to_lie(group, kinds)
        counts[ways] = counts.get(ways, 0) + 1
    return ways_to_part([Kind(ways, count) for ways, count in counts.items()])


def _ways_to_lie(group: Sequence[Spot], kinds: Sequence[Kind]) -> tuple[tuple[int, int], ...]:
    """Return the width and height of a group in each way it may lie; turned if all in it may be turned."""
    (left, right), (low, high) = extent(group, 0), extent(group, 1)
    upright = (right - left, high - low)
    may_turn = all((spot.height, spot.width) in kinds[spot.kind].sides for spot in group)
    return tuple(sorted({upright, upright[::-1]})) if may_turn else (upright,)


def _waste(group: Sequence[Spot]) -> int:
    (left, right), (low, high) = extent(group, 0), extent(group, 1)
    return (right - left) * (high - low) - sum(spot.width * spot.height for spot in group)


def _in_place(group: Sequence[Spot], place: Spot) -> list[Spot]:
    """Lay a group where its place is, turned if need be."""
    (left, right), (low, _) = extent(group, 0), extent(group, 1)
    if right - left == place.width and extent(group, 1)[1] - low == place.height:
        return [spot._replace(x=spot.x - left + place.x, y=spot.y - low + place.y) for spot in group]
    return [
        spot._replace(
            x=spot.y - low + place.x, y=spot.x - left + place.y, width=spot.height, height=spot.width
        )
        for spot in group
    ]
