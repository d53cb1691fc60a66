"""Having one's links sent again: the same to everyone, and only to the address of the orders."""

import re
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.core import mail
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from orders.further_links import forget_asked
from orders.models import Letter, LinksAsked, Order
from orders.placing import Placed
from orders.posting import send_due
from tests.orders.conftest import NOW, text_of
from tests.orders.test_posting import links_in

Maker = Callable[..., Placed]
PAGE, ASKED = "/orders/links/", "/orders/links/asked/"


@pytest.fixture(autouse=True)
def at_now(time_machine: Any) -> None:
    time_machine.move_to(NOW, tick=False)


@pytest.fixture
def posted() -> Callable[[], list[Any]]:
    """Send all that is due now; return the letters with links that went out."""

    def post() -> list[Any]:
        while send_due(NOW):
            pass
        return [message for message in mail.outbox if message.subject.startswith("The links")]

    return post


def ask(client: Client, email: str) -> Any:
    return client.post(PAGE, {"email": email})


def test_addresses() -> None:
    assert (reverse("orders:links-again"), reverse("orders:links-asked")) == (PAGE, ASKED)


def test_it_is_found_from_every_page_of_the_shop(client: Client, make_order: Maker) -> None:
    placed = make_order()
    assert f'href="{PAGE}"' in text_of(client.get("/"))
    page = text_of(client.get(f"/orders/{placed.token}/"))
    assert page.count(f'href="{PAGE}"') == 2


def test_one_letter_has_a_fresh_link_for_each_order(client: Client, make_order: Maker, posted: Any) -> None:
    first, second = make_order(width="17/2"), make_order()
    make_order(email="bea@example.org")
    ask(client, " ADA@example.org ")
    (message,) = posted()
    assert message.to == ["ada@example.org"]
    found = [Order.objects.behind(token).get() for token in links_in(message.body)]
    assert found == [second.order, first.order]
    assert "width 8 1⁄2 in" in message.body
    for placed in (first, second):
        assert client.get(f"/orders/{placed.token}/").status_code == 200  # older links stay good


def test_known_and_unknown_get_the_same_answer(client: Client, make_order: Maker, posted: Any) -> None:
    make_order()
    with CaptureQueriesContext(connection) as known_work:
        known = ask(client, "ada@example.org")
    with CaptureQueriesContext(connection) as unknown_work:
        unknown = ask(client, "eve@example.org")
    for answer in (known, unknown):
        assert (answer.status_code, answer.headers["Location"], answer.content) == (303, ASKED, b"")
    assert shape(known_work) == shape(unknown_work)
    assert not any('"orders_order"' in query["sql"] for query in known_work)
    assert [message.to for message in posted()] == [["ada@example.org"]]


def shape(queries: CaptureQueriesContext) -> list[str]:
    """The questions that were asked of the database, without what they were about."""
    return [re.sub(r"'[^']*'|\"s\d+_x\d+\"", "?", query["sql"]) for query in queries]


def test_what_was_typed_is_forgotten_once_answered(client: Client, db: None, posted: Any) -> None:
    ask(client, "eve@example.org")
    posted()
    asked = LinksAsked.objects.get()
    assert (asked.email, asked.answered_at) == ("", NOW)
    assert "eve" not in asked.email_hash
    assert forget_asked(NOW + timedelta(hours=23), 500) == 0
    assert forget_asked(NOW + timedelta(hours=24), 500) == 1
    assert not LinksAsked.objects.exists()


def test_letter_goes_to_the_address_of_the_order(client: Client, make_order: Maker, posted: Any) -> None:
    """Not to the one that was typed, which a database may only take for the same."""
    placed = make_order()
    Order.objects.filter(pk=placed.order.pk).update(email="Ada@Example.org")
    ask(client, "ada@example.org")
    assert [message.to for message in posted()] == [["Ada@Example.org"]]


@pytest.mark.parametrize("email", ["ada@example.org", "eve@example.org"])
def test_limit_of_an_address(client: Client, make_order: Maker, email: str) -> None:
    """It counts what was asked, so it is met by unknown addresses just so."""
    make_order()
    for _ in range(3):
        assert ask(client, email).status_code == 303
    page = text_of(ask(client, email))
    assert "Links are sent at most 3 times in 24 hours for one e-mail address, and they" in page
    assert "ask again after 26 November 2026, 10:30." in page
    assert f'value="{email}"' in page
    assert LinksAsked.objects.count() == 3


def test_limit_of_a_source(client: Client, db: None, settings: Any) -> None:
    settings.LINKS_AGAIN_PER_SOURCE = 2
    for at in range(2):
        ask(client, f"{at}@example.org")
    assert "for one internet connection" in text_of(ask(client, "other@example.org"))
    elsewhere = client.post(PAGE, {"email": "other@example.org"}, REMOTE_ADDR="192.0.2.9")
    assert elsewhere.status_code == 303


def test_limit_ends(client: Client, db: None, settings: Any, time_machine: Any) -> None:
    settings.LINKS_AGAIN_PER_EMAIL = 1
    ask(client, "ada@example.org")
    assert ask(client, "ada@example.org").status_code == 200
    time_machine.move_to(NOW + timedelta(hours=24))
    assert ask(client, "ada@example.org").status_code == 303


@pytest.mark.parametrize(
    "email", ["", "ada", "ada@example.org\nBcc: all@example.org", "a" * 250 + "@example.org"]
)
def test_mistake_keeps_what_was_typed_and_asks_nothing(client: Client, db: None, email: str) -> None:
    response = ask(client, email)
    assert response.status_code == 200
    assert "<title>Error: " in text_of(response)
    assert not LinksAsked.objects.exists()


def test_link_in_the_letter_does_not_follow_the_request(
    client: Client, make_order: Maker, posted: Any
) -> None:
    make_order()
    client.post(PAGE, {"email": "ada@example.org"}, headers={"host": "localhost"})
    assert "localhost" not in posted()[0].body


def test_two_answer_one_request_once(client: Client, make_order: Maker, posted: Any) -> None:
    make_order()
    ask(client, "ada@example.org")
    posted()
    posted()
    assert Letter.objects.filter(kind="links_again").count() == 1


def test_wrong_methods(client: Client, db: None) -> None:
    assert client.put(PAGE).status_code == 405
    assert client.post(ASKED).status_code == 405


def test_answer_is_one_page_for_all(client: Client, db: None) -> None:
    assert "If there are orders with that address, a letter" in text_of(client.get(ASKED))
