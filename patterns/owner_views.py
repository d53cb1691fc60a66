"""The designer's pages: which sizes of each pattern are refused, advised against and good."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render

from patterns.drafting.recipe import Recipe
from patterns.models import Pattern, Revision
from patterns.owners import owners_page
from patterns.range_form import AxesForm, axes_query, others_form
from patterns.range_page import other_charts, range_page
from patterns.views import usual_units
from studio.htmx import render_page_or_part


@owners_page("patterns.view_pattern")
def range_list(request: HttpRequest) -> HttpResponse:
    patterns = Pattern.objects.with_latest_revision()
    return render(request, "patterns/range_list.html", {"patterns": patterns})


@owners_page("patterns.view_pattern")
def range_chart(request: HttpRequest, slug: str) -> HttpResponse:
    """The range of a pattern over the two measures in the address; none while there are mistakes in it."""
    revisions = Revision.objects.latest_of_each().without_text().select_related("pattern")
    revision = get_object_or_404(revisions, pattern__slug=slug)
    context = {"pattern": revision.pattern, **_chart(request, revision.pattern, revision.recipe)}
    return render_page_or_part(
        request, "patterns/range_chart.html", "patterns/partials/range_part.html", context
    )


def _chart(request: HttpRequest, pattern: Pattern, recipe: Recipe) -> dict[str, object]:
    """What the page reads: the two forms, and the chart where both are without a mistake."""
    if len(recipe.measures) < 2:
        return {"has_one_measure": True}
    axes = AxesForm(recipe, request.GET)
    pair = axes.pair
    form = others_form(recipe, request.GET, usual_units(request), pair)
    is_right = axes.is_valid() and form.is_valid()
    return {
        "axes": axes,
        "form": form,
        "units": form.units,
        "others": [form[key] for key, field in form.asked.items() if field.measure.name not in pair],
        "axes_query": axes_query(pair) if axes.is_valid() else "",
        "charts": other_charts(form, pair) if is_right else [],
        "page": range_page(pattern.title, form, pair) if is_right else None,
    }
