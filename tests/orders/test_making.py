import os
import signal
import time
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from django.db import connections

from orders import issuing, making
from orders.issuing import issue
from orders.making import make_one_wanted
from orders.models import IssuedDocument
from orders.models.documents import CLAIMED_FOR, MOST_ATTEMPTS, PAUSES, UNFINISHED
from orders.placing import Placed
from orders.sweeping import work
from tests.orders.conftest import NOW, blank_page

Maker = Callable[..., Placed]

# A child process must see the rows, so they are committed.
pytestmark = pytest.mark.django_db(transaction=True)


def the(paper: str) -> IssuedDocument:
    return IssuedDocument.objects.get(paper=paper)


def fails(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every attempt fails, without a child process for each."""
    monkeypatch.setattr(making, "failure_of", lambda act: "ValueError: a label lies on another")


def makes(monkeypatch: pytest.MonkeyPatch, body: Callable[..., bytes]) -> None:
    monkeypatch.setattr(issuing, "MAKERS", {IssuedDocument.Kind.BOOK: body})


def test_wanted_documents_come_true_oldest_first(make_order: Maker, blank_book: Any) -> None:
    make_order()
    for still_wanted in (["letter"], []):
        assert make_one_wanted(NOW) == 1
        assert list(IssuedDocument.objects.wanted().values_list("paper", flat=True)) == still_wanted
    assert make_one_wanted(NOW) == 0
    assert not blank_book  # none was made in this process
    document = the("a4")
    assert (document.attempts, document.failure, document.try_after) == (1, "", None)
    assert len(issue(document)) == document.size_bytes
    assert not blank_book  # what was made is what a download hands out


def test_download_that_came_first_is_not_made_again(make_order: Maker, blank_book: Any) -> None:
    make_order()
    for document in IssuedDocument.objects.all():
        issue(document)
    assert make_one_wanted(NOW) == 0


def test_failure_is_tried_again_with_growing_pauses_then_waits(
    make_order: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    fails(monkeypatch)
    make_order()
    the("letter").delete()
    now = NOW
    for pause in PAUSES:
        assert make_one_wanted(now) == 1
        assert the("a4").failure == "ValueError: a label lies on another"
        assert make_one_wanted(now + pause - timedelta(seconds=1)) == 0
        now += pause
    assert make_one_wanted(now) == 1
    assert the("a4").attempts == MOST_ATTEMPTS
    far = now + timedelta(days=400)
    assert make_one_wanted(far) == 0
    assert list(IssuedDocument.objects.given_up(now)) == [the("a4")]
    assert the("a4").is_given_up(now)
    IssuedDocument.objects.given_up(now).order_by().try_again()
    assert make_one_wanted(far) == 1


def test_one_that_fails_keeps_no_other_back(make_order: Maker, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail_on_a4(_sized: object, paper: str, _cloth: object) -> bytes:
        if paper == "a4":
            os.kill(os.getpid(), signal.SIGKILL)
        return blank_page()

    makes(monkeypatch, fail_on_a4)
    make_order()
    assert make_one_wanted(NOW) + make_one_wanted(NOW) == 2
    assert (the("a4").failure, the("letter").is_issued) == (
        "It was ended by SIGKILL, perhaps for want of memory.",
        True,
    )


def test_one_that_is_being_made_is_not_begun_again(make_order: Maker) -> None:
    make_order()
    document = IssuedDocument.objects.due(NOW)[0]
    same = IssuedDocument.objects.get(pk=document.pk)
    assert (document.claim(NOW), same.claim(NOW)) == (True, False)
    assert document not in IssuedDocument.objects.due(NOW)
    assert document in IssuedDocument.objects.due(NOW + CLAIMED_FOR)


def test_last_attempt_under_way_is_not_given_up(make_order: Maker) -> None:
    make_order()
    IssuedDocument.objects.update(attempts=MOST_ATTEMPTS - 1)
    document = IssuedDocument.objects.due(NOW)[0]
    document.claim(NOW)
    assert not IssuedDocument.objects.given_up(NOW).exists()
    assert document in IssuedDocument.objects.given_up(NOW + CLAIMED_FOR)


def forked(act: Callable[[], object]) -> int:
    """Begin an act in a process of its own; return its number."""
    connections.close_all()
    child = os.fork()
    if child == 0:
        try:
            act()
        finally:
            os._exit(0)
    return child


def wait_for(file: Path) -> None:
    until = time.monotonic() + 30
    while not file.exists():
        assert time.monotonic() < until
        time.sleep(0.02)


def test_worker_killed_in_the_middle_loses_nothing(
    make_order: Maker, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """kill -9 of the worker while a document is made, and of the child that makes it; then another worker."""
    begun = tmp_path / "begun"

    def never_ends(*_: object) -> bytes:
        begun.write_text(str(os.getpid()))
        begun.rename(tmp_path / "renamed")
        time.sleep(60)
        return b""

    makes(monkeypatch, never_ends)
    make_order()
    worker = forked(lambda: work(lambda seconds: False))
    try:
        wait_for(tmp_path / "renamed")
    finally:
        os.kill(worker, signal.SIGKILL)
        os.waitpid(worker, 0)
    os.kill(int((tmp_path / "renamed").read_text()), signal.SIGKILL)
    documents = list(IssuedDocument.objects.order_by("pk"))
    assert [(each.attempts, each.failure, each.is_issued) for each in documents] == [
        (1, UNFINISHED, False),
        (0, "", False),
    ]
    makes(monkeypatch, lambda *_: blank_page())
    later = datetime.now(tz=NOW.tzinfo) + CLAIMED_FOR
    while make_one_wanted(later):
        pass
    assert not IssuedDocument.objects.wanted().exists()
