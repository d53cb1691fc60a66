import re
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
    assert (line.title, line.says, line.price) == (
        "Plain tray",
        "Pattern as a download, worked out for 8 1⁄2 in wide, 6 in high, 5 in deep",
        "Free",
    )
    assert made.sums == (("Total", "Free"),)
    assert made.remark == "Nothing was to be paid for this order."


def test_amounts_are_the_orders_own(make_order: Maker) -> None:
    order = make_order().order
    order.lines.update(price_minor=650, currency="EUR", quantity=2)
    order.total_minor, order.paid_minor, order.currency = 1300, 1300, "EUR"
    order.way, order.paid_at, order.invoice_number = "transfer", NOW, 7
    order.tax_minor, order.tax_milli_percent, order.tax_name = 217, 20_000, "VAT"
    order.refunded_minor = 300
    made = receipt_of(order, Shop())
    assert (made.invoice, made.lines[0].count) == ("7", "2 of it")
    assert "6.50" in made.lines[0].price
    assert [name for name, _ in made.sums] == ["Without VAT", "VAT at 20 %", "Total"]
    assert [re.sub("[^0-9.]", "", amount) for _, amount in made.sums] == ["10.83", "2.17", "13.00"]
    assert made.remark == "Paid by bank transfer on 25 November 2026. Of it €3.00 was given back."


def test_small_batch_licence_is_a_line_of_its_own(make_order: Maker) -> None:
    order = make_order().order
    order.lines.update(batch_minor=2000, batch_licence="You may sell fifty.", currency="EUR")
    assert [line.title for line in receipt_of(order, Shop()).lines] == [
        "Plain tray",
        "Small-batch licence for Plain tray",
    ]


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
