"""What is found from the cloth somebody has: the largest size, why no larger one, how it is cut."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from time import thread_time

from django.utils.safestring import SafeString, mark_safe

from patterns.cloth_form import ClothForm
from patterns.cloth_words import counted_cloth, fewer_than_fabrics, why_not
from patterns.cutting.best_found import best_found
from patterns.cutting.errors import CuttingError, EndedError
from patterns.cutting.from_cloth import FromCloth
from patterns.cutting.known_cloth import known_cloth
from patterns.cutting.sharing import Cloth
from patterns.drafting.gauges import Watch
from patterns.drafting.lists import listed
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drawings.laid_cloth import LaidCloth, LaidPiece
from patterns.drawings.layout import layout_svg
from patterns.fields import OfferedSize, capitalised
from patterns.forms import in_a_row

# For one answer, of a processor's time, so that nobody keeps the shop busy.
MOST_SECONDS = 1
# A drawing in page micrometres, so narrow that its letters are still read on a telephone.
DRAWING_WIDTH, DRAWING_HEIGHT = 78_000, 96_000


@dataclass(frozen=True, slots=True)
class SheetDrawn:
    """One piece of cloth with what is cut from it."""

    name: str
    drawing: SafeString


@dataclass(frozen=True, slots=True)
class ClothAnswer:
    """asked: the cloth, in words. problem: why there is no answer at all. says: what is known, in sentences.

    offer: puts the size that was found into the pattern's page; None for none. still_open: sizes of which
    nothing is known.
    """

    asked: str
    title: str = ""
    says: tuple[str, ...] = ()
    offer: OfferedSize | None = None
    sheets: tuple[SheetDrawn, ...] = ()
    still_open: tuple[str, ...] = ()
    unused: str = ""
    problem: str = ""

    @property
    def news(self) -> str:
        """What somebody hears who does not see the page."""
        return self.problem or f"{self.title}. {' '.join(self.says)}"


def cloth_answer(slug: str, form: ClothForm) -> ClothAnswer:
    """Return the answer to a form without mistakes."""
    cloth = form.cloth
    asked = counted_cloth(cloth, form.units)
    try:
        found = best_found(form.recipe, form.units, cloth, form.keep, form.measures, form.options, _watch())
    except CuttingError as error:
        return ClothAnswer(asked, problem=str(error))
    answer = _Answer(slug, form, cloth, asked, found)
    return answer.none() if found.measures is None else answer.found_one(found.measures)


def _watch() -> Watch:
    """Return what ends a search of this thread once it has had its time."""
    end = thread_time() + MOST_SECONDS

    def watch() -> None:
        if thread_time() > end:
            raise EndedError("The search for a size had its time.")

    return watch


@dataclass(frozen=True, slots=True)
class _Answer:
    slug: str
    form: ClothForm
    cloth: Sequence[Cloth]
    asked: str
    found: FromCloth

    def none(self) -> ClothAnswer:
        if self.found.was_ended:
            says = [
                "The search took as long as a page may take, and was ended before a size was found. "
                "Larger cloth, or keeping the proportions, is answered sooner."
            ]
            return ClothAnswer(self.asked, f"No size found yet for {self.asked}", tuple(says))
        if not self.found.proved:
            says = ["No size was laid out on it."]
        else:
            says = ["Every size of this pattern is ruled out: none can be cut from it."]
        says += fewer_than_fabrics(self._sized({}), self.cloth)
        return ClothAnswer(
            self.asked, f"No size from {self.asked}", (*says, *self._open_words()), still_open=self._open()
        )

    def found_one(self, measures: Mapping[str, Fraction]) -> ClothAnswer:
        words = self._row(measures)
        kind = "The largest size" if self.found.proved else "The largest size found"
        used = {each.sheet for each in self.found.placements}
        unused = [str(number + 1) for number in range(len(self.cloth)) if number not in used]
        return ClothAnswer(
            self.asked,
            f"{kind} from {self.asked}: {words}",
            (*self._why(), *self._open_words()),
            offer=self.form.settings.found(words, measures),
            sheets=tuple(self._sheets(self._sized(measures), sorted(used))),
            still_open=self._open(),
            unused=f"Nothing is cut from cloth {listed(unused, 'and')}." if unused else "",
        )

    def _sized(self, measures: Mapping[str, Fraction]) -> SizedPattern:
        form = self.form
        return size(form.recipe, self.slug, form.units, {**form.measures, **measures}, form.options)

    def _row(self, measures: Mapping[str, Fraction]) -> str:
        grow = {measure.name for measure in self.form.grow}
        return in_a_row(
            self.form.recipe, self.form.units, {name: each for name, each in measures.items() if name in grow}
        )

    def _why(self) -> list[str]:
        """Why it is no larger."""
        found = self.found
        if found.was_ended:
            return [
                "This is the best found in the time that a page may take; larger sizes are not ruled out."
            ]
        if found.larger is None:
            return ["It is the largest size of this pattern."]
        words = self._row(found.larger)
        if found.larger in found.still_open:
            return [f"Of the next size, {words}, no layout was found; that there is none could not be shown."]
        reason = why_not(self._sized(found.larger), self.cloth, self.form.units)
        says = [f"The next size, {words}, is not possible: {reason}"]
        return [*says, "Every size larger than that is ruled out as well."] if found.proved else says

    def _open(self) -> tuple[str, ...]:
        return tuple(self._row(each) for each in self.found.still_open)

    def _open_words(self) -> list[str]:
        count, shown = self.found.how_many_open, len(self.found.still_open)
        if not count:
            return []
        if count == 1:
            return ["One larger size was neither laid out nor ruled out:"]
        first = f"; the first {shown} are" if count > shown else ""
        return [f"{count:,} larger sizes were neither laid out nor ruled out{first}:"]

    def _sheets(self, sized: SizedPattern, used: Sequence[int]) -> list[SheetDrawn]:
        found = []
        for number in used:
            cloth = self._laid_cloth(sized, number)
            drawing = layout_svg(
                cloth, self.form.units, width=DRAWING_WIDTH, height=DRAWING_HEIGHT, is_headed=False
            )
            found.append(SheetDrawn(cloth.name, mark_safe(drawing)))  # noqa: S308 - our own, words escaped
        return found

    def _laid_cloth(self, sized: SizedPattern, number: int) -> LaidCloth:
        pieces = {piece.name: piece for piece in sized.pieces}
        laid = [each for each in self.found.placements if each.sheet == number]
        sheet = self.cloth[number]
        known = known_cloth(sheet.width, sheet.height)
        name = capitalised(laid[0].material)
        if len(self.cloth) > 1:
            name = f"Cloth {number + 1}: {laid[0].material}"
        drawn = []
        for each in laid:
            piece = pieces[each.piece]
            # As large as it lies: an irrational side is a hair larger than it is.
            sides = (each.height, each.width) if each.turned else (each.width, each.height)
            tint = sized.materials_by_name[each.material].tint
            corners = piece.corners if piece.outline else ()
            drawn.append(LaidPiece(piece.name, tint, *sides, each.x, each.y, each.turned, corners))
        return LaidCloth(
            name,
            sheet.width,
            sheet.height,
            drawn,
            left="selvedge" if known else "cut edge",
            right="selvedge" if known and known.selvedges == 2 else "cut edge",
        )
