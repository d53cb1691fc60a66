"""The owner's pages of what is sold, and at which price."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render

from patterns.models import Pattern
from patterns.offers_form import OffersForm
from patterns.owners import owners_form, owners_page
from patterns.sale import catalogue_price, offers_on_sale
from studio.htmx import redirect_page


@owners_page("patterns.view_offer")
def offer_list(request: HttpRequest) -> HttpResponse:
    """Each pattern with what customers are told of its price."""
    currency = _currency(request)
    patterns = Pattern.objects.with_offers(currency).prefetch_related("offers")
    rows = [
        {
            "pattern": each,
            "price": catalogue_price(offers_on_sale(each)),
            "in_other": [
                offer for offer in each.offers.all() if _waits(offer.currency, currency, offer.is_on_sale)
            ],
        }
        for each in patterns
    ]
    return render(request, "patterns/offer_list.html", {"rows": rows, "currency": currency})


@owners_form("patterns.change_offer")
def pattern_offers(request: HttpRequest, slug: str) -> HttpResponse:
    pattern = get_object_or_404(Pattern, slug=slug)
    data = request.POST if request.method == "POST" else None
    form = OffersForm(pattern, _currency(request), data)
    if form.is_valid():
        form.save()
        messages.success(request, f"{pattern} is now sold as you said.")
        return redirect_page(request, "patterns:offer-list")
    return render(request, "patterns/pattern_offers.html", {"pattern": pattern, "form": form})


def _waits(offered: str, currency: str, is_on_sale: bool) -> bool:
    """Whether an offer was priced in a currency that is no longer the shop's."""
    return is_on_sale and offered not in ("", currency)


def _currency(request: HttpRequest) -> str:
    return str(request.shop.currency)  # type: ignore[attr-defined]
