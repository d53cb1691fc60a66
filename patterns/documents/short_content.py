"""What stands in the short form of a book: for someone who has made one before, on a page or two.

It is taken from the book itself, so both say the same. What a beginner needs is left out: how each step is
done, the workings, the tools, the words explained.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from patterns.cutting.listing import ShoppingList
from patterns.drafting.sized import SizedPattern
from patterns.drawings.side_by_side import side_by_side

from .book_content import Book, CutRow, Fact, book_content
from .figures import Box, Figure, Figures
from .mark_rows import MarkRow
from .paper import Paper

# How every step of a recipe ends: with what can be seen or measured when it has come out right.
RIGHT = re.compile(r"\bIt is right when (.+)", re.DOTALL)
# The finished item in the corner, without words: what it measures stands beside it. Micrometres.
SMALL = 38_000
SMALL_ADDRESS = "mem:small.svg"
# Drawings of cloth stand two abreast; none is drawn narrower than 80 mm, and these are as high.
LAYOUT = Box(84, 38)
LONG_LAYOUT = Box(84, 50)
LOW_LAYOUT = Box(84, 30)


@dataclass(frozen=True, slots=True)
class ShortCut:
    """A piece of the cut list. marks: where each lies, in words."""

    row: CutRow
    marks: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class ShortStep:
    """right: what is so when the step has come out right; empty where it does not say."""

    number: str
    title: str
    right: str


@dataclass(frozen=True, slots=True)
class Short:
    """The short form of a book, ready to be set."""

    book: Book
    item: Figure | None
    to_buy: tuple[Fact, ...]
    cuts: tuple[ShortCut, ...]
    steps: tuple[ShortStep, ...]
    figures: Mapping[str, str]


def short_content(
    sized: SizedPattern, paper: Paper, shopping: ShoppingList | None = None, is_low: bool = False
) -> Short:
    """Return what the short form says. Arguments and errors are those of `book_content`.

    is_low: all cloth is drawn lower, to save room.
    """
    short, long = (LOW_LAYOUT, LOW_LAYOUT) if is_low else (LAYOUT, LONG_LAYOUT)
    small = replace(paper, layout=short, half_layout=long, part_layout=long)
    book = book_content(sized, small, shopping)
    item, drawn = _item(sized, book)
    marks = {piece.name: piece.marks for piece in book.marked}
    return Short(
        book=book,
        item=item,
        to_buy=tuple(
            Fact(need.name, need.amount) for group in book.needs for need in group.needs if need.amount
        ),
        cuts=tuple(ShortCut(row, tuple(map(_mark, marks.get(row.name, ())))) for row in book.cuts),
        steps=tuple(ShortStep(step.number, step.title, _right(step.does)) for step in book.steps),
        figures={**book.figures, **drawn},
    )


def _item(sized: SizedPattern, book: Book) -> tuple[Figure | None, Mapping[str, str]]:
    """The finished item, small, and its drawing by its address; none where it cannot stand."""
    (svg,) = side_by_side([(sized.title, sized)], sized.units, SMALL, SMALL).items
    if svg is None:
        return None, {}
    figures = Figures()
    figure = figures.add(svg, Box(SMALL / 1000, SMALL / 1000))
    drawn = {SMALL_ADDRESS: figures.by_address()[figure.address]}
    return replace(figure, address=SMALL_ADDRESS, alt=f"{book.title}, {book.size}."), drawn


def _mark(mark: MarkRow) -> Fact:
    return Fact(mark.name, ", ".join(_places(mark)))


def _places(mark: MarkRow) -> Iterator[str]:
    """`9 in from the top edge`, `begins 4 in from the left edge`."""
    for distance in mark.distances:
        place = f"{distance.far} from the {distance.edge}"
        yield f"{distance.what} {place}" if distance.what else place


def _right(does: str) -> str:
    found = RIGHT.search(does)
    return found[1] if found else ""
