"""Proof that pieces cannot be cut from sheets, however they are laid. No answer proves nothing."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache
from operator import mul
from typing import Literal

from patterns.drafting.gauges import Watch, nobody_watches

from .sheets import Rectangle, Sheet, in_whole_numbers

# too large: a piece is larger than any sheet, either way. area: all are larger than the sheets together, of
# an outline what is cut of it.
# stretched: they are, once their sides are stretched in ways that leave every layout a layout.
Reason = Literal["too large", "area", "stretched"]

# Sides are rounded to halves, thirds, quarters and fifths of a sheet; 12 divides by 1 to 4.
_ROUNDINGS = (1, 2, 3, 4)
_TWELFTHS = 12
# A side and the sheet's own → the side stretched, in twelfths.
Stretch = Callable[[int, int], int]


def excluded(
    pieces: Sequence[Rectangle], sheets: Sequence[Sheet], watch: Watch = nobody_watches
) -> Reason | None:
    """Return why the pieces certainly cannot all be cut from the sheets; None where that is not known.

    watch: called while it is tried.

    Source: dual feasible functions. S. P. Fekete and J. Schepers, “New classes of fast lower bounds for bin
    packing problems”, 2001, and “A general framework for bounds for higher-dimensional orthogonal packing
    problems”, 2004.
    """
    whole = in_whole_numbers(pieces, sheets)
    kinds = tuple(dict.fromkeys(whole.sheets))
    ways = [_ways(piece, kinds) for piece in whole.pieces]
    if not all(ways):
        return "too large"
    room = sum(int(sheet.width * sheet.height) for sheet in whole.sheets)
    if sum(int(piece.certain_area) for piece in whole.pieces) > room:
        return "area"
    full = [way for piece, way in zip(whole.pieces, ways, strict=True) if piece.is_full]
    if len(full) < 2:
        return None  # it lies on one of the sheets
    return "stretched" if _is_too_much_stretched(full, room, watch) else None


# How a piece may lie: its width and height, and those of the sheet.
_Way = tuple[int, int, int, int]


def _ways(piece: Rectangle, kinds: Sequence[Sheet]) -> list[_Way]:
    return [
        (int(width), int(height), int(sheet.width), int(sheet.height))
        for sheet in kinds
        for width, height in piece.sides
        if sheet.takes(width, height)
    ]


def _is_too_much_stretched(pieces: Sequence[Sequence[_Way]], room: int, watch: Watch) -> bool:
    """Whether some stretching makes the pieces too large.

    On each sheet the stretched pieces of any layout are no larger than the sheet itself, so all of them are
    no larger than the sheets together, even if each lies where it counts least. Most questions end early:
    where even the most that any stretch makes of the sides is not too much.
    """
    room *= _TWELFTHS * _TWELFTHS
    alike = Counter(tuple(ways) for ways in pieces)
    counts = list(alike.values())
    widths = [[(way[0], way[2]) for way in ways] for ways in alike]
    heights = [[(way[1], way[3]) for way in ways] for ways in alike]
    tallest = _at_most(heights)
    if _area(counts, _at_most(widths), tallest) <= room:
        return False
    along: Sequence[_Lengths] | None = None
    for wide in _stretched(widths):
        watch()
        if _area(counts, wide, tallest) > room:
            along = along or list(_stretched(heights))
            if any(_area(counts, wide, high) > room for high in along):
                return True
    return False


# A length of every piece, in each way that it may lie.
_Lengths = Sequence[Sequence[int]]


def _area(counts: Sequence[int], wide: _Lengths, high: _Lengths) -> int:
    """Return the area of all pieces, each lying where it is smallest."""
    return sum([count * min(map(mul, *sides)) for count, *sides in zip(counts, wide, high, strict=True)])


def _at_most(pieces: Sequence[Sequence[tuple[int, int]]]) -> _Lengths:
    return [[_longest(side, whole) for side, whole in ways] for ways in pieces]


@lru_cache(4096)
def _longest(side: int, whole: int) -> int:
    """Return the most that any stretch makes of a side."""
    if 2 * side > whole:
        return whole * _TWELFTHS
    return max(side * _TWELFTHS, *(_rounded(parts)(side, whole) for parts in _ROUNDINGS))


def _stretched(pieces: Sequence[Sequence[tuple[int, int]]]) -> Iterable[_Lengths]:
    """Return the sides of all pieces, in each way that they may lie, once for each stretch that differs."""
    stretches = _stretches({side for ways in pieces for side, _ in ways})
    return dict.fromkeys(
        tuple([tuple([stretch(side, whole) for side, whole in ways]) for ways in pieces])
        for stretch in stretches
    )


def _stretches(sides: set[int]) -> Iterator[Stretch]:
    yield _as_it_is
    for parts in _ROUNDINGS:
        yield _rounded(parts)
    for side in sorted(sides):
        yield _without_small_ones(side)


def _as_it_is(side: int, whole: int) -> int:
    return side * _TWELFTHS


def _rounded(parts: int) -> Stretch:
    """Count a side in parts ÷ (parts + 1): at most so many sides longer than one such part stand in a row."""

    def stretch(side: int, whole: int) -> int:
        steps, rest = divmod((parts + 1) * side, whole)
        return steps * whole * _TWELFTHS // parts if rest else side * _TWELFTHS

    return stretch


def _without_small_ones(least: int) -> Stretch:
    """Leave out sides below the least; a side that only such ones could stand beside counts as the whole."""

    def stretch(side: int, whole: int) -> int:
        if 2 * least > whole:
            return side * _TWELFTHS
        if side < least:
            return 0
        return (whole if side > whole - least else side) * _TWELFTHS

    return stretch
