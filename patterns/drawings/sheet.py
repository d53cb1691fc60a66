"""One sheet of a plate at full size, with what helps to print it true and to glue it; and all of it in one.

What guides is pale and drawn first, so that every line of the piece lies over it. A sheet's left and top
edges are cut off where another sheet joins there, and laid to the dashed line of that one.
"""

from collections.abc import Iterator, Sequence

from .geometry import Box, Spot
from .labels import Align, Block, TextLine, Turned
from .lines import Line, lines
from .plates import Laid, Plate
from .svg import document, element, millimetres, path_through
from .tiling import OVERLAP, Tile

GUIDE = "#8fb0b2"
GUIDE_WORDS = "#5b8488"
NAME = "#dde8e8"
NAME_SIZE = 17_000
SMALL = 2800
THIN = 200
DASHES = "3 1.5"
DIAMOND = 2500
# From a sheet's edge, beyond the strip that another covers.
INNER = OVERLAP + 4000
INCHES_4, MM_100 = 101_600, 100_000
TICK = 1500
BAR_GAP = 6000


def sheet_svg(plate: Plate, tile: Tile) -> str:
    """Return one sheet: as wide and high as its window, upright, at 1 : 1."""
    parts = [*_guides(plate, tile), *seen(plate.laid, tile.box)]
    name = plate.name_of(tile)
    title = f"Sheet {name}: {plate.title}"
    box = tile.box
    if not plate.tiling.is_turned:
        return document(box.width, box.height, title, _joins(plate, tile), parts, Spot(box.left, box.top))
    turn = matrix((0, 1, -1, 0, box.bottom, -box.left))
    group = element("g", (("transform", turn),), *parts)
    return document(box.height, box.width, title, _joins(plate, tile), [group])


def whole_svg(plates: Sequence[Laid], box: Box, title: str, description: str) -> str:
    """Return all of some templates as they lie, in one drawing at 1 : 1."""
    parts = seen(plates, box)
    return document(box.width, box.height, title, description, parts, Spot(box.left, box.top))


def seen(laid: Sequence[Laid], window: Box) -> Iterator[str]:
    """Yield what a window shows of templates: only what meets it."""
    for each in laid:
        found = each.template.within(each.seen_through(window))
        if found and each.matrix == (1, 0, 0, 1, 0, 0):
            yield from found
        elif found:
            yield element("g", (("transform", matrix(each.matrix)),), *found)


def matrix(numbers: tuple[int, int, int, int, int, int]) -> str:
    """Write a turn (whole numbers) and a move (micrometres) as SVG does."""
    *turn, across, down = numbers
    return f"matrix({' '.join(map(str, turn))} {millimetres(across)} {millimetres(down)})"


def _joins(plate: Plate, tile: Tile) -> str:
    """Say which sheets lie beside this one."""
    ways = (("left", 0, -1), ("right", 0, 1), ("above", -1, 0), ("below", 1, 0))
    found = [(plate.neighbour(tile, down, across), where) for where, down, across in ways]
    told = ", ".join(
        f"{name} {'on the ' if where in ('left', 'right') else ''}{where}" for name, where in found if name
    )
    return f"At full size. Joins {told}." if told else "At full size, on one sheet."


def _guides(plate: Plate, tile: Tile) -> Iterator[str]:
    box = tile.box
    name = TextLine(plate.name_of(tile), NAME_SIZE, NAME)
    yield from Block((name,)).at(box.left + INNER, box.top + OVERLAP, "start").drawn()
    frame = path_through(
        (
            Spot(box.left, box.top),
            Spot(box.right, box.top),
            Spot(box.right, box.bottom),
            Spot(box.left, box.bottom),
        ),
        is_closed=True,
    )
    yield _pale(frame)
    yield from _bars(box)
    yield from _strips(plate, tile)
    yield from _trims(plate, tile)


def _bars(box: Box) -> Iterator[str]:
    """Yield two lengths to measure on every sheet: 4 in and 100 mm."""
    level = box.bottom - INNER - BAR_GAP
    for long, told in ((INCHES_4, "4 in"), (MM_100, "100 mm")):
        left, right = Spot(box.left + INNER, level), Spot(box.left + INNER + long, level)
        ends = [(Spot(end.x, end.y - TICK), Spot(end.x, end.y + TICK)) for end in (left, right)]
        yield _pale(path_through((left, right)))
        yield _pale("".join(path_through(end) for end in ends))
        yield from _told(told, Spot(right.x + TICK, level - SMALL // 2), "start")
        level += BAR_GAP


def _strips(plate: Plate, tile: Tile) -> Iterator[str]:
    """Yield the strips at the right and at the bottom on which other sheets are laid."""
    box = tile.box
    if right := plate.neighbour(tile, 0, 1):
        edge = box.right - OVERLAP
        yield _pale(path_through((Spot(edge, box.top), Spot(edge, box.bottom))), DASHES)
        yield from _diamonds(Spot(edge, box.top + box.height * share // 4) for share in (1, 3))
        line = _line(f"lay {right} here")
        left, top = edge + (OVERLAP - line.height) // 2, box.middle.y - line.width // 2
        yield from Turned(line, Box(left, top, left + line.height, top + line.width)).drawn()
    if below := plate.neighbour(tile, 1, 0):
        edge = box.bottom - OVERLAP
        yield _pale(path_through((Spot(box.left, edge), Spot(box.right, edge))), DASHES)
        yield from _diamonds(Spot(box.left + box.width * share // 4, edge) for share in (1, 3))
        line = _line(f"lay {below} here")
        yield from _told(line.text, Spot(box.middle.x, edge + (OVERLAP - line.height) // 2), "middle")


def _trims(plate: Plate, tile: Tile) -> Iterator[str]:
    """Yield the halves of the diamonds at the left and at the top, and what to do there."""
    box = tile.box
    if plate.neighbour(tile, 0, -1):
        yield from _diamonds(Spot(box.left, box.top + box.height * share // 4) for share in (1, 3))
        line = _line("cut here")
        top = box.middle.y - line.width // 2
        yield from Turned(
            line, Box(box.left + 500, top, box.left + 500 + line.height, top + line.width)
        ).drawn()
    if plate.neighbour(tile, -1, 0):
        yield from _diamonds(Spot(box.left + box.width * share // 4, box.top) for share in (1, 3))
        yield from _told("cut here", Spot(box.middle.x, box.top + 500), "middle")


def _diamonds(middles: Iterator[Spot]) -> Iterator[str]:
    for middle in middles:
        ends = [
            Spot(middle.x + x * DIAMOND, middle.y + y * DIAMOND)
            for x, y in ((0, -1), (1, 0), (0, 1), (-1, 0))
        ]
        yield element("path", (("d", path_through(ends, is_closed=True)), ("fill", GUIDE)))


def _line(text: str) -> TextLine:
    return TextLine(text, SMALL, GUIDE_WORDS)


def _told(text: str, at: Spot, align: Align) -> list[str]:
    return Block((_line(text),)).at(at.x, at.y, align).drawn()


def _pale(way: str, dashes: str = "") -> str:
    attributes: list[tuple[str, str | int]] = [
        ("d", way),
        ("fill", "none"),
        ("stroke", GUIDE),
        ("stroke-width", THIN),
    ]
    if dashes:
        attributes.append(("stroke-dasharray", dashes))
    return element("path", attributes)


def square_svg() -> str:
    """Return a square of 4 in and one of 100 mm in its corner, each with its size on it."""
    corner, edge = Spot(AROUND, AROUND), AROUND + INCHES_4
    found = []
    for long in (INCHES_4, MM_100):
        far = AROUND + long
        ways = (corner, Spot(far, AROUND), Spot(far, far), Spot(AROUND, far))
        found.append(lines(Line.MARK, [ways], is_closed=True))
    for long, told, level in (
        (INCHES_4, "4 in: to the outer line", 30_000),
        (MM_100, "100 mm: to the inner line", 60_000),
    ):
        ends = (Spot(AROUND, level), Spot(AROUND + long, level))
        found.append(lines(Line.MEASURE, [ends]))
        found += Block((TextLine(told, 4200),)).at(AROUND + long // 2, level + 1200, "middle").drawn()
    title = "A square of 4 in, and in its corner one of 100 mm"
    told = "To be measured with a ruler: if one is too long or too short, it was not printed at 100 %."
    return document(edge + AROUND, edge + AROUND, title, told, found)


# Round the square, so that the whole width of its line is seen.
AROUND = 1000


def bars_svg() -> str:
    """Return two lengths to measure, one over the other: 4 in and 100 mm."""
    found = []
    for long, told, level in ((INCHES_4, "4 in", 3000), (MM_100, "100 mm", 9000)):
        left, right = Spot(AROUND, level), Spot(AROUND + long, level)
        ends = [(Spot(end.x, end.y - TICK), Spot(end.x, end.y + TICK)) for end in (left, right)]
        found.append(lines(Line.MARK, [(left, right), *ends]))
        found += Block((TextLine(told, 3500),)).at(right.x + 2000, level - 2000).drawn()
    title = "Two lengths to measure: 4 in and 100 mm"
    return document(
        AROUND + INCHES_4 + 18_000, 12_000, title, "If one is wrong, it was not printed at 100 %.", found
    )
