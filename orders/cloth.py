"""The cloth of an order line: what to buy and how it is cut, looked for once and kept with the line."""

from typing import Any, cast

from orders.models import OrderLine
from patterns.cutting.book_list import book_list
from patterns.cutting.costs import with_costs
from patterns.cutting.listing import ShoppingList
from patterns.cutting.listing_json import to_json
from patterns.cutting.wish import NO_WISH, from_json
from patterns.money import priced


def kept_layouts(line: OrderLine) -> dict[str, Any]:
    """Return the line's shopping list as kept JSON; looked for and kept first where there is none yet.

    A later version of the search never changes what is kept. A search takes up to some seconds, so it
    happens outside a transaction; of two at once the first one's stays.
    """
    if line.layouts is None:
        wish = NO_WISH if line.wish is None else from_json(line.wish)
        found = to_json(_priced(book_list(line.sized_pattern, wish), line.currency))
        OrderLine.objects.filter(pk=line.pk, layouts__isnull=True).update(layouts=found)
        line.refresh_from_db(fields=("layouts",))
    return cast(dict[str, Any], line.layouts)


def _priced(found: ShoppingList, currency: str) -> ShoppingList:
    return with_costs(found, lambda minor: priced(minor, currency))
