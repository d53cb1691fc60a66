"""A strap that stands in an arc over its two ends, to its true length: half of an ellipse."""

from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import isqrt

from .errors import DrawingError
from .geometry import Point, quarter_circle

# Half of the arc, from an end to its top, in so many straight lines: on a page nobody sees a corner.
QUARTER = 16
# Inside, whole micrometres of cloth: no drawing shows less.
FINE = 1000
# Of the whole length, how much longer than the way between its ends a strap must be to stand.
LEAST_ARC = Fraction(51, 50)

_CIRCLE = quarter_circle(QUARTER)


@lru_cache(maxsize=64)
def arc(apart: Fraction, rise: Fraction) -> tuple[Point, ...]:
    """Return the upper half of an ellipse, from its left end over its top to its right end; mm, exact.

    apart: between the ends, whose middle is (0, 0). rise: from there to the top.
    """
    left = [Point(-apart / 2 * x, rise * y) for x, y in _CIRCLE]
    return (*left, *(Point(-point.x, point.y) for point in reversed(left[:-1])))


@lru_cache(maxsize=64)
def rise_of(apart: Fraction, length: Fraction) -> Fraction:
    """Return how high a strap stands in an arc over ends so far apart; mm, to a micrometre.

    Raises DrawingError: it hardly reaches from one end to the other.
    """
    if length < apart * LEAST_ARC:
        raise DrawingError("A handle that hardly reaches from end to end does not stand.")
    # Half the strap rises no higher than its own length.
    wanted, low, high = int(length * FINE), 0, int(length * FINE) // 2 + 1
    while high - low > 1:
        middle = (low + high) // 2
        if _length(int(apart * FINE), middle) < wanted:
            low = middle
        else:
            high = middle
    return Fraction(high, FINE)


def _length(apart: int, rise: int) -> int:
    """Return the length of the straight lines that an arc is drawn with; all whole micrometres."""
    spots = [
        (apart * x.numerator // (2 * x.denominator), rise * y.numerator // y.denominator) for x, y in _CIRCLE
    ]
    return 2 * sum(isqrt((x - to_x) ** 2 + (y - to_y) ** 2) for (x, y), (to_x, to_y) in pairwise(spots))
