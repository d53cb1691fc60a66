"""Full-size templates: pieces at 1 : 1 over sheets of paper, or all together on one large sheet.

A file of sheets begins with how to print them, squares to measure and a map. The large sheet is a file of
its own: for a copy shop, a wide printer, or a projector.
"""

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from patterns.drafting.sized import SizedPattern
from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import Box as Extent
from patterns.drawings.geometry import Spot
from patterns.drawings.plates import Laid, Plate, placed, plates, size_of
from patterns.drawings.sheet import bars_svg, sheet_svg, square_svg, whole_svg
from patterns.drawings.sheet_map import map_svg
from patterns.drawings.svg import millimetres
from patterns.drawings.template import Template, templates
from patterns.drawings.tiling import Placement, Window, fits, packed

from .errors import DocumentError, NoDocumentError
from .figures import Box, Figure, Figures
from .mends import mend
from .paper import PaperName
from .render import render
from .typeset import UNKNOWN, markup, style
from .words import UNIT_WORDS, Words, day_in_words

SheetName = PaperName | Literal["large"]

# One window fits both papers with 9 mm of margin or more; each paper has a larger one of its own.
COMMON = Window(186_000, 255_000)
EVERYTHING = 10**9


class _Page(NamedTuple):
    """A paper, µm. foot: what printers leave white, and the lines at the foot of the page."""

    width: int
    height: int
    own: Window
    foot: int = 15_000


PAGES: dict[PaperName, _Page] = {
    "a4": _Page(210_000, 297_000, Window(192_000, 272_000)),
    "letter": _Page(215_900, 279_400, Window(197_000, 255_000)),
}
TOP = 12_000
# Large papers (ISO 216), the least that holds everything is taken; else a roll as wide as the widest of them.
LARGE = (Window(420_000, 594_000), Window(594_000, 841_000), Window(841_000, 1_189_000))
MARGIN = 15_000
# What is written at the foot of a large sheet.
FOOT = 45_000
# A PDF page is no longer than 14,400 pt, 5,080 mm (ISO 32000, annex C).
LONGEST = 5_000_000


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page. left and top: of the figure on it, in mm."""

    name: str
    holds: str
    figure: Figure
    left: str
    top: str


@dataclass(frozen=True, slots=True)
class Map:
    """The sheets of one plate. span: `A1 to B3`."""

    span: str
    figure: Figure
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LargePage:
    """One large page; lengths in mm."""

    name: str
    width: str
    height: str
    figure: Figure


def body(sized: SizedPattern, paper: SheetName, named: Iterable[str] = ()) -> bytes:
    """Return the templates as a PDF/UA-1, without the customer's line; the same bytes for the same arguments.

    paper: `large` for one large sheet. named: the pieces wanted; none: all that need a template.
    Raises NoDocumentError: no piece needs one. DocumentError: the size is refused, or there is no such piece.
    """
    if paper == "large":
        return large_sheet(sized, named)
    found = plates(wanted(sized, named), (COMMON, PAGES[paper].own))
    figures = Figures()
    content = {
        **_head(sized),
        "paper": paper,
        "square": figures.add(square_svg(), Box(EVERYTHING, EVERYTHING)),
        "maps": tuple(_map(plate, figures) for plate in found),
        "sheets": tuple(sheet for plate in found for sheet in _sheets(plate, PAGES[paper], figures)),
        "is_glued": any(len(plate.tiling.tiles) > 1 for plate in found),
    }
    return _set("templates", content, figures)


def large_sheet(sized: SizedPattern, named: Iterable[str] = ()) -> bytes:
    """Return all templates on one large page; on more only where they are longer than a page can be.

    Raises as `body` does.
    """
    found = wanted(sized, named)
    width, height, rooms = _roomy(found)
    figures = Figures()
    pages = []
    for number, laid in enumerate(rooms, 1):
        long = height or max(each.box.bottom for each in laid) + MARGIN + FOOT
        box = Extent(0, 0, width, long - FOOT)
        title = "; ".join(each.template.title for each in laid)
        figure = figures.add(whole_svg(laid, box, title, "At full size."), Box(EVERYTHING, EVERYTHING))
        pages.append(LargePage(f"large{number}", millimetres(width), millimetres(long), figure))
    bars = figures.add(bars_svg(), Box(EVERYTHING, EVERYTHING))
    return _set("large_sheet", {**_head(sized), "pages": tuple(pages), "bars": bars}, figures)


def wanted(sized: SizedPattern, named: Iterable[str] = ()) -> tuple[Template, ...]:
    """Return the templates of a pattern. Raises as `body` does."""
    if sized.is_refused:
        raise DocumentError("A size that is refused has no templates.")
    try:
        found = templates(sized, named)
    except DrawingError as error:
        raise DocumentError(str(error)) from error
    if not found:
        raise NoDocumentError(
            f"No piece of {sized.title} needs a template: all are cut with a ruler. Name the pieces you want."
        )
    return found


def one_template(sized: SizedPattern, named: Iterable[str] = ()) -> Template:
    """Return the template that is wanted. Raises DocumentError: there are several; and as `body` does."""
    first, *others = wanted(sized, named)
    if others:
        titles = "; ".join(each.title for each in (first, *others))
        raise DocumentError(
            f"Such a file holds one template, and there are {len(others) + 1}: {titles}. Name one."
        )
    return first


def svg(template: Template) -> bytes:
    """Return a template as SVG, as wide and high as it is."""
    laid = Laid(template, Spot(template.box.left, template.box.top), False)
    return whole_svg([laid], template.box, template.title, f"{template.size}, at full size.").encode()


def _head(sized: SizedPattern) -> dict[str, object]:
    return {
        "title": sized.title,
        "language": sized.language,
        "revised": sized.revised,
        "revised_words": day_in_words(sized.revised),
        "size": Words(sized).size(),
        "units": UNIT_WORDS[sized.units],
    }


def _map(plate: Plate, figures: Figures) -> Map:
    names = [plate.name_of(tile) for tile in plate.tiling.tiles]
    span = f"Sheet {names[0]}" if len(names) == 1 else f"Sheets {names[0]} to {names[-1]}"
    pieces = [
        f"{piece.name}, cut {piece.cut} from {piece.material}"
        for each in plate.laid
        for piece in each.template.pieces
    ]
    return Map(span, figures.add(map_svg(plate), Box(EVERYTHING, EVERYTHING)), tuple(pieces))


def _sheets(plate: Plate, page: _Page, figures: Figures) -> Iterator[Sheet]:
    tiling = plate.tiling
    window = tiling.window.turned if tiling.is_turned else tiling.window
    # Whole millimetres, so that sheets that were scanned or drawn as pictures can be laid to each other.
    left = (page.width - window.width) // 2000 * 1000
    top = min(TOP, (page.height - window.height - page.foot) // 1000 * 1000)
    for tile in tiling.tiles:
        figure = figures.add(sheet_svg(plate, tile), Box(EVERYTHING, EVERYTHING))
        yield Sheet(plate.name_of(tile), plate.title, figure, millimetres(left), millimetres(top))


def _roomy(found: Sequence[Template]) -> tuple[int, int, list[tuple[Laid, ...]]]:
    """Return the width and the height of a large page (0: as long as it takes), and what lies on each."""
    sizes = [size_of(each) for each in found]
    for page in LARGE:
        room = Window(page.width - 2 * MARGIN, page.height - MARGIN - FOOT)
        if all(fits(size, room) or fits(size.turned, room) for size in sizes):
            rooms = packed(sizes, room)
            if len(rooms) == 1:
                return page.width, page.height, _laid(found, rooms)
    width = max(LARGE[-1].width, *(min(size) + 2 * MARGIN for size in sizes))
    room = Window(width - 2 * MARGIN, LONGEST - MARGIN - FOOT)
    return width, 0, _laid(found, packed(sizes, room, is_long=True))


def _laid(found: Sequence[Template], rooms: Iterable[Iterable[Placement]]) -> list[tuple[Laid, ...]]:
    corner = Spot(MARGIN, MARGIN)
    return [tuple(placed(found, each, corner) for each in room) for room in rooms]


def _set(name: str, content: dict[str, object], figures: Figures) -> bytes:
    html = markup(f"documents/{name}.html", content)
    if UNKNOWN in html:
        raise DocumentError(f"The template {name} names what its content does not hold.")
    sheets = [style("templates.css")]
    return mend(render(html, sheets, figures.by_address(), hashlib.sha256(html.encode()).digest()[:16]))
