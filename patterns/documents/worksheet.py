"""The worksheet: one page on which a size is worked out by hand, for one paper."""

from collections.abc import Mapping

from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units

from .one_sheet import one_sheet
from .paper import PaperName
from .worksheet_content import worksheet_content

SETTINGS = (
    "upright-{} roomy",
    "upright-{} close",
    "upright-{} tight",
    "upright-{} dense",
    "upright-{0} whole-{0} dense",
)


def body(recipe: Recipe, units: Units, paper: PaperName, options: Mapping[str, str] | None = None) -> bytes:
    """Return the worksheet as a PDF/UA-1; the same bytes for the same arguments.

    Raises NoDocumentError: the default size is refused with these options. SizingError: no such option.
    """
    sheet = worksheet_content(recipe, units, options)
    settings = [setting.format(paper) for setting in SETTINGS]
    return one_sheet("worksheet", settings, {"sheet": sheet}, {})
