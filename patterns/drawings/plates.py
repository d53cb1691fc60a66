"""Which templates lie on which sheets: a large one over a grid of its own, small ones together on one."""

from collections.abc import Sequence
from dataclasses import dataclass

from .geometry import Box, Spot
from .outline import Outline
from .template import Template
from .tiling import Placement, Tile, Tiling, Window, fits, letters, packed, tiled


@dataclass(frozen=True, slots=True)
class Laid:
    """A template where it lies on a plate. at: the top left corner of its box there."""

    template: Template
    at: Spot
    is_turned: bool

    @property
    def matrix(self) -> tuple[int, int, int, int, int, int]:
        """From places on the template to places on the plate, as SVG writes it; lengths in micrometres."""
        box, at = self.template.box, self.at
        if self.is_turned:
            return 0, 1, -1, 0, at.x + box.bottom, at.y - box.left
        return 1, 0, 0, 1, at.x - box.left, at.y - box.top

    @property
    def box(self) -> Box:
        """What it takes of the plate."""
        width, height = size_of(self.template)
        if self.is_turned:
            width, height = height, width
        return Box(self.at.x, self.at.y, self.at.x + width, self.at.y + height)

    def spot(self, place: Spot) -> Spot:
        a, b, c, d, e, f = self.matrix
        return Spot(a * place.x + c * place.y + e, b * place.x + d * place.y + f)

    @property
    def outline(self) -> Outline:
        """Its outline on the plate."""
        corners = self.template.outline.corners
        return Outline(tuple((self.spot(spot), turn) for spot, turn in corners))

    def seen_through(self, window: Box) -> Box:
        """Return the part of the template that a window of the plate shows."""
        _, _, _, _, e, f = self.matrix
        if self.is_turned:
            return Box(window.top - f, e - window.right, window.bottom - f, e - window.left)
        return window.moved(-e, -f)


@dataclass(frozen=True, slots=True)
class Plate:
    """Templates on one grid of sheets. first_row: how many rows of sheets the plates before it have."""

    laid: tuple[Laid, ...]
    tiling: Tiling
    first_row: int = 0

    @property
    def title(self) -> str:
        return "; ".join(each.template.title for each in self.laid)

    def name_of(self, tile: Tile) -> str:
        """`B2`: rows are lettered through all plates, columns counted in each."""
        return f"{letters(self.first_row + tile.row)}{tile.column + 1}"

    def neighbour(self, tile: Tile, down: int, across: int) -> str:
        """Return the name of the sheet beside another, or nothing."""
        found = self.tiling.beside(tile, down, across)
        return "" if found is None else self.name_of(found)


def size_of(template: Template) -> Window:
    return Window(template.box.width, template.box.height)


def plates(templates: Sequence[Template], windows: Sequence[Window]) -> tuple[Plate, ...]:
    """Return the plates of templates: each large one by itself in their order, then the small ones together.

    windows: what one sheet can show; the first is taken unless another saves sheets.
    """
    small = [each for each in templates if _is_small(each, windows[0])]
    laid = [
        ((Laid(each, Spot(each.box.left, each.box.top), False),), tiled(_edge(each), windows))
        for each in templates
        if each not in small
    ]
    together = [(each, _single(windows[0])) for each in _together(small, windows[0])]
    found: list[Plate] = []
    row = 0
    for parts, tiling in (*laid, *together):
        found.append(Plate(parts, tiling, row))
        row += max(tile.row for tile in tiling.tiles) + 1
    return tuple(found)


def _is_small(template: Template, window: Window) -> bool:
    return fits(size_of(template), window) or fits(size_of(template).turned, window)


def _edge(template: Template) -> tuple[Spot, ...]:
    """What sheets must show of a template: what it encloses, and words that stand under it."""
    outline, box = template.outline, template.box
    if box.bottom <= outline.box.grown(box.width // 100).bottom:
        return outline.spots
    return (
        Spot(box.left, box.top),
        Spot(box.right, box.top),
        Spot(box.right, box.bottom),
        Spot(box.left, box.bottom),
    )


def _single(window: Window) -> Tiling:
    return Tiling(window, False, (Tile(0, 0, Box(0, 0, window.width, window.height)),))


def _together(templates: Sequence[Template], room: Window) -> list[tuple[Laid, ...]]:
    rooms = packed([size_of(each) for each in templates], room)
    return [tuple(placed(templates, each) for each in placements) for placements in rooms]


def placed(templates: Sequence[Template], placement: Placement, corner: Spot = Spot(0, 0)) -> Laid:  # noqa: B008
    """Return a template laid as `packed` says, the room's own corner being given."""
    at = Spot(corner.x + placement.at.x, corner.y + placement.at.y)
    return Laid(templates[placement.which], at, placement.is_turned)
