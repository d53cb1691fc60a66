"""From the size to the order: the basket, the page to check, and what the server makes of a changed form."""

from collections.abc import Callable
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from orders import pricing
from orders.checkout_forms import LONGEST_TYPED
from orders.cloth import kept_layouts
from orders.keys import new_key
from orders.models import LocalCharge, Order, Payment, TaxRate
from orders.providers.interface import ProviderError
from orders.providers.local import LocalProvider
from patterns.cutting.listing_json import from_json as read_list
from patterns.cutting.wish import Wish, from_json
from patterns.documents.book_content import book_content
from patterns.documents.paper import PAPERS
from patterns.models import Offer, Pattern
from studio.models import Shop
from tests.orders.conftest import LICENCE, sell, text_of, words_of

Kind = Offer.Kind
SIZE = "?units=in&width=8"
WHO = {"name": "Ada Example", "email": "ADA@example.org", "country": "GB", "way": "local"}
AGREED = {"at_once": "on", "no_withdrawal": "on"}
BASKET, CHECK = "/basket/", "/basket/check/"


def add(client: Client, *, kind: str = Kind.ONE_SIZE, size: str = SIZE, **more: str) -> Any:
    return client.post(reverse("orders:basket-add", args=["sized-tray"]) + size, {"kind": kind, **more})


def fill(client: Client, **changed: str) -> Any:
    """Write who it is for, and return the page to check."""
    response = client.post(BASKET, {**WHO, **changed})
    assert (response.status_code, response.headers["Location"]) == (303, CHECK)
    return client.get(CHECK)


def carried(page: Any, **changed: str) -> dict[str, str]:
    """What the page to check sends, with both consents ticked."""
    return {"key": page.context["key"], "shown": page.context["priced"].shown, **AGREED, **changed}


@pytest.fixture
def shop(demo_shop: Shop, tray: Pattern) -> Shop:
    return demo_shop


# The way through


def test_paid_size_is_not_placed_for_nothing(client: Client, shop: Shop) -> None:
    place = reverse("orders:order-new", args=["sized-tray"]) + SIZE
    page = client.get(place)
    assert "This size: £6.50" in words_of(page)
    assert LICENCE in words_of(page)
    form = {"name": "Ada", "email": "ada@example.org", "key": new_key(), "revision": "1"}
    response = client.post(place, form)
    assert response.status_code == 200
    assert "This is not sold in that way any more." in words_of(response)
    assert not Order.objects.exists()


def test_card_from_the_basket_to_the_provider(client: Client, shop: Shop) -> None:
    assert add(client).headers["Location"] == BASKET
    assert "To pay £6.50" in words_of(client.get(BASKET))
    page = fill(client)
    assert "Pay £6.50" in words_of(page)
    assert "ada@example.org" in words_of(page)
    response = client.post(CHECK, carried(page))
    charge, order = LocalCharge.objects.get(), Order.objects.get()
    assert response.headers["Location"].endswith(f"/payments/demonstration/{charge.reference}/")
    assert (charge.amount_minor, charge.currency, charge.order_number) == (650, "GBP", order.pk)
    assert (order.total_minor, order.way, order.country, order.is_paid) == (650, "local", "GB", False)
    assert order.consent_text.startswith("I want my files as soon as I have paid")
    assert order.consented_at == order.placed_at
    line = order.lines.get()
    assert (line.price_minor, line.offer_kind, line.licence) == (650, "one-size", LICENCE)
    assert "There is nothing in it." in words_of(client.get(BASKET))


def test_payment_in_the_demonstration_opens_the_files(client: Client, shop: Shop) -> None:
    add(client)
    pay = client.post(CHECK, carried(fill(client))).headers["Location"]
    assert "£6.50" in words_of(client.get(pay))
    back = client.post(pay, {"end": "pay"}).headers["Location"]
    order_page = client.get(back).headers["Location"]
    assert Order.objects.get().is_paid
    assert "Instruction book on A4" in words_of(client.get(order_page))
    # Another browser is told nothing, and a reload of the paying page ends nothing anew.
    stranger = Client().get(back)
    assert stranger.status_code == 200
    assert order_page not in text_of(stranger)
    client.post(pay, {"end": "decline"})
    assert Order.objects.get().is_paid


def test_what_was_said_of_the_cloth_is_kept_with_the_line(client: Client, shop: Shop) -> None:
    """From the address through the basket to the layouts and the costs in the book."""
    said = "&cloth-price=12.50&print-repeat=4&folded=yes&edge-to-edge=yes&make=2"
    add(client, size=SIZE + said)
    assert "Print repeat 4 in" in words_of(client.get(BASKET))
    client.post(CHECK, carried(fill(client)))
    line = Order.objects.get().lines.get()
    assert from_json(line.wish) == Wish(
        count=2, price_minor=1250, repeat=Fraction(508, 5), folded=True, edge_to_edge=True
    )
    kept = read_list(kept_layouts(line))
    assert {each.cloth.way.repeat for each in kept.lines if each.cloth} == {Fraction(508, 5)}
    assert kept.cost_says.startswith("At the prices given: £")
    book = book_content(line.sized_pattern, PAPERS["a4"], kept)
    assert book.costs == kept.cost_says
    assert book.layouts[0].says.startswith(
        "Fold it along its length, selvedge on selvedge, and cut the first"
    )


def test_return_page_grants_nothing(client: Client, shop: Shop) -> None:
    add(client)
    client.post(CHECK, carried(fill(client)))
    order = Order.objects.get()
    back = reverse("orders:payment-back", args=[order.pk])
    assert client.get(f"{back}?paid=yes&session_id=cs_1").status_code == 302
    assert not Order.objects.get().is_paid
    page = client.get(client.get(back).headers["Location"])
    assert "Not paid yet" in words_of(page)
    assert "Instruction book on A4" not in words_of(page)


def test_transfer_waits_on_the_orders_page(client: Client, shop: Shop) -> None:
    add(client)
    response = client.post(CHECK, carried(fill(client, way="transfer")))
    page = client.get(response.headers["Location"])
    assert f"write Order {Order.objects.get().pk} as what it is for" in words_of(page)
    assert "An account at an invented bank" in words_of(page)
    assert Payment.objects.get().provider == "transfer"
    files = reverse("orders:download", args=[page.context["token"], 1, "book", "a4"])
    assert client.get(files).status_code == 404


def test_several_lines_are_one_order(client: Client, shop: Shop, tray: Pattern) -> None:
    sell(tray, Kind.CHART, 1400)
    sell(tray, Kind.YEAR, 1900)
    sell(tray, Kind.BATCH, 1200)
    add(client, batch="on")
    add(client, kind=Kind.CHART)
    add(client, kind=Kind.YEAR, size="?units=cm&width=20")
    client.post(CHECK, carried(fill(client)))
    order = Order.objects.get()
    lines = [
        (line.title, line.price_minor, line.batch_minor, line.is_included, bool(line.any_size_until))
        for line in order.lines.all()
    ]
    assert lines == [
        ("Plain tray", 650, 1200, False, False),
        ("Plain tray: Small", 1400, 0, False, False),
        ("Plain tray: Large", 0, 0, True, False),
        ("Plain tray", 1900, 0, False, True),
    ]
    assert order.total_minor == 650 + 1200 + 1400 + 1900


def test_line_is_taken_out(client: Client, shop: Shop) -> None:
    add(client)
    add(client, size="?units=in&width=9")
    item = client.get(BASKET).context["priced"].items[0].item.name
    client.post(reverse("orders:basket-remove", args=[item]))
    assert [each.item.query for each in client.get(BASKET).context["priced"].items] == ["units=in&width=9"]
    client.post(reverse("orders:basket-remove", args=["unknown"]))


def test_what_is_typed_stays_when_a_line_is_taken_out(client: Client, shop: Shop) -> None:
    """Right or not yet; and the page after it is not opened by a mistake that is kept."""
    add(client)
    add(client, size="?units=in&width=9")
    item = client.get(BASKET).context["priced"].items[0].item.name
    typed = {**WHO, "email": "ada@", "name": "A" * 5000}
    client.post(reverse("orders:basket-remove", args=[item]), typed)
    form = client.get(BASKET).context["form"]
    assert form["email"].value() == "ada@"
    assert form["name"].value() == "A" * LONGEST_TYPED
    assert client.get(CHECK).headers["Location"] == BASKET
    client.post(reverse("orders:basket-remove", args=["unknown"]), WHO)
    page = client.get(CHECK)
    assert page.context["who"]["email"] == "ada@example.org"
    client.post(CHECK, carried(page))
    assert Order.objects.get().email == "ada@example.org"


def test_same_thing_again_is_one_line(client: Client, shop: Shop, tray: Pattern) -> None:
    sell(tray, Kind.BATCH, 1200)
    add(client)
    add(client, batch="on")
    assert client.get(BASKET).context["priced"].total_minor == 1850


def test_basket_has_an_end(client: Client, shop: Shop) -> None:
    for quarter in range(13):
        add(client, size=f"?units=in&width={8 + quarter / 4}")
    page = client.get(BASKET)
    assert len(page.context["priced"].items) == 12
    assert "A basket holds 12 lines at most." in words_of(page)


# Tax and consents


def test_tax_of_the_country_is_kept(client: Client, shop: Shop) -> None:
    Shop.objects.update(charges_tax=True)
    TaxRate.objects.create(country="GB", milli_percent=20_000, valid_from=date(2020, 1, 1))
    add(client)
    page = fill(client)
    assert "Of it VAT at 20 % £1.08" in words_of(page)
    client.post(CHECK, carried(page))
    order = Order.objects.get()
    assert (order.total_minor, order.tax_minor, order.tax_milli_percent, order.tax_name) == (
        650,
        108,
        20_000,
        "VAT",
    )
    assert order.lines.get().tax_minor == 108


def test_no_tax_where_the_owner_charges_none_or_has_set_no_rate(client: Client, shop: Shop) -> None:
    TaxRate.objects.create(country="GB", milli_percent=20_000, valid_from=date(2020, 1, 1))
    add(client)
    assert "VAT" not in words_of(fill(client))
    Shop.objects.update(charges_tax=True)
    assert "VAT" not in words_of(fill(client, country="US"))


def test_consents_are_asked_for_where_they_apply(client: Client, shop: Shop) -> None:
    add(client)
    page = fill(client)
    response = client.post(CHECK, carried(page, at_once="", no_withdrawal=""))
    assert "Tick that you want your files at once." in words_of(response)
    assert "Tick that you know that you can then no longer withdraw" in words_of(response)
    assert not Order.objects.exists()
    page = fill(client, country="US")
    assert "What you agree to" not in words_of(page)
    client.post(CHECK, {"key": page.context["key"], "shown": "650 GBP"})
    assert Order.objects.get().consent_text == ""


# Twice


def test_double_click_and_reload_are_one_order(client: Client, shop: Shop) -> None:
    add(client)
    form = carried(fill(client))
    answers = {client.post(CHECK, form).headers["Location"] for _ in range(3)}
    assert len(answers) == 1
    assert (Order.objects.count(), Payment.objects.count(), LocalCharge.objects.count()) == (1, 1, 1)


def test_two_tabs_and_going_back_are_one_order(client: Client, shop: Shop) -> None:
    add(client)
    tabs = [fill(client), client.get(CHECK)]
    assert len({tab.context["key"] for tab in tabs}) == 1
    for tab in tabs:
        client.post(CHECK, carried(tab))
    assert Order.objects.count() == 1
    assert client.get(CHECK).headers["Location"] == BASKET


def test_same_basket_filled_again_is_another_order(client: Client, shop: Shop) -> None:
    for _ in range(2):
        add(client)
        client.post(CHECK, carried(fill(client)))
    assert Order.objects.count() == 2


def test_another_name_has_another_key(client: Client, shop: Shop) -> None:
    add(client)
    keys = {fill(client).context["key"], fill(client, name="Bea Example").context["key"]}
    assert len(keys) == 2


# What a stranger changes


def test_price_that_changed_is_shown_before_it_is_paid(client: Client, shop: Shop, tray: Pattern) -> None:
    add(client)
    form = carried(fill(client))
    sell(tray, Kind.ONE_SIZE, 700)
    response = client.post(CHECK, form)
    assert "The price was £6.50 when this page was made, and is £7.00 now." in words_of(response)
    assert not Order.objects.exists()
    client.post(CHECK, carried(response))
    assert Order.objects.get().total_minor == 700


@pytest.mark.parametrize("shown", ["", "1 GBP", "0 GBP", "-650 GBP", "650 JPY", "650 <b>", "9" * 39])
def test_price_in_the_form_is_only_compared(client: Client, shop: Shop, shown: str) -> None:
    add(client)
    response = client.post(CHECK, carried(fill(client), shown=shown, total_minor="1", price="1"))
    assert response.status_code == 200
    assert "<b> " not in text_of(response)
    assert not Order.objects.exists()


@pytest.mark.parametrize("key", ["", "1", "a:b", "x" * 5000, "\0"])
def test_key_of_someones_own_making_places_nothing(client: Client, shop: Shop, key: str) -> None:
    add(client)
    assert client.post(CHECK, carried(fill(client), key=key)).status_code == 200
    assert not Order.objects.exists()


@pytest.mark.parametrize("kind", ["", "free", "chart", "year", "batch", "one-free", "\0"])
def test_way_that_is_not_sold_is_not_put_in(client: Client, shop: Shop, kind: str) -> None:
    response = add(client, kind=kind)
    assert response.headers["Location"].startswith("/patterns/sized-tray/order/")
    assert not client.get(BASKET).context["priced"].items


@pytest.mark.parametrize("size", ["?width=99", "?width=3&depth=5", "?zip=1", "?width=" + "9" * 3000])
def test_size_that_is_not_good_is_not_put_in(client: Client, shop: Shop, size: str) -> None:
    assert add(client, size=size).status_code == 303
    assert not client.get(BASKET).context["priced"].items


@pytest.mark.parametrize(
    "basket", ["x", 3, [], {"items": 1}, {"name": "n", "items": [{"odd": 1}], "who": {}}, None]
)
def test_basket_that_cannot_be_read_is_empty(client: Client, shop: Shop, basket: Any) -> None:
    add(client)
    session = client.session
    session["basket"] = basket
    session.save()
    assert client.get(BASKET).status_code == 200
    assert client.get("/").status_code == 200


def test_pattern_that_is_gone_is_said_to_be(client: Client, shop: Shop, tray: Pattern) -> None:
    add(client)
    form = carried(fill(client))
    tray.offers.update(is_on_sale=False)
    assert client.post(CHECK, form).headers["Location"] == BASKET
    assert "is not sold in the way that you chose any more" in words_of(client.get(BASKET))
    Pattern.objects.update(is_listed=False)
    assert "A pattern in your basket is not sold any more" in words_of(client.get(BASKET))
    assert not Order.objects.exists()


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"name": ""}, "There is no name."),
        ({"name": "\u202e\u200b"}, "Nothing of this name can be printed."),
        ({"name": "🧵" * 400}, "The name has 400 characters. Write at most 60."),
        ({"email": "a@example.org\nBcc: b@example.org"}, "This is not an e-mail address."),
        ({"country": ""}, "There is no country."),
        ({"country": "EU"}, "This is not a country of the list."),
        ({"way": "stripe"}, "This is not a way to pay here."),
    ],
)
def test_mistake_keeps_what_was_typed(client: Client, shop: Shop, changed: dict[str, str], says: str) -> None:
    add(client)
    response = client.post(BASKET, {**WHO, **changed})
    assert response.status_code == 200
    assert says in words_of(response)
    assert "<title>Error: " in text_of(response)
    assert client.get(CHECK).headers["Location"] == BASKET


def test_hostile_name_stays_text(client: Client, shop: Shop) -> None:
    add(client)
    page = fill(client, name="<script>alert(1)</script>\u202e\n\rAda")
    assert "<script>alert" not in text_of(page)
    client.post(CHECK, carried(page))
    assert Order.objects.get().name == "<script>alert(1)</script> Ada"


def test_unpaid_orders_have_a_limit(client: Client, shop: Shop, settings: Any) -> None:
    settings.FREE_ORDERS_PER_EMAIL = 1
    for _ in range(2):
        add(client)
        response = client.post(CHECK, carried(fill(client)))
    assert "One unpaid order in 24 hours is the most for one e-mail address" in words_of(response)
    assert Order.objects.count() == 1


def test_shop_without_a_way_to_pay_says_so(client: Client, shop: Shop) -> None:
    Shop.objects.update(is_demo=False, transfer_details="")
    add(client)
    assert "This shop cannot take payments yet." in words_of(client.get(BASKET))
    assert client.post(BASKET, WHO).status_code == 303
    assert client.get(CHECK).headers["Location"] == BASKET


def test_post_from_another_site_gets_403(shop: Shop) -> None:
    strict = Client(enforce_csrf_checks=True)
    assert strict.post(CHECK, AGREED).status_code == 403
    assert add(strict).status_code == 403


def test_demonstration_is_not_there_in_a_real_shop(client: Client, shop: Shop) -> None:
    add(client)
    pay = client.post(CHECK, carried(fill(client))).headers["Location"]
    Shop.objects.update(is_demo=False)
    assert client.get(pay).status_code == 404
    assert client.post(pay, {"end": "pay"}).status_code == 404
    assert not Order.objects.get().is_paid


def test_free_pattern_may_be_bought_with_a_licence(
    client: Client, shop: Shop, tray: Pattern, make_order: Callable[..., object]
) -> None:
    sell(tray, Kind.FREE, 0)
    sell(tray, Kind.BATCH, 1200)
    page = client.get(reverse("orders:order-new", args=["sized-tray"]) + SIZE)
    assert "Place the free order" in words_of(page)
    assert "With a small-batch licence: £12.00" in words_of(page)
    add(client, kind=Kind.FREE)
    assert not client.get(BASKET).context["priced"].items
    add(client, kind=Kind.FREE, batch="on")
    client.post(CHECK, carried(fill(client)))
    line = Order.objects.get().lines.get()
    assert (line.price_minor, line.batch_minor, line.batch_licence) == (0, 1200, LICENCE)


# The order's page while it waits


def test_page_asks_while_it_waits_and_comes_anew_when_paid(client: Client, shop: Shop) -> None:
    add(client)
    pay = client.post(CHECK, carried(fill(client))).headers["Location"]
    order_page = client.get(reverse("orders:payment-back", args=[Order.objects.get().pk])).headers["Location"]
    part, htmx = f"{order_page}payment/", {"HX-Request": "true"}
    assert 'hx-trigger="every 4s"' in text_of(client.get(part, headers=htmx))
    assert client.get(part).headers["Location"] == order_page
    client.post(pay, {"end": "pay"})
    assert client.get(part, headers=htmx).headers["HX-Redirect"] == order_page
    assert client.get("/orders/" + "x" * 43 + "/payment/").status_code == 404


def test_page_that_is_left_open_stops_asking(client: Client, shop: Shop) -> None:
    add(client)
    client.post(CHECK, carried(fill(client)))
    order_page = client.get(reverse("orders:payment-back", args=[Order.objects.get().pk])).headers["Location"]
    Payment.objects.update(begun_at=timezone.now() - timedelta(minutes=61))
    page = text_of(client.get(order_page))
    assert "hx-trigger" not in page
    assert "Pay £6.50" in page


def test_provider_that_cannot_be_reached_leaves_the_order_to_be_paid_later(
    client: Client, shop: Shop, monkeypatch: Any
) -> None:
    def fail(self: object, asked: object) -> None:
        raise ProviderError("no answer")

    add(client)
    monkeypatch.setattr(LocalProvider, "begin", fail)
    order_page = client.post(CHECK, carried(fill(client))).headers["Location"]
    assert "Not paid yet" in words_of(client.get(order_page))
    monkeypatch.undo()
    assert "/payments/demonstration/" in client.post(f"{order_page}pay/").headers["Location"]
    assert Payment.objects.count() == 1


def test_chart_of_which_nothing_can_be_made_is_not_sold(
    client: Client, shop: Shop, tray: Pattern, monkeypatch: Any
) -> None:
    sell(tray, Kind.CHART, 1400)
    add(client, kind=Kind.CHART)
    monkeypatch.setattr(pricing, "_named", lambda form, slug: iter(()))
    page = client.get(BASKET)
    assert "None of the named sizes of Plain tray can be made" in words_of(page)
    assert not page.context["priced"].items
