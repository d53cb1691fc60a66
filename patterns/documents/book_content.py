"""What stands in an instruction book: words, numbers, drawings, all decided before a page is set."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from patterns.cutting.book_list import book_list
from patterns.cutting.listing import ShoppingList
from patterns.drafting.sized import (
    Quantity,
    SizedPattern,
    SizedPiece,
)
from patterns.drawings.cut_outs import cut_outs_told
from patterns.drawings.finished import finished_svg
from patterns.drawings.flat import flat_svg
from patterns.drawings.pieces import piece_svg
from patterns.drawings.prints import Prints
from patterns.drawings.shut import shut_svg

from .book_steps import Caution, Step, book_cautions, book_steps
from .care import CareRow, care, made_of
from .errors import DocumentError
from .figures import Figure, Figures
from .glossary import Term, terms_in
from .layouts import CutLayout, cut_layouts
from .line_key import KeyRow, line_key
from .mark_rows import MarkRow, mark_row
from .needs import NeedGroup, needs
from .paper import Paper
from .words import UNIT_WORDS, Words, Working, day_in_words, listed

# So many rows of distances stand on a page under a drawing, its heading and the section's own beginning.
MOST_ROWS = 12


@dataclass(frozen=True, slots=True)
class Fact:
    """A name and what is so: `Seam allowance`, `1⁄2 in`."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class CutRow:
    """A line of the cutting chart."""

    name: str
    material: str
    count: str
    width: str
    height: str
    says: str


@dataclass(frozen=True, slots=True)
class CutWorking:
    """How the sides of a piece came about; pieces of the same formulas share one."""

    names: str
    sides: tuple[Working, ...]


@dataclass(frozen=True, slots=True)
class MarkedPiece:
    name: str
    cut: str
    figure: Figure
    marks: tuple[MarkRow, ...]

    @property
    def is_long(self) -> bool:
        """Whether its table goes on over the page; else drawing and table stay together."""
        return sum(len(mark.distances) for mark in self.marks) > MOST_ROWS


@dataclass(frozen=True, slots=True)
class Book:
    """An instruction book, ready to be set."""

    language: str
    title: str
    summary: str
    revised: str
    revised_words: str
    units: str
    size: str
    skill: str
    time: str
    cover: Figure
    flat: Figure | None
    glance: tuple[Fact, ...]
    tells: tuple[str, ...]
    advice: tuple[str, ...]
    cautions: tuple[Caution, ...]
    made: str
    costs: str
    needs: tuple[NeedGroup, ...]
    cuts: tuple[CutRow, ...]
    is_rounded: bool
    precision: str
    workings: tuple[CutWorking, ...]
    amounts: tuple[Working, ...]
    layouts: tuple[CutLayout, ...]
    marked: tuple[MarkedPiece, ...]
    unmarked: str
    steps: tuple[Step, ...]
    made_of: str
    care: tuple[CareRow, ...]
    lines: tuple[KeyRow, ...]
    terms: tuple[Term, ...]
    figures: Mapping[str, str]

    @property
    def rooms(self) -> list[int]:
        """The heights that steps with drawings keep free, mm."""
        return sorted({step.room for step in self.steps if step.shows})


def book_content(
    sized: SizedPattern, paper: Paper, shopping: ShoppingList | None = None, prints: Prints | None = None
) -> Book:
    """Return what the book of one sized pattern says, for one paper.

    shopping: what is bought for it, kept with an order; the usual cloth if none is given.
    prints: the customer's own cloths, which the cover shows.
    Raises DocumentError: the size is refused, or a number that the book needs has no value.
    """
    if sized.is_refused:
        raise DocumentError("A size that is refused has no book: " + sized.failed[0].says)
    shopping = book_list(sized) if shopping is None else shopping
    figures = Figures()
    words = Words(sized)
    cautions = book_cautions(sized)
    steps = book_steps(sized, words, figures, paper, cautions)
    return Book(
        language=sized.language,
        title=sized.title,
        summary=sized.summary,
        revised=sized.revised,
        revised_words=day_in_words(sized.revised),
        units=UNIT_WORDS[sized.units],
        size=words.size(),
        skill=sized.skill,
        time=sized.time,
        cover=figures.add(finished_svg(sized, prints), paper.cover, may_grow=True),
        flat=figures.add(beside, paper.flat) if (beside := flat_svg(sized) or shut_svg(sized)) else None,
        glance=_glance(sized, words),
        tells=tuple(words.text(tell) for tell in sized.tells),
        advice=tuple(words.text(check.otherwise) for check in sized.failed),
        cautions=cautions,
        made=_made(shopping),
        costs=shopping.cost_says,
        needs=needs(sized, words, shopping),
        cuts=tuple(_cut_row(piece, words) for piece in sized.pieces),
        is_rounded=any(
            words.is_rounded(side) for piece in sized.pieces for side in (piece.width, piece.height)
        ),
        precision=words.length(sized.units.cutting_step),
        workings=_cut_workings(sized.pieces, words),
        amounts=tuple(words.working(amount.name, amount.quantity) for amount in sized.amounts),
        layouts=cut_layouts(shopping, sized, figures, paper),
        marked=_marked(sized, words, figures, paper),
        unmarked=listed(piece.name for piece in sized.pieces if not piece.marks),
        steps=steps,
        made_of=made_of(sized),
        care=care(sized),
        terms=terms_in(" ".join([step.title + " " + step.does for step in steps])),
        lines=line_key(figures, figures.by_address().values()),
        figures=figures.by_address(),
    )


def _made(shopping: ShoppingList) -> str:
    """What the amounts are for, where that is more than one."""
    return (
        f"The cloth and all else to buy is for {shopping.items} of them, cut together."
        if shopping.items > 1
        else ""
    )


def _glance(sized: SizedPattern, words: Words) -> tuple[Fact, ...]:
    sides = {str(side.formula) for side in sized.finished}
    rest = [measure for measure in sized.measures if measure.name not in sides]
    facts = [Fact("finished size", words.size())]
    facts += [Fact(measure.name, words.chosen(measure)) for measure in rest]
    facts += [Fact(name, choice) for name, choice in sized.options.items()]
    return (*facts, Fact("skill", sized.skill), Fact("time", sized.time))


def _cut_row(piece: SizedPiece, words: Words) -> CutRow:
    sides = words.number(piece.width), words.number(piece.height)
    says = " ".join(filter(None, (piece.says, *_shape_words(piece, words))))
    return CutRow(piece.name, piece.material, str(piece.cut), *sides, says)


def _shape_words(piece: SizedPiece, words: Words) -> Iterator[str]:
    """What the width and the height of a piece do not say of its shape."""
    yield from (f"Cut out at {told}." for told in cut_outs_told(piece, words.sized.units))
    if piece.shape == "circle" and "circle" not in piece.says.lower():
        yield "A circle."


def _cut_workings(pieces: Iterable[SizedPiece], words: Words) -> tuple[CutWorking, ...]:
    """One working for all pieces whose sides come from the same formulas."""
    names: dict[tuple[Quantity, Quantity], list[str]] = {}
    for piece in pieces:
        names.setdefault((piece.width, piece.height), []).append(piece.name)
    return tuple(
        CutWorking(
            listed(alike),
            (words.working("width", width), words.working("height", height)),
        )
        for (width, height), alike in names.items()
    )


def _marked(sized: SizedPattern, words: Words, figures: Figures, paper: Paper) -> tuple[MarkedPiece, ...]:
    return tuple(
        MarkedPiece(
            name=piece.name,
            cut=f"Cut {piece.cut} from {piece.material}, {words.number(piece.width)} wide "
            f"and {words.number(piece.height)} high",
            figure=figures.add(_marks_drawing(sized, piece, paper), paper.piece),
            marks=tuple(mark_row(mark, piece, words) for mark in piece.marks),
        )
        for piece in sized.pieces
        if piece.marks
    )


def _marks_drawing(sized: SizedPattern, piece: SizedPiece, paper: Paper) -> str:
    """The piece as it lies to be marked, wrong side up, in the room that the page has for it."""
    width, height = round(paper.piece.width * 1000), round(paper.piece.height * 1000)
    return piece_svg(sized, piece, "wrong", width=width, height=height, is_headed=False)
