"""A map of the sheets of one plate: which lies where, and what is on it."""

from fractions import Fraction

from .fills import Fabric, fill
from .geometry import Box, Spot
from .labels import Block, TextLine
from .lines import Line, along
from .outline import Outline
from .plates import Plate
from .sheet import GUIDE
from .svg import document, element, path_through, plate
from .tokens import INK, LEAST_LETTERS, SHEET

WIDTH, HEIGHT = 56_000, 50_000
EDGE = 400
# No sheet is drawn larger, so that the maps of one document look alike.
MOST_SCALE = Fraction(1, 6)
LETTERS = 3400


def map_svg(sheets: Plate) -> str:
    """Return the sheets of a plate, each by its name, and on them the pieces, small."""
    box = sheets.tiling.box
    scale = min(Fraction(WIDTH - 2 * EDGE, box.width), Fraction(HEIGHT - 2 * EDGE, box.height), MOST_SCALE)

    def spot(place: Spot) -> Spot:
        return Spot(EDGE + int((place.x - box.left) * scale), EDGE + int((place.y - box.top) * scale))

    parts: list[str] = []
    for each in sheets.laid:
        outline = Outline(tuple((spot(place), turn) for place, turn in each.outline.corners))
        parts += [*fill(Fabric("exterior", is_pale=True), outline.spots), along(Line.EDGE, _way(outline))]
    names: list[str] = []
    for tile in sheets.tiling.tiles:
        near, far = spot(Spot(tile.box.left, tile.box.top)), spot(Spot(tile.box.right, tile.box.bottom))
        parts.append(_frame(Box(*near, *far)))
        size = max(min(LETTERS, (far.x - near.x) // 2), LEAST_LETTERS)
        block = Block((TextLine(sheets.name_of(tile), size, INK),))
        middle = Box(*near, *far).middle
        placed = block.at(middle.x, middle.y - block.height // 2, "middle")
        names += [plate(placed.box, SHEET), *placed.drawn()]
    near, far = spot(Spot(box.left, box.top)), spot(Spot(box.right, box.bottom))
    told = ", ".join(sheets.name_of(tile) for tile in sheets.tiling.tiles)
    lying = " The sheets lie on their sides." if sheets.tiling.is_turned else ""
    return document(
        far.x + EDGE,
        far.y + EDGE,
        f"Map of the sheets of {sheets.title}",
        f"Row by row: {told}.{lying}",
        [*parts, *names],
    )


def _way(outline: Outline) -> str:
    """The outline by straight lines: at this scale a rounded quarter circle is no longer quite one."""
    return path_through(outline.spots, is_closed=True)


def _frame(box: Box) -> str:
    ends = (
        Spot(box.left, box.top),
        Spot(box.right, box.top),
        Spot(box.right, box.bottom),
        Spot(box.left, box.bottom),
    )
    way = path_through(ends, is_closed=True)
    return element("path", (("d", way), ("fill", "none"), ("stroke", GUIDE), ("stroke-width", 250)))
