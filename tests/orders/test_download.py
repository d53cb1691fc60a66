import hashlib
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from orders.body_child import BodyError
from orders.models import IssuedDocument
from orders.placing import Placed
from tests.orders.conftest import pass_of, text_of

Maker = Callable[..., Placed]


def address(placed: Placed, line: int = 1, kind: str = "book", paper: str = "a4") -> str:
    return reverse("orders:download", args=[pass_of(placed), line, kind, paper])


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
    assert headers["Referrer-Policy"] == "strict-origin"
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
    token = pass_of(placed)
    altered = ("B" if token[0] == "A" else "A") + token[1:]
    for wrong in (altered, placed.token):
        assert client.get(reverse("orders:download", args=[wrong, 1, "book", "a4"])).status_code == 404
    assert client.get(reverse("orders:order-detail", args=[token])).status_code == 404
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


def test_part_of_a_file_goes_on_where_it_broke_off(
    client: Client, make_order: Maker, blank_book: Any
) -> None:
    placed = make_order()
    whole = client.get(address(placed))
    rest = client.get(address(placed), headers={"Range": "bytes=100-", "If-Range": whole.headers["ETag"]})
    assert (rest.status_code, whole.content[:100] + rest.content) == (206, whole.content)
    assert rest.headers["Content-Range"] == f"bytes 100-{len(whole.content) - 1}/{len(whole.content)}"
    assert downloads() == 1


def test_part_that_is_not_there_is_not_counted(client: Client, make_order: Maker, blank_book: Any) -> None:
    response = client.get(address(make_order()), headers={"Range": "bytes=99999999-"})
    assert (response.status_code, response.content) == (416, b"")
    assert downloads() == 0


def test_day_of_the_pass_ends_it(client: Client, make_order: Maker, blank_book: Any, settings: Any) -> None:
    settings.PASS_DAYS = 3
    placed = make_order()
    with time_machine.travel(datetime(2026, 11, 25, 12, tzinfo=UTC), tick=False) as clock:
        link = address(placed)
        clock.shift(3 * 24 * 3600 - 1)
        assert client.get(link).status_code == 200
        clock.shift(1)
        response = client.get(link)
        assert response.status_code == 410
        assert "This link has ended" in text_of(response)
        assert placed.token not in text_of(response)
        assert client.head(link).status_code == 410
    assert downloads() == 1


def test_used_up_pass_ends_what_it_began_and_no_more(
    client: Client, make_order: Maker, blank_book: Any, settings: Any
) -> None:
    settings.PASS_DOWNLOADS = 1
    placed = make_order()
    with time_machine.travel(datetime(2026, 11, 25, 12, tzinfo=UTC), tick=False) as clock:
        assert client.get(address(placed)).status_code == 200
        assert client.get(address(placed), headers={"Range": "bytes=5-"}).status_code == 206
        assert client.get(address(placed, paper="letter")).status_code == 410
        clock.shift(600)
        assert client.get(address(placed)).status_code == 410
    assert (downloads(), downloads("letter")) == (1, 0)


def test_renewed_links_open_and_the_old_ones_do_not(
    client: Client, make_order: Maker, blank_book: Any
) -> None:
    placed = make_order()
    before = address(placed)
    renewed = client.post(reverse("orders:pass-renew", args=[placed.token]))
    assert renewed.headers["Location"] == f"/orders/{placed.token}/#order-pass"
    assert address(placed) != before
    assert (client.get(before).status_code, client.get(address(placed)).status_code) == (410, 200)


def test_file_that_fails_says_so_and_is_not_counted(
    client: Client, make_order: Maker, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fail(*_: object) -> bytes:
        raise BodyError("DocumentError: a label lies on another")

    monkeypatch.setattr("orders.delivery_views.made_apart", fail)
    placed = make_order()
    response = client.get(address(placed))
    assert (response.status_code, response.headers["Retry-After"]) == (503, "600")
    assert "none of yours" in text_of(response)
    assert "a label lies on another" not in text_of(response)
    assert "was not made: DocumentError: a label lies on another" in caplog.text
    assert downloads() == 0


def test_file_that_failed_in_the_worker_is_not_tried_by_the_web_server(
    client: Client, make_order: Maker, blank_book: Any
) -> None:
    placed = make_order()
    IssuedDocument.objects.filter(paper="a4").update(failure="It took longer than 60 seconds.", attempts=1)
    assert client.get(address(placed)).status_code == 503
    assert not blank_book
