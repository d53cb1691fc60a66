from collections.abc import Callable
from typing import Any

from django.test import Client
from django.urls import reverse

from orders.issuing import issue
from orders.models import IssuedDocument
from orders.models.documents import MOST_ATTEMPTS
from orders.placing import Placed
from tests.orders.conftest import text_of

Maker = Callable[..., Placed]
HTMX = {"HX-Request": "true"}


def address(placed: Placed, line: int = 1) -> str:
    return reverse("orders:order-files", args=[placed.token, line])


def test_part_says_how_far_and_asks_again_until_all_are_made(
    client: Client, make_order: Maker, blank_book: Any
) -> None:
    placed = make_order()
    for made, document in enumerate(IssuedDocument.objects.all()):
        part = text_of(client.get(address(placed), headers=HTMX))
        assert part.startswith('<div class="order-files" id="order-files-1"')
        assert f"{made} of 2 files made." in part
        assert f'hx-get="{address(placed)}" hx-trigger="every 2s"' in part
        assert f"/orders/{placed.token}/?made={made}#files-1" in part
        issue(document)
    part = text_of(client.get(address(placed), headers=HTMX))
    assert "Both files are made." in part
    assert "hx-get" not in part
    assert "Look again" not in part


def test_page_is_the_orders_own(client: Client, make_order: Maker) -> None:
    placed = make_order()
    response = client.get(address(placed))
    assert response.status_code == 303
    assert response.headers["Location"] == f"/orders/{placed.token}/#files-1"


def test_file_that_failed_is_asked_for_seldom_and_has_no_link(client: Client, make_order: Maker) -> None:
    placed = make_order()
    IssuedDocument.objects.update(failure="It took longer than 60 seconds.", attempts=2)
    part = text_of(client.get(address(placed), headers=HTMX))
    assert "every 20s" in part
    assert "could not be made yet" in part
    assert "60 seconds" not in part  # for the owner
    assert "/downloads/" not in part


def test_file_that_is_given_up_is_not_asked_for(client: Client, make_order: Maker) -> None:
    placed = make_order()
    IssuedDocument.objects.update(failure="It took longer than 60 seconds.", attempts=MOST_ATTEMPTS)
    assert "hx-get" not in text_of(client.get(address(placed), headers=HTMX))


def test_stranger_and_unknown_line_get_404(client: Client, make_order: Maker) -> None:
    placed = make_order()
    assert client.get(address(placed, 2), headers=HTMX).status_code == 404
    assert client.get(address(Placed(placed.order, "A" * 43)), headers=HTMX).status_code == 404
