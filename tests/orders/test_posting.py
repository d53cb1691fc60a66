"""Letters are sent once, tried again when they cannot be, and then wait for the owner."""

import re
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from io import StringIO
from smtplib import (
    SMTPAuthenticationError,
    SMTPDataError,
    SMTPRecipientsRefused,
    SMTPServerDisconnected,
)
from threading import Barrier
from typing import Any

import pytest
from django.core import mail
from django.core.management import call_command
from django.db import connections

from orders import posting
from orders.models import Letter, Order, OrderLink, hashed
from orders.models.letters import LEASE, PAUSES
from orders.placing import Placed
from orders.posting import send_due
from studio.models import Shop
from tests.orders.conftest import NOW

Maker = Callable[..., Placed]


def links_in(text: str) -> list[str]:
    return re.findall(r"http://127\.0\.0\.1:8000/orders/([A-Za-z0-9_-]{43})/", text)


@pytest.fixture
def fails(monkeypatch: pytest.MonkeyPatch) -> Callable[[Exception], list[str]]:
    """Let every letter fail with this error; says to whom they were."""

    def let(error: Exception) -> list[str]:
        tried: list[str] = []

        def send(message: Any) -> None:
            tried.extend(message.to)
            raise error

        monkeypatch.setattr(posting.EmailMultiAlternatives, "send", send)
        return tried

    return let


def test_letter_is_sent_with_a_link_that_opens(make_order: Maker, client: Any) -> None:
    placed = make_order()
    assert send_due(NOW) == 1
    message = mail.outbox[0]
    (token,) = links_in(message.body)
    html = message.alternatives[0].content
    assert links_in(html) == [token, token]
    assert token != placed.token
    assert Order.objects.behind(token).get() == Order.objects.behind(placed.token).get() == placed.order
    assert client.get(f"/orders/{token}/").status_code == 200
    assert client.get(f"/orders/{placed.token}/").status_code == 200


def test_what_is_kept_opens_nothing(make_order: Maker) -> None:
    make_order()
    send_due(NOW)
    letter, (token,) = Letter.objects.get(), links_in(mail.outbox[0].body)
    assert token not in "".join(map(str, Letter.objects.values_list().get()))
    assert OrderLink.objects.get().link_hash == hashed(token)
    assert (letter.sent_at, letter.due_at, letter.last_error) == (NOW, None, "")


def test_sent_once(make_order: Maker) -> None:
    make_order()
    assert [send_due(NOW), send_due(NOW + timedelta(days=9))] == [1, 0]
    assert len(mail.outbox) == 1


def test_heads_of_the_letter(make_order: Maker, settings: Any) -> None:
    Shop.objects.create(name="Müller, “Töchter” & Co", email="post@shop.example")
    settings.EMAIL_FROM = "mailer@shop.example"
    make_order(email="ada@example.org")
    send_due(NOW)
    sent = mail.outbox[0].message()
    assert str(sent["To"]) == "ada@example.org"
    assert str(sent["Reply-To"]) == "post@shop.example"
    assert str(sent["From"]).endswith("<mailer@shop.example>")
    assert sent["Auto-Submitted"] == "auto-generated"
    assert sent["Message-ID"].startswith("<letter-")


def test_name_of_the_shop_makes_no_head(make_order: Maker) -> None:
    Shop.objects.create(name="Reed\r\nBcc: all@example.org", email="post@shop.example")
    make_order()
    assert send_due(NOW) == 1
    assert mail.outbox[0].recipients() == ["ada@example.org"]
    assert "Bcc" not in mail.outbox[0].message()


@pytest.mark.parametrize(
    "email", ['"a b"@example.org', "ada@münchen.example", "o'hara+1@example.org", "a" * 64 + "@example.org"]
)
def test_unusual_addresses_of_customers_and_shop(make_order: Maker, email: str) -> None:
    Shop.objects.create(email=email)
    make_order(email=email)
    assert send_due(NOW) == 1
    assert str(mail.outbox[0].message()["Message-ID"]).endswith("@127.0.0.1>")


def test_failure_is_tried_again_after_growing_pauses_then_waits_for_the_owner(
    make_order: Maker, fails: Any
) -> None:
    tried = fails(SMTPDataError(554, b"not wanted here"))
    make_order()
    now = NOW
    for pause in PAUSES:
        assert send_due(now) == 0
        letter = Letter.objects.get()
        assert letter.due_at == now + pause
        assert send_due(now + pause - timedelta(seconds=1)) == 0
        now += pause
    assert len(tried) == len(PAUSES)
    send_due(now)
    assert Letter.objects.given_up().get().last_error == "554 not wanted here"
    assert not Letter.objects.due(now + timedelta(days=99)).exists()
    assert timedelta(days=2) < now - NOW < timedelta(days=4)


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (SMTPRecipientsRefused({"ada@example.org": (550, b"5.1.1 no\r\nsuch box")}), "550 5.1.1 no such box"),
        (SMTPAuthenticationError(535, b"wrong \xff password"), "535 wrong \ufffd password"),
        (SMTPServerDisconnected("Connection unexpectedly closed"), "SMTPServerDisconnected: Connection une"),
        (ConnectionRefusedError(111, "Connection refused"), "ConnectionRefusedError: [Errno 111] Connection"),
    ],
)
def test_owner_reads_what_the_server_said(
    make_order: Maker, fails: Any, error: Exception, words: str
) -> None:
    make_order()
    fails(error)
    send_due(NOW)
    assert Letter.objects.get().last_error.startswith(words)


def test_pauses_grow() -> None:
    assert list(PAUSES) == sorted(PAUSES)


def test_tried_again_by_the_owner(make_order: Maker) -> None:
    make_order()
    Letter.objects.update(due_at=None, tries=10, last_error="no")
    Letter.objects.get().try_again(NOW)
    assert send_due(NOW) == 1
    Letter.objects.get().try_again(NOW)
    assert send_due(NOW) == 0


def test_each_try_has_links_of_its_own(make_order: Maker, fails: Any, monkeypatch: Any) -> None:
    """One that seemed to fail may have been delivered: its link opens too."""
    make_order()
    with monkeypatch.context():
        fails(TimeoutError("timed out"))
        send_due(NOW)
    monkeypatch.undo()
    send_due(NOW + PAUSES[0])
    assert OrderLink.objects.count() == 2


def test_server_that_is_away_is_not_asked_for_every_letter(make_order: Maker, fails: Any) -> None:
    make_order(email="a@example.org")
    make_order(email="b@example.org")
    tried = fails(ConnectionRefusedError("nobody there"))
    send_due(NOW)
    assert tried == ["a@example.org"]


def test_letter_that_is_refused_holds_no_other_up(make_order: Maker, fails: Any) -> None:
    make_order(email="a@example.org")
    make_order(email="b@example.org")
    tried = fails(SMTPDataError(550, b"no such box"))
    send_due(NOW)
    assert tried == ["a@example.org", "b@example.org"]


def test_batch_is_bounded(make_order: Maker, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(posting, "MOST_AT_ONCE", 2)
    for at in range(3):
        make_order(email=f"{at}@example.org")
    assert [send_due(NOW), send_due(NOW), send_due(NOW)] == [2, 1, 0]


def test_sender_that_was_stopped_leaves_the_letter_to_the_next(make_order: Maker) -> None:
    make_order()
    assert Letter.objects.get().claim(NOW)
    assert send_due(NOW + LEASE - timedelta(seconds=1)) == 0
    assert send_due(NOW + LEASE) == 1


def test_letter_read_by_two_is_claimed_by_one(make_order: Maker) -> None:
    make_order()
    one, other = Letter.objects.get(), Letter.objects.get()
    assert (one.claim(NOW), other.claim(NOW)) == (True, False)
    assert Letter.objects.get().tries == 1


@pytest.mark.django_db(transaction=True)
def test_two_senders_at_once_send_nothing_twice(make_order: Maker) -> None:
    for at in range(6):
        make_order(email=f"{at}@example.org")
    together = Barrier(3)

    def send(_: int) -> int:
        try:
            together.wait(10)
            return send_due(NOW)
        finally:
            connections.close_all()

    with ThreadPoolExecutor(3) as senders:
        assert sum(senders.map(send, range(3))) == 6
    assert sorted(message.to[0] for message in mail.outbox) == [f"{at}@example.org" for at in range(6)]


def test_command_sends_what_is_due_and_says_what_waits(make_order: Maker, time_machine: Any) -> None:
    time_machine.move_to(NOW)
    make_order()
    make_order(email="b@example.org")
    Letter.objects.filter(to="b@example.org").update(due_at=None)
    out = StringIO()
    call_command("post", stdout=out)
    said = "Done: 1. Waiting to be tried again: 0. Waiting for the owner: 1.\n"
    assert out.getvalue() == said


def test_files_are_behind_every_link(make_order: Maker, client: Any, blank_book: list[Any]) -> None:
    placed = make_order()
    send_due(NOW)
    (token,) = links_in(mail.outbox[0].body)
    for link in (token, placed.token):
        page = client.get(f"/orders/{link}/").content.decode()
        file = re.search(r"/downloads/[^\"]*/1/book-a4\.pdf", page)
        assert file is not None
        assert client.get(file[0]).status_code == 200
    assert client.get(f"/orders/{'A' * 43}/1/book-a4.pdf").status_code == 404
