"""The shortest length of cloth found for some pieces: layouts against shorter and shorter lengths."""

from collections.abc import Sequence
from fractions import Fraction

from .answers import OnLength
from .bounds import excluded
from .effort import Effort
from .errors import CuttingError
from .laying import Work, lay
from .sheets import Layout, Length, Rectangle, Sheet

_HALVINGS = 10
_WORK_A_TRY = 30_000


def shortest(
    pieces: Sequence[Rectangle],
    width: Length,
    effort: Effort,
    step: Length | None = None,
    edge_to_edge: bool = False,
) -> OnLength:
    """Return a layout on cloth of that width, and a bound. Raises CuttingError: a piece that fits no way."""
    least = max(max(_least(piece, width) for piece in pieces), _area(pieces) / Fraction(width))
    layout = _stacked(pieces, width)
    length = _length(layout)
    low = least
    for _ in range(_HALVINGS):
        if effort.is_done or low >= length:
            break
        middle = low if low == least else (low + length) / 2
        found = None
        if excluded(pieces, [Sheet(width, middle)]) is None:
            work = Work(_WORK_A_TRY)
            found = lay(pieces, [Sheet(width, middle)], work)
            effort.work -= _WORK_A_TRY - work.left
        if found is not None:
            layout, length = found, _length(found)
        low = (low + length) / 2 if found is None else low
    return OnLength(width, length, least, layout)


def _area(pieces: Sequence[Rectangle]) -> Fraction:
    return sum((Fraction(each.width) * each.height for each in pieces if each.is_full), Fraction(0))


def _least(piece: Rectangle, width: Length) -> Fraction:
    ways = [Fraction(height) for across, height in piece.sides if across <= width]
    if not ways:
        raise CuttingError("A piece is wider than the cloth. Take wider cloth.")
    return min(ways)


def _stacked(pieces: Sequence[Rectangle], width: Length) -> Layout:
    room = sum((_least(piece, width) for piece in pieces), Fraction(0))
    layout = lay(pieces, [Sheet(width, room)], Work(10 * _WORK_A_TRY))
    assert layout is not None  # one below the other they lie
    return layout


def _length(layout: Layout) -> Fraction:
    return max(Fraction(each.y + each.height) for each in layout)
