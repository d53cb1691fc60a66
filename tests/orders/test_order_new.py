from collections.abc import Callable
from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from orders.keys import new_key
from orders.models import Order
from orders.placing import Placed
from patterns.models import Pattern
from patterns.publishing import publish
from tests.orders.conftest import RECIPE, text_of, words_of

SIZE = "?units=in&width=8+1%2F2&height=6&depth=4+3%2F4&layers=2&lining=plain"


def address(slug: str = "plain-tray", size: str = SIZE) -> str:
    return reverse("orders:order-new", args=[slug]) + size


def typed(**changed: str) -> dict[str, str]:
    return {"name": "Ada Example", "email": "ada@example.org", "key": new_key(), "revision": "1", **changed}


# It works


def test_page_shows_what_is_ordered(client: Client, pattern: Pattern) -> None:
    response = client.get(address())
    words = words_of(response)
    assert response.status_code == 200
    assert "Width 8 1⁄2 in Height 6 in Depth 4 3⁄4 in Layers 2 Lining plain To cut 1 piece" in words
    assert "Price Free" in words
    assert "<svg" in text_of(response)
    assert "no-store" in response.headers["Cache-Control"]


def test_placing_leads_to_the_orders_page(client: Client, pattern: Pattern) -> None:
    response = client.post(address(), typed())
    order = Order.objects.get()
    assert response.status_code == 303
    token = response.headers["Location"].strip("/").split("/")[-1]
    assert Order.objects.behind(token).get() == order
    assert {size.measure: size.text for size in order.lines.get().sizes.all()} == {
        "width": "17/2",
        "height": "6",
        "depth": "19/4",
        "layers": "2",
    }
    assert order.lines.get().sized["options"] == {"lining": "plain"}
    assert client.get(response.headers["Location"]).status_code == 200


def test_address_is_kept_as_a_hash_only(client: Client, pattern: Pattern) -> None:
    client.post(address(), typed(), REMOTE_ADDR="192.0.2.77")
    assert "192.0.2.77" not in str(Order.objects.values().get())


def test_what_the_address_leaves_out_has_its_default(client: Client, pattern: Pattern) -> None:
    client.post(address(size="?units=cm&width=20"), typed())
    sizes = Order.objects.get().lines.get().sizes.all()
    assert [(size.text, size.units) for size in sizes] == [
        ("20", "cm"),
        ("15", "cm"),
        ("13", "cm"),
        ("2", ""),
    ]


# Twice


def test_double_click_and_reload_are_one_order(client: Client, pattern: Pattern) -> None:
    form = typed()
    answers = [client.post(address(), form) for _ in range(3)]
    assert len({answer.headers["Location"] for answer in answers}) == 1
    assert Order.objects.count() == 1


def test_browser_finds_the_same_key_in_the_same_form(client: Client, pattern: Pattern) -> None:
    keys = {client.get(address()).context["key"] for _ in range(3)}
    assert len(keys) == 1


def test_another_size_revision_or_browser_has_another_key(client: Client, pattern: Pattern) -> None:
    keys = [client.get(address()), client.get(address(size="?units=in&width=10")), Client().get(address())]
    publish(pattern, RECIPE.replace("1 hour", "2 hours"))
    keys.append(client.get(address()))
    assert len({page.context["key"] for page in keys}) == 4


def test_going_back_to_a_fresh_form_is_the_same_order(client: Client, pattern: Pattern) -> None:
    first, second = (
        client.post(address(), typed(key=client.get(address()).context["key"])) for _ in range(2)
    )
    assert first.headers["Location"] == second.headers["Location"]
    assert Order.objects.count() == 1


def test_another_name_in_the_same_form_asks_before_it_orders_again(client: Client, pattern: Pattern) -> None:
    form = typed()
    first = client.post(address(), form).headers["Location"]
    again = client.post(address(), {**form, "name": "Bea Example"})
    page = text_of(again)
    assert again.status_code == 200
    assert "was placed with this form before" in page
    assert first not in page  # somebody else may be sitting there now
    assert 'value="Bea Example"' in page
    assert again.context["key"] != form["key"]
    assert Order.objects.count() == 1
    client.post(address(), {**form, "name": "Bea Example", "key": again.context["key"]})
    assert [order.name for order in Order.objects.newest_first()] == ["Bea Example", "Ada Example"]


def test_used_key_from_another_size_asks_too(client: Client, pattern: Pattern) -> None:
    form = typed()
    client.post(address(), form)
    response = client.post(address(size="?units=in&width=10"), form)
    assert "was placed with this form before" in text_of(response)
    assert Order.objects.count() == 1


@pytest.mark.parametrize("key", ["", "1", "x" * 5000, "\0", "a:b"])
def test_key_of_someones_own_making_places_nothing(client: Client, pattern: Pattern, key: str) -> None:
    response = client.post(address(), typed(key=key))
    assert response.status_code == 200
    assert "send it once more" in text_of(response)
    assert not Order.objects.exists()
    assert client.post(address(), typed(key=response.context["key"])).status_code == 303


# Mistakes


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("name", "", "There is no name."),
        ("name", "\u202e\u200b\x07", "Nothing of this name can be printed."),
        ("name", "x" * 61, "The name has 61 characters. Write at most 60."),
        ("email", "", "There is no e-mail address."),
        ("email", "ada", "This is not an e-mail address."),
        ("email", "ada@example.org\nBcc: bea@example.org", "This is not an e-mail address."),
        ("email", "a" * 300 + "@example.org", "Write at most 254."),
    ],
)
def test_mistake_keeps_what_was_typed(
    client: Client, pattern: Pattern, field: str, value: str, says: str
) -> None:
    form = typed(**{field: value})
    response = client.post(address(), form)
    page = text_of(response)
    assert response.status_code == 200
    assert "<title>Error: " in page
    assert "There is a problem" in page
    assert says in page
    assert f'href="#id_{field}"' in page
    assert page.count('aria-invalid="true"') == 1
    other = "email" if field == "name" else "name"
    assert f'value="{form[other]}"' in page
    assert response.context["key"] == form["key"]
    assert not Order.objects.exists()


def test_name_with_markup_stays_text(client: Client, pattern: Pattern) -> None:
    name = '"><script>alert(1)</script>'
    page = text_of(client.post(address(), typed(name=name, email="")))
    assert "<script>alert" not in page
    order = client.post(address(), typed(name=name)).headers["Location"]
    assert "<script>alert" not in text_of(client.get(order))
    assert Order.objects.get().name == name


@pytest.mark.parametrize(
    "size",
    [
        "?units=in&width=seven",
        "?units=in&width=21",
        "?units=in&width=4&depth=5",  # a check refuses it
        "?units=ft",
        "?width=8&width=9",
        "?zip+length=7",  # another pattern's
        "?lining=velvet",
        "?width=" + "9" * 400,
    ],
)
def test_size_that_is_not_good_goes_back_to_the_pattern(client: Client, pattern: Pattern, size: str) -> None:
    for response in (client.get(address(size=size)), client.post(address(size=size), typed())):
        assert response.status_code == 303
        back = urlsplit(response.headers["Location"])
        assert back.path == pattern.get_absolute_url()
        assert parse_qs(back.query) == parse_qs(size[1:])
    assert not Order.objects.exists()


def test_price_in_the_form_is_not_read(client: Client, pattern: Pattern) -> None:
    client.post(address(), typed(price_minor="-500", total_minor="1", currency="XXX", width="3"))
    order = Order.objects.get()
    assert (order.total_minor, order.currency) == (0, "GBP")
    assert order.lines.get().sizes.first().text == "17/2"


@pytest.mark.parametrize("revision", ["", "0", "99", "-1", "one", "9" * 40, "١"])
def test_revision_that_never_was_is_the_one_sold_now(client: Client, pattern: Pattern, revision: str) -> None:
    assert client.post(address(), typed(revision=revision)).status_code == 303


def test_pattern_revised_meanwhile_is_shown_before_it_is_ordered(client: Client, pattern: Pattern) -> None:
    form = typed()
    publish(
        pattern,
        RECIPE.replace("width + depth", "width + depth + height").replace(
            "(width + depth)", "(width + depth + height)"
        ),
    )
    response = client.post(address(), form)
    assert response.status_code == 200
    assert "was revised while you were here" in text_of(response)
    assert not Order.objects.exists()
    assert response.context["revision"].number == 2
    assert client.post(address(), {**form, "revision": "2"}).status_code == 303
    assert Order.objects.get().lines.get().revision.number == 2


def test_limit_is_said_on_the_page(client: Client, pattern: Pattern, settings: Any) -> None:
    settings.FREE_ORDERS_PER_EMAIL = 1
    client.post(address(), typed())
    response = client.post(address(), typed())
    page = text_of(response)
    assert response.status_code == 200
    assert "One free order in 24 hours is the most for one e-mail address" in page
    assert 'value="ada@example.org"' in page
    assert Order.objects.count() == 1


# Strangers, methods, addresses


def test_pattern_off_the_list_is_the_owners_only(
    client: Client, make_pattern: Callable[..., Pattern]
) -> None:
    make_pattern("hidden-tray", is_listed=False)
    assert client.get(address("hidden-tray")).status_code == 404
    assert client.post(address("hidden-tray"), typed()).status_code == 404
    client.force_login(User.objects.create_user("owner", is_staff=True))
    assert client.get(address("hidden-tray")).status_code == 200


def test_unknown_pattern_gets_404(client: Client, db: None) -> None:
    assert client.get(address("no-such-tray")).status_code == 404


@pytest.mark.parametrize("method", ["put", "patch", "delete"])
def test_wrong_method_gets_405(client: Client, pattern: Pattern, method: str) -> None:
    assert getattr(client, method)(address()).status_code == 405


def test_head_is_answered(client: Client, pattern: Pattern) -> None:
    response = client.head(address())
    assert (response.status_code, response.content) == (200, b"")


def test_post_from_another_site_gets_403(pattern: Pattern) -> None:
    assert Client(enforce_csrf_checks=True).post(address(), typed()).status_code == 403
    assert not Order.objects.exists()


def test_queries_do_not_grow(
    client: Client, pattern: Pattern, make_order: Callable[..., Placed], django_assert_num_queries: Any
) -> None:
    with CaptureQueriesContext(connection) as one:
        client.get(address())
    for at in range(9):
        make_order(pattern, email=f"{at}@example.org")
    with django_assert_num_queries(len(one)):
        client.get(address())
