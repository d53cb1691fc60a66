from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from orders.issuing import issue
from orders.models import IssuedDocument
from orders.placing import Placed
from patterns import starters
from patterns.cutting.wish import Wish, to_json
from studio.models import Shop
from tests.orders.conftest import pass_of, text_of, words_of

Maker = Callable[..., Placed]


def address(token: str) -> str:
    return reverse("orders:order-detail", args=[token])


def test_page_says_what_was_made(client: Client, make_order: Maker) -> None:
    placed = make_order(width="17/2")
    response = client.get(address(placed.token))
    page = text_of(response)
    assert response.status_code == 200
    assert f"<h1>Order {placed.order.number}</h1>" in page
    assert "Placed on 25 November 2026, 10:30 for Ada Example. Free." in page
    assert "Width 8 1⁄2 in Height 6 in Depth 5 in Layers 2 Lining none" in words_of(response)
    assert "<svg" in page
    assert f"http://testserver{address(placed.token)}" in page


def test_files_of_both_papers_can_be_downloaded(client: Client, make_order: Maker) -> None:
    placed = make_order()
    page = text_of(client.get(address(placed.token)))
    for paper in ("a4", "letter"):
        assert reverse("orders:download", args=[pass_of(placed), 1, "book", paper]) in page
    assert f"At the foot of each page stands: Order {placed.order.number} · made for Ada Example" in page
    assert "0 of 2 files made." in page
    assert page.count("PDF, being made") == 2


def test_pages_and_size_once_they_are_known(client: Client, make_order: Maker, blank_book: list[Any]) -> None:
    placed = make_order()
    issue(IssuedDocument.objects.get(line__order=placed.order, paper="a4"))
    page = text_of(client.get(address(placed.token)))
    assert "PDF, 1 page, " in page
    assert "1 of 2 files made." in page
    assert page.count("PDF, being made") == 1


def test_what_to_buy_stands_there_once_it_is_worked_out(
    client: Client, make_order: Maker, blank_book: list[Any]
) -> None:
    """With the page, and with the part that asks how far the files are."""
    placed = make_order()
    waits = "It is worked out together with the files, and stands here then."
    part = reverse("orders:order-files", args=[placed.token, 1])
    htmx = {"HX-Request": "true"}
    assert waits in words_of(client.get(address(placed.token)))
    assert "order-buying" not in text_of(client.get(part, headers=htmx))
    line = placed.order.lines.get()
    line.wish = to_json(Wish(count=2, price_minor=1250))
    line.save()
    issue(IssuedDocument.objects.get(line__order=placed.order, paper="a4"))
    for response in (client.get(address(placed.token)), client.get(part, headers=htmx)):
        text = words_of(response)
        assert waits not in text
        assert "For 2 of them, cut together. Cloth 1⁄2 yd, 44 in wide, £6.25" in text
        assert "At the prices given: £6.25, which is £3.13 for each of the 2." in text
    assert 'id="order-buying-1" hx-swap-oob="true"' in text_of(response)


def test_time_is_the_shops(client: Client, make_order: Maker) -> None:
    Shop.objects.create(time_zone="America/Toronto")
    assert "25 November 2026, 05:30" in text_of(client.get(address(make_order().token)))


def test_address_of_the_customer_is_not_shown(client: Client, make_order: Maker) -> None:
    assert "ada@example.org" not in text_of(client.get(address(make_order().token)))


def test_nothing_keeps_or_lists_it_or_hands_the_link_on(client: Client, make_order: Maker) -> None:
    headers = client.get(address(make_order().token)).headers
    assert "no-store" in headers["Cache-Control"]
    assert "noindex" in headers["X-Robots-Tag"]
    assert headers["Referrer-Policy"] == "strict-origin"


def test_stranger_gets_404(client: Client, make_order: Maker) -> None:
    token = make_order().token
    altered = ("B" if token[0] == "A" else "A") + token[1:]
    for wrong in (altered, token.swapcase(), "A" * 43):
        assert client.get(address(wrong)).status_code == 404


@pytest.mark.parametrize(
    "path", ["/orders/1/", "/orders/short/", "/orders/", f"/orders/{'A' * 44}/", "/orders/%00/"]
)
def test_no_link_gets_404(client: Client, db: None, path: str) -> None:
    assert client.get(path).status_code == 404


@pytest.mark.parametrize("method", ["post", "put", "delete"])
def test_wrong_method_gets_405(client: Client, make_order: Maker, method: str) -> None:
    assert getattr(client, method)(address(make_order().token)).status_code == 405


def test_order_of_a_pattern_taken_off_the_list_is_still_there(client: Client, make_order: Maker) -> None:
    placed = make_order()
    pattern = placed.order.lines.get().revision.pattern
    pattern.is_listed = False
    pattern.save()
    assert client.get(address(placed.token)).status_code == 200


def test_queries_do_not_grow(client: Client, make_order: Maker, django_assert_num_queries: Any) -> None:
    token = make_order().token
    client.get(address(token))
    with CaptureQueriesContext(connection) as one:
        client.get(address(token))
    for at in range(9):
        make_order(email=f"{at}@example.org")
    with django_assert_num_queries(len(one)):
        client.get(address(token))


def test_many_things_are_listed_on_top_and_printing_is_explained_once(
    client: Client, make_order: Maker
) -> None:
    placed = make_order()
    line = placed.order.lines.get()
    for line.position in (2, 3):
        line.pk = None
        line.save()
    page = text_of(client.get(address(placed.token)))
    assert f'<a href="#line-3">{line.title}</a>' in page
    assert page.count("<h3>How to print it</h3>") == 1
    assert page.count("<summary>How to print it</summary>") == 2


def test_templates_are_offered_beside_the_book(
    client: Client, make_order: Maker, make_pattern: Callable[..., Any]
) -> None:
    placed = make_order(make_pattern("round-bucket", starters.text_of("round-bucket")))
    page = text_of(client.get(address(placed.token)))
    for paper in ("a4", "letter", "large"):
        assert reverse("orders:download", args=[pass_of(placed), 1, "templates", paper]) in page
    assert "Full-size templates on one large sheet" in page
    assert "measure the square on it" in page


def test_without_templates_nothing_is_said_of_them(client: Client, make_order: Maker) -> None:
    assert "templates" not in text_of(client.get(address(make_order().token)))


def test_templates_are_issued_like_a_book(make_order: Maker, make_pattern: Callable[..., Any]) -> None:
    placed = make_order(make_pattern("round-bucket", starters.text_of("round-bucket")))
    documents = IssuedDocument.objects.filter(line__order=placed.order, kind="templates")
    pages = {}
    for document in documents:
        assert issue(document) == issue(document)
        pages[document.paper] = document.pages
    assert pages == {"a4": 7, "letter": 7, "large": 1}
