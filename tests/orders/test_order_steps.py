"""The steps of an order, one a screen: the words and figures of its book."""

from collections.abc import Callable
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from orders import steps_views
from orders.placing import Placed
from patterns.documents.book_content import book_content
from patterns.documents.errors import DocumentError
from patterns.documents.paper import PAPERS
from patterns.starters import text_of as starter
from tests.orders.conftest import text_of, words_of

pytestmark = pytest.mark.django_db
Maker = Callable[..., Placed]
HTMX = {"HX-Request": "true"}


def address(token: str, line: int = 1) -> str:
    return reverse("orders:order-steps", args=[token, line])


@pytest.fixture
def pouch(make_order: Maker, make_pattern: Callable[..., Any]) -> Placed:
    return make_order(make_pattern("zip-pouch", starter("zip-pouch")))


def test_words_cautions_and_figure_are_the_books(client: Client, pouch: Placed) -> None:
    book = book_content(pouch.order.lines.get().sized_pattern, PAPERS["a4"])
    said = {caution.title: caution.says for caution in book.cautions}
    for step in book.steps:
        page = client.get(f"{address(pouch.token)}?step={step.number}")
        words = words_of(page)
        assert f"Step {step.number} of {len(book.steps)} {step.title} {step.does}" in words
        given = [caution.title for caution in step.cautions]
        again = [title for title in said if f"{title} (step" in step.again]
        assert all(said[title] in words for title in given + again)
        for shown in step.shows:
            assert book.figures[shown.figure.address] in page.content.decode()


def test_marks_of_a_step_are_measured_on_its_screen(client: Client, pouch: Placed) -> None:
    words = words_of(client.get(f"{address(pouch.token)}?step=8"))
    assert "Draw the pleat lines" in words
    assert "Front pleat line fold line" in words
    assert "from the top edge" in words
    assert "Front zip centre" not in words


def test_without_a_number_it_is_the_first_and_offers_to_go_on(client: Client, pouch: Placed) -> None:
    page = text_of(client.get(address(pouch.token)))
    assert "Step 1 of 25" in page
    assert "data-is-opened" in page
    assert 'rel="prev"' not in page
    assert f'rel="next" href="{address(pouch.token)}?step=2"' in page


def test_the_last_leads_back_to_the_order(client: Client, pouch: Placed) -> None:
    page = text_of(client.get(f"{address(pouch.token)}?step=25"))
    assert 'rel="next"' not in page
    assert "data-is-opened" not in page
    assert f'class="button" href="{reverse("orders:order-detail", args=[pouch.token])}"' in page


@pytest.mark.parametrize(
    ("asked", "nearest"),
    [("0", 1), ("26", 25), ("07", 7), ("-3", 1), ("seven", 1), ("9" * 5000, 1), ("٣", 1)],
)
def test_a_number_that_is_none_leads_to_one(client: Client, pouch: Placed, asked: str, nearest: int) -> None:
    response = client.get(address(pouch.token), {"step": asked})
    assert (response.status_code, response.headers["Location"]) == (
        303,
        f"{address(pouch.token)}?step={nearest}",
    )


def test_part_is_one_screen_with_its_title(client: Client, pouch: Placed) -> None:
    response = client.get(f"{address(pouch.token)}?step=3", headers=HTMX)
    part = text_of(response)
    assert part.startswith("<title>Step 3 of 25: Cut the lining – Zip pouch</title> <div ")
    assert "<header" not in part
    assert "HX-Request" in response.headers["Vary"]


def test_nothing_keeps_it(client: Client, pouch: Placed) -> None:
    headers = client.get(address(pouch.token)).headers
    assert "no-store" in headers["Cache-Control"]
    assert "noindex" in headers["X-Robots-Tag"]
    assert headers["Referrer-Policy"] == "strict-origin"
    assert "screen-wake-lock=(self)" in headers["Permissions-Policy"]


def test_order_leads_to_it(client: Client, pouch: Placed) -> None:
    page = text_of(client.get(reverse("orders:order-detail", args=[pouch.token])))
    assert f'<a href="{address(pouch.token)}">Follow the steps on a phone</a>' in page


def test_stranger_gets_404(client: Client, pouch: Placed) -> None:
    assert client.get(address("A" * 43)).status_code == 404
    assert client.get(address(pouch.token, 2)).status_code == 404


def test_unpaid_gets_404(client: Client, buy: Maker) -> None:
    placed = buy()
    assert client.get(address(placed.token)).status_code == 404
    assert "Follow the steps" not in text_of(client.get(reverse("orders:order-detail", args=[placed.token])))


@pytest.mark.parametrize("method", ["post", "put", "delete"])
def test_wrong_method_gets_405(client: Client, pouch: Placed, method: str) -> None:
    assert getattr(client, method)(address(pouch.token)).status_code == 405


def test_steps_that_cannot_be_followed_are_owned_up_to(
    client: Client, pouch: Placed, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def refuse(*_: object) -> None:
        raise DocumentError("The steps cannot be followed.")

    monkeypatch.setattr(steps_views, "step_screen", refuse)
    response = client.get(address(pouch.token))
    assert response.status_code == 503
    assert "The steps cannot be shown" in words_of(response)
    assert "The steps cannot be followed." in caplog.text
