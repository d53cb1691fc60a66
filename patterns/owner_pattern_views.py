"""The owner's patterns: begun, published, shown in the shop or not; and how a recipe is written."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render

from patterns.begin_form import BeginForm
from patterns.guide import example_text
from patterns.guide.parts import FORMULAS, PARTS
from patterns.guide.work import words
from patterns.models import Draft, Pattern
from patterns.owners import owners_act, owners_form, owners_page
from studio.htmx import redirect_page


@owners_form("patterns.add_pattern")
def owner_patterns(request: HttpRequest) -> HttpResponse:
    """All patterns, and the form that begins another."""
    form = BeginForm(request.POST if request.method == "POST" else None)
    if form.is_valid() and (pattern := form.begin()):
        return redirect_page(request, "orders:pattern-revise", pattern.slug)
    drafts = set(Draft.objects.values_list("pattern_id", flat=True))
    patterns = [(each, each.pk in drafts) for each in Pattern.objects.with_latest_revision()]
    return render(request, "patterns/owner_patterns.html", {"patterns": patterns, "form": form})


@owners_act("patterns.change_pattern")
def pattern_listing(request: HttpRequest, slug: str) -> HttpResponse:
    """Show a published pattern in the shop, or take it off the list. What was sold stays as it is."""
    pattern = get_object_or_404(Pattern.objects.published(), slug=slug)
    pattern.is_listed = request.POST.get("listed") == "yes"
    pattern.save(update_fields=("is_listed",))
    where = "is shown in the shop now" if pattern.is_listed else "is off the list now, and its page is closed"
    messages.success(request, f"{pattern} {where}.")
    return redirect_page(request, "patterns:owner-patterns")


@owners_page("patterns.view_pattern")
def recipe_guide(request: HttpRequest) -> HttpResponse:
    """How a recipe is written: each part and key, the formulas, what steps may say, a whole example."""
    context = {"parts": PARTS, "formulas": FORMULAS, "words": list(words()), "example": example_text()}
    return render(request, "patterns/recipe_guide.html", context)
