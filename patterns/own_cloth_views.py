"""A customer's own cloth: sent, seen by nobody else, taken off again."""

from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from patterns.forms import MeasureForm
from patterns.models import Pattern
from patterns.one_at_a_time import BusyError, one_at_a_time
from patterns.own_cloth import ROLES, OwnCloths, cloths_of, picture, show
from patterns.own_cloth_form import OwnClothForm
from patterns.own_cloth_page import own_cloth_page, prints_of
from patterns.size_page import size_page
from patterns.sources import source
from patterns.views import seen_revision, usual_currency, usual_units
from studio.htmx import redirect_page
from studio.uploads import dropped_files

# A size that is longer in an address is not one that a form has made.
LONGEST_SIZE = 2000


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def pattern_own_cloth(request: HttpRequest, slug: str) -> HttpResponse:
    """Take pictures of a pattern's cloth; with mistakes, a page that says them."""
    revision = seen_revision(request, slug)
    # What was sent is read before it is asked what of it was dropped.
    typed, files = request.POST, request.FILES
    measures = MeasureForm(revision.recipe, _size(request), usual_units(request), usual_currency(request))
    now = timezone.now()
    if request.method != "POST":
        return _page(request, revision.pattern, measures, None)
    form = OwnClothForm(measures.units, cloths_of(request, slug, now), typed, files, dropped_files(request))
    try:
        with one_at_a_time(request):
            cloths = form.cloths(source(request), now) if form.is_valid() else None
    except BusyError:
        form.add_error(None, "Another picture of yours is still being opened. Send this one once more.")
        cloths = None
    if cloths is None:
        return _page(request, revision.pattern, measures, form)
    show(request, slug, cloths)
    return redirect_page(request, _back(revision.pattern, measures))


@require_POST
@never_cache
def own_cloth_off(request: HttpRequest, slug: str) -> HttpResponse:
    """Delete one cloth of a pattern, or both."""
    revision = seen_revision(request, slug)
    measures = MeasureForm(revision.recipe, _size(request), usual_units(request), usual_currency(request))
    before, off = cloths_of(request, slug, timezone.now()), request.POST.get("off", "")
    roles = [role for role in ROLES if role == off] or list(ROLES)
    rest = {role: cloth for role, cloth in before.cloths.items() if role not in roles}
    show(request, slug, OwnCloths(rest, before.is_on_cover))
    return redirect_page(request, _back(revision.pattern, measures))


@require_safe
def own_cloth_picture(request: HttpRequest, token: str) -> HttpResponse:
    """One picture, for the session that sent it; to everybody else there is none."""
    content = picture(request, token, timezone.now())
    if content is None:
        raise Http404
    headers = {
        "Cache-Control": "private, max-age=600",
        "Content-Length": len(content),
        "X-Content-Type-Options": "nosniff",
        "Cross-Origin-Resource-Policy": "same-origin",
    }
    return HttpResponse(content, content_type="image/jpeg", headers=headers)


def _page(
    request: HttpRequest, pattern: Pattern, measures: MeasureForm, form: OwnClothForm | None
) -> HttpResponse:
    page = size_page(pattern.slug, measures, prints_of(request, pattern.slug))
    context = {
        "pattern": pattern,
        "page": page,
        "form": form,
        "own": own_cloth_page(request, pattern.slug, measures, page.sized, form),
    }
    return render(request, "patterns/pattern_own_cloth.html", context)


def _size(request: HttpRequest) -> QueryDict:
    """Return the size that the page stood at, as its address writes it."""
    sent = request.POST.get("size", "") if request.method == "POST" else request.GET.urlencode()
    return QueryDict(sent if len(sent) <= LONGEST_SIZE else "")


def _back(pattern: Pattern, measures: MeasureForm) -> str:
    return f"{pattern.get_absolute_url()}?{measures.page_query()}#size-sight"
