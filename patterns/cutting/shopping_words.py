"""The shopping list in words: how much, and why so much."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from patterns.drafting.lengths import as_chosen, typeset
from patterns.drafting.lists import listed
from patterns.drafting.numerals import decimal_text, mixed
from patterns.drafting.units import Units

from .enough import rounded_up
from .forms import METRE, YARD
from .notions import SPOOL, THREAD_RATIOS, THREAD_SPARE, Thread
from .on_cloth import ClothPiece, OnCloth, sides_in_words
from .sheets import Length
from .shrinkage import Shrinkage


def shop_length(length: Length, units: Units) -> str:
    """Return a length as it is asked for in the shop; one that is no whole step is rounded up.

    >>> shop_length(YARD * Fraction(3, 8), Units.INCHES), shop_length(1200, Units.CENTIMETRES)
    ('3⁄8 yd', '1.2 m')
    """
    exact = Fraction(length)
    if units is Units.INCHES and (exact / YARD * 8).denominator == 1:
        return f"{typeset(mixed(exact / YARD))} yd"
    exact = rounded_up(exact, units.cutting_step)
    metres = decimal_text(exact / METRE)
    if units is Units.CENTIMETRES and exact >= METRE and metres is not None:
        return f"{metres} m"
    return as_chosen(exact, 1, units)


def cloth_amount(cloth: OnCloth, units: Units) -> str:
    """`3⁄8 yd, 44 in wide`; `2 × fat quarter`."""
    if cloth.form.is_by_length:
        return f"{shop_length(cloth.buy, units)}, {cloth.form.name}"
    return f"{cloth.buy} × {cloth.form.name}"


def cloth_reason(cloth: OnCloth, units: Units) -> str:
    """Say how the pieces lie, what is added for the wash, and whether less could be enough."""
    sentences = [
        _lying(cloth, units),
        _opened(cloth),
        _cut(cloth),
        _washed(cloth.way.shrinkage),
        _proof(cloth, units),
    ]
    return " ".join(sentence for sentence in sentences if sentence)


def _lying(cloth: OnCloth, units: Units) -> str:
    counts = Counter((piece.name, _size(piece, units)) for piece in cloth.pieces)
    pieces = listed([_copies(*key, count) for key, count in counts.items()], "and")
    verb = "lies" if len(cloth.layout) == 1 else "lie"
    width = _down(cloth.width, units)
    if cloth.length is None:
        number = "one" if cloth.buy == 1 else str(cloth.buy)
        return f"{pieces} {verb} on {number}."
    how = ""
    if cloth.way.folded and cloth.folded:
        how = ", cut double, the cloth folded along its length"
    if len(cloth.layout) > 1 and all(place.y == 0 for place in cloth.layout):
        return f"{pieces} lie side by side on {width}{how}."
    return f"{pieces} {verb} within {_up(cloth.length, units)} of its length, on {width} of its width{how}."


def _size(piece: ClothPiece, units: Units) -> str:
    return piece.size or sides_in_words(piece.rectangle.width, piece.rectangle.height, units)


def _copies(name: str, size: str, count: int) -> str:
    return f"1 {name} of {size}" if count == 1 else f"{count} × {name} of {size}"


def _up(length: Fraction, units: Units) -> str:
    return as_chosen(rounded_up(length, units.cutting_step), 1, units)


def _down(length: Fraction, units: Units) -> str:
    """What can be used of a width: what is shorter than a cutting step is not."""
    return as_chosen(length // units.cutting_step * units.cutting_step, 1, units)


def _opened(cloth: OnCloth) -> str:
    """What has no partner on folded cloth."""
    sentences = []
    if cloth.spare:
        names, verb = _named(cloth, cloth.spare)
        sentences.append(f"{names} {verb} cut double as well, so that one more of each is left over.")
    if cloth.opened:
        names, verb = _named(cloth, cloth.opened)
        sentences.append(f"{names} {verb} cut beyond the fold, from the cloth opened out.")
    return " ".join(sentences)


def _cut(cloth: OnCloth) -> str:
    """How it is cut with a rotary cutter."""
    if not cloth.way.edge_to_edge:
        return ""
    order = ", in the order of the numbers" if cloth.cuts else ""
    return f"Every cut goes from edge to edge{order}."


def _named(cloth: OnCloth, numbers: Sequence[int]) -> tuple[str, str]:
    counts = Counter(cloth.pieces[number].name for number in numbers)
    names = listed([f"{count} × {name}" for name, count in counts.items()], "and")
    return names, "is" if len(numbers) == 1 else "are"


def _washed(shrinkage: Shrinkage) -> str:
    if shrinkage.is_none:
        return ""
    parts = [
        f"{per_cent(value)} {way}"
        for value, way in ((shrinkage.along, "along the cloth"), (shrinkage.across, "across it"))
        if value
    ]
    return f"Counted in: in the first wash it shrinks {listed(parts, 'and')}."


def per_cent(value: Fraction | int) -> str:
    exact = Fraction(value)
    return f"{typeset(decimal_text(exact) or mixed(exact))} %"


def _proof(cloth: OnCloth, units: Units) -> str:
    under = ""
    if cloth.way.repeat is not None:
        under = " while all pieces begin at the same place in the repeat"
    elif cloth.way.one_way:
        under = " with all tops the same way"
    elif not all(piece.rectangle.turns for piece in cloth.pieces):
        under = " while the print stands upright"
    if cloth.form.is_by_length and cloth.way.folded:
        under += " and every pair cut double" if under else " with every pair cut double"
    if cloth.proved:
        return f"Less is not enough{under}."
    step = units.cutting_step
    least = shop_length(cloth.least // step * step, units) if cloth.form.is_by_length else str(cloth.least)
    return f"The best found{under}; at least {least} is needed."


def thread_amount(thread: Thread, units: Units, spool: Length = SPOOL) -> str:
    """`1 spool of 100 m`; with inches, `1 spool of 109 yd`."""
    number = f"{thread.spools} spool" if thread.spools == 1 else f"{thread.spools} spools"
    unit, name = (YARD, "yd") if units is Units.INCHES else (METRE, "m")
    return f"{number} of {Fraction(spool) // unit} {name}"


def thread_reason(thread: Thread, stitch: str, units: Units) -> str:
    ratio = decimal_text(THREAD_RATIOS[stitch])
    return (
        f"{_whole(thread.length, units)} of thread: {_nearly(thread.seams, units)} of stitching × {ratio} "
        f"(stitch type {stitch}, from industry consumption tables), "
        f"and {per_cent(THREAD_SPARE * 100)} for ends."
    )


def _nearly(length: Fraction, units: Units) -> str:
    """Quarter yards or tenths of a metre, up, so fine that the sum comes out: `≈ 4 3⁄4 yd`."""
    if units is Units.INCHES:
        return f"≈ {typeset(mixed(rounded_up(length, YARD / 4) / YARD))} yd"
    return f"≈ {decimal_text(rounded_up(length, METRE / 10) / METRE)} m"


def _whole(length: Fraction, units: Units) -> str:
    """Whole yards or metres, up: `≈ 14 yd`."""
    unit, name = (YARD, "yd") if units is Units.INCHES else (METRE, "m")
    return f"≈ {-(-length // unit)} {name}"
