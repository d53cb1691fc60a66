from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.test import Client
from django.urls import reverse

from patterns.models import Offer, Pattern
from patterns.models.offers import validate_licence
from tests.orders.conftest import RECIPE, SIZES, text_of
from tests.orders.conftest import make_pattern as make_pattern
from tests.orders.conftest import owner_client as owner_client

Kind = Offer.Kind
LICENCE = "Sew as many as you like. Do not pass the files on."


@pytest.fixture
def tray(make_pattern: Callable[..., Pattern]) -> Pattern:
    return make_pattern("sized-tray", RECIPE + SIZES)


def address() -> str:
    return reverse("patterns:pattern-offers", args=["sized-tray"])


def typed(**changed: str) -> dict[str, str]:
    licences = {f"{part}_licence": LICENCE for part in ("size", "chart", "year", "batch")}
    return {"by_size": "one-size", "size_price": "6.50", **licences, **changed}


def kept(pattern: Pattern) -> dict[str, tuple[int, str]]:
    on_sale = pattern.offers.filter(is_on_sale=True)
    return {offer.kind: (offer.price_minor, offer.size_name) for offer in on_sale}


def test_owner_sells_it_in_every_way(owner_client: Client, tray: Pattern) -> None:
    form = typed(
        by_size="one-free",
        free_size="Large",
        is_chart="on",
        chart_price="14",
        is_year="on",
        year_price="19,00",
        is_batch="on",
        batch_price="12.00",
    )
    response = owner_client.post(address(), form)
    assert (response.status_code, response.headers["Location"]) == (303, reverse("patterns:offer-list"))
    assert kept(tray) == {
        "one-free": (650, "Large"),
        "chart": (1400, ""),
        "year": (1900, ""),
        "batch": (1200, ""),
    }
    assert {offer.licence for offer in tray.offers.filter(is_on_sale=True)} == {LICENCE}
    page = text_of(owner_client.get(address()))
    assert 'value="14.00"' in page
    assert "Size “Large” free, others £6.50" in text_of(owner_client.get(reverse("patterns:offer-list")))


def test_what_is_taken_off_sale_keeps_its_price(owner_client: Client, tray: Pattern) -> None:
    owner_client.post(address(), typed(is_chart="on", chart_price="14"))
    owner_client.post(address(), typed(by_size="free"))
    assert kept(tray) == {"free": (0, "")}
    assert tray.offers.get(kind="chart").price_minor == 1400
    owner_client.post(address(), typed(by_size="none", is_year="on", year_price="19"))
    assert kept(tray) == {"year": (1900, "")}


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"size_price": ""}, "There is no price for “Size by size”."),
        ({"size_price": "six"}, "“six” is not an amount."),
        ({"size_price": "0"}, "A price of nothing is “Free in every size”: choose that instead."),
        ({"size_licence": ""}, "There is no licence for “Size by size”."),
        ({"size_licence": "Sew as you like."}, "The licence has one sentence."),
        ({"is_chart": "on"}, "There is no price for “The whole size chart”."),
        ({"by_size": "one-free", "free_size": ""}, "Choose the size that is free."),
        ({"by_size": "none", "is_batch": "on", "batch_price": "1"}, "The licence goes beside another offer."),
    ],
)
def test_mistake_changes_nothing(
    owner_client: Client, tray: Pattern, changed: dict[str, str], says: str
) -> None:
    response = owner_client.post(address(), typed(**changed))
    page = text_of(response)
    assert response.status_code == 200
    assert says in page
    assert "<title>Error: " in page
    assert kept(tray) == {"free": (0, "")}


def test_price_in_another_currency_is_shown_to_the_owner(owner_client: Client, tray: Pattern) -> None:
    owner_client.post(address(), typed())
    tray.offers.filter(kind="one-size").update(currency="EUR")
    page = text_of(owner_client.get(reverse("patterns:offer-list")))
    assert "Waits for you:" in page
    assert "€6.50" in page


@pytest.mark.parametrize("name", ["patterns:offer-list", "patterns:pattern-offers"])
def test_stranger_is_asked_to_log_in(client: Client, tray: Pattern, name: str) -> None:
    place = reverse(name, args=["sized-tray"] if name.endswith("offers") else [])
    assert client.get(place).status_code == 302
    client.force_login(User.objects.create_user("helper", is_staff=True))
    assert client.get(place).status_code == 403


def test_unknown_pattern_gets_404(owner_client: Client) -> None:
    assert owner_client.get(address()).status_code == 404


@pytest.mark.parametrize(
    "text", ["Do this. Not that.", "Up to 1.5 m of it is yours! May you sell it?", " A. B… "]
)
def test_two_sentences_are_a_licence(text: str) -> None:
    validate_licence(text)


@pytest.mark.parametrize("text", ["One.", "One. Two. Three.", "One. And no end", "", "No end"])
def test_other_counts_are_none(text: str) -> None:
    with pytest.raises(ValidationError):
        validate_licence(text)
