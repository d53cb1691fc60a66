import hashlib
import logging
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from io import BytesIO
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from django.db import connection, connections

from orders import bodies, issuing
from orders.issuing import issue
from orders.models import IssuedDocument
from orders.placing import Placed
from patterns.cutting.listing import ShoppingList
from patterns.drafting.sized import SizedPattern
from tests.orders.conftest import blank_page

Maker = Callable[..., Placed]
Asked = list[tuple[SizedPattern, str]]


def the_book(placed: Placed, paper: str = "a4") -> IssuedDocument:
    return IssuedDocument.objects.get(line__order=placed.order, paper=paper)


def kept_files(settings: Any) -> list[Path]:
    return sorted(file for file in Path(settings.MEDIA_ROOT).rglob("*") if file.is_file())


def test_real_book_is_stamped_and_the_same_twice(make_order: Maker) -> None:
    placed = make_order(width="17/2", name="Ada Example")
    first, second = issue(the_book(placed)), issue(the_book(placed))
    assert first == second
    document = the_book(placed)
    assert document.checksum == hashlib.sha256(first).hexdigest()
    assert document.size_bytes == len(first)
    with pikepdf.open(BytesIO(first)) as pdf:
        assert len(pdf.pages) == document.pages > 0
        assert str(pdf.docinfo["/Licence"]) == f"Order {placed.order.number} · made for Ada Example"


def test_body_is_made_once_for_the_same_size(make_order: Maker, blank_book: Asked, settings: Any) -> None:
    one, other = make_order(name="Ada Example"), make_order(name="Bea Example")
    files = issue(the_book(one)), issue(the_book(other)), issue(the_book(one))
    assert files[0] == files[2] != files[1]
    assert len(blank_book) == 1
    assert [file.name for file in kept_files(settings)] == [f"{the_book(one).body_address}.pdf"]


@pytest.mark.parametrize("changed", [{"width": "10"}, {"units": "cm"}])
def test_another_size_is_another_body(make_order: Maker, blank_book: Asked, changed: dict[str, str]) -> None:
    issue(the_book(make_order()))
    issue(the_book(make_order(**changed)))
    assert len(blank_book) == 2


def test_another_paper_is_another_body(make_order: Maker, blank_book: Asked) -> None:
    placed = make_order()
    issue(the_book(placed, "a4"))
    issue(the_book(placed, "letter"))
    assert [paper for _, paper in blank_book] == ["a4", "letter"]
    assert the_book(placed, "a4").body_address != the_book(placed, "letter").body_address


def test_body_is_made_from_the_kept_size(make_order: Maker, blank_book: Asked) -> None:
    placed = make_order(width="17/2")
    issue(the_book(placed))
    assert blank_book[0][0] == placed.order.lines.get().sized_pattern


def test_newer_renderer_leaves_what_was_issued(
    make_order: Maker, blank_book: Asked, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    placed = make_order()
    before = issue(the_book(placed))
    monkeypatch.setattr(bodies, "renderer_key", lambda: "a later version")
    assert issue(the_book(placed)) == before
    assert len(blank_book) == 1
    assert not caplog.records
    issue(the_book(make_order()))
    assert len(blank_book) == 2  # for another order the newer renderer makes a new body


def test_lost_body_is_made_again(make_order: Maker, blank_book: Asked, settings: Any) -> None:
    placed = make_order()
    before = issue(the_book(placed))
    kept_files(settings)[0].unlink()
    assert issue(the_book(placed)) == before
    assert len(blank_book) == 2


def test_other_bytes_than_first_issued_are_reported_and_handed_out(
    make_order: Maker, blank_book: Asked, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    placed = make_order()
    before = issue(the_book(placed))
    first_particulars = IssuedDocument.objects.values().get(pk=the_book(placed).pk)
    monkeypatch.setattr(issuing, "stamp", lambda body, line: blank_page() + b"\n")
    with caplog.at_level(logging.WARNING, "orders.issuing"):
        after = issue(the_book(placed))
    assert after != before
    assert "is not the bytes first issued" in caplog.text
    assert "Ada" not in caplog.text
    assert IssuedDocument.objects.values().get(pk=the_book(placed).pk) == first_particulars


def test_first_of_two_requests_is_the_one_that_is_kept(
    make_order: Maker, blank_book: Asked, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """Both found the document wanted; the second one's bytes are others."""
    placed = make_order()
    one, other = the_book(placed), the_book(placed)
    first = issue(one)
    monkeypatch.setattr(issuing, "stamp", lambda body, line: blank_page() + b"\n")
    issue(other)
    assert the_book(placed).checksum == other.checksum == hashlib.sha256(first).hexdigest()
    assert "is not the bytes first issued" in caplog.text


def test_failure_keeps_nothing(make_order: Maker, monkeypatch: pytest.MonkeyPatch, settings: Any) -> None:
    def fail(sized: SizedPattern, paper: str, shopping: ShoppingList) -> bytes:
        raise RuntimeError("the renderer complained")

    monkeypatch.setattr(issuing, "MAKERS", {"book": fail})
    placed = make_order()
    with pytest.raises(RuntimeError):
        issue(the_book(placed))
    assert not the_book(placed).is_issued
    assert not kept_files(settings)


def test_disk_that_fills_up_leaves_no_half_a_body(settings: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError("no space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="no space"):
        bodies.keep("ab" * 32, b"body")
    assert not kept_files(settings)
    assert bodies.kept("ab" * 32) is None


@pytest.mark.django_db(transaction=True)
def test_no_pages_are_drawn_in_a_transaction(make_order: Maker, monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[bool] = []

    def body(sized: SizedPattern, paper: str, shopping: ShoppingList) -> bytes:
        seen.append(connection.in_atomic_block)
        return blank_page()

    monkeypatch.setattr(issuing, "MAKERS", {"book": body})
    issue(the_book(make_order()))
    assert seen == [False]


@pytest.mark.django_db(transaction=True)
def test_two_at_once_get_the_same(make_order: Maker, blank_book: Asked, settings: Any) -> None:
    placed = make_order()
    documents = [the_book(placed) for _ in range(4)]

    def issued(document: IssuedDocument) -> bytes:
        try:
            return issue(document)
        finally:
            connections.close_all()

    with ThreadPoolExecutor(4) as requests:
        files = set(requests.map(issued, documents))
    assert len(files) == 1
    assert len(kept_files(settings)) == 1
    assert the_book(placed).checksum == hashlib.sha256(files.pop()).hexdigest()


def test_what_is_wanted_is_what_is_not_issued(make_order: Maker, blank_book: Asked) -> None:
    placed = make_order()
    assert IssuedDocument.objects.wanted().count() == 2
    issue(the_book(placed))
    assert [document.paper for document in IssuedDocument.objects.wanted()] == ["letter"]
