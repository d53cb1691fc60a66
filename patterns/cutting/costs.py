"""What a shopping list costs, in words."""

from collections.abc import Callable
from dataclasses import replace

from patterns.drafting.lists import listed

from .listing import Line, ShoppingList, coins


def with_costs(found: ShoppingList, money: Callable[[int], str]) -> ShoppingList:
    """Return the list with its costs said; one without any price is left as it is.

    money: writes an amount of the least coin with its currency.
    """
    total, an_item = found.cost_minor, found.cost_an_item_minor
    if total is None or an_item is None:
        return found
    says = f"At the prices given: {money(total)}"
    says += f", which is {money(an_item)} for each of the {found.items}." if found.items > 1 else "."
    if found.unpriced:
        says += f" Without a price, and not counted: {listed(found.unpriced, 'and')}."
    return replace(found, lines=tuple(_with_cost(line, money) for line in found.lines), cost_says=says)


def _with_cost(line: Line, money: Callable[[int], str]) -> Line:
    return line if line.cost_minor is None else replace(line, cost=money(coins(line.cost_minor)))
