"""A length that no layout of some pieces goes below, whatever their order: a proof by arithmetic alone.

Sides are counted by functions under which every row of pieces that fits in the cloth still fits (dual
feasible functions), across and along at once; a piece that may be turned counts as it counts least.
Source: S. P. Fekete and J. Schepers, “A general framework for bounds for higher-dimensional orthogonal
packing problems”, 2004; J. Carlier, F. Clautiaux and A. Moukrim, “New reduction procedures and lower bounds
for the two-dimensional bin packing problem with fixed orientation”, 2007; both from memory.
"""

from collections.abc import Iterator, Sequence
from itertools import product

from .strip import Kind, Strip, sums_within

# Functions that are tried across, and along: so many that a few dozen pieces take a few milliseconds.
_MOST_COUNTS = 24
_USUAL_WORTH = 3_000
# A bound is first raised by so small a part of it; and so often at most, there and back.
_FIRST_STRIDE, _MOST_LIFTS = 200, 8

# What a side counts, by the side; and what the whole counts.
_Count = tuple[dict[int, int], int]


class Lengths:
    """The lengths that a layout can have: sums of sides that stand along the cloth."""

    def __init__(self, strip: Strip) -> None:
        ways = [(kind, [high for _, high in kind.ways(strip.width)]) for kind in strip.kinds]
        self.most = sum(max(highs) * kind.count for kind, highs in ways)
        choices = [highs for kind, highs in ways for _ in kind.members]
        self._sums = sums_within(choices, self.most) if strip.is_full else None

    def up(self, length: int) -> int:
        """Return the least of them that is not below a length."""
        if self._sums is None or length > self.most:
            return length
        above = self._sums >> length
        return length + (above & -above).bit_length() - 1

    def down(self, length: int) -> int:
        """Return the greatest of them that is not above a length."""
        if self._sums is None or length > self.most:
            return length
        return (self._sums & ((1 << (length + 1)) - 1)).bit_length() - 1


def least_length(strip: Strip, lengths: Lengths) -> int:
    """Return a length, in units, that every layout has at least."""
    tallest = max(min(high for _, high in kind.ways(strip.width)) for kind in strip.kinds)
    full = [kind for kind in strip.kinds if kind.is_full]
    least = tallest
    for values, whole in _counts({side for kind in full for side in _sides(kind)}, strip.width, len(full)):
        worth = sum(
            kind.count * min(values[wide] * high for wide, high in kind.ways(strip.width)) for kind in full
        )
        least = max(least, -(-worth // whole))
    return lengths.up(least)


def lifted(strip: Strip, lengths: Lengths, least: int) -> int:
    """Raise a bound as far as lengths are excluded, in steps that double, then halve; some milliseconds."""
    kinds, width = [kind for kind in strip.kinds if kind.is_full], strip.width
    stride, excluded, open_from = max(1, least // _FIRST_STRIDE), least - 1, least
    for _ in range(_MOST_LIFTS):
        if not is_excluded(kinds, width, open_from):
            break
        excluded, open_from, stride = open_from, lengths.up(open_from + stride), stride * 2
    for _ in range(_MOST_LIFTS):
        middle = lengths.down((excluded + open_from) // 2)
        if middle <= excluded:
            middle = lengths.up(excluded + 1)
        if middle >= open_from:
            break
        if is_excluded(kinds, width, middle):
            excluded = middle
        else:
            open_from = middle
    return lengths.up(excluded + 1)


def is_excluded(kinds: Sequence[Kind], width: int, height: int, copies: int = 1) -> bool:
    """Whether pieces, all of them full, certainly do not fit in a box, or in so many of it."""
    ways = [(kind.count, kind.ways(width, height)) for kind in kinds]
    if not all(fitting for _, fitting in ways):
        return True
    wide = _counts({side for _, fitting in ways for side, _ in fitting}, width, len(kinds))
    high = _counts({side for _, fitting in ways for _, side in fitting}, height, len(kinds))
    for (across, all_across), (along, all_along) in product(tuple(wide), tuple(high)):
        room = all_across * all_along * copies
        for count, fitting in ways:
            room -= count * min([across[one] * along[other] for one, other in fitting])
        if room < 0:
            return True
    return False


def _sides(kind: Kind) -> tuple[int, ...]:
    return (kind.width, kind.height) if kind.turns else (kind.width,)


def _counts(sides: set[int], whole: int, kinds: int) -> Iterator[_Count]:
    """Yield ways to count sides of at most the whole. kinds: of more of them, fewer ways are tried."""
    fitting = sorted(side for side in sides if side <= whole)
    most = max(4, min(_MOST_COUNTS, _USUAL_WORTH // (kinds + 1) ** 2))
    yield {side: side for side in fitting}, whole
    seen = set()
    for count in _spread(list(_kept_and_rounded(fitting, whole)), most):
        values = tuple(count[0].values())
        if (values, count[1]) not in seen:
            seen.add((values, count[1]))
            yield count


def _spread(counts: list[_Count], most: int) -> list[_Count]:
    return counts if len(counts) <= most else [counts[n * len(counts) // most] for n in range(most)]


def _kept_and_rounded(sides: list[int], whole: int) -> Iterator[_Count]:
    for parts in (1, 2, 3, 4):
        yield {side: _in_parts(side, whole, parts) for side in sides}, whole * parts
    small = [side for side in sides if 2 * side <= whole]
    steps = {whole // n for n in range(2, 7)} | {whole // n + 1 for n in range(2, 7)} | set(small)
    steps |= {whole - side for side in sides if whole // 8 < whole - side and 2 * (whole - side) <= whole}
    for least in small:
        yield {side: _without_small(side, whole, least) for side in sides}, whole
    for step in sorted((step for step in steps if 0 < 2 * step <= whole), reverse=True):
        yield {side: _in_steps(side, whole, step) for side in sides}, 2 * (whole // step)


def _in_parts(side: int, whole: int, parts: int) -> int:
    """At most so many sides longer than one (parts + 1)th stand in a row."""
    steps, rest = divmod((parts + 1) * side, whole)
    return steps * whole if rest else side * parts


def _without_small(side: int, whole: int, least: int) -> int:
    """Small sides count nothing; a side that only such ones could stand beside counts as the whole."""
    if side > whole - least:
        return whole
    return side if side >= least else 0


def _in_steps(side: int, whole: int, step: int) -> int:
    """A short side counts its whole steps; a long one what its rest leaves of the whole's."""
    if 2 * side > whole:
        return 2 * (whole // step - (whole - side) // step)
    return whole // step if 2 * side == whole else 2 * (side // step)
