import re
from collections.abc import Callable
from html import unescape

import pytest
from django.db import IntegrityError, transaction
from django.test import Client

from patterns.models import Offer, Pattern
from patterns.sale import catalogue_price, offers_on_sale, sale_now
from tests.orders.conftest import RECIPE, SIZES, sell, sized_as, text_of
from tests.orders.conftest import make_pattern as make_pattern

Kind = Offer.Kind


@pytest.fixture
def tray(make_pattern: Callable[..., Pattern]) -> Pattern:
    return make_pattern("sized-tray", RECIPE + SIZES)


def sale(pattern: Pattern, units: str = "in", currency: str = "GBP", **measures: str):
    revision = pattern.revisions.get()
    return sale_now(pattern, revision.recipe, sized_as(revision, units, **measures), currency)


SMALL = {"width": "6", "height": "4", "depth": "3"}


def test_new_pattern_is_free_in_every_size(tray: Pattern) -> None:
    assert sale(tray).is_free
    assert [way.name for way in sale(tray).ways] == ["This size"]


def test_saving_again_changes_no_price(tray: Pattern) -> None:
    sell(tray, Kind.ONE_SIZE, 650)
    tray.save()
    assert not sale(tray).is_free


def test_one_named_size_is_free_and_every_other_is_paid(tray: Pattern) -> None:
    sell(tray, Kind.ONE_FREE, 450, size_name="Small")
    assert sale(tray, **SMALL).is_free
    assert sale(tray, "cm", width="15", height="10", depth="8").is_free
    assert not sale(tray, **{**SMALL, "height": "4.25"}).is_free
    assert sale(tray, width="7").least.price == "£4.50"


def test_free_size_that_the_recipe_no_longer_names_is_paid(tray: Pattern, client: Client) -> None:
    sell(tray, Kind.ONE_FREE, 450, size_name="Tiny")
    assert not sale(tray, **SMALL).is_free
    assert "is free" not in text_of(client.get(tray.get_absolute_url()))


def test_page_leads_to_the_size_that_is_free(tray: Pattern, client: Client) -> None:
    sell(tray, Kind.ONE_FREE, 450, size_name="Small")
    html = client.get(tray.get_absolute_url()).content.decode()
    link = re.search(r'Its size “Small” is free: <a href="(\S+)" data-typed=', html)
    assert link
    assert "<span>Free</span>" in text_of(client.get(tray.get_absolute_url() + unescape(link[1])))


def test_what_is_off_sale_is_not_offered(tray: Pattern) -> None:
    tray.offers.update(is_on_sale=False)
    assert not sale(tray).is_on_sale
    assert not sale(tray).is_free


def test_price_in_another_currency_waits(tray: Pattern) -> None:
    sell(tray, Kind.ONE_SIZE, 650)
    assert sale(tray).is_on_sale
    assert not sale(tray, currency="EUR").is_on_sale


def test_licence_goes_beside_another_offer_alone(tray: Pattern) -> None:
    sell(tray, Kind.BATCH, 1200)
    assert sale(tray).batch is not None
    tray.offers.filter(kind=Kind.FREE).update(is_on_sale=False)
    assert sale(tray).batch is None


def test_chart_needs_named_sizes(make_pattern: Callable[..., Pattern]) -> None:
    plain = make_pattern("plain-tray")
    sell(plain, Kind.CHART, 1400)
    assert sale(plain).way(Kind.CHART) is None


def test_one_way_size_by_size(tray: Pattern) -> None:
    with pytest.raises(IntegrityError), transaction.atomic():
        Offer.objects.create(pattern=tray, kind=Kind.ONE_SIZE, price_minor=650, currency="GBP")


@pytest.mark.parametrize("kind", [Kind.ONE_SIZE, Kind.CHART, Kind.YEAR, Kind.BATCH])
def test_what_is_sold_has_a_price(tray: Pattern, kind: str) -> None:
    with pytest.raises(IntegrityError), transaction.atomic():
        Offer.objects.create(pattern=tray, kind=kind, price_minor=0, is_on_sale=False)


@pytest.mark.parametrize(
    ("offers", "words"),
    [
        ([], "Free"),
        ([(Kind.BATCH, 900, "")], "Free"),
        ([(Kind.ONE_SIZE, 650, "")], "£6.50"),
        ([(Kind.ONE_SIZE, 650, ""), (Kind.YEAR, 1900, ""), (Kind.BATCH, 100, "")], "From £6.50"),
        ([(Kind.ONE_FREE, 450, "Small")], "Size “Small” free, others £4.50"),
    ],
)
def test_price_on_the_list(tray: Pattern, offers: list[tuple[str, int, str]], words: str) -> None:
    for kind, price, name in offers:
        sell(tray, kind, price, size_name=name)
    (brought,) = Pattern.objects.with_offers("GBP")
    assert catalogue_price(offers_on_sale(brought)) == words
    tray.offers.update(is_on_sale=False)
    (brought,) = Pattern.objects.with_offers("GBP")
    assert catalogue_price(offers_on_sale(brought)) == "Not for sale now"


def test_pattern_that_was_never_published_goes_with_its_offers(db: None) -> None:
    Pattern.objects.create(slug="slip").delete()
    assert not Offer.objects.exists()
