"""A small builder of SVG: elements, attributes, numbers with a fixed end, text that is safe.

No ids, styles, links or scripts: several drawings may stand in one page, under any content policy.
"""

from collections.abc import Iterable, Sequence
from html import escape

from patterns.drafting.outlines import Turn

from .geometry import Box, Spot
from .tokens import INK

FAMILY = "Workroom Text,sans-serif"


def millimetres(micrometres: int) -> str:
    """Write a page length in mm, to a hundredth.

    >>> millimetres(-12345), millimetres(40000)
    ('-12.34', '40')
    """
    hundredths = (abs(micrometres) + 5) // 10 if micrometres > 0 else (abs(micrometres) + 4) // 10
    whole, rest = divmod(hundredths, 100)
    sign = "-" if micrometres < 0 and hundredths else ""
    return f"{sign}{whole}.{rest:02d}".rstrip("0").rstrip(".")


def element(name: str, attributes: Iterable[tuple[str, str | int]], *inside: str) -> str:
    """Return one element. An int among the attributes is a page length; `inside` is markup already."""
    written = "".join(
        f' {key}="{millimetres(value) if isinstance(value, int) else escape(value)}"'
        for key, value in attributes
    )
    return f"<{name}{written}>{''.join(inside)}</{name}>" if inside else f"<{name}{written}/>"


def path_through(spots: Iterable[Spot], is_closed: bool = False) -> str:
    """Return path data that walks the spots by straight lines."""
    way = "L".join(map(_at, spots))
    return f"M{way}Z" if is_closed else f"M{way}"


def way_round(corners: Sequence[tuple[Spot, Turn | None]]) -> str:
    """Return path data of a closed line: each edge goes to its corner, straight or as a quarter circle."""
    was, _ = corners[0]
    way = f"M{_at(was)}"
    for spot, turn in corners[1:]:
        way += f"L{_at(spot)}" if turn is None else _bend(was, spot, turn)
        was = spot
    spot, turn = corners[0]
    return f"{way}{'' if turn is None else _bend(was, spot, turn)}Z"


def _bend(start: Spot, end: Spot, turn: Turn) -> str:
    radius = millimetres(abs(end.x - start.x))
    return f"A{radius} {radius} 0 0 {int(turn == 'right')} {_at(end)}"


def plate(box: Box, colour: str) -> str:
    """Return a plain filled box, for a ground or a gap."""
    place = (("x", box.left), ("y", box.top), ("width", box.width), ("height", box.height))
    return element("rect", (*place, ("fill", colour)))


def curve_through(spots: Sequence[Spot]) -> str:
    """Return path data of a smooth curve from the first spot through all others.

    Source: Catmull and Rom, 1974: at each spot it runs as the spots before and after it lie.
    """
    way = f"M{_at(spots[0])}"
    for index in range(len(spots) - 1):
        start, end = spots[index], spots[index + 1]
        before, after = spots[max(index - 1, 0)], spots[min(index + 2, len(spots) - 1)]
        leaving = Spot(start.x + (end.x - before.x) // 6, start.y + (end.y - before.y) // 6)
        arriving = Spot(end.x - (after.x - start.x) // 6, end.y - (after.y - start.y) // 6)
        way += f"C{_at(leaving)} {_at(arriving)} {_at(end)}"
    return way


def _at(spot: Spot) -> str:
    return f"{millimetres(spot.x)} {millimetres(spot.y)}"


def document(
    width: int,
    height: int,
    title: str,
    description: str,
    parts: Iterable[str],
    corner: Spot = Spot(0, 0),  # noqa: B008 - a tuple
) -> str:
    """Return a whole drawing, its view box in millimetres of the printed page. corner: its top left one."""
    attributes = (
        ("xmlns", "http://www.w3.org/2000/svg"),
        ("role", "img"),
        ("width", f"{millimetres(width)}mm"),
        ("height", f"{millimetres(height)}mm"),
        ("viewBox", f"{_at(corner)} {millimetres(width)} {millimetres(height)}"),
        ("font-family", FAMILY),
        ("fill", INK),
        ("stroke-linejoin", "round"),
    )
    words = (
        element("title", (), escape(title, quote=False)),
        element("desc", (), escape(description, quote=False)),
    )
    return element("svg", attributes, *words, *parts)
