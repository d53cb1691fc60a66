"""Long cloth as several drawings: it is parted where no piece lies across, so that each can be read."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from patterns.drafting.lengths import as_chosen
from patterns.drafting.units import Units

from .laid_cloth import LaidCloth


def in_stretches(cloth: LaidCloth, most: Fraction, units: Units) -> tuple[LaidCloth, ...]:
    """Return the cloth in as few stretches as that length asks for, all about equally long.

    most: mm along the cloth, above 0. Where pieces lie across every line near it, a stretch is longer; cloth
    whose cuts are numbered stays whole, since their order runs through all of it.
    """
    ends = _ends(cloth, most)
    if cloth.cuts or len(ends) < 2:
        return (cloth,)
    starts = (Fraction(0), *ends[:-1])
    return tuple(
        _stretch(cloth, start, end, f"{cloth.name}, part {number} of {len(ends)}", units)
        for number, (start, end) in enumerate(zip(starts, ends, strict=True), 1)
    )


def _stretch(cloth: LaidCloth, start: Fraction, end: Fraction, name: str, units: Units) -> LaidCloth:
    if start:
        name += f", from {as_chosen(start, 1, units)} on"
    pieces = [replace(each, y=each.y - start) for each in cloth.pieces if start <= each.y < end]
    folded = None if cloth.folded is None or cloth.folded <= start else min(cloth.folded, end) - start
    return replace(cloth, name=name, length=end - start, pieces=pieces, folded=folded)


def _ends(cloth: LaidCloth, most: Fraction) -> Sequence[Fraction]:
    """How far from the cut end each stretch reaches."""
    number = int(-(-cloth.length // most))
    wanted = cloth.length / number
    ends: list[Fraction] = []
    clean = list(_clean(cloth))
    while clean and len(ends) < number - 1:
        start = ends[-1] if ends else Fraction(0)
        near = min(clean, key=lambda at: (abs(at - start - wanted), at))
        ends.append(near)
        clean = [at for at in clean if at > near]
    return (*(at for at in ends if at < _last(cloth)), cloth.length)


def _last(cloth: LaidCloth) -> Fraction:
    return max((each.y + each.sides[1] for each in cloth.pieces), default=Fraction(0))


def _clean(cloth: LaidCloth) -> Iterator[Fraction]:
    """Where a cut right across meets no piece: under some piece, and over all that begin later."""
    spans = [(each.y, each.y + each.sides[1]) for each in cloth.pieces]
    for at in sorted({bottom for _, bottom in spans}):
        if not any(top < at < bottom for top, bottom in spans):
            yield at
