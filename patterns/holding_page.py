"""What is found from what goes in: the sizes that hold the things, each with its drawing."""

from dataclasses import dataclass
from time import thread_time

from django.utils.safestring import SafeString, mark_safe

from patterns.drafting.errors import HoldingError
from patterns.drafting.gauges import Watch
from patterns.drafting.holding import Holding, held, sizes_that_hold
from patterns.drafting.holding_words import size_words, spare_words
from patterns.drafting.lengths import written
from patterns.drafting.sizing import size
from patterns.drafting.things import Arrangement, RoundSpace, Space
from patterns.drawings.arrangement import arrangement_svg
from patterns.fields import OfferedSize
from patterns.forms import in_a_row
from patterns.holding_form import HoldingForm

MOST_SIZES = 5
# For one answer, of a processor's time, so that nobody keeps the shop busy. The hardest question about a
# starter takes a third of it; only a recipe whose formulas all hang together comes near.
MOST_SECONDS = 1


@dataclass(frozen=True, slots=True)
class HoldingSize:
    """One size that holds the things. offer: puts it into the pattern's page."""

    words: str
    drawing: SafeString
    spare: str
    cloth: str
    offer: OfferedSize


@dataclass(frozen=True, slots=True)
class HeldNow:
    """What the size holds that somebody came from. drawing: None where nothing goes in."""

    words: str
    says: str
    drawing: SafeString | None = None


@dataclass(frozen=True, slots=True)
class HoldingAnswer:
    """asked: what was asked, in words. problem: why there is no answer at all. now: None without a size."""

    asked: str
    sizes: tuple[HoldingSize, ...] = ()
    problem: str = ""
    now: HeldNow | None = None

    @property
    def news(self) -> str:
        """What somebody hears who does not see the page."""
        if self.problem:
            return self.problem
        if not self.sizes:
            return f"No size holds {self.asked}."
        found = "One size holds" if len(self.sizes) == 1 else f"{len(self.sizes)} sizes hold"
        return f"{found} {self.asked}. Least fabric: {self.sizes[0].words}."


def holding_answer(form: HoldingForm) -> HoldingAnswer:
    """Return the answer to a form without mistakes."""
    count, things = form.count, form.things
    each = size_words(things.solid, form.units)
    asked = f"{count:,} things of {each}" if count > 1 else f"one thing of {each}"
    try:
        found = sizes_that_hold(
            form.recipe, form.units, things, count, form.options, form.making, MOST_SIZES, search_watch()
        )
    except HoldingError as error:
        return HoldingAnswer(asked, problem=str(error), now=_now(form))
    return HoldingAnswer(asked, tuple(_size(form, holding) for holding in found), now=_now(form))


def search_watch() -> Watch:
    """Return what ends a search of this thread once it has had its time."""
    end = thread_time() + MOST_SECONDS

    def watch() -> None:
        if thread_time() > end:
            raise HoldingError(
                "Looking for the sizes took too long, so it was ended. Ask for fewer things, or do not let "
                "them be turned."
            )

    return watch


def _now(form: HoldingForm) -> HeldNow | None:
    """Return what the size in the address holds; None if that cannot be read."""
    if not form.has_size:
        return None
    recipe, units = form.recipe, form.units
    measures, words = {**form.size, **form.making}, in_a_row(recipe, units, form.size)
    failed = size(recipe, "", units, measures, form.options).failed
    if refusals := [check.says for check in failed if check.level == "refuse"]:
        return HeldNow(words, f"That size cannot be sewn, so nothing goes in. It fails this: {refusals[0]}")
    try:
        answer = held(recipe, units, form.things, form.options, measures)
    except HoldingError as error:
        return HeldNow(words, str(error))
    if answer.room is None or answer.arrangement is None or answer.spare is None:
        return HeldNow(words, "Not one of them goes in.")
    count = f"{answer.count:,} of them go in" if answer.count > 1 else "One of them goes in"
    drawing = _drawing(form, answer.room, answer.arrangement, answer.count)
    return HeldNow(words, f"{count}. {spare_words(answer.spare, answer.room, units)}", drawing)


def _drawing(form: HoldingForm, room: Space | RoundSpace, arrangement: Arrangement, count: int) -> SafeString:
    drawing = arrangement_svg(form.recipe.title, room, arrangement, count, form.units)
    return mark_safe(drawing)  # noqa: S308 - our own drawing, its words escaped there


def _size(form: HoldingForm, holding: Holding) -> HoldingSize:
    units = form.units
    words = in_a_row(form.recipe, units, holding.measures)
    return HoldingSize(
        words=words,
        drawing=_drawing(form, holding.room, holding.arrangement, form.count),
        spare=spare_words(holding.spare, holding.room, units),
        cloth=written(holding.area, 2, units).text,
        offer=form.settings.found(words, holding.measures),
    )
