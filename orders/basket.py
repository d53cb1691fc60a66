"""The basket: a few lines in the visitor's session, with who it is for. Prices are never in it."""

import secrets
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from django.http import HttpRequest

from orders.pricing import Item

SESSION_KEY = "basket"
# A household's order; more is a wholesale order, which is a letter to the shop.
MOST_ITEMS = 12
LONGEST_QUERY = 2000


@dataclass(frozen=True, slots=True)
class Basket:
    """name: of this filling of it, so that the same things bought again later are another order.

    who: what was typed of the customer: name, email, country, way.
    """

    name: str
    items: tuple[Item, ...]
    who: Mapping[str, str]


def basket_of(request: HttpRequest) -> Basket:
    """Return the visitor's basket; an empty one where there is none, or it cannot be read."""
    kept: Any = request.session.get(SESSION_KEY)
    try:
        items = tuple(Item(**each) for each in kept["items"])
        return Basket(str(kept["name"]), items, dict(kept["who"]))
    except (TypeError, KeyError):
        return Basket(secrets.token_urlsafe(12), (), {})


def put_in(request: HttpRequest, slug: str, query: str, kind: str, *, has_batch: bool) -> bool:
    """Put an item into the basket, once; whether there was room."""
    basket = basket_of(request)
    same = [each for each in basket.items if (each.slug, each.query, each.kind) == (slug, query, kind)]
    if same:
        items = tuple(replace(each, has_batch=has_batch) if each in same else each for each in basket.items)
    elif len(basket.items) >= MOST_ITEMS or len(query) > LONGEST_QUERY:
        return False
    else:
        items = (*basket.items, Item(secrets.token_hex(4), slug, query, kind, has_batch))
    _keep(request, replace(basket, items=items))
    return True


def take_out(request: HttpRequest, name: str) -> None:
    """Take an item out; one that is not in is out already."""
    basket = basket_of(request)
    _keep(request, replace(basket, items=tuple(each for each in basket.items if each.name != name)))


def keep_who(request: HttpRequest, who: Mapping[str, str]) -> None:
    _keep(request, replace(basket_of(request), who=who))


def empty(request: HttpRequest) -> None:
    request.session.pop(SESSION_KEY, None)


def _keep(request: HttpRequest, basket: Basket) -> None:
    kept: dict[str, Any] = {
        "name": basket.name,
        "items": [asdict(each) for each in basket.items],
        "who": dict(basket.who),
    }
    request.session[SESSION_KEY] = kept
