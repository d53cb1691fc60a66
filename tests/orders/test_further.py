"""Other forms of a book: offered with each order, made and kept only once they are asked for."""

from collections.abc import Callable
from io import BytesIO

import pikepdf
import pytest
from django.test import Client
from django.urls import reverse

from orders import delivery_views, issuing
from orders.further import FURTHER, further_document
from orders.models import IssuedDocument, Order
from orders.placing import Placed
from tests.orders.conftest import blank_page, pass_of, text_of

Maker = Callable[..., Placed]


def address(placed: Placed, kind: str, paper: str = "a4", line: int = 1) -> str:
    return reverse("orders:download", args=[pass_of(placed), line, kind, paper])


@pytest.fixture
def blank(monkeypatch: pytest.MonkeyPatch) -> None:
    kinds = IssuedDocument.Kind
    monkeypatch.setattr(issuing, "MAKERS", dict.fromkeys(kinds, lambda *_: blank_page()))
    monkeypatch.setattr(delivery_views, "made_apart", issuing.made_here)


def test_page_offers_them(client: Client, make_order: Maker) -> None:
    placed = make_order()
    page = text_of(client.get(reverse("orders:order-detail", args=[placed.token])))
    for kind, paper in FURTHER:
        assert address(placed, kind, paper) in page
    assert "Short form on A4" in page
    assert "Book in black and white on US Letter" in page


def test_nothing_is_kept_of_them_before_they_are_asked_for(make_order: Maker) -> None:
    make_order()
    assert set(IssuedDocument.objects.values_list("kind", flat=True)) == {"book"}


def test_one_asked_for_is_issued_with_the_orders_line_and_kept(
    client: Client, make_order: Maker, blank: None
) -> None:
    placed = make_order()
    first, second = client.get(address(placed, "short")), client.get(address(placed, "short"))
    assert first.status_code == 200
    assert first.content == second.content
    document = IssuedDocument.objects.get(kind="short")
    assert document.licence_line == f"Order {placed.order.number} · made for Ada Example"
    assert document.file_name in first.headers["Content-Disposition"]
    with pikepdf.open(BytesIO(first.content)) as pdf:
        assert str(pdf.docinfo["/Licence"]) == document.licence_line


def test_page_tells_its_pages_once_it_was_made(client: Client, make_order: Maker, blank: None) -> None:
    placed = make_order()
    client.get(address(placed, "plain", "letter"))
    page = text_of(client.get(reverse("orders:order-detail", args=[placed.token])))
    assert page.count(address(placed, "plain", "letter")) == 1
    assert "1 page, " in page


@pytest.mark.parametrize(("kind", "paper"), [("short", "large"), ("plain", "a3"), ("poster", "a4")])
def test_what_there_is_not_is_404(client: Client, make_order: Maker, kind: str, paper: str) -> None:
    placed = make_order()
    assert client.get(address(placed, kind, paper)).status_code == 404
    assert client.get(address(placed, "short", line=2)).status_code == 404
    assert IssuedDocument.objects.count() == 2


def test_stranger_makes_nothing(client: Client, make_order: Maker) -> None:
    placed = make_order()
    wrong = placed.token.swapcase()
    assert client.get(reverse("orders:download", args=[wrong, 1, "short", "a4"])).status_code == 404
    assert IssuedDocument.objects.count() == 2


def test_an_order_that_is_not_paid_has_none(make_order: Maker) -> None:
    order = make_order().order
    Order.objects.update(total_minor=650)
    assert further_document(order, 1, "short", "a4") is None


def test_the_short_form_of_an_order_is_made(make_order: Maker) -> None:
    placed = make_order()
    document = further_document(placed.order, 1, "short", "a4")
    assert document is not None
    assert issuing.issue(document).startswith(b"%PDF-")
    assert document.pages == 1
