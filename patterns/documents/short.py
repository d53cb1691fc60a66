"""The short form of a book: cut list, layouts and checks, for one paper."""

from collections.abc import Sequence

from patterns.cutting.listing import ShoppingList
from patterns.drafting.sized import SizedPattern

from .one_sheet import one_sheet, pages_of
from .paper import PAPERS, PaperName
from .short_content import Short, short_content

SETTINGS = ("upright-{} roomy", "upright-{} close", "upright-{} tight", "upright-{} dense")
PAGES = 2


def body(sized: SizedPattern, paper: PaperName, shopping: ShoppingList | None = None) -> bytes:
    """Return the short form as a PDF/UA-1, without the customer's line. Arguments as those of `book.body`.

    Raises DocumentError as that does.
    """
    settings = [setting.format(paper) for setting in SETTINGS]
    made = _set(short_content(sized, PAPERS[paper], shopping), settings)
    if pages_of(made) <= PAGES:
        return made
    # Only lower drawings of the cloth are left to make room.
    return _set(short_content(sized, PAPERS[paper], shopping, is_low=True), settings[-1:])


def _set(short: Short, settings: Sequence[str]) -> bytes:
    return one_sheet("short", settings, {"short": short, "book": short.book}, short.figures, PAGES)
