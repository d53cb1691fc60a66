"""The customers' pages: the list of patterns, and one pattern at the size they choose."""

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.cache import patch_vary_headers
from django.views.decorators.http import require_safe
from django_htmx.http import push_url, replace_url, reswap, retarget

from patterns.addresses import BY_KEY, LOOK_KEY
from patterns.buying_page import BuyingPage, buying_page
from patterns.catalogue import catalogue
from patterns.catalogue_form import CatalogueForm
from patterns.documents.errors import NoDocumentError
from patterns.drafting.units import Units
from patterns.forms import MeasureForm
from patterns.making_page import making_page
from patterns.models import Pattern, Revision
from patterns.one_at_a_time import BusyError, one_at_a_time
from patterns.own_cloth_page import own_cloth_page, prints_of
from patterns.sale import Sale, sale_now
from patterns.sheets import Sheet, made, sheets
from patterns.size_page import SizePage, cut_details, mistake_news, news, size_page, size_words, sized_by
from patterns.sizes_page import sizes_page
from patterns.structured import data_block, product
from patterns.ways_page import BY_MEASURES, ways_of, ways_page
from studio.htmx import VARY, redirect_page, render_page_or_part, wants_part

# Sent with what is asked for while somebody still types: half a number is no mistake yet.
TYPING_HEADER = "Still-Typing"
# The boxes that say what cloth is bought; the page's address follows what they ask for.
FIELDS = "buying-fields"


@require_safe
def pattern_list(request: HttpRequest) -> HttpResponse:
    """The patterns that are what the address asks for. What is empty in it is left out of it again."""
    currency = request.shop.currency  # type: ignore[attr-defined]
    patterns = list(Pattern.objects.listed().with_latest_revision().with_offers(currency).with_photographs())
    form, units = CatalogueForm(request.GET, [pattern.kind for pattern in patterns]), usual_units(request)
    page = catalogue(patterns, form.search, units)
    context = {"form": form, "page": page, "units": units, "is_part": wants_part(request)}
    part = "patterns/partials/catalogue.html"
    response = render_page_or_part(request, "patterns/pattern_list.html", part, context)
    if wants_part(request):
        query = page.search.query
        replace_url(response, f"{request.path}?{query}" if query else request.path)
    return response


@require_safe
def pattern_detail(request: HttpRequest, slug: str) -> HttpResponse:
    """One pattern at the size in the address. A part with mistakes leaves the last good size on the page."""
    pattern, form = pattern_and_form(request, slug)
    is_part = wants_part(request)
    if is_part and not form.is_all_read:
        return mistakes_only(request, form)
    page = size_page(pattern.slug, form, prints_of(request, pattern.slug))
    ways = ways_page(request, pattern.slug, form, look=not is_part)
    sale = sale_now(pattern, form.recipe, page.sized, request.shop.currency)  # type: ignore[attr-defined]
    context = {
        "pattern": pattern,
        "ways": ways,
        "photographs": [] if is_part else list(pattern.photographs.all()),
        "form": form,
        "page": page,
        "sale": sale,
        "free_size": form.starting_size(sale.free_size),
        "units": form.units,
        "worksheets": sheets("worksheet", form.units),
        "details": None if is_part else cut_details(page.sized),
        "own": own_cloth_page(request, pattern.slug, form, page.sized),
        "is_part": is_part,
        "news": news(page),
    }
    if not is_part and form.is_all_read and not page.refusals:
        context["structured"] = structured(request, form, sale, pattern)
        context["buying"], context["is_busy"] = bought(request, form, page)
        context["making"] = making_page(page.sized, page.measures_words)
    part = "patterns/partials/size_result.html"
    response = render_page_or_part(request, "patterns/pattern_detail.html", part, context)
    if ways.is_busy:
        response.status_code = 429  # never of a part, which htmx would leave out: it does not search
    return response


def structured(request: HttpRequest, form: MeasureForm, sale: Sale, pattern: Pattern) -> str:
    """Return what the page says, once more for machines."""
    address = settings.SITE_URL + pattern.get_absolute_url()
    shop_name = request.shop.name  # type: ignore[attr-defined]
    images = [settings.SITE_URL + each.largest for each in pattern.photographs.all()]
    return data_block(product(pattern, form.recipe, sale, form.units, address, shop_name, images))


@require_safe
def pattern_buying(request: HttpRequest, slug: str) -> HttpResponse:
    """What to buy for the size in the address, by itself: a page to print, or what the pattern's page swaps.

    A part that looked further and found nothing better is only the words that say so.
    """
    pattern, form = pattern_and_form(request, slug)
    here = f"{pattern.get_absolute_url()}?{request.GET.urlencode()}"
    is_chosen = wants_part(request) and request.htmx.trigger == FIELDS  # type: ignore[attr-defined]
    if is_chosen and not form.is_all_read:
        return replace_url(mistakes_only(request, form), here)
    page = size_page(pattern.slug, form, prints_of(request, pattern.slug)) if form.is_all_read else None
    if page is None or page.refusals:
        return redirect_page(request, here)
    buying, is_busy = bought(request, form, page)
    context = {
        "pattern": pattern,
        "form": form,
        "page": page,
        "sale": sale_now(pattern, form.recipe, page.sized, request.shop.currency),  # type: ignore[attr-defined]
        "buying": buying,
        "is_busy": is_busy,
        "units": form.units,
        "is_part": wants_part(request),
        "is_chosen": is_chosen,
    }
    if is_chosen:
        context["own"] = own_cloth_page(request, pattern.slug, form, page.sized)
    is_same = form.looks_for_cloth and not buying.is_better
    part = "patterns/partials/buying_search.html" if is_same else "patterns/partials/buying_answer.html"
    response = render_page_or_part(request, "patterns/pattern_buying.html", part, context)
    patch_vary_headers(response, ("HX-Trigger",))
    if is_chosen:
        replace_url(response, here)
    elif form.looks_for_cloth and not is_same:
        retarget(response, "#buying-answer")
    return response


def bought(request: HttpRequest, form: MeasureForm, page: SizePage) -> tuple[BuyingPage, bool]:
    """Return what to buy, and whether another search of this visitor kept it from being looked for longer."""
    asked = page.sized, form.buying.wish, page.measures_words, usual_currency(request)
    if not form.looks_for_cloth:
        return buying_page(*asked), False
    try:
        with one_at_a_time(request):
            return buying_page(*asked, look=True), False
    except BusyError:
        return buying_page(*asked), True


@require_safe
def pattern_pieces(request: HttpRequest, slug: str) -> HttpResponse:
    """The drawings and workings of a size: the part of the pattern's page that waits until it is read."""
    pattern, form = pattern_and_form(request, slug)
    details = cut_details(sized_by(pattern.slug, form)) if form.is_valid() else None
    if details is None or not wants_part(request):
        return redirect_page(request, f"{pattern.get_absolute_url()}?{request.GET.urlencode()}")
    return render(request, "patterns/partials/cut_details.html", {"details": details, "units": form.units})


@require_safe
def pattern_making(request: HttpRequest, slug: str) -> HttpResponse:
    """The item open and flat, and the first steps: the part of the pattern's page that follows its size."""
    pattern, form = pattern_and_form(request, slug)
    sized = sized_by(pattern.slug, form) if form.is_all_read else None
    if sized is None or sized.is_refused or not wants_part(request):
        return redirect_page(request, f"{pattern.get_absolute_url()}?{request.GET.urlencode()}")
    making = making_page(sized, size_words(sized))
    response = render(request, "patterns/partials/making_answer.html", {"making": making, "is_part": True})
    patch_vary_headers(response, VARY)
    return response


@require_safe
def pattern_sizes(request: HttpRequest, slug: str) -> HttpResponse:
    """All named sizes of a pattern side by side, in the units and with the choices of the address.

    A pattern that names none has a page that says so.
    """
    pattern, form = pattern_and_form(request, slug)
    if not form.recipe.sizes:
        return render(request, "patterns/pattern_no_sizes.html", {"pattern": pattern, "form": form})
    page = sizes_page(form)
    context = {"pattern": pattern, "form": form, "page": page, "is_part": wants_part(request)}
    part = "patterns/partials/size_chart.html"
    return render_page_or_part(request, "patterns/pattern_sizes.html", part, context)


@require_safe
def pattern_sheet(request: HttpRequest, slug: str, sheet: Sheet) -> HttpResponse:
    """A free sheet of a pattern, with the recipe's default choices."""
    revision = get_object_or_404(Revision.objects.seen_by(request.user).without_text(), pattern__slug=slug)
    try:
        content = made(revision, sheet)
    except NoDocumentError as error:
        raise Http404 from error
    name = f"{slug}-{'-'.join(sheet)}.pdf"
    headers = {"Content-Disposition": f'attachment; filename="{name}"', "Content-Length": len(content)}
    return HttpResponse(content, content_type="application/pdf", headers=headers)


@require_safe
def pattern_way(request: HttpRequest, slug: str, by: str) -> HttpResponse:
    """One way to choose a size, and what was found in it: the part of the pattern's page that htmx swaps."""
    revision = seen_revision(request, slug)
    if by not in ways_of(revision.recipe):
        raise Http404
    query = request.GET.copy()
    looks = query.pop(LOOK_KEY, [])
    if by == BY_MEASURES:
        query.pop(BY_KEY, None)
    else:
        query[BY_KEY] = by
    pattern = revision.pattern
    here = f"{pattern.get_absolute_url()}?{query.urlencode()}"
    query.setlist(LOOK_KEY, looks)
    form = MeasureForm(revision.recipe, query, usual_units(request), usual_currency(request))
    if not wants_part(request):
        return redirect_page(request, here)
    context = {
        "pattern": pattern,
        "form": form,
        "ways": ways_page(request, pattern.slug, form, look=True),
        "units": form.units,
        "is_part": True,
    }
    response = render(request, "patterns/partials/size_way.html", context)
    patch_vary_headers(response, VARY)
    return push_url(response, here)


def pattern_and_form(request: HttpRequest, slug: str) -> tuple[Pattern, MeasureForm]:
    """Return what somebody may see, and the size in the address."""
    revision = seen_revision(request, slug)
    form = MeasureForm(revision.recipe, request.GET, usual_units(request), usual_currency(request))
    return revision.pattern, form


def seen_revision(request: HttpRequest, slug: str) -> Revision:
    """Return the revision that is sold now, if somebody may see the pattern; else it is 404."""
    revisions = Revision.objects.seen_by(request.user).without_text().select_related("pattern")
    return get_object_or_404(revisions, pattern__slug=slug)


def mistakes_only(request: HttpRequest, form: MeasureForm) -> HttpResponse:
    """Answer a part with mistakes: at the fields, unless the person is still typing; the rest stays."""
    if TYPING_HEADER in request.headers:
        response = HttpResponse(status=204)
    else:
        context = {"form": form, "units": form.units, "is_part": True, "news": mistake_news(form)}
        response = render(request, "patterns/partials/size_mistakes.html", context)
        reswap(response, "none")
    patch_vary_headers(response, (*VARY, TYPING_HEADER))
    return response


def usual_units(request: HttpRequest) -> Units:
    return Units(request.shop.units)  # type: ignore[attr-defined]


def usual_currency(request: HttpRequest) -> str:
    return str(request.shop.currency)  # type: ignore[attr-defined]
