from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from threading import Barrier
from typing import Any

import pytest
from django.db import connections
from django.test import Client
from django.urls import reverse

from orders.models import DownloadPass, IssuedDocument, Order, hashed
from orders.passes import current_pass, may_download, renew, token_of_pass, use
from orders.placing import Placed
from tests.orders.conftest import NOW, text_of

Maker = Callable[..., Placed]


def test_first_pass_is_given_once(make_order: Maker, settings: Any) -> None:
    order = make_order().order
    one = current_pass(order, NOW)
    assert current_pass(order, NOW + timedelta(days=1)) == one
    assert (one.number, one.used, one.most, one.ends_at) == (
        1,
        0,
        settings.PASS_DOWNLOADS,
        NOW + timedelta(days=settings.PASS_DAYS),
    )


def test_only_the_hash_of_a_token_is_kept(make_order: Maker) -> None:
    one = current_pass(make_order().order, NOW)
    token = token_of_pass(one)
    assert DownloadPass.objects.behind(token).get() == one
    assert one.token_hash == hashed(token)
    assert token not in str(DownloadPass.objects.values().get())


def test_no_two_passes_have_one_token(make_order: Maker) -> None:
    one, other = make_order().order, make_order(email="bea@example.org").order
    passes = [renew(order, NOW) for order in (one, other) for _ in range(3)]
    assert len({token_of_pass(each) for each in passes}) == 6


def test_another_secret_gives_a_new_pass(make_order: Maker, settings: Any) -> None:
    order = make_order().order
    one = current_pass(order, NOW)
    earlier, settings.SECRET_KEY = settings.SECRET_KEY, "another key that only the tests use for this"
    settings.SECRET_KEY_FALLBACKS = [earlier]
    assert current_pass(order, NOW) == one
    settings.SECRET_KEY_FALLBACKS = []
    other = current_pass(order, NOW)
    assert (other.number, bool(token_of_pass(other))) == (2, True)


def test_renewing_ends_the_pass_before(make_order: Maker) -> None:
    order = make_order().order
    one = current_pass(order, NOW)
    other = renew(order, NOW)
    one.refresh_from_db()
    assert (one.has_ended(NOW), other.has_ended(NOW)) == (True, False)
    assert current_pass(order, NOW) == other


@pytest.mark.django_db(transaction=True)
def test_two_presses_at_once_give_one_pass(make_order: Maker) -> None:
    order = make_order().order
    both = Barrier(2)

    def press(_: int) -> DownloadPass:
        try:
            mine = Order.objects.get(pk=order.pk)
            both.wait()
            return renew(mine, NOW)
        finally:
            connections.close_all()

    with ThreadPoolExecutor(2) as presses:
        list(presses.map(press, range(2)))
    assert order.passes.not_renewed().count() == 1


@pytest.mark.django_db(transaction=True)
def test_downloads_at_once_never_use_more_than_there_are(make_order: Maker, settings: Any) -> None:
    settings.PASS_DOWNLOADS = 1
    order = make_order().order
    one = current_pass(order, NOW)
    documents = list(IssuedDocument.objects.all())
    both = Barrier(2)

    def download(document: IssuedDocument) -> bool:
        try:
            both.wait()
            return use(DownloadPass.objects.get(pk=one.pk), document, NOW)
        finally:
            connections.close_all()

    with ThreadPoolExecutor(2) as downloads:
        assert sorted(downloads.map(download, documents)) == [False, True]
    one.refresh_from_db()
    assert (one.used, sum(each.downloads for each in IssuedDocument.objects.all())) == (1, 1)


def test_what_is_used_up_may_be_gone_on_with(make_order: Maker, settings: Any) -> None:
    settings.PASS_DOWNLOADS = 1
    one = current_pass(make_order().order, NOW)
    a4, letter = IssuedDocument.objects.order_by("paper")
    assert use(one, a4, NOW)
    one.refresh_from_db()
    soon, later = NOW + timedelta(minutes=9), NOW + timedelta(minutes=10)
    assert [may_download(one, a4, at) for at in (NOW, soon, later)] == [False, False, False]
    a4.refresh_from_db()
    assert [may_download(one, a4, at) for at in (NOW, soon, later)] == [True, True, False]
    assert not may_download(one, letter, NOW)


def test_page_says_until_when_and_how_often(client: Client, make_order: Maker, settings: Any) -> None:
    settings.PASS_DAYS, settings.PASS_DOWNLOADS = 30, 10
    placed = make_order()
    one = current_pass(placed.order, NOW)
    DownloadPass.objects.filter(pk=one.pk).update(used=3, ends_at=datetime(2099, 3, 3, 12, tzinfo=UTC))
    page = text_of(client.get(reverse("orders:order-detail", args=[placed.token])))
    assert "until 3 March 2099; 3 of 10 downloads used." in page


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"used": 10}, "all 10 downloads are used."),
        ({"ends_at": NOW - timedelta(days=1)}, "ended on 24 November 2026."),
    ],
)
def test_page_of_an_ended_pass_has_the_button_and_no_dead_link(
    client: Client, make_order: Maker, settings: Any, changed: dict[str, Any], says: str
) -> None:
    settings.PASS_DOWNLOADS = 10
    placed = make_order()
    one = current_pass(placed.order, NOW)
    DownloadPass.objects.filter(pk=one.pk).update(**changed)
    page = text_of(client.get(reverse("orders:order-detail", args=[placed.token])))
    assert says in page
    assert "Renew the links" in page
    assert "/downloads/" not in page
    client.post(reverse("orders:pass-renew", args=[placed.token]))
    assert "/downloads/" in text_of(client.get(reverse("orders:order-detail", args=[placed.token])))


def test_stranger_renews_nothing(client: Client, make_order: Maker) -> None:
    make_order()
    assert client.post(reverse("orders:pass-renew", args=["A" * 43])).status_code == 404
    assert not DownloadPass.objects.exists()


def test_looking_renews_nothing(client: Client, make_order: Maker) -> None:
    placed = make_order()
    assert client.get(reverse("orders:pass-renew", args=[placed.token])).status_code == 405
