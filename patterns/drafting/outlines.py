"""Closed outlines of straight edges and quarter circles: their edges, their area, their seam line.

An outline is walked from corner to corner. A corner is where an edge goes; an edge with a turn is a quarter
circle that bends to that side of whoever walks. The first edge begins where the last one ends. A quarter
circle begins level and ends upright, or the other way round: its two ends are opposite corners of a square,
and it lies within that square, so the corners alone give the box of an outline.

Places are mm from the left and from the top, and down grows downwards: a right turn runs as a clock's hands.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple

from .formulas.values import PI, Measured, compare, divided, minus, negative, plus, power, root, times

Turn = Literal["left", "right"]
Shape = Literal["rectangle", "circle", "outline"]

# A triangle has three; two corners enclose nothing by straight edges.
LEAST_CORNERS = 3
NOTHING = Fraction(0)


class Place(NamedTuple):
    """mm from the left and from the top. Also a way from one place to another."""

    across: Measured
    down: Measured


class Corner(NamedTuple):
    """Where an edge goes, and the side to which it bends on the way; None for a straight one."""

    across: Measured
    down: Measured
    arc: Turn | None = None

    @property
    def place(self) -> Place:
        return Place(self.across, self.down)


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of an outline, from start to end."""

    start: Place
    end: Place
    arc: Turn | None

    @property
    def way(self) -> Place:
        """How far it goes across and down."""
        return _less(self.end, self.start)


def edges(outline: Sequence[Corner]) -> tuple[Edge, ...]:
    """Return the edges of an outline, in the order of its corners: each goes to its corner.

    outline: n ≥ 3 corners, the first not repeated.
    """
    return tuple(
        Edge(outline[place - 1].place, corner.place, corner.arc) for place, corner in enumerate(outline)
    )


def box(outline: Sequence[Corner]) -> tuple[Measured, Measured, Measured, Measured]:
    """Return left, top, right and bottom of the smallest upright rectangle round an outline, mm.

    The corners are enough: a quarter circle lies in the square between its ends.

    >>> [str(side) for side in box([Corner(Fraction(x), Fraction(y)) for x, y in ((1, 0), (4, 2), (0, 3))])]
    ['0', '0', '4', '3']
    """
    across, down = ([*side] for side in zip(*(corner.place for corner in outline), strict=True))
    return _least(across), _least(down), _most(across), _most(down)


def edge_length(edge: Edge) -> Measured:
    """Return how long an edge is, mm: exact where it is level or upright, or its root has an end.

    Source: Pythagoras for a straight edge; a quarter of 2πr for a quarter circle (Archimedes, Measurement
    of a Circle).

    >>> edge_length(Edge(Place(Fraction(0), Fraction(0)), Place(Fraction(3), Fraction(4)), None))
    Fraction(5, 1)
    """
    across, down = edge.way
    if edge.arc is not None:
        return _times(size_of(across), _over(PI, Fraction(2)))
    if is_nothing(across) or is_nothing(down):
        return size_of(down if is_nothing(across) else across)
    return _known(root(plus(power(across, 2), power(down, 2))))


def area(outline: Sequence[Corner]) -> Measured:
    """Return the area inside an outline, mm², whichever way round it is walked; exact unless π stays in it.

    outline: n ≥ 3 corners, no edges crossing.
    Returns never less than nothing.
    Source: the shoelace formula (Meister, 1769) for the straight lines between the corners, and for each
    quarter circle the segment between it and its chord, πr²/4 − r²/2. Both are counted in half squares, so
    that π is met once, and cancels where as much bulges out as in.

    >>> area([Corner(Fraction(x), Fraction(y)) for x, y in ((0, 0), (4, 0), (4, 3))])
    Fraction(6, 1)
    """
    twice: Measured = NOTHING
    bulges: Measured = NOTHING
    for edge in edges(outline):
        twice = _plus(twice, _cross(edge.start, edge.end))
        if edge.arc is not None:
            square = _known(power(edge.way.across, 2))
            bulges = _plus(bulges, square if edge.arc == "right" else _known(negative(square)))
    if not is_nothing(bulges):
        twice = _plus(twice, _times(bulges, _plus(_over(PI, Fraction(2)), Fraction(-1))))
    return _over(size_of(twice), Fraction(2))


def seam_line(outline: Sequence[Corner], allowance: Measured) -> tuple[Corner, ...] | None:
    """Return the line that runs so far inside an outline, corner for corner, or None where there is none.

    outline: n ≥ 3 corners, no edges crossing. allowance: mm, ≥ 0.
    There is none where the allowance uses an edge up, or where a quarter circle meets its neighbour in a
    corner: what lies inside it is then less than a quarter.
    Source: the parallel curve (Leibniz, 1692): parallel lines meet at p + a (v − u) ÷ (u × v), where u and
    v are the directions, of length 1, of the two edges at p; a quarter circle keeps its centre.
    """
    walked = edges(outline)
    inward = _times(allowance, Fraction(1 if _is_clockwise(outline) else -1))
    moved = []
    for place, corner in enumerate(outline):
        arriving, leaving = walked[place], walked[(place + 1) % len(walked)]
        by = _moved_by(arriving, leaving)
        if by is None:
            return None
        moved.append(
            Corner(
                _plus(corner.across, _times(inward, by.across)),
                _plus(corner.down, _times(inward, by.down)),
                corner.arc,
            )
        )
    line = tuple(moved)
    runs_on = (_runs_alike(was, now) for was, now in zip(walked, edges(line), strict=True))
    return line if all(runs_on) else None


def shape_of(outline: Sequence[Corner]) -> Literal["circle", "outline"]:
    """Return whether an outline is a circle: four quarter circles, one way round, with one centre."""
    walked = edges(outline)
    if len(walked) != 4 or any(edge.arc is None or edge.arc != walked[0].arc for edge in walked):
        return "outline"
    first, *others = (centre(edge) for edge in walked)
    return (
        "circle"
        if all(map(is_nothing, (far for each in others for far in _less(each, first))))
        else "outline"
    )


def centre(edge: Edge) -> Place:
    """Return the centre of a quarter circle: the corner of its square that lies on the side of its turn."""
    across, down = edge.way
    is_level_first = (compare(times(across, down), NOTHING) == 1) == (edge.arc == "right")
    return (
        Place(edge.start.across, edge.end.down) if is_level_first else Place(edge.end.across, edge.start.down)
    )


def _is_clockwise(outline: Sequence[Corner]) -> bool:
    """Whether the inside lies to the right of whoever walks. The chords decide: no edges cross."""
    twice: Measured = NOTHING
    for edge in edges(outline):
        twice = _plus(twice, _cross(edge.start, edge.end))
    return compare(twice, NOTHING) == 1


def _moved_by(arriving: Edge, leaving: Edge) -> Place | None:
    """Return where a corner goes for each mm of an allowance on the right, None where nowhere."""
    first, second = _directions(arriving)[1], _directions(leaving)[0]
    turn = _cross(first, second)
    if is_nothing(turn):
        alike = _plus(_times(first.across, second.across), _times(first.down, second.down))
        is_onward = compare(alike, NOTHING) == 1
        return Place(_known(negative(first.down)), first.across) if is_onward else None
    if arriving.arc is not None or leaving.arc is not None:
        return None
    apart = _less(second, first)
    return Place(_over(apart.across, turn), _over(apart.down, turn))


def _directions(edge: Edge) -> tuple[Place, Place]:
    """Return the ways of length 1 in which an edge begins and ends."""
    if edge.arc is None:
        long = edge_length(edge)
        way = Place(_over(edge.way.across, long), _over(edge.way.down, long))
        return way, way
    level = Place(_sign(edge.way.across), NOTHING)
    upright = Place(NOTHING, _sign(edge.way.down))
    begins_level = compare(centre(edge).across, edge.start.across) == 0
    return (level, upright) if begins_level else (upright, level)


def _runs_alike(was: Edge, now: Edge) -> bool:
    """Whether an edge of a seam line still runs the way that the edge beside it does, and has a length."""
    return all(_sign(side) == _sign(other) for side, other in zip(was.way, now.way, strict=True))


def _sign(value: Measured) -> Fraction:
    return Fraction(compare(value, NOTHING) or 0)


def is_nothing(value: Measured) -> bool:
    """Whether a length counts as none: two that were rounded may differ by a trace."""
    return compare(value, NOTHING) == 0


def size_of(value: Measured) -> Measured:
    """Return how much a length is, whichever way it runs."""
    return _known(negative(value)) if compare(value, NOTHING) == -1 else value


def _least(values: Sequence[Measured]) -> Measured:
    least = values[0]
    for value in values[1:]:
        least = value if compare(value, least) == -1 else least
    return least


def _most(values: Sequence[Measured]) -> Measured:
    most = values[0]
    for value in values[1:]:
        most = value if compare(value, most) == 1 else most
    return most


def _cross(one: Place, other: Place) -> Measured:
    """Return the area of the parallelogram of two ways, above nothing where the second turns right."""
    return _known(minus(times(one.across, other.down), times(other.across, one.down)))


def _less(one: Place, other: Place) -> Place:
    return Place(_known(minus(one.across, other.across)), _known(minus(one.down, other.down)))


def _plus(one: Measured, other: Measured) -> Measured:
    return _known(plus(one, other))


def _times(one: Measured, other: Measured) -> Measured:
    return _known(times(one, other))


def _over(one: Measured, other: Measured) -> Measured:
    return _known(divided(one, other))


def _known(value: Measured | None) -> Measured:
    assert value is not None  # only a root of less than nothing and a division by nothing have no value
    return value


def rectangle(width: Measured, height: Measured) -> tuple[Corner, ...]:
    """Return the outline of a rectangle, from its top left corner, as a clock's hands run."""
    places = ((NOTHING, NOTHING), (width, NOTHING), (width, height), (NOTHING, height))
    return tuple(Corner(across, down) for across, down in places)
