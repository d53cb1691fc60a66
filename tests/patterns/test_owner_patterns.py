"""The owner's page of her patterns: she begins one, publishes it and shows it in the shop."""

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from patterns.begin_form import TAKEN, BeginForm
from patterns.models import Draft, Pattern
from patterns.starters import text_of as starter_text
from tests.orders.conftest import owner_client as owner_client
from tests.orders.conftest import text_of, words_of

from .conftest import SHELF_TEXT, MakePattern

PAGE = "/workroom/patterns/"


def begin(client: Client, source: str = "", slug: str = ""):
    return client.post(PAGE, {"source": source, "slug": slug})


def test_from_an_empty_shop_to_a_pattern_that_customers_see(owner_client: Client, client: Client) -> None:
    assert PAGE in text_of(owner_client.get(reverse("orders:workroom")))
    assert "There is none yet." in words_of(owner_client.get(PAGE))
    writing = begin(owner_client, "starter/zip-pouch").headers["Location"]
    assert writing == reverse("orders:pattern-revise", args=["zip-pouch"])
    assert Draft.objects.get().text == starter_text("zip-pouch")
    checking = owner_client.post(writing, {"text": Draft.objects.get().text}).headers["Location"]
    sent = {"seen": Draft.objects.get().checksum, "tells": "on"}
    assert owner_client.post(checking, sent).headers["Location"] == PAGE
    page = words_of(owner_client.get(PAGE))
    assert "Customers see it once you show it in the shop." in page
    assert "Not shown in the shop: only you see its page." in page
    public = Client()
    address = Pattern.objects.get().get_absolute_url()
    assert public.get(address).status_code == 404
    listing = reverse("patterns:pattern-listing", args=["zip-pouch"])
    assert owner_client.post(listing, {"listed": "yes"}).headers["Location"] == PAGE
    assert public.get(address).status_code == 200
    assert "Zip pouch is shown in the shop now." in words_of(owner_client.get(PAGE))
    assert PAGE not in text_of(owner_client.get(reverse("orders:workroom"))).partition("<main")[2]
    owner_client.post(listing, {"listed": "no"})
    assert public.get(address).status_code == 404


def test_another_begins_with_the_text_of_one_of_hers(owner_client: Client, make_pattern: MakePattern) -> None:
    make_pattern()
    begin(owner_client, "own/shelf-box", "Wall-box")
    assert Draft.objects.get(pattern__slug="wall-box").text == SHELF_TEXT
    begin(owner_client, "", "from-nothing")
    assert not Draft.objects.filter(pattern__slug="from-nothing").exists()
    assert "Not published yet" in words_of(owner_client.get(PAGE))


@pytest.mark.parametrize(
    ("source", "slug", "message"),
    [
        ("", "", "There is no address. Write one of small letters, digits and hyphens: shelf-box."),
        ("", "a box", "“a box” is not an address."),
        ("", "b" * 61, "The address has 61 characters. Write at most 60."),
        ("own/shelf-box", "shelf-box", TAKEN),
        ("starter/no-such", "box", "This cannot be begun with. Choose another."),
        ("own/no-such", "box", "This cannot be begun with. Choose another."),
    ],
)
def test_mistakes_keep_what_was_typed(
    owner_client: Client, make_pattern: MakePattern, source: str, slug: str, message: str
) -> None:
    make_pattern()
    response = begin(owner_client, source, slug)
    assert response.status_code == 200
    assert message in words_of(response)
    assert f'value="{slug}"' in text_of(response)
    assert Pattern.objects.count() == 1


def test_the_other_of_a_double_click_is_told(db: None) -> None:
    first, second = (BeginForm({"slug": "wall-box"}) for _ in range(2))
    assert first.is_valid()
    assert second.is_valid()
    assert first.begin()
    assert second.begin() is None
    assert second.errors["slug"] == [TAKEN]


def test_strangers_and_staff_without_the_right_are_kept_out(
    client: Client, make_pattern: MakePattern
) -> None:
    listing = reverse("patterns:pattern-listing", args=[make_pattern().slug])
    assert client.get(PAGE).status_code == client.post(listing, {"listed": "no"}).status_code == 302
    client.force_login(User.objects.create_user("helper", is_staff=True))
    assert client.get(PAGE).status_code == client.post(listing, {"listed": "no"}).status_code == 403
    assert Pattern.objects.get().is_listed


def test_only_what_is_published_can_be_shown(owner_client: Client, make_pattern: MakePattern) -> None:
    listing = reverse("patterns:pattern-listing", args=[make_pattern(text=None).slug])
    assert owner_client.post(listing, {"listed": "yes"}).status_code == 404
    assert owner_client.get(listing).status_code == 405


def test_queries_do_not_grow(owner_client: Client, make_pattern: MakePattern) -> None:
    def count() -> int:
        with CaptureQueriesContext(connection) as queries:
            owner_client.get(PAGE)
        return len(queries)

    make_pattern()
    one = count()
    for number in range(9):
        make_pattern(f"shelf-box-{number}")
        begin(owner_client, "example", f"tray-{number}")
    assert count() == one > 0
