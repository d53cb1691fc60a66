"""The size chart: all named sizes of a recipe on one sheet, for one paper."""

from collections.abc import Mapping
from dataclasses import dataclass

from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units

from .chart_content import DRAWING, Chart, ChartGroup, ChartSize, chart_content
from .figures import Box, Figure, Figures
from .one_sheet import one_sheet
from .paper import PaperName

# More columns than these leave no room for their numbers; further sizes stand in a table under the first.
MOST_ABREAST = 6
# More than these need smaller drawings.
FEW_ABREAST = 4
# Across the paper a column is wide; a chart of many rows stands upright, in larger letters than it would lie.
SETTINGS = (
    "across-{} roomy",
    "across-{} close",
    "upright-{} close",
    "upright-{} tight",
    "upright-{0} whole-{0} dense",
)
# mm. The style sheet sets the size at which drawings are printed.
ROOM = Box(*(side / 1000 for side in DRAWING))


@dataclass(frozen=True, slots=True)
class Column:
    """The head of a column: a size and its drawing; None where it could not stand."""

    size: ChartSize
    figure: Figure | None


@dataclass(frozen=True, slots=True)
class Part:
    """As much of the chart as stands abreast. span: of a line over all columns, the names' too.

    look: classes of its table.
    """

    columns: tuple[Column, ...]
    groups: tuple[ChartGroup, ...]
    span: str
    look: str


def body(recipe: Recipe, units: Units, paper: PaperName, options: Mapping[str, str] | None = None) -> bytes:
    """Return the chart as a PDF/UA-1; the same bytes for the same arguments.

    Raises NoDocumentError: the recipe names no sizes. SizingError: no such option or choice.
    """
    chart = chart_content(recipe, units, options)
    figures = Figures()
    content = {
        "chart": chart,
        "thing": figures.add(chart.thing, ROOM),
        "parts": tuple(_part(part, figures) for part in chart.abreast(MOST_ABREAST)),
    }
    settings = [setting.format(paper) for setting in SETTINGS]
    return one_sheet("chart", settings, content, figures.by_address())


def _part(part: Chart, figures: Figures) -> Part:
    columns = (Column(each, figures.add(each.drawing, ROOM) if each.drawing else None) for each in part.sizes)
    look = "chart many" if len(part.sizes) > FEW_ABREAST else "chart"
    return Part(tuple(columns), part.groups, str(len(part.sizes) + 1), look)
