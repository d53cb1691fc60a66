import hashlib
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from orders.models import IssuedDocument
from orders.placing import Placed

Maker = Callable[..., Placed]


def address(placed: Placed, line: int = 1, kind: str = "book", paper: str = "a4") -> str:
    return reverse("orders:download", args=[placed.token, line, kind, paper])


def downloads(paper: str = "a4") -> int:
    return IssuedDocument.objects.get(paper=paper).downloads


def test_file_is_a_pdf_with_a_name_of_its_own(client: Client, make_order: Maker, blank_book: Any) -> None:
    placed = make_order()
    response = client.get(address(placed))
    assert response.status_code == 200
    assert response.headers["Content-Type"] == "application/pdf"
    name = f"plain-tray-book-a4-order-{placed.order.number}.pdf"
    assert response.headers["Content-Disposition"] == f'attachment; filename="{name}"'
    assert response.headers["Content-Length"] == str(len(response.content))
    assert response.content.startswith(b"%PDF-")
    assert hashlib.sha256(response.content).hexdigest() == IssuedDocument.objects.get(paper="a4").checksum


def test_same_bytes_every_time(client: Client, make_order: Maker, blank_book: Any) -> None:
    placed = make_order()
    assert client.get(address(placed)).content == client.get(address(placed)).content
    assert client.get(address(placed, paper="letter")).status_code == 200


def test_name_in_markup_and_other_scripts_does_no_harm(
    client: Client, make_order: Maker, blank_book: Any
) -> None:
    for at, name in enumerate(
        ["</style><b>", "אבג", "Ada\nSet-Cookie: x", "山田", "😀", "a" + "\u0301" * 50]
    ):
        placed = make_order(name=name, email=f"{at}@example.org")
        response = client.get(address(placed))
        assert response.status_code == 200
        assert "Set-Cookie" not in response.headers


def test_nothing_keeps_or_lists_it_or_hands_the_link_on(
    client: Client, make_order: Maker, blank_book: Any
) -> None:
    headers = client.get(address(make_order())).headers
    assert "no-store" in headers["Cache-Control"]
    assert "noindex" in headers["X-Robots-Tag"]
    assert headers["Referrer-Policy"] == "no-referrer"
    assert headers["X-Content-Type-Options"] == "nosniff"


def test_downloads_are_counted_once_in_ten_minutes(
    client: Client, make_order: Maker, blank_book: Any
) -> None:
    placed = make_order()
    with time_machine.travel(datetime(2026, 11, 25, 12, tzinfo=UTC), tick=False) as clock:
        client.get(address(placed))
        clock.shift(599)
        client.get(address(placed))
        assert downloads() == 1
        clock.shift(1)
        client.get(address(placed))
        assert downloads() == 2
    assert downloads("letter") == 0


def test_head_is_answered_and_not_counted(client: Client, make_order: Maker, blank_book: Any) -> None:
    placed = make_order()
    response = client.head(address(placed))
    assert (response.status_code, response.content) == (200, b"")
    assert response.headers["Content-Length"] == str(IssuedDocument.objects.get(paper="a4").size_bytes)
    assert downloads() == 0


def test_stranger_gets_404(client: Client, make_order: Maker, blank_book: Any) -> None:
    placed = make_order()
    altered = Placed(placed.order, ("B" if placed.token[0] == "A" else "A") + placed.token[1:])
    assert client.get(address(altered)).status_code == 404
    assert not blank_book


def test_link_opens_its_own_order_only(client: Client, make_order: Maker, blank_book: Any) -> None:
    one, other = make_order(name="Ada Example"), make_order(name="Bea Example")
    assert client.get(address(one)).content != client.get(address(other)).content


@pytest.mark.parametrize("wrong", [{"line": 2}, {"line": 0}, {"kind": "chart"}, {"paper": "a5"}])
def test_unknown_file_gets_404(
    client: Client, make_order: Maker, blank_book: Any, wrong: dict[str, Any]
) -> None:
    assert client.get(address(make_order(), **wrong)).status_code == 404


@pytest.mark.parametrize("method", ["post", "put", "delete"])
def test_wrong_method_gets_405(client: Client, make_order: Maker, method: str) -> None:
    assert getattr(client, method)(address(make_order())).status_code == 405
