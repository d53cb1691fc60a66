"""The customer's pages from the basket to the payment."""

from dataclasses import replace

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from orders import basket as baskets
from orders import consents
from orders.basket import Basket, basket_of
from orders.checkout_forms import BuyerForm, CheckForm, ways_to_pay
from orders.choosing import chosen_size
from orders.countries import country_name
from orders.errors import OrderError
from orders.keys import is_key, key_for
from orders.models import Payment
from orders.payment_views import go_on
from orders.pricing import PricedBasket, priced_basket
from orders.selling import Buyer, local_day, place_basket, placed_with
from patterns.models import Pattern
from patterns.own_cloth import cloths_of
from patterns.sale import sale_now
from patterns.sources import source
from studio.htmx import redirect_page
from studio.models import Shop


@require_POST
def basket_add(request: HttpRequest, slug: str) -> HttpResponse:
    """Put the size in the address into the basket, in one of the ways it is sold."""
    pattern = get_object_or_404(Pattern.objects.listed().with_latest_revision(), slug=slug)
    revision = pattern.latest_revision
    assert revision is not None  # what is listed has been published
    chosen, query = chosen_size(request, revision), request.GET.urlencode()
    if chosen is None:
        return redirect_page(request, f"{pattern.get_absolute_url()}?{query}")
    sale = sale_now(pattern, revision.recipe, chosen.sized, shop_of(request).currency)
    kind, has_batch = request.POST.get("kind", ""), "batch" in request.POST and sale.batch is not None
    way = sale.way(kind)
    if way is None or (way.price_minor == 0 and not has_batch):
        return redirect_page(request, f"{pattern.get_absolute_url()}order/?{query}")
    if not baskets.put_in(request, slug, query, kind, has_batch=has_batch):
        messages.warning(request, f"A basket holds {baskets.MOST_ITEMS} lines at most. Order these first.")
    return redirect_page(request, "orders:basket")


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def basket(request: HttpRequest) -> HttpResponse:
    """What is in the basket, and who it is for; nothing is ordered here."""
    held, shop = basket_of(request), shop_of(request)
    form = BuyerForm(shop, request.POST if request.method == "POST" else None, initial=dict(held.who))
    priced = _priced(request, held, shop)
    if priced.items and form.is_valid():
        baskets.keep_who(request, form.who)
        return redirect_page(request, "orders:basket-check")
    context = {"priced": priced, "form": form, "has_ways": bool(form.ways) or priced.total_minor == 0}
    return render(request, "orders/basket.html", context)


@require_POST
def basket_remove(request: HttpRequest, item: str) -> HttpResponse:
    """Take an item out, and keep what was typed beside it, whether it is right or not yet."""
    baskets.take_out(request, item)
    baskets.keep_who(request, {**basket_of(request).who, **BuyerForm(shop_of(request), request.POST).typed})
    return redirect_page(request, "orders:basket")


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def basket_check(request: HttpRequest) -> HttpResponse:
    """Everything once more, then one button that orders. Sent twice, it leads to the same order."""
    key = request.POST.get("key", "")
    if request.method == "POST" and (answer := _placed_before(request, key)):
        return answer
    held, shop = basket_of(request), shop_of(request)
    priced = _priced(request, held, shop)
    if priced.gone or not priced.items or not _is_ready(held, priced, shop):
        return redirect_page(request, "orders:basket")
    asks = consents.are_asked(held.who["country"], priced.total_minor)
    form = CheckForm(asks, request.POST if request.method == "POST" else None)
    if form.is_valid():
        try:
            return _order(request, held, form)
        except OrderError as error:
            form.add_error(None, str(error))
            priced = _priced(request, held, shop)
    context = {
        "priced": priced,
        "form": form,
        "key": _key(request, held, priced),
        "who": held.who,
        "country": country_name(held.who["country"]),
        "way": dict(ways_to_pay(shop)).get(held.who["way"], ""),
        "is_transfer": held.who["way"] == Payment.TRANSFER,
    }
    return render(request, "orders/basket_check.html", context)


def _placed_before(request: HttpRequest, key: str) -> HttpResponse | None:
    """The answer to a page that has ordered already: the second click, a reload, the other tab."""
    if not is_key(key):
        return None
    try:
        placed = placed_with(key)
    except OrderError:
        return redirect_page(request, "orders:basket")
    return go_on(request, placed) if placed else None


def _order(request: HttpRequest, held: Basket, form: CheckForm) -> HttpResponse:
    buyer = Buyer(
        name=held.who["name"],
        email=held.who["email"],
        country=held.who["country"],
        way=held.who["way"],
        has_agreed=bool(form.consents),
    )
    placed = place_basket(
        held.items,
        buyer,
        shown=form.cleaned_data["shown"],
        key=form.cleaned_data["key"],
        source=source(request),
        now=timezone.now(),
        own={item.slug: cloths_of(request, item.slug, timezone.now()) for item in held.items},
    )
    baskets.empty(request)
    return go_on(request, placed)


def _is_ready(held: Basket, priced: PricedBasket, shop: Shop) -> bool:
    """Whether the page before was filled in, without a mistake, and what it says still stands."""
    is_payable = priced.total_minor == 0 or held.who.get("way") in dict(ways_to_pay(shop))
    return is_payable and BuyerForm(shop, held.who).is_valid()


def _priced(request: HttpRequest, held: Basket, shop: Shop) -> PricedBasket:
    now = timezone.now()
    priced = priced_basket(held.items, shop, held.who.get("country", ""), local_day(now))
    items = (replace(each, own=cloths_of(request, each.item.slug, now)) for each in priced.items)
    return replace(priced, items=tuple(items))


def _key(request: HttpRequest, held: Basket, priced: PricedBasket) -> str:
    """The key of this page: the same for the same basket and customer at the same prices, in every tab."""
    lines = [f"{each.item} {each.revision.pk} {each.gross_minor}" for each in priced.items]
    who = [f"{name}={held.who[name]}" for name in sorted(held.who)]
    return key_for(request, held.name, *lines, *who, priced.shown)


def shop_of(request: HttpRequest) -> Shop:
    shop: Shop = request.shop  # type: ignore[attr-defined]
    return shop
