"""The steps of a book for a screen: one at a time beside the machine, or the first few as a taste."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from patterns.drafting.sized import SizedPattern, SizedPiece, SizedStep

from .book_steps import Caution, Step, book_cautions, book_steps
from .figures import Figures
from .glossary import Term, terms_in
from .mark_rows import MarkRow, mark_row
from .paper import PAPERS
from .words import Words, listed

# Drawings for a screen are those of this paper: in the book they differ by paper in nothing but their room.
PAPER = PAPERS["a4"]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing with the line under it."""

    drawing: SafeString
    caption: str


@dataclass(frozen=True, slots=True)
class StepDrawn:
    """A step as the book has it, its drawings in hand."""

    step: Step
    drawn: tuple[Drawn, ...]


@dataclass(frozen=True, slots=True)
class PieceAtHand:
    """A piece that a step is about, or several alike: the cut size, and the marks that it works with."""

    name: str
    size: str
    marks: tuple[MarkRow, ...]


@dataclass(frozen=True, slots=True)
class StepScreen:
    """One step by itself. cautions: all that it has, in full, as no other step is in sight.

    titles: of all steps, in their order.
    """

    number: int
    shown: StepDrawn
    cautions: tuple[Caution, ...]
    pieces: tuple[PieceAtHand, ...]
    terms: tuple[Term, ...]
    titles: tuple[str, ...]

    @property
    def count(self) -> int:
        return len(self.titles)

    @property
    def before(self) -> int | None:
        return self.number - 1 if self.number > 1 else None

    @property
    def after(self) -> int | None:
        return self.number + 1 if self.number < self.count else None


def first_steps(sized: SizedPattern, count: int) -> tuple[StepDrawn, ...]:
    """Return the first steps. Raises DocumentError as `book_steps` does."""
    return _drawn_steps(sized, Words(sized), range(1, count + 1))


def step_screen(sized: SizedPattern, number: int) -> StepScreen:
    """Return one step for a screen of its own. number: from 1 to the number of steps.

    Raises DocumentError as `book_steps` does.
    """
    words = Words(sized)
    step = sized.steps[number - 1]
    (shown,) = _drawn_steps(sized, words, (number,))
    return StepScreen(
        number=number,
        shown=shown,
        cautions=tuple(each for each in book_cautions(sized) if each.title in step.cautions),
        pieces=_at_hand(sized, step, words),
        terms=terms_in(f"{shown.step.title} {shown.step.does}"),
        titles=tuple(each.title for each in sized.steps),
    )


def _drawn_steps(sized: SizedPattern, words: Words, numbers: range | tuple[int]) -> tuple[StepDrawn, ...]:
    figures = Figures()
    steps = book_steps(sized, words, figures, PAPER, book_cautions(sized), only=numbers)
    svgs = figures.by_address()
    return tuple(
        StepDrawn(step, tuple(Drawn(_safe(svgs[each.figure.address]), each.caption) for each in step.shows))
        for step in steps
    )


def _safe(svg: str) -> SafeString:
    return mark_safe(svg)  # noqa: S308 - our own drawing, its words escaped there


def _at_hand(sized: SizedPattern, step: SizedStep, words: Words) -> tuple[PieceAtHand, ...]:
    """The pieces of a step that exist at this size; those that are cut and marked alike together."""
    alike: dict[tuple[str, tuple[MarkRow, ...]], list[str]] = {}
    pieces = {piece.name: piece for piece in sized.pieces}
    for piece in (pieces[name] for name in step.shows if name in pieces):
        size = f"{words.number(piece.width)} wide, {words.number(piece.height)} high"
        alike.setdefault((size, tuple(_marks_of(piece, step, words))), []).append(piece.name)
    return tuple(PieceAtHand(listed(names), size, marks) for (size, marks), names in alike.items())


def _marks_of(piece: SizedPiece, step: SizedStep, words: Words) -> Iterator[MarkRow]:
    """The marks of a piece that a step names; in a seam the cloth's name stands before the mark's."""
    named = [name for act in step.work for _, names in act.names for name in names]
    for mark in piece.marks:
        if any(name == mark.name or name.endswith(f" {mark.name}") for name in named):
            yield mark_row(mark, piece, words)
