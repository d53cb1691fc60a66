"""The steps of a book: words, figures and cautions, the same on paper and on a page of the shop."""

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from math import ceil

from patterns.drafting.sized import SizedPattern, SizedPiece, SizedStep
from patterns.drawings.figures import figure_of
from patterns.drawings.folding import FoldingError, Followed, follow
from patterns.drawings.small_piece import small_piece_svg

from .errors import DocumentError
from .figures import Box, Figure, Figures
from .paper import Paper
from .typeset import held_steps
from .words import Words, listed

# Room for what stands under a drawing: two lines across the column, five where two drawings stand abreast.
CAPTION_MM = {False: 12, True: 22}
# So many drawings stand in a row beside a step that has more than one.
ABREAST = 2


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

    @property
    def caption(self) -> str:
        """What stands under it, in one line."""
        return f"{self.name[:1].upper()}{self.name[1:]}, {self.size}" if self.size else self.name


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
    def room(self) -> int:
        """The height that its drawings and their captions take beside the words, row under row: even mm.

        Steps of one height are styled once: of a book's time a fiftieth.
        """
        caption = CAPTION_MM[len(self.shows) > 1]
        rows = (self.shows[start : start + ABREAST] for start in range(0, len(self.shows), ABREAST))
        return 2 * ceil(sum(max(piece.figure.height_mm for piece in row) + caption for row in rows) / 2)


def book_cautions(sized: SizedPattern) -> tuple[Caution, ...]:
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
    return held_steps(f"Step {numbers[0]}" if len(numbers) == 1 else f"Steps {listed(numbers)}")


def book_steps(
    sized: SizedPattern,
    words: Words,
    figures: Figures,
    paper: Paper,
    cautions: Iterable[Caution],
    only: Container[int] | None = None,
) -> tuple[Step, ...]:
    """Return the steps with their figures, which `figures` collects.

    only: the numbers of the steps that are wanted, from 1; all if none is given. No other figure is drawn.
    Raises DocumentError: the cloth cannot do at this size what the steps tell.
    """
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
            again=listed(
                f"{name} ({held_steps(f'step {first[name]}')})"
                for name in step.cautions
                if first[name] < number
            ),
        )
        for number, (step, told) in enumerate(zip(sized.steps, _followed(sized), strict=True), 1)
        if only is None or number in only
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
