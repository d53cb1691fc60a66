"""What of an outline is certainly cut: its area, for proofs that pieces are larger than the cloth.

Other pieces may lie in what an outline leaves free of its box, so the area of the box proves nothing.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import floor

from patterns.drafting.formulas.values import CLOSE
from patterns.drafting.outlines import Corner, area


def certain_area(outline: Sequence[Corner], parts: int) -> int:
    """Return the area inside an outline in squares of `parts` to a mm, rounded down.

    outline: mm. A rounded area is taken as 10⁻²⁰ mm² less, which is far more than it may be out.

    >>> triangle = [Corner(Fraction(x), Fraction(y)) for x, y in ((0, 0), (3, 0), (3, 1))]
    >>> certain_area(triangle, 1), certain_area(triangle, 2)
    (1, 6)
    """
    value = area(outline)
    exact = value if isinstance(value, Fraction) else Fraction(value) - Fraction(CLOSE)
    return max(0, floor(exact * parts**2))


def whole_area(places: Sequence[tuple[int, int]]) -> int:
    """Return the same of straight edges between places in whole parts: it is asked of some thousand sizes.

    >>> whole_area([(0, 0), (6, 0), (6, 2)])
    6
    """
    before = [*places[-1:], *places[:-1]]
    return abs(sum(a * d - c * b for (a, b), (c, d) in zip(before, places, strict=True))) // 2
