"""What is kept and how long: each rule does what it says, in time, and no more."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.sessions.backends.db import SessionStore
from django.contrib.sessions.models import Session
from django.test import Client
from django.urls import reverse

from orders import housekeeping, keeping
from orders.forgetting import (
    LETTERS_FOR,
    UNPAID_FOR,
    forget_counts,
    forget_letters,
    forget_sessions,
    forget_sources,
    forget_unpaid,
)
from orders.housekeeping import keep_house
from orders.keeping import AT_ONCE, DAILY, Rule, rules
from orders.models import IssuedDocument, KeepingRun, Letter, LocalCharge, Order, OrderLine, Payment
from orders.paying import begin_card, mark_paid, take
from orders.placing import Placed
from orders.providers.local import message_of
from patterns import kept
from studio.models import Counted
from tests.orders.conftest import NOW, text_of, words_of

Maker = Callable[..., Placed]


def test_visits_that_expired(db: None, time_machine: Any) -> None:
    time_machine.move_to(NOW, tick=False)
    visit = SessionStore()
    visit["basket"] = "a basket"
    visit.save()
    assert forget_sessions(NOW + timedelta(days=14) - timedelta(seconds=1), AT_ONCE) == 0
    assert forget_sessions(NOW + timedelta(days=14, seconds=1), AT_ONCE) == 1
    assert not Session.objects.exists()


def test_counts_that_expired(db: None) -> None:
    for at in (-1, 1):
        Counted.objects.create(cache_key=str(at), value="", expires=NOW + timedelta(minutes=at))
    assert forget_counts(NOW, AT_ONCE) == 1
    assert Counted.objects.get().cache_key == "1"


def test_where_an_order_came_from(make_order: Maker) -> None:
    make_order()
    assert forget_sources(NOW + timedelta(hours=24), AT_ONCE) == 0
    assert forget_sources(NOW + timedelta(hours=24, seconds=1), AT_ONCE) == 1
    assert (Order.objects.get().source, Order.objects.get().email) == ("", "ada@example.org")


def test_old_letters_are_wiped_but_not_one_that_is_to_be_sent(make_order: Maker) -> None:
    make_order()
    late = NOW + LETTERS_FOR + timedelta(seconds=1)
    assert forget_letters(late, AT_ONCE) == 0
    Letter.objects.get().keep_sent(NOW)
    assert [forget_letters(late, AT_ONCE) for _ in range(2)] == [1, 0]
    letter = Letter.objects.get()
    assert (letter.to, letter.text, letter.html) == ("", "", "")


def test_an_order_that_was_never_paid_loses_its_name(buy: Maker) -> None:
    order = buy(way="transfer").order
    cloth = {"exterior": {"picture": "p" * 64, "width": "1", "height": "1"}, "on_cover": False}
    order.lines.update(own_cloth=cloth)
    kept.keep("cloths", "p" * 64, b"a picture", "jpg")
    late = NOW + UNPAID_FOR + timedelta(seconds=1)
    assert forget_unpaid(late - timedelta(seconds=2), AT_ONCE) == 0
    assert [forget_unpaid(late, AT_ONCE) for _ in range(2)] == [1, 0]
    order.refresh_from_db()
    assert (order.name, order.email, order.source, order.total_minor) == ("", "", "", 650)
    assert set(IssuedDocument.objects.values_list("licence_line", flat=True)) == {f"Order {order.number}"}
    assert set(Letter.objects.values_list("to", flat=True)) == {""}
    assert not Letter.objects.given_up().exists()
    assert not Payment.objects.waiting_for_transfer().exists()
    assert OrderLine.objects.get().own_cloth is None
    assert kept.kept("cloths", "p" * 64, "jpg") is None
    # Money that comes after all still finds its order.
    mark_paid(order.payments.get(), "BANK", "owner", late)
    assert Order.objects.get().is_paid
    assert not Letter.objects.waiting().exists()


def test_an_order_that_was_paid_keeps_it(buy: Maker) -> None:
    order = buy().order
    begin_card(order, "local", NOW)
    LocalCharge.objects.update(state=LocalCharge.State.PAID)
    take("local", message_of(LocalCharge.objects.get()), NOW)
    assert forget_unpaid(NOW + UNPAID_FOR * 2, AT_ONCE) == 0


def test_a_picture_that_another_order_shows_stays(make_order: Maker) -> None:
    for email in ("a@example.org", "b@example.org"):
        make_order(email=email)
    OrderLine.objects.update(own_cloth={"lining": {"picture": "p" * 64}})
    kept.keep("cloths", "p" * 64, b"a picture", "jpg")
    Order.objects.filter(email="a@example.org").update(total_minor=650)
    assert forget_unpaid(NOW + UNPAID_FOR * 2, AT_ONCE) == 1
    assert kept.kept("cloths", "p" * 64, "jpg") == b"a picture"


def see_to(monkeypatch: pytest.MonkeyPatch, *deletes: Callable[[Any, int], int]) -> None:
    """Let these be all rules, a day each."""
    made = tuple(
        Rule(f"rule-{at}", "A thing", "A day.", "Because.", "Deletes it.", one)
        for at, one in enumerate(deletes)
    )
    monkeypatch.setattr(housekeeping, "rules", lambda: made)


def test_each_rule_has_its_turn_once_a_day(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    see_to(monkeypatch, lambda now, most: 3, lambda now, most: 4)
    assert [keep_house(NOW) for _ in range(4)] == [3, 4, 0, 0]
    assert keep_house(NOW + DAILY - timedelta(seconds=1)) == 0
    assert [keep_house(NOW + DAILY) for _ in range(3)] == [3, 4, 0]
    runs = KeepingRun.objects.order_by("rule").values_list("rule", "taken", "taken_ever")
    assert list(runs) == [("rule-0", 3, 6), ("rule-1", 4, 8)]


def test_much_goes_in_portions_and_not_without_end(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    left = [AT_ONCE, AT_ONCE, 7, AT_ONCE]
    see_to(monkeypatch, lambda now, most: left.pop(0))
    assert keep_house(NOW) == 2 * AT_ONCE + 7
    left[:] = [AT_ONCE] * 1000
    keep_house(NOW + DAILY)
    assert len(left) == 1000 - housekeeping.MOST_PORTIONS


def test_a_rule_that_fails_keeps_no_other_from_its_turn(
    db: None, monkeypatch: pytest.MonkeyPatch, owner_client: Client
) -> None:
    see_to(monkeypatch, lambda now, most: 1 // 0, lambda now, most: 4)
    with pytest.raises(ZeroDivisionError):
        keep_house(NOW)
    assert keep_house(NOW) == 4
    monkeypatch.setattr("orders.keeping_views.rules", housekeeping.rules)
    page = words_of(owner_client.get(reverse("orders:owner-keeping")))
    assert "Begun on 25 November 2026, 10:30 and not finished" in page
    assert "4 taken away; in all 4." in page


def test_of_two_workers_one_sees_to_it(db: None) -> None:
    rule = next(rule for rule in rules() if rule.deletes)
    assert housekeeping._begin(rule, None, NOW)
    assert not housekeeping._begin(rule, None, NOW)
    run = KeepingRun.objects.get()
    assert housekeeping._begin(rule, run, NOW + DAILY)
    assert not housekeeping._begin(rule, run, NOW + DAILY)


def test_customers_and_the_owner_read_the_same_list(
    client: Client, owner_client: Client, settings: Any
) -> None:
    settings.LINKS_AGAIN_HOURS = 48
    page = words_of(Client().get(reverse("orders:what-is-kept")))
    owners = words_of(owner_client.get(reverse("orders:owner-keeping")))
    for rule in rules():
        assert rule.name in page
        assert rule.how_long in page
        assert rule.how_long in owners
    assert "One day. If you order a size drawn in it, the part that was used stays with the order." in page
    assert "2 days" in page
    assert "Not seen to yet." in owners


def test_linked_at_the_foot_of_every_page(client: Client, owner_client: Client) -> None:
    link = f'href="{reverse("orders:what-is-kept")}"'
    for address in (reverse("patterns:pattern-list"), reverse("orders:links-again"), "/nowhere/"):
        assert link in text_of(client.get(address))
    assert f'href="{reverse("orders:owner-keeping")}"' in text_of(
        owner_client.get(reverse("orders:owner-orders"))
    )


def test_keys_tell_rules_apart(db: None) -> None:
    keys = [rule.key for rule in rules()]
    assert len(keys) == len(set(keys))
    assert all(rule.by for rule in rules() if rule.deletes)
    assert keeping.HOURLY < keeping.DAILY
