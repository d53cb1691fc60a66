"""Photographs of patterns: the owner's pages of them, and the files that everybody's browser asks for."""

from typing import Any, Final

from django.contrib import messages
from django.db.models import Count
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from patterns import kept
from patterns.models import MOST_PHOTOGRAPHS, Pattern, Photograph
from patterns.owners import owners_act, owners_form, owners_page
from patterns.photograph_forms import AddForm, DescribeForm
from patterns.photographs import FOLDER, file_name, move, remove
from patterns.picture_rules import PHOTOGRAPH
from studio.htmx import redirect_page
from studio.uploads import dropped_files

# What lies under a content address never changes.
FOR_GOOD: Final = "public, max-age=31536000, immutable"
TYPES: Final = {"webp": "image/webp", "jpg": "image/jpeg"}


@require_safe
def photograph_file(request: HttpRequest, address: str, width: int, ending: str) -> HttpResponse:
    """One file of a photograph, to be kept by whoever asked."""
    content = kept.kept(FOLDER, file_name(address, width), ending)
    if content is None:
        raise Http404
    headers = {"Cache-Control": FOR_GOOD, "Content-Length": len(content), "X-Content-Type-Options": "nosniff"}
    return HttpResponse(content, content_type=TYPES[ending], headers=headers)


@owners_page("patterns.view_photograph")
def photograph_list(request: HttpRequest) -> HttpResponse:
    """Each pattern with the number of its photographs."""
    patterns = Pattern.objects.annotate(count=Count("photographs")).with_photographs()
    return render(request, "patterns/photograph_list.html", {"patterns": patterns})


@owners_form("patterns.change_photograph")
def pattern_photographs(request: HttpRequest, slug: str) -> HttpResponse:
    """The photographs of a pattern, and a form that adds one."""
    pattern = get_object_or_404(Pattern, slug=slug)
    if request.method != "POST":
        return _page(request, pattern, AddForm(pattern))
    # What was sent is read before it is asked what of it was dropped.
    sent = request.POST, request.FILES
    form = AddForm(pattern, *sent, dropped=dropped_files(request))
    if form.is_valid() and (added := form.save()):
        messages.success(request, f"Customers now see the photograph: “{added.alt}”")
        return redirect_page(request, _of(pattern))
    return _page(request, pattern, form, form)


@owners_act("patterns.change_photograph")
def photograph_describe(request: HttpRequest, pk: int) -> HttpResponse:
    photograph = _photograph(pk)
    form = DescribeForm(photograph, request.POST)
    if form.is_valid():
        form.save()
        messages.success(request, f"The photograph is now described as “{photograph.alt}”.")
        return redirect_page(request, _of(photograph.pattern))
    return _page(request, photograph.pattern, AddForm(photograph.pattern), form)


@owners_act("patterns.change_photograph")
def photograph_move(request: HttpRequest, pk: int) -> HttpResponse:
    """Let it change places with its neighbour: “earlier” or “later”."""
    photograph = _photograph(pk)
    move(photograph, -1 if request.POST.get("to") == "earlier" else 1)
    return redirect_page(request, f"{_of(photograph.pattern)}#photograph-{pk}")


@owners_form("patterns.delete_photograph")
def photograph_remove(request: HttpRequest, pk: int) -> HttpResponse:
    """Ask once, and remove it."""
    photograph = _photograph(pk)
    if request.method != "POST":
        return render(request, "patterns/photograph_remove.html", {"photograph": photograph})
    remove(photograph)
    messages.success(request, f"“{photograph.alt}” is gone from the shop.")
    return redirect_page(request, _of(photograph.pattern))


def _page(
    request: HttpRequest, pattern: Pattern, adding: AddForm, mistaken: AddForm | DescribeForm | None = None
) -> HttpResponse:
    """mistaken: the form with mistakes, which the page tells on top."""
    rows = [
        mistaken
        if isinstance(mistaken, DescribeForm) and mistaken.photograph.pk == each.pk
        else DescribeForm(each)
        for each in pattern.photographs.all()
    ]
    context: dict[str, Any] = {
        "pattern": pattern,
        "adding": adding,
        "form": mistaken,
        "rows": rows,
        "rules": PHOTOGRAPH.limits_words,
        "is_full": len(rows) >= MOST_PHOTOGRAPHS,
        "most": MOST_PHOTOGRAPHS,
    }
    return render(request, "patterns/pattern_photographs.html", context)


def _photograph(pk: int) -> Photograph:
    return get_object_or_404(Photograph.objects.select_related("pattern"), pk=pk)


def _of(pattern: Pattern) -> str:
    return reverse("patterns:pattern-photographs", args=[pattern.slug])
