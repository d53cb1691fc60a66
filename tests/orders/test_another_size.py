"""Any size for a year: further sizes, added from the order's page."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from orders.models import IssuedDocument, Order
from orders.paying import mark_paid
from orders.placing import Placed
from orders.selling import a_year_after
from patterns.models import Offer, Pattern
from patterns.publishing import publish
from tests.orders.conftest import NOW, RECIPE, SIZES, sell, words_of

SIZE = "?units=in&width=10&height=6&depth=5"


@pytest.fixture
def placed(buy: Callable[..., Placed], tray: Pattern) -> Placed:
    """An order with any size for a year, paid."""
    sell(tray, Offer.Kind.YEAR, 1900)
    placed = buy(kind=Offer.Kind.YEAR, way="transfer")
    mark_paid(placed.order.payments.get(), "BANK", "owner", NOW)
    return placed


@pytest.fixture(autouse=True)
def soon() -> object:
    with time_machine.travel(NOW + timedelta(days=30), tick=False) as clock:
        yield clock


def address(placed: Placed, size: str = SIZE, line: int = 1) -> str:
    return reverse("orders:another-size", args=[placed.token, line]) + size


def test_size_is_added_to_the_order(client: Client, placed: Placed) -> None:
    order_page = client.get(reverse("orders:order-detail", args=[placed.token]))
    assert "Choose another size of Plain tray : it is paid for until 25 November 2027." in words_of(
        order_page
    )
    assert "Add this size to the order" in words_of(client.get(address(placed)))
    response = client.post(address(placed))
    assert response.headers["Location"].endswith("/#line-2")
    line = placed.order.lines.get(position=2)
    assert (line.price_minor, line.is_included, line.price) == (0, True, "Included")
    assert line.sizes.get(measure="width").text == "10"
    assert IssuedDocument.objects.granted().filter(line=line).count() == 2
    assert Order.objects.get().total_minor == 1900


def test_same_size_again_is_one_line(client: Client, placed: Placed) -> None:
    for _ in range(3):
        client.post(address(placed))
    client.post(address(placed, "?units=in&width=8"))  # the one that was bought
    assert placed.order.lines.count() == 2


@pytest.mark.parametrize("size", ["?units=in&width=99", "?units=in&width=3&depth=5", "?units=in&zip=1"])
def test_size_that_is_not_good_is_not_added(client: Client, placed: Placed, size: str) -> None:
    response = client.post(address(placed, size))
    assert response.status_code == 200
    assert "Add this size to the order" not in words_of(response)
    assert placed.order.lines.count() == 1


def test_newest_revision_is_the_one_that_is_sized(client: Client, placed: Placed, tray: Pattern) -> None:
    publish(tray, (RECIPE + SIZES).replace("1 hour", "2 hours"))
    client.post(address(placed))
    assert placed.order.lines.get(position=2).revision.number == 2


def test_year_has_an_end(client: Client, placed: Placed, soon: object) -> None:
    soon.move_to(datetime(2027, 11, 25, 23, 59, tzinfo=UTC))
    assert client.get(address(placed)).status_code == 200
    soon.move_to(datetime(2027, 11, 26, 0, 1, tzinfo=UTC))
    assert client.get(address(placed)).status_code == 404
    assert client.post(address(placed)).status_code == 404


def test_not_before_it_is_paid_and_not_for_another_line(
    client: Client, placed: Placed, buy: Callable[..., Placed]
) -> None:
    unpaid = buy(kind=Offer.Kind.YEAR, query="units=in&width=9")
    assert client.get(address(unpaid)).status_code == 404
    assert client.get(address(buy())).status_code == 404
    client.post(address(placed))
    assert client.get(address(placed, line=2)).status_code == 404
    assert client.get(address(Placed(placed.order, "x" * 43))).status_code == 404


def test_year_from_a_leap_day() -> None:
    assert str(a_year_after(datetime(2028, 2, 29).date())) == "2029-02-28"
    assert str(a_year_after(datetime(2027, 2, 28).date())) == "2028-02-28"
