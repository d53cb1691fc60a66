"""What the page of a pattern shows for one size: finished words, numbers and drawings."""

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from patterns.documents.words import Words, Working
from patterns.drafting.lengths import as_chosen
from patterns.drafting.nearest import nearest_size
from patterns.drafting.sized import SizedCheck, SizedPattern, SizedPiece
from patterns.drafting.sizing import size
from patterns.drawings.errors import DrawingError
from patterns.drawings.finished import BESIDE, NARROW, WIDE, PictureRoom, finished_svg
from patterns.drawings.pieces import piece_svg
from patterns.drawings.prints import Prints
from patterns.fields import OfferedSize
from patterns.forms import MeasureForm
from patterns.templatetags.measures import plain_words

MOVED_LIVE = 1
MOVED_ON_DEMAND = 2
# Page micrometres: so narrow that the names of its marks are still read across a telephone.
PIECE_WIDTH = 90_000


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A piece with its drawing, and how its sides came about."""

    piece: SizedPiece
    drawing: SafeString
    workings: tuple[Working, Working]


@dataclass(frozen=True, slots=True)
class CutDetails:
    """What is drawn and spelled only for whoever reads it: it takes longer than all the rest."""

    pieces: tuple[CutPiece, ...]
    amounts: tuple[Working, ...]


@dataclass(frozen=True, slots=True)
class SizePage:
    """One size as it is shown. pieces: none where it is refused, so that nobody cuts it.

    narrow: the drawing again, with letters that are read on a narrow page.
    left_at_default: the measures that could not be read, and are drawn at their default.
    """

    sized: SizedPattern
    query: str
    drawing: SafeString | None
    narrow: SafeString | None
    pieces: tuple[SizedPiece, ...]
    refusals: tuple[SizedCheck, ...]
    advice: tuple[SizedCheck, ...]
    mend: OfferedSize | None
    looked_further: bool
    left_at_default: tuple[str, ...]

    @property
    def measures_words(self) -> str:
        return size_words(self.sized)

    @property
    def in_order(self) -> tuple[SizedCheck, ...]:
        """The checks that hold, without the ranges, which the boxes name."""
        return tuple(check for check in self.sized.checks if check.holds and check.measure is None)


def size_page(slug: str, form: MeasureForm, prints: Prints | None = None) -> SizePage:
    """Return what is shown for the size of a form; what it could not read is at its default.

    prints: the customer's own cloths, which the item is drawn in.
    """
    sized = sized_by(slug, form)
    is_refused = sized.is_refused
    return SizePage(
        sized=sized,
        query=form.query(),
        drawing=drawing(sized, prints, WIDE),
        narrow=drawing(sized, prints, NARROW),
        pieces=() if is_refused else sized.pieces,
        refusals=tuple(check for check in sized.failed if check.level == "refuse"),
        advice=() if is_refused else sized.failed,
        mend=_mend(form, sized) if is_refused else None,
        looked_further=form.looks_further,
        left_at_default=tuple(each.measure.name for key, each in form.asked.items() if key in form.errors),
    )


def sized_by(slug: str, form: MeasureForm) -> SizedPattern:
    return size(form.recipe, slug, form.units, form.measures, form.options)


def size_words(sized: SizedPattern) -> str:
    """Return the size as it was chosen: `width 8 1⁄2 in, height 6 in`."""
    return ", ".join(
        f"{each.name} {as_chosen(each.value, each.power, sized.units)}" for each in sized.measures
    )


def cut_details(sized: SizedPattern) -> CutDetails | None:
    """Return the drawings of the pieces and every working; None where the size is refused."""
    if sized.is_refused:
        return None
    words = Words(sized)
    return CutDetails(
        pieces=tuple(_cut_piece(sized, piece, words) for piece in sized.pieces),
        amounts=tuple(words.working(each.name, each.quantity) for each in sized.amounts),
    )


def drawing(
    sized: SizedPattern, prints: Prints | None = None, room: PictureRoom = BESIDE
) -> SafeString | None:
    """Return the finished item, drawn to size; None where it could not stand at this size."""
    try:
        return mark_safe(finished_svg(sized, prints, room))  # noqa: S308 - our own drawing, words escaped there
    except DrawingError:
        return None


def _cut_piece(sized: SizedPattern, piece: SizedPiece, words: Words) -> CutPiece:
    workings = words.working("width", piece.width), words.working("height", piece.height)
    drawn = piece_svg(sized, piece, width=PIECE_WIDTH)
    return CutPiece(piece, mark_safe(drawn), workings)  # noqa: S308 - as above


def _mend(form: MeasureForm, sized: SizedPattern) -> OfferedSize | None:
    """The nearest size that works: one measure changed, or two where that was asked for."""
    most_moved = MOVED_ON_DEMAND if form.looks_further else MOVED_LIVE
    found = nearest_size(form.recipe, form.units, form.measures, form.options, most_moved=most_moved)
    if found is None:
        return None
    moved = {each.name: found[each.name] for each in sized.measures if found[each.name] != each.value}
    words = " and ".join(f"{name} {form.written(name, value)}" for name, value in moved.items())
    return form.offered("", words, moved)


def news(page: SizePage) -> str:
    """Return what changed, for somebody who does not see the drawing."""
    units = page.sized.units
    drawn = f"Drawn at {page.measures_words}."
    if page.refusals:
        return f"{drawn} Refused: {plain_words(page.refusals[0].otherwise, units)}"
    if page.advice:
        return f"{drawn} Advice: {plain_words(page.advice[0].otherwise, units)}"
    return f"{drawn} In order."


def mistake_news(form: MeasureForm) -> str:
    """Return the mistakes of a form in words."""
    lines = (
        f"{each.fields[key].label}: {' '.join(map(str, errors))}"
        for each in (form, form.buying)
        for key, errors in each.errors.items()
    )
    return " ".join(lines)
