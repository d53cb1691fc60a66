"""Revising a pattern: the text is written, whom it concerns is looked at, and then it is published."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone

from orders.concerned import concerned
from orders.correcting import publish_revision, tell_later, untold
from patterns.draft_form import DraftForm
from patterns.models import Draft, Pattern, Revision
from patterns.owners import owners_form
from patterns.publishing import PublishingError, sellable
from studio.htmx import redirect_page

THEN_TOLD = "The worker looks at what was sold, and writes to those whom it concerns."
NOT_TOLD = "Nobody is told; you can do that later, below."


@owners_form("patterns.add_revision")
def pattern_revise(request: HttpRequest, slug: str) -> HttpResponse:
    """The text of the next revision. What was typed is kept, whether it has mistakes or none."""
    pattern = get_object_or_404(Pattern, slug=slug)
    draft = Draft.objects.filter(pattern=pattern).first()
    if request.method != "POST":
        latest = pattern.latest_revision
        first = {"text": draft.text if draft else latest.text if latest else ""}
        form = DraftForm(pattern, initial={**first, "reason": draft.reason if draft else ""})
        return _revise_page(request, pattern, form, draft)
    form = DraftForm(pattern, request.POST)
    is_right = form.is_valid()
    draft = form.keep()
    if is_right:
        return redirect_page(request, "orders:revision-check", pattern.slug)
    return _revise_page(request, pattern, form, draft)


def _revise_page(
    request: HttpRequest, pattern: Pattern, form: DraftForm, draft: Draft | None
) -> HttpResponse:
    context = {"pattern": pattern, "form": form, "draft": draft, "latest": form.latest}
    return render(request, "orders/pattern_revise.html", context)


@owners_form("patterns.add_revision")
def draft_drop(request: HttpRequest, slug: str) -> HttpResponse:
    """Ask once, and throw a draft away; what is published stays as it is."""
    pattern = get_object_or_404(Pattern, slug=slug)
    draft = Draft.objects.filter(pattern=pattern).first()
    if request.method != "POST" and draft is not None:
        return render(request, "orders/draft_drop.html", {"pattern": pattern, "draft": draft})
    if Draft.objects.filter(pattern=pattern).delete()[0]:
        messages.success(request, f"The draft of {pattern} is thrown away.")
    return redirect_page(request, "orders:owner-corrections")


@owners_form("patterns.add_revision")
def revision_check(request: HttpRequest, slug: str) -> HttpResponse:
    """Whom the draft concerns, with the letter; the button publishes just what this page shows."""
    pattern = get_object_or_404(Pattern, slug=slug)
    draft = Draft.objects.filter(pattern=pattern).first()
    if draft is None:  # published already by the other of a double click, or thrown away
        return redirect_page(request, "orders:owner-corrections")
    try:
        recipe = sellable(draft.text)
    except PublishingError:
        return redirect_page(request, "orders:pattern-revise", pattern.slug)
    is_seen = request.POST.get("seen") == draft.checksum
    if request.method == "POST" and is_seen:
        return _publish(request, pattern, draft)
    latest = pattern.latest_revision
    number = latest.number + 1 if latest else 1
    found = concerned(pattern, recipe, draft.reason, number)
    context = {
        "pattern": pattern,
        "draft": draft,
        "number": number,
        "latest": latest,
        "same_date": latest is not None and recipe.revised == latest.recipe.revised,
        "revised": recipe.revised,
        "concerned": found,
        "shown": found.buyer(request.GET.get("order", "")),
        "is_changed": request.method == "POST",
    }
    return render(request, "orders/revision_check.html", context)


@owners_form("patterns.add_revision")
def revision_tell(request: HttpRequest, pk: int) -> HttpResponse:
    """Whom a revision concerns that was published in silence, with the letter; the button has them told."""
    revision = get_object_or_404(Revision.objects.select_related("pattern"), pk=pk)
    if request.method == "POST":
        if tell_later(revision, str(request.user), timezone.now()):
            messages.success(request, f"{revision}: {THEN_TOLD}")
        return redirect_page(request, "orders:owner-corrections")
    if not untold().filter(pk=pk).exists():  # told by the other of a double click, or a later one is on sale
        return redirect_page(request, "orders:owner-corrections")
    found = concerned(revision.pattern, revision.recipe, revision.reason, revision.number)
    context = {
        "revision": revision,
        "concerned": found,
        "shown": found.buyer(request.GET.get("order", "")),
    }
    return render(request, "orders/revision_tell.html", context)


def _publish(request: HttpRequest, pattern: Pattern, draft: Draft) -> HttpResponse:
    tells, owner = request.POST.get("tells") == "on", str(request.user)
    revision = publish_revision(
        pattern, draft.text, draft.reason, tells=tells, owner=owner, now=timezone.now()
    )
    if revision.number == 1 and not pattern.is_listed:
        messages.success(request, f"{revision} is published. Customers see it once you show it in the shop.")
        return redirect_page(request, "patterns:owner-patterns")
    then = (THEN_TOLD if tells else NOT_TOLD) if revision.number > 1 else ""
    messages.success(request, f"{revision} is published. {then}".strip())
    return redirect_page(request, "orders:owner-corrections")
