"""The ways to choose a size on the pattern's page: by measures, from the chart, from contents, from cloth."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from django.http import HttpRequest

from patterns.addresses import BY_CHART, BY_CLOTH, BY_CONTENTS, BY_KEY, CLOTH_KEYS, THING_KEYS
from patterns.cloth_form import ClothForm, fabrics_of
from patterns.cloth_page import ClothAnswer, cloth_answer
from patterns.drafting.recipe import Recipe
from patterns.fields import OfferedSize
from patterns.forms import MeasureForm
from patterns.holding_form import HoldingForm
from patterns.holding_page import HoldingAnswer, holding_answer
from patterns.one_at_a_time import BusyError, one_at_a_time

BY_MEASURES = "measures"
NAMES = {
    BY_MEASURES: "By its measures",
    BY_CHART: "From the size chart",
    BY_CONTENTS: "From what goes in",
    BY_CLOTH: "From the cloth you have",
}
_OWN_KEYS: Mapping[str, tuple[str, ...]] = {BY_CONTENTS: THING_KEYS, BY_CLOTH: CLOTH_KEYS}


@dataclass(frozen=True, slots=True)
class Way:
    """One way, as a link offers it. query: of the pattern's page, the size and all that was typed kept."""

    by: str
    name: str
    query: str
    is_chosen: bool


@dataclass(frozen=True, slots=True)
class NamedSize:
    """A size of the chart. is_shown: whether the page shows it now."""

    offer: OfferedSize
    is_shown: bool


@dataclass(frozen=True, slots=True)
class WaysPage:
    """The ways of a pattern, and the chosen one. kept: what the address holds of ways that are not shown.

    search: what is asked to look for a size; None where the way needs no search. answer: None where nothing
    was looked for. wanting: what must be mended first. is_busy: another search of this visitor is running.
    """

    by: str
    ways: tuple[Way, ...]
    kept: tuple[tuple[str, str], ...]
    sizes: tuple[NamedSize, ...] = ()
    search: HoldingForm | ClothForm | None = None
    answer: HoldingAnswer | ClothAnswer | None = None
    wanting: str = ""
    is_busy: bool = False

    @property
    def news(self) -> str:
        """What somebody hears who does not see the page."""
        if self.is_busy:
            return "A search of yours is still running."
        return self.wanting or (self.answer.news if self.answer else "")


def ways_of(recipe: Recipe) -> tuple[str, ...]:
    """Return the ways in which a size of the recipe can be chosen."""
    can = {
        BY_MEASURES: True,
        BY_CHART: bool(recipe.sizes),
        BY_CONTENTS: recipe.holds is not None,
        BY_CLOTH: bool(fabrics_of(recipe)),
    }
    return tuple(by for by in NAMES if can[by])


def ways_page(request: HttpRequest, slug: str, form: MeasureForm, *, look: bool) -> WaysPage:
    """Return the ways, and what the one of the address asks. A way that the pattern has not is as none.

    look: answer a search too, for at most a second, one at a time for a visitor.
    """
    ways = ways_of(form.recipe)
    by = form.by if form.by in ways else BY_MEASURES
    offered = tuple(Way(each, NAMES[each], _query(form, each), each == by) for each in ways)
    shown = _OWN_KEYS.get(by, ())
    kept = tuple((key, texts[-1]) for key, texts in form.searched.items() if key not in shown)
    if by != BY_MEASURES:
        kept = ((BY_KEY, by), *kept)
    if by == BY_CHART:
        return WaysPage(by, offered, kept, sizes=tuple(_named(form)))
    if by == BY_MEASURES:
        return WaysPage(by, offered, kept)
    search = HoldingForm(form) if by == BY_CONTENTS else ClothForm(form)
    if not look or not search.is_asked or not search.is_valid():
        return WaysPage(by, offered, kept, search=search)
    if not form.is_valid():
        return WaysPage(by, offered, kept, search=search, wanting=form.wanting_words)
    try:
        with one_at_a_time(request):
            answer = _answer(search, slug)
    except BusyError:
        return WaysPage(by, offered, kept, search=search, is_busy=True)
    return WaysPage(by, offered, kept, search=search, answer=answer)


def _query(form: MeasureForm, by: str) -> str:
    return form.page_query(by="" if by == BY_MEASURES else by)


def _named(form: MeasureForm) -> Iterator[NamedSize]:
    """Yield the sizes of the chart, with all else as it is in the form."""
    for named, offer in zip(form.recipe.sizes, form.starting_sizes, strict=True):
        own = named.values[form.units]
        yield NamedSize(offer, all(form.measures.get(name) == value for name, value in own.items()))


def _answer(search: HoldingForm | ClothForm, slug: str) -> HoldingAnswer | ClothAnswer:
    return holding_answer(search) if isinstance(search, HoldingForm) else cloth_answer(slug, search)
