"""Dimension lines: a thin line beside an edge, a dot at each end, thin lines back to the edge."""

from .geometry import Box, Spot, around
from .lines import Line, dot, lines
from .tokens import QUIET_INK

# How near the thin lines come to the edge, and how far they run past the dimension line.
CLEAR = 700
PAST = 900
DOT = 420


def dimension(start: Spot, end: Spot, away: Spot) -> list[str]:
    """Return a dimension line for the edge from start to end, moved by `away`, which is level or upright."""
    near = Spot(_toward(away.x, CLEAR), _toward(away.y, CLEAR))
    past = Spot(away.x + _toward(away.x, PAST), away.y + _toward(away.y, PAST))
    ways = [(_moved(spot, near), _moved(spot, past)) for spot in (start, end)]
    ends = _moved(start, away), _moved(end, away)
    return [lines(Line.MEASURE, [*ways, ends]), *(dot(spot, DOT, QUIET_INK) for spot in ends)]


def dimension_box(start: Spot, end: Spot, away: Spot) -> Box:
    """Return the box that the moved line takes, its dots included."""
    moved = [_moved(spot, away) for spot in (start, end)]
    return around([Box(spot.x, spot.y, spot.x, spot.y).grown(DOT) for spot in moved])


def _moved(spot: Spot, by: Spot) -> Spot:
    return Spot(spot.x + by.x, spot.y + by.y)


def _toward(away: int, by: int) -> int:
    return (away > 0) * by - (away < 0) * by
