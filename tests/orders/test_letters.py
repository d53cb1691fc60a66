"""What letters say, and what they never hold."""

from collections.abc import Callable
from typing import Any

import pytest
from django.db import transaction

from orders import letters
from orders.keys import new_key
from orders.models import Letter, OrderLink
from orders.placing import Placed
from studio.models import Shop
from tests.orders.conftest import NOW

Maker = Callable[..., Placed]


def test_an_order_leaves_a_letter_that_is_due(make_order: Maker) -> None:
    order = make_order(width="17/2").order
    letter = Letter.objects.get()
    assert (letter.kind, letter.to) == ("order_placed", "ada@example.org")
    assert letter.subject == f"Order {order.number} at The pattern room"
    assert (letter.created_at, letter.due_at, letter.sent_at, letter.tries) == (NOW, NOW, None, 0)
    assert list(letter.orders.all()) == [order]
    assert "width 8 1⁄2 in, height 6 in, depth 5 in, layers 2\nFree\n" in letter.text
    assert "Plain tray" in letter.text
    assert "width 8 1⁄2 in" in letter.html


def test_an_order_that_is_not_kept_leaves_no_letter(make_order: Maker) -> None:
    with transaction.atomic():
        make_order()
        transaction.set_rollback(True)
    assert not Letter.objects.exists()


def test_the_same_form_again_writes_no_second_letter(make_order: Maker) -> None:
    key = new_key()
    make_order(key=key)
    make_order(key=key)
    assert Letter.objects.count() == 1


def test_no_link_waits_in_the_database(make_order: Maker) -> None:
    """Only a mark stands where the link will be; the link is made when the letter is sent."""
    placed = make_order()
    letter = Letter.objects.get()
    assert placed.token not in letter.text + letter.html
    assert letters.mark(placed.order) in letter.text
    assert not OrderLink.objects.exists()


def test_links_lead_to_the_configured_address(make_order: Maker, settings: Any) -> None:
    settings.SITE_URL = "https://shop.example"
    make_order()
    letter = Letter.objects.get()
    assert "sent again: https://shop.example/orders/links/" in letter.text
    assert 'href="https://shop.example/orders/links/"' in letter.html


def test_nobody_writes_to_others_through_the_shop(make_order: Maker) -> None:
    """The address may be a stranger's: no words that were typed with it go there."""
    make_order(name="Win at evil.example")
    letter = Letter.objects.get()
    assert "evil" not in letter.subject + letter.text + letter.html


def test_markup_in_the_shops_name_is_words(make_order: Maker) -> None:
    Shop.objects.create(name='<b>Reed</b> & "Co"')
    make_order()
    letter = Letter.objects.get()
    assert '<b>Reed</b> & "Co"' in letter.text
    assert "<b>" not in letter.html
    assert "&lt;b&gt;Reed&lt;/b&gt; &amp; &quot;Co&quot;" in letter.html


def test_subject_is_one_line(make_order: Maker) -> None:
    Shop.objects.create(name="Reed Lane\r\nBcc: all@example.org")
    make_order()
    assert "\n" not in Letter.objects.get().subject
    assert "\r" not in Letter.objects.get().subject


def test_dates_are_the_shops(make_order: Maker) -> None:
    Shop.objects.create(time_zone="Pacific/Auckland")
    order = make_order().order  # half past ten in the morning, UTC
    late = order.placed_at.replace(hour=23)
    order.placed_at = late
    assert "placed on 26 November 2026" in letters.links_again(order.email, [order], 0, late).text


def test_who_has_more_orders_than_fit_is_told(make_order: Maker) -> None:
    Shop.objects.create(email="post@shop.example")
    order = make_order().order
    assert "2 older orders too" in letters.links_again(order.email, [order], 2, NOW).text
    assert "1 older order too" in letters.links_again(order.email, [order], 1, NOW).html
    assert "older" not in letters.links_again(order.email, [order], 0, NOW).text


@pytest.mark.parametrize("units", ["in", "cm"])
def test_words_are_whole(make_order: Maker, units: str) -> None:
    """No key, None, double space or long decimal in the text of any letter."""
    order = make_order(units=units).order
    letters.links_again(order.email, [order], 3, NOW)
    for letter in Letter.objects.all():
        for wrong in ("None", "  ", "{{", "{%", "order_placed", "links_again", "\n\n\n"):
            assert wrong not in letter.text
