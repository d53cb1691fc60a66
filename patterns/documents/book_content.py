"""What stands in an instruction book: words, numbers, drawings, all decided before a page is set."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from patterns.cutting.book_list import book_list
from patterns.cutting.listing import ShoppingList
from patterns.drafting.sized import (
    Quantity,
    SizedMark,
    SizedPattern,
    SizedPiece,
    SizedStep,
)
from patterns.drawings.cut_outs import cut_outs_told
from patterns.drawings.figures import figure_of
from patterns.drawings.finished import finished_svg
from patterns.drawings.flat import flat_svg
from patterns.drawings.folding import FoldingError, Followed, follow
from patterns.drawings.pieces import piece_svg
from patterns.drawings.small_piece import small_piece_svg

from .errors import DocumentError
from .figures import Box, Figure, Figures, css_length
from .glossary import Term, terms_in
from .layouts import CutLayout, cut_layouts
from .needs import NeedGroup, needs
from .paper import Paper
from .words import UNIT_WORDS, Words, Working, day_in_words, listed

# Room for what stands under a drawing: two lines across the column, five where two drawings stand abreast.
CAPTION_MM = {False: 12, True: 22}
# So many drawings stand in a row beside a step that has more than one.
ABREAST = 2
# So many rows of distances stand on a page under a drawing, its heading and the section's own beginning.
MOST_ROWS = 14
MARK_KINDS = {
    "fold": "fold line",
    "stitch": "stitching line",
    "opening": "opening",
    "clip": "clip",
    "place": "placement",
}


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
class Distance:
    """One thing to measure for a mark. what: empty, or `starts`, `ends`."""

    what: str
    edge: str
    far: str
    working: str


@dataclass(frozen=True, slots=True)
class MarkRow:
    name: str
    kind: str
    says: str
    distances: tuple[Distance, ...]

    @property
    def span(self) -> str:
        """The rows it takes in a table."""
        return str(len(self.distances))


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
class Caution:
    """steps: where it applies, `Steps 3 and 7`; empty where no step names it."""

    title: str
    says: str
    steps: str


@dataclass(frozen=True, slots=True)
class Shown:
    """What stands beside a step: a figure of what it does and what that shows, or a piece and its size."""

    figure: Figure
    name: str
    size: str


@dataclass(frozen=True, slots=True)
class Step:
    """cautions: those that no step before it gave. again: the others, with the step that gives each."""

    number: str
    title: str
    does: str
    shows: tuple[Shown, ...]
    cautions: tuple[Caution, ...]
    again: str

    @property
    def least_height(self) -> str:
        """The height that its drawings and their captions take beside the words, row under row."""
        caption = CAPTION_MM[len(self.shows) > 1]
        rows = (self.shows[start : start + ABREAST] for start in range(0, len(self.shows), ABREAST))
        return css_length(sum(max(piece.figure.height_mm for piece in row) + caption for row in rows))


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
    terms: tuple[Term, ...]
    figures: Mapping[str, str]


def book_content(sized: SizedPattern, paper: Paper, shopping: ShoppingList | None = None) -> Book:
    """Return what the book of one sized pattern says, for one paper.

    shopping: what is bought for it, kept with an order; the usual cloth if none is given.
    Raises DocumentError: the size is refused, or a number that the book needs has no value.
    """
    if sized.is_refused:
        raise DocumentError("A size that is refused has no book: " + sized.failed[0].says)
    shopping = book_list(sized) if shopping is None else shopping
    figures = Figures()
    words = Words(sized)
    cautions = _cautions(sized)
    steps = _steps(sized, words, figures, paper, cautions)
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
        cover=figures.add(finished_svg(sized), paper.cover, may_grow=True),
        flat=None if (flat := flat_svg(sized)) is None else figures.add(flat, paper.flat),
        glance=_glance(sized, words),
        tells=tuple(words.text(tell) for tell in sized.tells),
        advice=tuple(words.text(check.otherwise) for check in sized.failed),
        cautions=cautions,
        made=_made(shopping),
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
        terms=terms_in(" ".join([step.title + " " + step.does for step in steps])),
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


def _cautions(sized: SizedPattern) -> tuple[Caution, ...]:
    """Every caution, with the numbers of the steps where it matters."""
    places: dict[str, list[str]] = {caution.name: [] for caution in sized.cautions}
    for number, step in enumerate(sized.steps, 1):
        for name in step.cautions:
            places[name].append(str(number))
    return tuple(
        Caution(caution.name, caution.says, _places(places[caution.name])) for caution in sized.cautions
    )


def _places(numbers: list[str]) -> str:
    if not numbers:
        return ""
    return f"Step {numbers[0]}" if len(numbers) == 1 else f"Steps {listed(numbers)}"


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
            marks=tuple(_mark_row(mark, words) for mark in piece.marks),
        )
        for piece in sized.pieces
        if piece.marks
    )


def _marks_drawing(sized: SizedPattern, piece: SizedPiece, paper: Paper) -> str:
    """The piece as it lies to be marked, wrong side up, in the room that the page has for it."""
    width, height = round(paper.piece.width * 1000), round(paper.piece.height * 1000)
    return piece_svg(sized, piece, "wrong", width=width, height=height, is_headed=False)


def _mark_row(mark: SizedMark, words: Words) -> MarkRow:
    distances = tuple(_distance(what, edge, far, words) for what, edge, far in _measured(mark) if far)
    return MarkRow(mark.name, MARK_KINDS[mark.kind], mark.says, distances)


def _measured(mark: SizedMark) -> Iterator[tuple[str, str, Quantity | None]]:
    """What to measure for a mark, the line's place first, then its ends, measured the other way."""
    yield "", "top edge", mark.down_from_top
    yield "", "left edge", mark.in_from_left
    yield "", "raw edge, all round", mark.inside
    ends = "left edge" if mark.down_from_top else "top edge"
    yield "begins", ends, mark.start
    yield "ends", ends, mark.end


def _distance(what: str, edge: str, far: Quantity, words: Words) -> Distance:
    return Distance(what, edge, words.number(far), words.working(edge, far).numbers)


def _steps(
    sized: SizedPattern, words: Words, figures: Figures, paper: Paper, cautions: Iterable[Caution]
) -> tuple[Step, ...]:
    said = {caution.title: caution for caution in cautions}
    first: dict[str, int] = {}
    for number, step in enumerate(sized.steps, 1):
        for name in step.cautions:
            first.setdefault(name, number)
    pieces = {piece.name: piece for piece in sized.pieces}

    # The same piece stands with many steps, and laying out the names on it takes time: it is drawn once.
    @cache
    def shown(name: str, room: Box) -> Shown:
        return _shown(pieces[name], room, sized, words, figures)

    def beside(step: SizedStep, told: Followed) -> tuple[Shown, ...]:
        figure = figure_of(sized, step, told)
        if figure:
            return (Shown(figures.add(figure.svg, paper.step), figure.caption, ""),)
        return tuple(shown(name, room) for name, room in _rooms(step.shows, pieces, paper))

    return tuple(
        Step(
            number=str(number),
            title=step.title,
            does=words.text(step.does),
            shows=beside(step, told),
            cautions=tuple(said[name] for name in step.cautions if first[name] == number),
            again=listed(f"{name} (step {first[name]})" for name in step.cautions if first[name] < number),
        )
        for number, (step, told) in enumerate(zip(sized.steps, _followed(sized), strict=True), 1)
    )


def _followed(sized: SizedPattern) -> tuple[Followed, ...]:
    try:
        return follow(sized)
    except FoldingError as error:
        raise DocumentError(f"The steps cannot be followed at this size. {error}") from None


def _rooms(names: Iterable[str], pieces: Mapping[str, SizedPiece], paper: Paper) -> Iterator[tuple[str, Box]]:
    """The pieces of a step that exist at this size: one across its column, more of them two abreast."""
    there = [name for name in names if name in pieces]
    room = paper.step if len(there) == 1 else paper.half_step
    return ((name, room) for name in there)


def _shown(piece: SizedPiece, room: Box, sized: SizedPattern, words: Words, figures: Figures) -> Shown:
    width, height = round(room.width * 1000), round(room.height * 1000)
    return Shown(
        figure=figures.add(small_piece_svg(sized, piece, width, height), room),
        name=piece.name,
        size=f"{words.number(piece.width)} × {words.number(piece.height)}",
    )
