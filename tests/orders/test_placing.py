from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from fractions import Fraction
from threading import Barrier
from typing import Any

import pytest
from django.db import connection, connections

from orders import placing
from orders.errors import KeyUsedError, LimitMetError, RefusedSizeError, RevisedError
from orders.keys import new_key, token_of
from orders.models import IssuedDocument, Order, OrderLine, SizeSold
from orders.placing import Placed, place_order
from patterns.drafting.sized_json import from_json, to_json
from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of
from studio.models import Shop
from tests.orders.conftest import NOW, RECIPE, sized_as

Maker = Callable[..., Placed]


def test_order_holds_the_exact_size(make_order: Maker) -> None:
    placed = make_order(width="17/2", height="6", depth="19/4")
    line = placed.order.lines.get()
    assert line.sized_pattern.values["width"] == Fraction(17, 2) * Fraction(127, 5)
    assert to_json(from_json(line.sized)) == line.sized
    assert (line.title, line.quantity, line.position) == ("Plain tray", 1, 1)
    assert line.revision.number == 1


def test_order_is_free_in_the_shops_currency(make_order: Maker) -> None:
    Shop.objects.create(currency="EUR")
    order = make_order().order
    line = order.lines.get()
    assert (order.total_minor, order.currency, line.price_minor, line.currency) == (0, "EUR", 0, "EUR")
    assert order.placed_at == NOW


def test_both_papers_are_wanted(make_order: Maker) -> None:
    order = make_order().order
    documents = IssuedDocument.objects.wanted().filter(line__order=order)
    assert [(each.kind, each.paper) for each in documents] == [("book", "a4"), ("book", "letter")]
    assert {each.licence_line for each in documents} == {f"Order {order.number} · made for Ada Example"}


def test_a_row_for_each_measure_sold(make_order: Maker) -> None:
    sizes = make_order(width="17/2", layers="3").order.lines.get().sizes.all()
    assert [(each.measure, each.text, each.units, each.nanometres, each.millionths) for each in sizes] == [
        ("width", "17/2", "in", 215_900_000, None),
        ("height", "6", "in", 152_400_000, None),
        ("depth", "5", "in", 127_000_000, None),
        ("layers", "3", "", None, 3_000_000),
    ]
    assert {each.pattern.slug for each in sizes} == {"plain-tray"}


def test_only_hashes_of_token_and_key_are_kept(make_order: Maker) -> None:
    key = new_key()
    placed = make_order(key=key, source="hash of an address")
    kept = {str(value) for value in Order.objects.values_list().get()}
    assert placed.token == token_of(key)
    assert not kept & {key, placed.token}
    assert Order.objects.behind(placed.token).get() == placed.order
    assert not Order.objects.behind(new_key()[:43]).exists()


def test_name_is_made_fit_to_print(make_order: Maker) -> None:
    hostile = "  Ada\u202e\n<b>Example</b>\x00\u200f "
    assert make_order(name=hostile).order.name == "Ada <b>Example</b>"


# The same form again


def test_same_key_is_the_same_order(make_order: Maker) -> None:
    key = new_key()
    first, second = make_order(key=key), make_order(key=key, now=NOW + timedelta(days=3))
    assert first == second
    assert (Order.objects.count(), OrderLine.objects.count(), IssuedDocument.objects.count()) == (1, 1, 2)
    assert SizeSold.objects.count() == 4


def test_two_keys_are_two_orders(make_order: Maker) -> None:
    first, second = make_order(key=new_key()), make_order(key=new_key())
    assert first.order != second.order
    assert first.token != second.token
    assert second.order.number > first.order.number


@pytest.mark.parametrize(
    "changed", [{"width": "10"}, {"units": "cm"}, {"name": "Bea Example"}, {"email": "bea@example.org"}]
)
def test_used_key_for_something_else_places_nothing(make_order: Maker, changed: dict[str, str]) -> None:
    key = new_key()
    first = make_order(key=key)
    with pytest.raises(
        KeyUsedError, match=f"^Order {first.order.number} was placed with this form before"
    ) as caught:
        make_order(key=key, **changed)
    assert caught.value.order == first.order
    assert first.token not in str(caught.value)
    assert Order.objects.count() == 1


def test_used_key_on_another_pattern_places_nothing(
    make_order: Maker, make_pattern: Callable[..., Pattern]
) -> None:
    key = new_key()
    make_order(key=key)
    with pytest.raises(KeyUsedError):
        make_order(make_pattern("other-tray"), key=key)
    assert Order.objects.count() == 1


def test_same_key_after_the_secret_was_changed(make_order: Maker, settings: Any) -> None:
    key = new_key()
    first, old_secret = make_order(key=key), settings.SECRET_KEY
    settings.SECRET_KEY = "another secret, as long as the shop asks for"
    settings.SECRET_KEY_FALLBACKS = [old_secret]
    assert make_order(key=key) == first
    settings.SECRET_KEY_FALLBACKS = []
    with pytest.raises(KeyUsedError):
        make_order(key=key)


def test_same_key_after_a_new_revision_is_the_same_order(make_order: Maker, pattern: Pattern) -> None:
    key, revision = new_key(), pattern.revisions.get()
    first = make_order(pattern, key=key)
    publish(pattern, RECIPE.replace("1 hour", "2 hours"))
    again = place_order(
        revision,
        sized_as(revision),
        name="Ada Example",
        email="ada@example.org",
        key=key,
        source="s",
        now=NOW,
    )
    assert again == first


@pytest.mark.django_db(transaction=True)
def test_double_click_at_the_same_moment(make_order: Maker, pattern: Pattern) -> None:
    key, together = new_key(), Barrier(6)

    def click(_: int) -> Placed:
        try:
            together.wait(10)
            return make_order(pattern, key=key)
        finally:
            connections.close_all()

    with ThreadPoolExecutor(6) as clicks:
        placed = list(clicks.map(click, range(6)))
    assert len({each.token for each in placed}) == 1
    assert (Order.objects.count(), IssuedDocument.objects.count(), SizeSold.objects.count()) == (1, 2, 4)


@pytest.mark.django_db(transaction=True)
def test_other_one_of_a_double_click_may_win_between_looking_and_placing(
    make_order: Maker, pattern: Pattern, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on a database where two transactions run side by side: the unique key decides."""
    key = new_key()
    first = make_order(pattern, key=key)
    answers = [None, first]
    monkeypatch.setattr(placing, "_placed_before", lambda wish: answers.pop(0))
    assert make_order(pattern, key=key) is first
    assert Order.objects.count() == 1


# What is never placed


def test_refused_size_is_never_placed(make_order: Maker) -> None:
    with pytest.raises(RefusedSizeError):
        make_order(width="4", depth="5")
    assert not Order.objects.exists()


def test_size_out_of_range_is_never_placed(make_order: Maker) -> None:
    with pytest.raises(RefusedSizeError):
        make_order(width="21")


def test_superseded_revision_is_never_placed(pattern: Pattern) -> None:
    old = pattern.revisions.get()
    publish(pattern, RECIPE.replace("1 hour", "2 hours"))
    with pytest.raises(RevisedError, match="was revised"):
        place_order(old, sized_as(old), name="Ada", email="a@example.org", key=new_key(), source="s", now=NOW)
    assert not Order.objects.exists()


def test_size_of_another_pattern_is_a_fault_of_ours(make_pattern: Callable[..., Pattern]) -> None:
    one, other = make_pattern("one").revisions.get(), make_pattern("other").revisions.get()
    with pytest.raises(ValueError, match="other was not sized from"):
        place_order(
            one, sized_as(other), name="Ada", email="a@example.org", key=new_key(), source="s", now=NOW
        )


@pytest.mark.django_db(transaction=True)
def test_what_breaks_half_way_leaves_nothing(make_order: Maker, monkeypatch: pytest.MonkeyPatch) -> None:
    def break_off(*_: object) -> None:
        raise OSError("the disk is full")

    monkeypatch.setattr(placing, "_size_sold", break_off)
    with pytest.raises(OSError, match="the disk is full"):
        make_order()
    assert not connection.in_atomic_block
    assert not Order.objects.exists()
    assert not OrderLine.objects.exists()
    assert not IssuedDocument.objects.exists()


# Limits of free orders


def test_address_has_its_free_orders_and_no_more(make_order: Maker, settings: Any) -> None:
    settings.FREE_ORDERS_PER_EMAIL, settings.FREE_ORDERS_HOURS = 2, 24
    make_order(source="1")
    make_order(source="2", email="ADA@example.org", now=NOW + timedelta(hours=1))
    with pytest.raises(LimitMetError) as caught:
        make_order(source="3", now=NOW + timedelta(hours=23))
    assert str(caught.value) == (
        "2 free orders in 24 hours is the most for one e-mail address, and that many have been placed. "
        "The next can be placed after 26 November 2026, 10:30."
    )
    assert caught.value.again_at == NOW + timedelta(hours=24)
    assert make_order(source="3", email="bea@example.org", now=NOW + timedelta(hours=23))
    assert make_order(source="3", now=NOW + timedelta(hours=24))  # the window rolls


def test_source_has_its_free_orders_and_no_more(make_order: Maker, settings: Any) -> None:
    settings.FREE_ORDERS_PER_SOURCE, settings.FREE_ORDERS_HOURS = 1, 1
    make_order(email="a@example.org")
    with pytest.raises(
        LimitMetError, match="One free order in one hour is the most for one internet connection"
    ):
        make_order(email="b@example.org")
    assert make_order(email="b@example.org", source="elsewhere")


def test_limit_does_not_stand_in_the_way_of_an_order_that_is_placed(make_order: Maker, settings: Any) -> None:
    settings.FREE_ORDERS_PER_EMAIL = settings.FREE_ORDERS_PER_SOURCE = 1
    key = new_key()
    assert make_order(key=key) == make_order(key=key)


def test_limit_is_counted_by_an_index(pattern: Pattern) -> None:
    recent = Order.objects.free_since(NOW)
    plans = recent.from_email("a@example.org").explain(), recent.from_source("s").explain()
    assert "order_email_placed" in plans[0]
    assert "order_source_placed" in plans[1]


def test_templates_come_with_what_a_ruler_does_not_serve_for(
    make_order: Maker, make_pattern: Callable[..., Pattern]
) -> None:
    order = make_order(make_pattern("round-bucket", text_of("round-bucket"))).order
    documents = IssuedDocument.objects.wanted().filter(line__order=order)
    assert [(each.kind, each.paper) for each in documents] == [
        ("book", "a4"),
        ("book", "letter"),
        ("templates", "a4"),
        ("templates", "large"),
        ("templates", "letter"),
    ]
