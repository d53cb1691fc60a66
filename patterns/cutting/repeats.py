"""Prints whose repeat must meet across a seam: all pieces begin at the same place in the repeat.

Heights are rounded up to whole repeats. Pieces that then lie on one another, or on the cut end, begin at
whole repeats; whatever hangs in the air is let down first. Where in the repeat that is, is free to choose.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from .errors import CuttingError
from .sheets import Layout, Length, Placement, Rectangle


def in_whole_repeats(pieces: Sequence[Rectangle], repeat: Length) -> tuple[Rectangle, ...]:
    """Return the pieces, upright, their heights rounded up to whole repeats.

    repeat: mm along the cloth, as large as it is when the pieces are cut.
    Raises CuttingError: a repeat of nothing or less.
    """
    if repeat <= 0:
        raise CuttingError("The repeat of the print is nothing. Write a measure above 0, or none.")
    return tuple(
        Rectangle(each.width, _up(each.height, repeat), turns=False, is_full=each.is_full) for each in pieces
    )


def let_down(layout: Layout) -> Layout:
    """Return the layout with each piece moved towards the cut end as far as it goes; lowest first."""
    found: dict[int, Placement] = {}
    for each in sorted(layout, key=lambda place: (place.sheet, place.y, place.x)):
        below = [
            place.y + place.height
            for place in found.values()
            if place.sheet == each.sheet and place.x < each.x + each.width and each.x < place.x + place.width
        ]
        found[each.piece] = replace(each, y=max(below, default=Fraction(0)))
    return tuple(found[each.piece] for each in layout)


def as_cut(layout: Layout, pieces: Sequence[Rectangle]) -> Layout:
    """Return the layout with the pieces as high as they are cut."""
    return tuple(replace(each, height=pieces[each.piece].height) for each in layout)


def most_added(pieces: Sequence[Rectangle], repeat: Length) -> Fraction:
    """Return the most that a height gains when it is rounded up."""
    return max(_up(each.height, repeat) - Fraction(each.height) for each in pieces)


def _up(height: Length, repeat: Length) -> Fraction:
    return -(-Fraction(height) // Fraction(repeat)) * Fraction(repeat)
