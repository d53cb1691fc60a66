"""The layouts of an order: found once, kept, and never changed by a later version of the search."""

from collections.abc import Callable

import pytest

from orders import bodies, cloth
from orders.cloth import kept_layouts
from orders.issuing import issue
from orders.models import OrderLine
from orders.placing import Placed
from patterns.cutting.book_list import book_list
from patterns.cutting.listing import ShoppingList
from patterns.cutting.listing_json import from_json
from patterns.cutting.wish import Wish, to_json

Maker = Callable[..., Placed]


def line_of(placed: Placed) -> OrderLine:
    return OrderLine.objects.get(order=placed.order)


def test_a_new_line_has_the_usual_cloth_once_it_is_asked_for(make_order: Maker) -> None:
    line = line_of(make_order(width="17/2"))
    assert line.layouts is None
    assert from_json(kept_layouts(line)) == book_list(line.sized_pattern)
    assert line_of(Placed(line.order, "")).layouts == line.layouts


def test_a_line_has_the_cloth_that_was_wished_for(make_order: Maker) -> None:
    line = line_of(make_order())
    wish = Wish(form="60 in wide", count=2)
    line.wish = to_json(wish)
    line.save()
    found = from_json(kept_layouts(line))
    assert found == book_list(line.sized_pattern, wish)
    assert found.items == 2


def test_issuing_keeps_the_layouts_and_a_later_search_changes_nothing(
    make_order: Maker, blank_book: list[object], monkeypatch: pytest.MonkeyPatch
) -> None:
    placed = make_order()
    letter, a4 = line_of(placed).documents.order_by("-paper")
    issue(letter)
    kept = line_of(placed).layouts
    assert kept is not None
    monkeypatch.setattr(cloth, "book_list", lambda sized, wish: ShoppingList(sized.units, 1, ()))
    issue(a4)
    assert line_of(placed).layouts == kept


def test_of_two_at_once_the_first_ones_layouts_stay(
    make_order: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    placed = make_order()
    one, other = line_of(placed), line_of(placed)
    first = kept_layouts(one)
    monkeypatch.setattr(cloth, "book_list", lambda sized, wish: ShoppingList(sized.units, 9, ()))
    assert kept_layouts(other) == first == line_of(placed).layouts


def test_other_layouts_are_another_body() -> None:
    sized: dict[str, object] = {"language": "en"}
    one, other = (bodies.body_address(sized, {"items": items}, "book", "a4") for items in (1, 2))
    assert one != other
    assert one == bodies.body_address(sized, {"items": 1}, "book", "a4")


def test_lists_of_orders_do_not_fetch_the_layouts(make_order: Maker) -> None:
    make_order()
    (line,) = OrderLine.objects.without_data()
    assert {"sized", "layouts"} <= line.get_deferred_fields()
