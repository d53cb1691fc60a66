"""Whether a size can be cut from fat quarters, one for each fabric, by a simple rule that is never wrong.

It says yes with pieces laid in shelves, no with a proof, and otherwise that it does not know. A layout search
answers more; this one is asked of thousands of sizes for one picture.
"""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import combinations

from patterns.drafting.formulas.values import Measured
from patterns.drafting.judging import Cut
from patterns.drafting.units import Units

# What can be used of one, mm: across the cloth, and along it, which is the way a print stands.
# Source: common practice. Half a yard (half a metre) cut off the roll and halved, less its selvedge.
SIDES = {
    Units.INCHES: (21 * Units.INCHES.mm, 18 * Units.INCHES.mm),
    Units.CENTIMETRES: (55 * Units.CENTIMETRES.mm, 50 * Units.CENTIMETRES.mm),
}
# Two irrational sides nearer than this are one.
_NEAR = Decimal("1e-12")
# The ways a piece may lie: its sides across and along the sheet.
_Ways = tuple[tuple[Fraction, Fraction], ...]


def fits_fat_quarters(cuts: Iterable[Cut], units: Units) -> bool | None:
    """Return whether the pieces of each fabric can be cut from one fat quarter; None where it is not known.

    >>> panel = Cut("cloth", 1, Fraction(300), Fraction(520), turns=True)
    >>> fits_fat_quarters([panel], Units.CENTIMETRES)
    True
    """
    by_fabric: dict[str, list[Cut]] = {}
    for cut in cuts:
        by_fabric.setdefault(cut.material, []).extend([cut] * cut.count)
    answers = [_fits(pieces, *SIDES[units]) for pieces in by_fabric.values()]
    if False in answers:
        return False
    return None if None in answers else True


def _ways(cut: Cut) -> _Ways:
    width, height = _exact(cut.width), _exact(cut.height)
    return ((width, height), (height, width)) if cut.turns else ((width, height),)


def _exact(value: Measured) -> Fraction:
    return Fraction(value.quantize(_NEAR)) if isinstance(value, Decimal) else value


def _fits(cuts: Sequence[Cut], across: Fraction, along: Fraction) -> bool | None:
    pieces = [_ways(cut) for cut in cuts]
    full = [ways for ways, cut in zip(pieces, cuts, strict=True) if cut.is_full]
    if not all(_lying(ways, across, along) for ways in pieces) or _is_too_much(full, across, along):
        return False
    return True if any(_in_shelves(*laid) for laid in _arranged(pieces, across, along)) else None


def _lying(ways: _Ways, across: Fraction, along: Fraction) -> _Ways:
    """The ways in which a piece lies on the sheet."""
    return tuple(way for way in ways if way[0] <= across and way[1] <= along)


def _is_too_much(pieces: Sequence[_Ways], across: Fraction, along: Fraction) -> bool:
    """Whether rectangles that each lie on the sheet certainly cannot all: two of them, or the area of all.

    Two rectangles that do not overlap are parted by a straight line across the sheet or along it.
    """
    lying = [_lying(ways, across, along) for ways in pieces]
    if sum(ways[0][0] * ways[0][1] for ways in pieces) > across * along:
        return True
    return any(
        all(a[0] + b[0] > across and a[1] + b[1] > along for a in one for b in other)
        for one, other in combinations(lying, 2)
    )


def _arranged(
    pieces: Sequence[_Ways], across: Fraction, along: Fraction
) -> Iterator[tuple[list[tuple[Fraction, Fraction]], Fraction, Fraction]]:
    """Yield the pieces with each as wide or as high as it can lie, for shelves across and shelves along."""
    for wanted in (max, min):
        laid = [wanted(_lying(ways, across, along)) for ways in pieces]
        yield laid, across, along
        yield [(height, width) for width, height in laid], along, across


def _in_shelves(pieces: Iterable[tuple[Fraction, Fraction]], length: Fraction, room: Fraction) -> bool:
    """Whether the pieces lie in shelves of that length, one above the other within the room.

    Highest first, each on the first shelf that has room for it.
    """
    left: list[Fraction] = []
    for width, height in sorted(pieces, key=lambda piece: piece[::-1], reverse=True):
        shelf = next((place for place, free in enumerate(left) if free >= width), None)
        if shelf is None:
            if height > room:
                return False
            room -= height
            left.append(length - width)
        else:
            left[shelf] -= width
    return True
