from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from django.test import Client
from django.urls import reverse

from orders.other_system import keep_in_other_system
from orders.placing import Placed
from orders.receipts import receipt, receipt_of
from patterns.documents.check import check
from studio.models import Shop
from tests.orders.conftest import NOW

Maker = Callable[..., Placed]


def test_receipt_says_who_sold_what_to_whom(make_order: Maker) -> None:
    shop = Shop.objects.create(name="Reed Lane Patterns", email="post@reed.example", time_zone="Asia/Tokyo")
    made = receipt_of(make_order(width="17/2", now=NOW.replace(hour=20)).order, shop)
    assert (made.seller, made.seller_email, made.buyer) == (
        "Reed Lane Patterns",
        "post@reed.example",
        "Ada Example",
    )
    assert (made.placed, made.placed_words) == ("2026-11-26", "26 November 2026")
    (line,) = made.lines
    assert (line.title, line.size, line.price) == (
        "Plain tray",
        "8 1⁄2 in wide, 6 in high, 5 in deep",
        "Free",
    )
    assert made.sums == (("Total", "Free"),)
    assert made.remark == "Nothing was to be paid for this order."


def test_amounts_are_the_orders_own(make_order: Maker) -> None:
    order = make_order().order
    order.lines.update(price_minor=650, currency="EUR", quantity=2)
    order.total_minor, order.currency = 1300, "EUR"
    made = receipt_of(order, Shop())
    assert (made.lines[0].count, made.remark) == ("2 of it", "")
    assert "6.50" in made.lines[0].price
    assert "13.00" in made.sums[-1][1]


def test_other_system_is_not_on_it(make_order: Maker) -> None:
    order = make_order().order
    keep_in_other_system(order.lines.get())
    assert len(receipt_of(order, Shop()).lines) == 1


@pytest.mark.parametrize("name", ["</style><b>Ada", "אבג", "山田 Ada", "Ada 😀", "a" + "\u0301" * 50, "😀"])
def test_name_in_markup_and_other_scripts_does_no_harm(make_order: Maker, name: str) -> None:
    made = receipt(make_order(name=name).order, Shop(name=f"Shop {name}"), "a4")
    assert check(made) == ()


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
def test_receipt_is_one_accessible_page_and_the_same_twice(
    client: Client, make_order: Maker, settings: Any, paper: str, size: tuple[int, int]
) -> None:
    placed = make_order()
    link = reverse("orders:receipt", args=[placed.token, paper])
    response = client.get(link)
    assert (response.status_code, response.headers["Content-Type"]) == (200, "application/pdf")
    name = f'attachment; filename="receipt-order-{placed.order.number}.pdf"'
    assert response.headers["Content-Disposition"] == name
    assert "no-store" in response.headers["Cache-Control"]
    assert check(response.content) == ()
    with pikepdf.open(BytesIO(response.content)) as pdf:
        assert len(pdf.pages) == 1
        assert tuple(round(float(side)) for side in pdf.pages[0].mediabox[2:]) == size
    (kept,) = Path(settings.MEDIA_ROOT).rglob("*.pdf")
    kept.unlink()
    assert client.get(link).content == response.content


def test_stranger_and_unknown_paper_get_404(client: Client, make_order: Maker) -> None:
    placed = make_order()
    assert client.get(f"/orders/{'A' * 43}/receipt-a4.pdf").status_code == 404
    assert client.get(f"/orders/{placed.token}/receipt-a5.pdf").status_code == 404
