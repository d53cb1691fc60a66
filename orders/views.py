"""The customer's pages: ordering. What follows an order is in `delivery_views`."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from orders.choosing import Chosen, chosen_size
from orders.errors import OrderError
from orders.forms import OrderForm
from orders.keys import key_of
from orders.placing import Placed, place_order
from patterns.models import Pattern, Revision
from patterns.own_cloth import cloths_of
from patterns.own_cloth_page import one_way_warnings, shown_prints
from patterns.sale import sale_now
from patterns.size_page import drawing
from patterns.sources import source
from studio.htmx import redirect_page


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def order_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Show the size in the address and order it; one that is not good goes back to the pattern's page."""
    pattern = get_object_or_404(Pattern.objects.seen_by(request.user).with_latest_revision(), slug=slug)
    form = OrderForm(pattern, request.POST if request.method == "POST" else None)
    revision = form.revision_seen()
    chosen = chosen_size(request, revision)
    if chosen is not None and form.is_valid():
        placed = _place(request, form, revision, chosen)
        if placed is not None:
            return redirect_page(request, "orders:order-detail", placed.token)
        revision = form.revision_now()
        chosen = chosen_size(request, revision)
    currency = request.shop.currency  # type: ignore[attr-defined]
    sale = sale_now(pattern, revision.recipe, chosen.sized, currency) if chosen else None
    if chosen is None or sale is None or not sale.is_on_sale:
        return redirect_page(request, f"{pattern.get_absolute_url()}?{request.GET.urlencode()}")
    context = {**_new_context(request, form, revision, chosen), "sale": sale}
    page = "orders/order_new.html" if sale.is_free else "orders/order_choose.html"
    return render(request, page, context)


def _place(request: HttpRequest, form: OrderForm, revision: Revision, chosen: Chosen) -> Placed | None:
    """Place the order; None with the reason on the form."""
    typed = form.cleaned_data
    try:
        return place_order(
            revision,
            chosen.sized,
            cloth=chosen.cloth,
            own_cloth=cloths_of(request, revision.pattern.slug, timezone.now()),
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
    cloths = cloths_of(request, revision.pattern.slug, timezone.now())
    return {
        "pattern": revision.pattern,
        "revision": revision,
        "form": form,
        "key": form.key_to_send() or key_of(request, revision.number),
        "sized": chosen.sized,
        "cloth_words": chosen.cloth_words,
        "drawing": drawing(chosen.sized, shown_prints(cloths)),
        "own_cloths": cloths,
        "print_warnings": one_way_warnings(chosen.sized, cloths).values(),
        "cut_count": sum(piece.cut for piece in chosen.sized.pieces),
        "query": request.GET.urlencode(),
    }
