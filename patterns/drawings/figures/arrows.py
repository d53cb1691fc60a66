"""Arrows that say how cloth moves."""

from patterns.drawings.geometry import Spot
from patterns.drawings.svg import element, millimetres, path_through
from patterns.drawings.tokens import PETROL

HEAD = 1300
WIDTH = 420


def swing(start: Spot, end: Spot, radius: int, is_clockwise: bool) -> list[str]:
    """Return an arrow along an arc from start to end, its head pointing down or up into the end."""
    r = millimetres(radius)
    way = (
        path_through([start]) + f"A{r} {r} 0 0 {int(is_clockwise)} {millimetres(end.x)} {millimetres(end.y)}"
    )
    return [_line(way), _head(end, 0, HEAD if end.y >= start.y else -HEAD)]


def straight(start: Spot, end: Spot) -> list[str]:
    """Return a level or upright arrow."""
    across = (end.x > start.x) - (end.x < start.x)
    down = (end.y > start.y) - (end.y < start.y)
    return [_line(path_through([start, end])), _head(end, across * HEAD, down * HEAD)]


def _line(way: str) -> str:
    return element("path", (("d", way), ("fill", "none"), ("stroke", PETROL), ("stroke-width", WIDTH)))


def _head(tip: Spot, across: int, down: int) -> str:
    """Return the head of an arrow that runs so far across and down."""
    wing = Spot(tip.x - across - down // 2, tip.y - down - across // 2)
    other = Spot(tip.x - across + down // 2, tip.y - down + across // 2)
    return element("path", (("d", path_through([tip, wing, other], is_closed=True)), ("fill", PETROL)))
