"""Pieces on cloth sold by length that lies folded along its length, its selvedges together.

Of two equal pieces both are cut at once: pairs are one layout on half the width, exactly. What has no
partner is cut double too, and one is left over, or from the cloth opened out beyond the fold.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

from .effort import Effort
from .on_length import Laid, Way, unfolded
from .sheets import Length, Placement, Rectangle

# With more odd ones than this, not every choice between the two ways to cut each is tried.
_MOST_TRIED = 2


def laid(
    pieces: Sequence[Rectangle], width: Length, way: Way, effort: Effort, step: Length | None = None
) -> Laid:
    """Return the pieces on cloth of that width, usable and washed, folded if the way asks for it.

    step: of the shop, washed. The bound is one for all layouts that cut every pair double.
    Raises CuttingError: a piece that fits no way, and what `shortest` refuses.
    """
    lying = way.lying(pieces)
    if not way.folded:
        return unfolded(lying, width, way, effort, step)
    pairs, odd, wide = _paired(lying, Fraction(width) / 2)
    found = [
        _folded(
            lying,
            _Plan(tuple(pairs), spare, tuple(sorted({*odd, *wide} - {*spare}))),
            width,
            way,
            effort,
            step,
        )
        for spare in _choices(odd)
    ]
    best = min(found, key=lambda each: each.length)
    if len(odd) <= _MOST_TRIED:
        return replace(best, bound=min(each.bound for each in found))
    # Whatever is done with the odd ones, the pairs lie below and the wide ones above them.
    least = _folded(lying, _Plan(tuple(pairs), (), tuple(wide)), width, way, effort, step).bound
    return replace(best, bound=least)


def _choices(odd: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Yield which of the odd ones are cut double."""
    if len(odd) > _MOST_TRIED:
        yield from ((), tuple(odd))
        return
    for chosen in product((False, True), repeat=len(odd)):
        yield tuple(number for number, is_double in zip(odd, chosen, strict=True) if is_double)


@dataclass(frozen=True, slots=True)
class _Plan:
    """pairs, and spare ones, are cut double; the rest opened out."""

    pairs: tuple[tuple[int, int], ...]
    spare: tuple[int, ...]
    opened: tuple[int, ...]


def _folded(
    pieces: Sequence[Rectangle], plan: _Plan, width: Length, way: Way, effort: Effort, step: Length | None
) -> Laid:
    double = [*(one for one, _ in plan.pairs), *plan.spare]
    # Only one part can be brought to the shop's step by itself; the whole is, where the other is empty.
    below = _part(pieces, double, Fraction(width) / 2, way, effort, None if plan.opened else step)
    above = _part(pieces, plan.opened, width, way, effort, None if double else step)
    start, repeat = below.length, way.washed_repeat
    if repeat is not None and plan.opened:
        start = -(-start // repeat) * repeat
    partners = dict(plan.pairs)
    found: dict[int, Placement] = {}
    for place in below.layout:
        one = double[place.piece]
        found[one] = replace(place, piece=one)
        if one in partners:
            other = partners[one]
            found[other] = replace(place, piece=other, x=Fraction(width) - place.x - place.width)
    for place in above.layout:
        one = plan.opened[place.piece]
        found[one] = replace(place, piece=one, y=place.y + start)
    layout = tuple(found[number] for number in sorted(found))
    length = start + above.length if plan.opened else below.length
    return Laid(length, below.bound + above.bound, layout, (), below.length, plan.opened, plan.spare)


def _part(
    pieces: Sequence[Rectangle],
    own: Sequence[int],
    width: Length,
    way: Way,
    effort: Effort,
    step: Length | None,
) -> Laid:
    if not own:
        return Laid(Fraction(0), Fraction(0), ())
    return unfolded([pieces[number] for number in own], width, way, effort, step)


def _paired(
    pieces: Sequence[Rectangle], half: Fraction
) -> tuple[list[tuple[int, int]], list[int], list[int]]:
    """Return the pairs of equal pieces that lie on half the width, the odd ones, those too wide."""
    waiting: dict[Rectangle, int] = {}
    pairs, wide = [], []
    for number, piece in enumerate(pieces):
        if all(width > half for width, _ in piece.sides):
            wide.append(number)
        elif piece in waiting:
            pairs.append((waiting.pop(piece), number))
        else:
            waiting[piece] = number
    return pairs, sorted(waiting.values()), wide
