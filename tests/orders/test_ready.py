"""Customers who did not stay to see their files made are written to once."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from orders.models import IssuedDocument, Letter, Order
from orders.placing import Placed
from orders.ready import PATIENCE, sweep_ready
from tests.orders.conftest import NOW

Maker = Callable[..., Placed]
LATER = NOW + PATIENCE + timedelta(seconds=1)


def made(**only: object) -> None:
    IssuedDocument.objects.filter(**only).update(issued_at=NOW, checksum="c", pages=1, size_bytes=1)


def ready() -> list[Letter]:
    return list(Letter.objects.filter(kind=Letter.Kind.FILES_READY))


def test_written_once_when_all_are_made(make_order: Maker) -> None:
    order = make_order(width="17/2").order
    made(paper="a4")
    assert sweep_ready(LATER) == 0
    made()
    assert sweep_ready(NOW + timedelta(minutes=1)) == 0
    assert [sweep_ready(LATER) for _ in range(3)] == [1, 0, 0]
    (letter,) = ready()
    assert letter.subject.startswith(f"Your files of order {order.number} at ")
    for words in (letter.text, letter.html):
        assert "have been made" in words
        assert "width 8 1⁄2 in" in words
        assert "None" not in words
    assert "\n\n\n" not in letter.text
    assert "  " not in letter.text


@pytest.mark.parametrize("page", ["order-detail", "order-files"])
def test_who_sees_them_gets_no_letter(make_order: Maker, client: Client, page: str) -> None:
    placed = make_order()
    address = reverse(f"orders:{page}", args=[placed.token] + ([1] if page == "order-files" else []))
    client.get(address, headers={"HX-Request": "true"})
    assert Order.objects.get().ready_at is None
    made()
    client.get(address, headers={"HX-Request": "true"})
    assert sweep_ready(LATER) == 0
    assert ready() == []


def test_not_before_it_is_paid(make_order: Maker) -> None:
    order = make_order().order
    made()
    Order.objects.filter(pk=order.pk).update(total_minor=650)
    assert sweep_ready(LATER) == 0


def test_a_file_that_was_not_made_keeps_it_back(make_order: Maker) -> None:
    make_order()
    made(paper="a4")
    IssuedDocument.objects.filter(paper="letter").update(attempts=5, failure="a full disk")
    assert sweep_ready(LATER + timedelta(days=1)) == 0
