"""The customer's pages: ordering. What follows an order is in `delivery_views`."""

from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from orders.errors import OrderError
from orders.forms import OrderForm
from orders.keys import key_of
from orders.placing import Placed, place_order
from patterns.cutting.wish import Wish
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.forms import MeasureForm
from patterns.models import Pattern, Revision
from patterns.size_page import drawing
from patterns.sources import source
from patterns.views import usual_units
from studio.htmx import redirect_page


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def order_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Show the size in the address and order it; one that is not good goes back to the pattern's page."""
    pattern = get_object_or_404(Pattern.objects.seen_by(request.user).with_latest_revision(), slug=slug)
    form = OrderForm(pattern, request.POST if request.method == "POST" else None)
    revision = form.revision_seen()
    chosen = _chosen(request, revision)
    if chosen is not None and form.is_valid():
        placed = _place(request, form, revision, chosen)
        if placed is not None:
            return redirect_page(request, "orders:order-detail", placed.token)
        revision = form.revision_now()
        chosen = _chosen(request, revision)
    if chosen is None:
        return redirect_page(request, f"{pattern.get_absolute_url()}?{request.GET.urlencode()}")
    return render(request, "orders/order_new.html", _new_context(request, form, revision, chosen))


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the address asks for. cloth: as the customer buys it. cloth_words: what of it is not the usual."""

    sized: SizedPattern
    cloth: Wish
    cloth_words: str


def _chosen(request: HttpRequest, revision: Revision) -> Chosen | None:
    """What the address asks for; None unless all of it was understood and can be made."""
    form = MeasureForm(revision.recipe, request.GET, usual_units(request))
    if not form.is_all_read or form.notes:
        return None
    sized = size(form.recipe, revision.pattern.slug, form.units, form.measures, form.options)
    return None if sized.is_refused else Chosen(sized, form.buying.wish, form.buying.words)


def _place(request: HttpRequest, form: OrderForm, revision: Revision, chosen: Chosen) -> Placed | None:
    """Place the order; None with the reason on the form."""
    typed = form.cleaned_data
    try:
        return place_order(
            revision,
            chosen.sized,
            cloth=chosen.cloth,
            name=typed["name"],
            email=typed["email"],
            key=typed["key"],
            source=source(request),
            now=timezone.now(),
        )
    except OrderError as error:
        form.refuse(error)
        return None


def _new_context(request: HttpRequest, form: OrderForm, revision: Revision, chosen: Chosen) -> dict[str, Any]:
    return {
        "pattern": revision.pattern,
        "revision": revision,
        "form": form,
        "key": form.key_to_send() or key_of(request, revision.number),
        "sized": chosen.sized,
        "cloth_words": chosen.cloth_words,
        "drawing": drawing(chosen.sized),
        "cut_count": sum(piece.cut for piece in chosen.sized.pieces),
        "query": request.GET.urlencode(),
    }
