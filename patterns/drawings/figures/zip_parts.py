"""What a zip looks like from above, lying across the page: tapes, teeth, stop, slider."""

from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line, lines
from patterns.drawings.svg import element, path_through, plate
from patterns.drawings.tokens import INK, SHEET

SLIDER, STOP = 2600, 900
TAB = 2400
# How far the ends of a zip stick out beyond the cloths.
STUB = 2600


def corners(box: Box) -> tuple[Spot, Spot, Spot, Spot]:
    return (
        Spot(box.left, box.bottom),
        Spot(box.left, box.top),
        Spot(box.right, box.top),
        Spot(box.right, box.bottom),
    )


def tape(box: Box, teeth: int | None, is_hidden: bool = False) -> list[str]:
    """Return a tape as a plain strip, its teeth along a level; thin where cloth lies over them."""
    parts = [plate(box, SHEET), line(Line.EDGE, *corners(box), is_closed=True)]
    if teeth is not None:
        kind = Line.HIDDEN_FOLD if is_hidden else Line.TEETH
        parts.append(line(kind, Spot(box.left, teeth), Spot(box.right, teeth)))
    return parts


def slider(at: Spot, way: int) -> list[str]:
    """Return a slider on the teeth, its tab hanging to the right (1) or to the left (−1)."""
    half = SLIDER // 2
    body = (
        Spot(at.x - way * half, at.y - half // 2),
        Spot(at.x + way * half, at.y - half),
        Spot(at.x + way * half, at.y + half),
        Spot(at.x - way * half, at.y + half // 2),
    )
    tab = Box(*sorted_x(at.x + way * half, at.x + way * (half + TAB), at.y, 600))
    return [
        element("path", (("d", path_through(body, is_closed=True)), ("fill", INK))),
        plate(tab, SHEET),
        line(Line.EDGE, *corners(tab), is_closed=True),
    ]


def sorted_x(one: int, other: int, level: int, half: int) -> tuple[int, int, int, int]:
    return min(one, other), level - half, max(one, other), level + half


def stop(at: Spot) -> list[str]:
    """Return the stop at the closed end."""
    return [plate(Box(at.x - STOP // 2, at.y - STOP, at.x + STOP // 2, at.y + STOP), INK)]


def bars(x: int, top: int, bottom: int) -> list[str]:
    """Return several rows of stitches sewn on each other, across a zip."""
    beside = [(Spot(x + off, top), Spot(x + off, bottom)) for off in (-500, 500)]
    return [line(Line.CLIP, Spot(x, top), Spot(x, bottom)), lines(Line.STITCH, beside)]
