"""Points and boxes: exact on the cloth, whole micrometres on the page."""

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple


class Point(NamedTuple):
    """A place on the cloth or in a projected item: mm, x to the right, y up."""

    x: Fraction
    y: Fraction


class Spot(NamedTuple):
    """A place on the page: micrometres, x to the right, y down."""

    x: int
    y: int


def quarter_circle(lines: int) -> tuple[Point, ...]:
    """Return the ends of so many straight lines on the circle of 1, from (1, 0) to (0, 1); exact.

    Source: Pythagorean triples, (n² − k², 2kn, n² + k²).

    >>> quarter_circle(2)[1]
    Point(x=Fraction(3, 5), y=Fraction(4, 5))
    """
    return tuple(
        Point(
            Fraction(lines**2 - step**2, lines**2 + step**2), Fraction(2 * lines * step, lines**2 + step**2)
        )
        for step in range(lines + 1)
    )


class Box(NamedTuple):
    """An upright rectangle on the page: micrometres, y down."""

    left: int
    top: int
    right: int
    bottom: int

    @property
    def width(self) -> int:
        return self.right - self.left

    @property
    def height(self) -> int:
        return self.bottom - self.top

    @property
    def middle(self) -> Spot:
        return Spot((self.left + self.right) // 2, (self.top + self.bottom) // 2)

    def grown(self, by: int) -> "Box":
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def moved(self, across: int, down: int) -> "Box":
        return Box(self.left + across, self.top + down, self.right + across, self.bottom + down)

    def overlaps(self, other: "Box") -> bool:
        """Whether they share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def meets(self, start: Spot, end: Spot) -> bool:
        """Whether a straight line runs through it.

        Source: clipping a line by its parameter (Liang and Barsky, 1984).
        """
        if not (
            min(start.x, end.x) < self.right
            and max(start.x, end.x) > self.left
            and min(start.y, end.y) < self.bottom
            and max(start.y, end.y) > self.top
        ):
            return False
        first, last = Fraction(0), Fraction(1)
        for at, by, low, high in (
            (start.x, end.x - start.x, self.left, self.right),
            (start.y, end.y - start.y, self.top, self.bottom),
        ):
            if by == 0:
                if not low < at < high:
                    return False
                continue
            enter, leave = sorted((Fraction(low - at, by), Fraction(high - at, by)))
            first, last = max(first, enter), min(last, leave)
        return first < last

    def holds(self, other: "Box") -> bool:
        return (
            self.left <= other.left
            and self.top <= other.top
            and self.right >= other.right
            and self.bottom >= other.bottom
        )


def around(boxes: Iterable[Box]) -> Box:
    """Return the smallest box that holds them all. Raises ValueError for none."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return Box(min(lefts), min(tops), max(rights), max(bottoms))


def between(start: Point, end: Point, share: Fraction) -> Point:
    """Return the point at that share of the way from start (0) to end (1)."""
    return Point(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)
