"""What the page of a size chart shows: all named sizes of a pattern side by side."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from patterns.addresses import choice_in_address, size_query
from patterns.documents.chart_content import Chart, ChartSize, chart_content
from patterns.documents.words import UNIT_WORDS
from patterns.drafting.units import Units
from patterns.forms import MeasureForm
from patterns.sheets import Sheet, sheets


@dataclass(frozen=True, slots=True)
class SizeColumn:
    """The head of a column. query: of the pattern's page at this size."""

    size: ChartSize
    drawing: SafeString | None
    query: str


@dataclass(frozen=True, slots=True)
class AskedChoice:
    """An option as the page asks for it. name, choices, chosen: as the address writes them."""

    name: str
    label: str
    chosen: str
    choices: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class SizesPage:
    """The chart, what it asks, and what leads from it. query: of the pattern's page with these choices.

    other_units, other_query: of this page in the other unit system. notes: what was left out, in words.
    """

    chart: Chart
    asked: tuple[AskedChoice, ...]
    notes: tuple[str, ...]
    columns: tuple[SizeColumn, ...]
    thing: SafeString
    query: str
    other_units: str
    other_query: str
    sheets: tuple[Sheet, ...]

    @property
    def span(self) -> int:
        return len(self.columns) + 1

    @property
    def choices_words(self) -> str:
        """`interfacing light, exterior print one way`"""
        return ", ".join(f"{choice.name} {choice.value}" for choice in self.chart.choices)

    @property
    def news(self) -> str:
        """What changed, for somebody who does not see the table."""
        return f"Size chart with {self.choices_words}."


def sizes_page(form: MeasureForm) -> SizesPage:
    """Return the chart in the units and with the choices of a form; its measures take no part.

    Raises NoDocumentError: the recipe names no sizes.
    """
    recipe, units, options = form.recipe, form.units, form.options
    chart = chart_content(recipe, units, options)
    (other,) = set(Units) - {units}
    return SizesPage(
        chart=chart,
        asked=tuple(
            AskedChoice(
                key,
                str(field.label),
                choice_in_address(chosen.value),
                tuple((choice.key, choice.name) for choice in field.choices),
            )
            for (key, field), chosen in zip(form.chosen.items(), chart.choices, strict=True)
        ),
        notes=(*form.notes, *_wrong_choices(form)),
        columns=tuple(
            SizeColumn(each, _drawing(each.drawing), size_query(recipe, units, each.values, options))
            for each in chart.sizes
        ),
        thing=mark_safe(chart.thing),  # noqa: S308 - our own drawing, its words escaped there
        query=form.choices_query,
        other_units=UNIT_WORDS[other],
        other_query=size_query(recipe, other, {}, options),
        sheets=sheets("chart", units),
    )


def _wrong_choices(form: MeasureForm) -> Iterator[str]:
    for key in form.chosen:
        yield from (f"{error}" for error in form.errors.get(key, ()))


def _drawing(svg: str | None) -> SafeString | None:
    return None if svg is None else mark_safe(svg)  # noqa: S308 - as above
