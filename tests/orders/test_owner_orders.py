import csv
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import Permission, User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from orders.models import IssuedDocument, Letter
from orders.models.documents import MOST_ATTEMPTS
from orders.placing import Placed
from tests.orders.conftest import text_of, words_of

Maker = Callable[..., Placed]
LIST = "/workroom/orders/"
AGAIN = "/workroom/orders/files/"
CSV = "/workroom/orders/orders.csv"


def test_addresses() -> None:
    assert (reverse("orders:owner-orders"), reverse("orders:owner-orders-csv")) == (LIST, CSV)


def test_list_shows_the_newest_first(owner_client: Client, make_order: Maker) -> None:
    make_order(name="Ada Example", width="17/2")
    make_order(name="Bea Example", units="cm")
    page = words_of(owner_client.get(LIST))
    assert page.index("Bea Example") < page.index("Ada Example")
    assert "Plain tray" in page
    assert "ada@example.org" in page
    assert "2 orders" in page
    assert "width 8 1⁄2 in, height 6 in, depth 5 in, layers 2" in page
    assert "width 23 cm" in page


def test_page_and_part(owner_client: Client, make_order: Maker) -> None:
    make_order()
    page, part = owner_client.get(LIST), owner_client.get(LIST, headers={"HX-Request": "true"})
    assert "<h1>" in page.content.decode()
    assert part.content.decode().strip().startswith('<div id="order-rows"')
    assert "HX-Request" in page.headers["Vary"]


def test_empty_list_says_so(owner_client: Client) -> None:
    assert "No orders yet." in text_of(owner_client.get(LIST))


@pytest.mark.parametrize("words", ["bea", "BEA@example", "Bea Example ", "#{number}", "{number}"])
def test_search_finds_number_name_and_address(owner_client: Client, make_order: Maker, words: str) -> None:
    make_order(name="Ada Example")
    order = make_order(name="Bea Example", email="bea@example.net").order
    page = text_of(owner_client.get(LIST, {"q": words.format(number=order.number)}))
    assert "Bea Example" in page
    assert "Ada Example" not in page


def test_search_finds_patterns(
    owner_client: Client, make_order: Maker, make_pattern: Callable[..., Any]
) -> None:
    make_order(name="Ada Example")
    make_order(make_pattern("deep-tray", title="Deep tray"), name="Bea Example")
    page = text_of(owner_client.get(LIST, {"q": "deep"}))
    assert "Bea Example" in page
    assert "Ada Example" not in page


@pytest.mark.parametrize(
    "words", ["%", "_", "'; DROP TABLE", "\0", "x" * 5000, "9" * 40, "²", "<script>alert(1)"]
)
def test_hostile_search_finds_nothing_and_breaks_nothing(
    owner_client: Client, make_order: Maker, words: str
) -> None:
    make_order()
    response = owner_client.get(LIST, {"q": words})
    assert response.status_code == 200
    assert "<script>alert" not in response.content.decode()


def test_search_with_nothing_found_shows_the_way_back(owner_client: Client, make_order: Maker) -> None:
    make_order()
    assert "No order has that in it." in text_of(owner_client.get(LIST, {"q": "nobody"}))


def test_pages(
    owner_client: Client, make_order: Maker, settings: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("orders.owner_views.ORDERS_ON_A_PAGE", 2)
    for at in range(5):
        make_order(name=f"Person {at}", email=f"{at}@example.org")
    first, last = (text_of(owner_client.get(LIST, {"page": page, "q": "Person"})) for page in ("1", "3"))
    assert "Person 4" in first
    assert "Person 2" not in first
    assert "q=Person&amp;page=2" in first
    assert "Page 1 of 3" in first
    assert "Person 0" in last
    assert "Older" not in last
    for wrong in ("0", "99", "-1", "x"):
        assert owner_client.get(LIST, {"page": wrong}).status_code == 200


def test_name_with_markup_stays_text(owner_client: Client, make_order: Maker) -> None:
    make_order(name="<img src=x onerror=alert(1)>")
    assert "<img" not in owner_client.get(LIST).content.decode()


def test_csv_holds_every_order(
    owner_client: Client, make_order: Maker, rows: Callable[[Any], list[str]]
) -> None:
    make_order(name="Ada Example", width="17/2")
    response = owner_client.get(CSV)
    assert response.headers["Content-Type"] == "text/csv; charset=utf-8"
    head, row = csv.reader(rows(response))
    assert head[:4] == ["order", "placed (UTC)", "name", "email"]
    assert row[1:5] == ["2026-11-25 10:30:00", "Ada Example", "ada@example.org", "Plain tray"]
    assert row[5:9] == ["width 8 1⁄2 in, height 6 in, depth 5 in, layers 2", "0.00", "GBP", "0"]
    assert head[9:] == ["licence price", "tax in both", "country", "payment", "invoice"]
    assert row[9:] == ["0.00", "0.00", "", "Free", ""]


@pytest.mark.parametrize("name", ["=HYPERLINK(1)", "+1", "-1", "@SUM(1)"])
def test_csv_runs_nothing(
    owner_client: Client, make_order: Maker, rows: Callable[[Any], list[str]], name: str
) -> None:
    make_order(name=name)
    assert list(csv.reader(rows(owner_client.get(CSV))))[1][2] == f"'{name}"


@pytest.mark.parametrize("path", [LIST, CSV])
def test_stranger_is_asked_to_log_in(client: Client, make_order: Maker, path: str) -> None:
    make_order()
    client.force_login(User.objects.create_user("somebody"))
    response = client.get(path)
    assert response.status_code == 302
    assert response.headers["Location"] == f"{reverse('admin:login')}?next={path}"


@pytest.mark.parametrize("path", [LIST, CSV])
def test_staff_needs_the_permission(client: Client, db: None, path: str) -> None:
    helper = User.objects.create_user("helper", is_staff=True)
    client.force_login(helper)
    assert client.get(path).status_code == 403
    helper.user_permissions.add(Permission.objects.get(codename="view_order"))
    assert client.get(path).status_code == 200


@pytest.mark.parametrize("path", [LIST, CSV])
def test_wrong_method_gets_405(owner_client: Client, path: str) -> None:
    assert owner_client.post(path).status_code == 405


@pytest.mark.parametrize("path", [LIST, CSV])
def test_nothing_is_kept_in_a_cache(owner_client: Client, path: str) -> None:
    assert "no-store" in owner_client.get(path).headers["Cache-Control"]


@pytest.mark.parametrize("path", [LIST, CSV])
def test_queries_do_not_grow(
    owner_client: Client, make_order: Maker, django_assert_num_queries: Any, path: str
) -> None:
    def read() -> None:
        response = owner_client.get(path)
        b"".join(response) if response.streaming else response.content

    make_order()
    read()
    with CaptureQueriesContext(connection) as one:
        read()
    for at in range(9):
        make_order(email=f"{at}@example.org", width=str(8 + at))
    with django_assert_num_queries(len(one)):
        read()


def test_kept_sizes_are_not_read_for_the_list(owner_client: Client, make_order: Maker) -> None:
    make_order()
    with CaptureQueriesContext(connection) as queries:
        owner_client.get(LIST)
    assert not any('"sized"' in query["sql"] for query in queries)


# The records in Django's admin


@pytest.mark.parametrize("model", ["order", "orderline", "issueddocument"])
def test_records_are_read_and_not_changed(owner_client: Client, make_order: Maker, model: str) -> None:
    order = make_order().order
    line = order.lines.get()
    pk = {"order": order.pk, "orderline": line.pk, "issueddocument": line.documents.first().pk}[model]
    assert owner_client.get(reverse(f"admin:orders_{model}_changelist")).status_code == 200
    change = reverse(f"admin:orders_{model}_change", args=[pk])
    assert owner_client.get(change).status_code == 200
    assert owner_client.post(change, {}).status_code == 403
    assert (
        owner_client.post(reverse(f"admin:orders_{model}_delete", args=[pk]), {"post": "yes"}).status_code
        == 403
    )
    assert owner_client.get(reverse(f"admin:orders_{model}_add")).status_code == 403


def test_records_link_to_the_owners_pages(owner_client: Client, make_order: Maker) -> None:
    page = text_of(owner_client.get(reverse("admin:orders_order_changelist")))
    assert LIST in page
    assert reverse("orders:sizes-sold") in page


def test_records_show_no_hash(owner_client: Client, make_order: Maker) -> None:
    order = make_order(source="the hash of a source").order
    page = text_of(owner_client.get(reverse("admin:orders_order_change", args=[order.pk])))
    assert not any(secret in page for secret in (order.key_hash, order.link_hash, order.source))


# Letters that could not be sent


def letter_given_up(make_order: Maker) -> Letter:
    make_order()
    Letter.objects.update(due_at=None, tries=10, last_error="SMTPDataError: <no such box>")
    return Letter.objects.get()


def test_letter_that_could_not_be_sent_is_shown_and_tried_again(
    owner_client: Client, make_order: Maker
) -> None:
    letter = letter_given_up(make_order)
    page = text_of(owner_client.get(LIST))
    assert "Letters that could not be sent" in page
    assert "SMTPDataError: &lt;no such box&gt;" in page
    response = owner_client.post(f"/workroom/letters/{letter.pk}/again/")
    assert (response.status_code, response.headers["Location"]) == (303, LIST)
    page = words_of(owner_client.get(LIST))
    assert "Letters that could not be sent" not in page
    assert f"The letter to {letter.to} is tried again now." in page
    assert "1 letter waits to be sent. The last try failed: SMTPDataError: <no such box>" in page


def test_letters_that_go_out_are_not_spoken_of(owner_client: Client, make_order: Maker) -> None:
    make_order()
    Letter.objects.update(sent_at=Letter.objects.get().created_at, due_at=None)
    assert "letter" not in words_of(owner_client.get(LIST))


def test_trying_again_needs_the_permission_and_a_post(client: Client, make_order: Maker) -> None:
    path = f"/workroom/letters/{letter_given_up(make_order).pk}/again/"
    helper = User.objects.create_user("helper", is_staff=True)
    assert client.post(path).status_code == 302
    client.force_login(helper)
    assert client.post(path).status_code == 403
    helper.user_permissions.add(Permission.objects.get(codename="change_letter"))
    assert client.get(path).status_code == 405
    assert client.post("/workroom/letters/999/again/").status_code == 404
    assert client.post(path).status_code == 303


def given_up(**changed: Any) -> None:
    values = {"attempts": MOST_ATTEMPTS, "failure": "It took longer than 60 seconds.", **changed}
    IssuedDocument.objects.filter(paper="a4").update(**values)


def test_files_that_were_given_up_are_shown_with_the_reason(owner_client: Client, make_order: Maker) -> None:
    order = make_order(now=timezone.now()).order
    assert "Files that need you" not in words_of(owner_client.get(LIST))
    given_up()
    page = words_of(owner_client.get(LIST))
    assert "1 file of orders could not be made" in page
    says = f"Order {order.number} for Ada Example: Plain tray, instruction book on A4. It took longer than 60"
    assert says in page
    assert "worker" not in page


def test_button_lets_them_be_tried_again(owner_client: Client, make_order: Maker) -> None:
    make_order()
    given_up()
    assert owner_client.post(AGAIN).headers["Location"] == LIST
    document = IssuedDocument.objects.get(paper="a4")
    assert (document.attempts, document.try_after) == (0, None)
    page = words_of(owner_client.get(LIST))
    assert "1 file will be tried again now." in page
    assert "Files that need you" in page  # an old order: no worker is at work
    assert "could not be made" not in words_of(owner_client.get(LIST))


def test_worker_that_does_not_run_is_noticed(owner_client: Client, make_order: Maker) -> None:
    make_order(now=timezone.now() - timedelta(minutes=14))
    assert "worker" not in words_of(owner_client.get(LIST))
    make_order(now=timezone.now() - timedelta(minutes=16))
    page = words_of(owner_client.get(LIST))
    assert "2 files have waited to be made for more than a quarter of an hour." in page
    assert "The worker seems not to run" in page


@pytest.mark.parametrize("may", ["view_order", "view_issueddocument"])
def test_who_may_only_look_tries_nothing(client: Client, make_order: Maker, may: str) -> None:
    make_order()
    given_up()
    assert client.post(AGAIN).status_code == 302
    user = User.objects.create_user("helper", is_staff=True)
    user.user_permissions.add(Permission.objects.get(codename=may))
    client.force_login(user)
    assert client.post(AGAIN).status_code == 403
    assert IssuedDocument.objects.get(paper="a4").attempts == MOST_ATTEMPTS


def test_looking_tries_nothing(owner_client: Client) -> None:
    assert owner_client.get(AGAIN).status_code == 405
