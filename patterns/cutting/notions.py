"""What is bought beside cloth: zips in standard lengths, ribbons by length, thread by the seams."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from patterns.drafting.formulas.values import Measured
from patterns.drafting.sized import SizedMark, SizedPattern, SizedPiece
from patterns.drafting.units import MILLIMETRES, Units

from .enough import rounded_up
from .sheets import Length

# Closed zips as shops have them; the shop's own lengths can be given. Source: trade, from memory.
ZIP_LENGTHS: Mapping[Units, tuple[Fraction, ...]] = {
    Units.INCHES: tuple(
        length * Units.INCHES.mm for length in (4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22, 24, 30, 36)
    ),
    Units.CENTIMETRES: tuple(
        length * Units.CENTIMETRES.mm
        for length in (10, 12, 15, 18, 20, 22, 25, 30, 35, 40, 45, 50, 55, 60, 70, 80)
    ),
}


def next_zip(length: Length, lengths: Iterable[Length]) -> Length | None:
    """Return the shortest of the lengths that is long enough; None where a zip is cut from the roll."""
    return min((each for each in lengths if each >= length), default=None)


# Stitch type of ISO 4915 → thread ÷ seam. Source: industry consumption tables; 304 from memory.
THREAD_RATIOS: Mapping[str, Fraction] = {"301": Fraction(5, 2), "304": Fraction(7)}
# For ends, bobbins and seams sewn twice. Source: common practice.
THREAD_SPARE = Fraction(15, 100)
# A usual spool of sewing thread. Source: trade, from memory.
SPOOL = 100 * MILLIMETRES["m"]


def thread_for(seams: Length, stitch: str = "301") -> Fraction:
    """Return the thread that seams take, spare and all: mm, exact.

    >>> thread_for(1000)
    Fraction(2875, 1)
    """
    return Fraction(seams) * THREAD_RATIOS[stitch] * (1 + THREAD_SPARE)


def stitched_length(sized: SizedPattern) -> Fraction:
    """Return the length of all stitching lines marked on the pieces that are sewn, mm, in cutting steps.

    A seam is marked on both pieces that it joins, so each is counted twice: once for itself, and once for
    the topstitching or basting beside it. A piece without a marked line counts with its edges.
    """
    return sum(
        (piece.cut * _lines(piece, sized) for piece in sized.pieces if _is_sewn(piece, sized)), Fraction(0)
    )


def _is_sewn(piece: SizedPiece, sized: SizedPattern) -> bool:
    material = sized.materials_by_name.get(piece.material)
    return material is not None and material.kind in ("fabric", "vinyl")


def _lines(piece: SizedPiece, sized: SizedPattern) -> Fraction:
    step = sized.units.cutting_step
    width, height = (rounded_up(side.value or Fraction(0), step) for side in (piece.width, piece.height))
    lines = [_line(mark, width, height, step) for mark in piece.marks if mark.kind == "stitch"]
    return sum(lines, Fraction(0)) if lines else 2 * (width + height)


def _line(mark: SizedMark, width: Fraction, height: Fraction, step: Fraction) -> Fraction:
    """How long a line is at the most: all round, down the piece, or across it."""
    if mark.inside is not None:
        return 2 * (width + height)
    whole = height if mark.down_from_top is None else width
    start = Fraction(0) if mark.start is None else _exact(mark.start.value)
    end = whole if mark.end is None else _exact(mark.end.value)
    return min(whole, rounded_up(abs(end - start), step))


def _exact(value: Measured | None) -> Fraction:
    return Fraction(value) if isinstance(value, Decimal | Fraction) else Fraction(0)


@dataclass(frozen=True, slots=True)
class Thread:
    """seams: mm of stitching. length: mm of thread. spools: how many hold it."""

    seams: Fraction
    length: Fraction
    spools: int


def thread(seams: Fraction, stitch: str = "301", spool: Length = SPOOL) -> Thread:
    length = thread_for(seams, stitch)
    return Thread(seams, length, max(1, int(-(-length // Fraction(spool)))))
