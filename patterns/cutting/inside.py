"""Rectangles that lie wholly inside an outline, none on another: what is certainly cut, for bounds.

Whatever cloth an outline is cut from, these rectangles of it are cut from as well, each where the outline
lies. So a length or a number of sheets that is not enough for them, laid as freely as one likes, is not
enough for the outline.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import isqrt
from typing import NamedTuple

from patterns.drafting.formulas.values import Measured
from patterns.drafting.outlines import Corner, Edge, Place, box, centre, edges

from .sheets import Part, Parts, Rectangle

# A rounded length, and a place on a circle, is reckoned to so small a part of a mm, then taken on the safe
# side by so many mm: far more than a place may be out that lies an eighth of a radius below a circle's top.
_PARTS = 10**9
_MARGIN = Fraction(1, 10**6)
# Between two corners a curve or a slant is taken in so many rows; more of them hold more of the area, fewer
# hold larger rectangles.
_ROWS = (1, 2, 3, 8)


@lru_cache(maxsize=64)
def inside(outline: tuple[Corner, ...], step: Fraction) -> tuple[Parts, ...]:
    """Return choices of rectangles inside an outline, from its own left and top.

    outline: mm. step: mm; the rectangles begin and end at whole steps, so that they and the other pieces have
    a common measure. A choice holds none that are nothing; a choice that holds none at all is left out.

    >>> corner = [(0, 0), (6, 0), (6, 2), (2, 2), (2, 4), (0, 4)]
    >>> choices = inside(tuple(Corner(Fraction(x), Fraction(y)) for x, y in corner), Fraction(1))
    >>> [[tuple(map(int, part)) for part in parts] for parts in choices]
    [[(0, 0, 6, 2), (0, 2, 2, 2)], [(0, 0, 2, 4), (2, 0, 4, 2)]]
    """
    left, top = (_length(least) for least in box(outline)[:2])
    sides = [_Side.of(edge, left, top) for edge in edges(outline)]
    is_exact = all(isinstance(each, Fraction) for corner in outline for each in corner.place)
    margin = Fraction(0) if is_exact and all(side.is_straight for side in sides) else _MARGIN
    found: list[Parts] = []
    for rows in _ROWS if any(side.is_sloping for side in sides) else (1,):
        across = _in_steps(_rows(sides, rows, margin), step)
        along = _in_steps(_rows([side.transposed() for side in sides], rows, margin), step)
        found += [tuple(across), tuple(Part(y, x, height, width) for x, y, width, height in along)]
    return tuple(dict.fromkeys(parts for parts in found if parts))


def shadows(pieces: Sequence[Rectangle]) -> Iterator[tuple[Rectangle, ...]]:
    """Yield questions in rectangles alone that any layout of the pieces answers as well."""
    choices = max((len(piece.parts) for piece in pieces), default=0)
    for number in range(choices):
        shadow: list[Rectangle] = []
        for piece in pieces:
            if piece.is_full:
                shadow.append(replace(piece, parts=()))
            elif piece.parts:
                parts = piece.parts[number % len(piece.parts)]
                shadow += [Rectangle(part.width, part.height, piece.turns) for part in parts]
        yield tuple(shadow)


class _Side(NamedTuple):
    """An edge: where it starts and ends, mm, and the centre and the radius of a quarter circle."""

    start: tuple[Fraction, Fraction]
    end: tuple[Fraction, Fraction]
    centre: tuple[Fraction, Fraction] | None = None

    @classmethod
    def of(cls, edge: Edge, left: Fraction, top: Fraction) -> "_Side":
        """Return an edge, measured from the left and the top."""

        def placed(place: Place) -> tuple[Fraction, Fraction]:
            return _length(place.across) - left, _length(place.down) - top

        middle = None if edge.arc is None else placed(centre(edge))
        return cls(placed(edge.start), placed(edge.end), middle)

    def transposed(self) -> "_Side":
        middle = self.centre
        return _Side(
            (self.start[1], self.start[0]),
            (self.end[1], self.end[0]),
            None if middle is None else (middle[1], middle[0]),
        )

    @property
    def is_straight(self) -> bool:
        return self.centre is None

    @property
    def is_sloping(self) -> bool:
        return self.centre is not None or (self.start[0] != self.end[0] and self.start[1] != self.end[1])

    def spans(self, top: Fraction, bottom: Fraction) -> bool:
        low, high = sorted((self.start[1], self.end[1]))
        return low <= top and bottom <= high

    def at(self, down: Fraction, margin: Fraction) -> tuple[Fraction, Fraction]:
        """Return two places across between which the edge passes at a height."""
        (x, y), (end_x, end_y) = self.start, self.end
        if self.centre is None:
            place = x + (down - y) * (end_x - x) / (end_y - y)
            return place - margin, place + margin
        middle_x, middle_y = self.centre
        radius = abs(end_y - y)
        square = max(Fraction(0), radius**2 - (down - middle_y) ** 2)
        far = Fraction(isqrt(int(square * _PARTS**2)), _PARTS)
        # The end that does not lie above or below the centre says on which side of it the quarter lies.
        beside = end_x if abs(x - middle_x) < abs(end_x - middle_x) else x
        place = middle_x + (far if beside > middle_x else -far)
        return place - 2 * margin, place + 2 * margin


def _length(value: Measured) -> Fraction:
    return value if isinstance(value, Fraction) else Fraction(int(value * _PARTS), _PARTS)


def _rows(sides: Sequence[_Side], rows: int, margin: Fraction) -> Iterator[Part]:
    """Yield rectangles inside, row by row; where one would go on in the next row, it does."""
    levels = sorted({side.start[1] for side in sides})
    begun: dict[tuple[Fraction, Fraction], Fraction] = {}
    ended = levels[0]
    for above, below in pairwise(levels):
        spanning = [side for side in sides if side.spans(above, below)]
        parts = rows if any(side.is_sloping for side in spanning) else 1
        for part in range(parts):
            top, bottom = (above + (below - above) * Fraction(place, parts) for place in (part, part + 1))
            if bottom - top <= 2 * margin:
                continue
            free = set(_between(spanning, top + margin, bottom - margin, margin))
            for ends in [ends for ends in begun if ends not in free]:
                yield _part(ends, begun.pop(ends), ended - margin)
            for ends in sorted(free):
                begun.setdefault(ends, top + margin)
            ended = bottom
    for ends, began in begun.items():
        yield _part(ends, began, ended - margin)


def _part(ends: tuple[Fraction, Fraction], top: Fraction, bottom: Fraction) -> Part:
    return Part(ends[0], top, ends[1] - ends[0], bottom - top)


def _between(
    sides: Sequence[_Side], top: Fraction, bottom: Fraction, margin: Fraction
) -> Iterator[tuple[Fraction, Fraction]]:
    """Yield from where to where across is inside at every height of a row that no corner lies in."""
    met = []
    for side in sides:
        places = [*side.at(top, margin), *side.at(bottom, margin)]
        met.append((min(places), max(places)))
    met.sort(key=sum)
    for (_, left), (right, _) in zip(met[::2], met[1::2], strict=True):
        if left < right:
            yield left, right


def _in_steps(parts: Iterator[Part], step: Fraction) -> Iterator[Part]:
    for x, y, width, height in parts:
        left, top = -(-x // step) * step, -(-y // step) * step
        right, bottom = (x + width) // step * step, (y + height) // step * step
        if left < right and top < bottom:
            yield Part(left, top, right - left, bottom - top)
