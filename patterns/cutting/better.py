"""A shopping list whose layouts were looked for longer: what of it is kept, and put in where it is better."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from .answers import Cut
from .listing import Line, ShoppingList
from .on_cloth import OnCloth
from .sheets import Placement
from .shopping_words import cloth_amount, cloth_reason


def to_json(found: ShoppingList) -> dict[str, Any]:
    """Return what was found of each cloth, by its material; lengths as exact text."""
    return {line.material: _cloth_json(line.cloth) for line in found.lines if line.cloth is not None}


def _cloth_json(cloth: OnCloth) -> dict[str, Any]:
    return {
        "form": cloth.form.name,
        "buy": str(cloth.buy),
        "least": str(cloth.least),
        "length": None if cloth.length is None else str(cloth.length),
        "layout": [
            [each.piece, each.sheet, *map(str, (each.x, each.y, each.width, each.height)), each.turned]
            for each in cloth.layout
        ],
        "cuts": [[each.sheet, each.along, *map(str, (each.at, each.start, each.end))] for each in cloth.cuts],
    }


def with_better(first: ShoppingList, kept: Mapping[str, Any]) -> ShoppingList:
    """Return a list with what `to_json` kept of the same question, cloth by cloth, where that is better.

    Better is less to buy, or as much with more of it proved. Folded cloth is left as it is.
    """
    return replace(first, lines=tuple(_better_line(line, kept, first) for line in first.lines))


def _better_line(line: Line, kept: Mapping[str, Any], first: ShoppingList) -> Line:
    old, data = line.cloth, kept.get(line.material)
    if old is None or data is None or data["form"] != old.form.name or old.way.folded:
        return line
    buy, least = Fraction(data["buy"]), max(old.least, Fraction(data["least"]))
    if len(data["layout"]) != len(old.layout) or buy > old.buy or (buy == old.buy and least == old.least):
        return line
    cloth = replace(old, least=least)
    if buy < old.buy:
        length = data["length"]
        cloth = replace(
            cloth,
            buy=buy,
            length=None if length is None else Fraction(length),
            layout=_layout(data["layout"]),
            cuts=tuple(Cut(each[0], each[1], *map(Fraction, each[2:])) for each in data["cuts"]),
        )
    amount, reason = cloth_amount(cloth, first.units), cloth_reason(cloth, first.units)
    cost = None if line.cost_minor is None else line.cost_minor * cloth.buy / old.buy
    return replace(line, amount=amount, reason=reason, bought=cloth.buy, cost_minor=cost, cloth=cloth)


def _layout(places: Sequence[Sequence[Any]]) -> tuple[Placement, ...]:
    found = []
    for piece, sheet, *lengths, turned in places:
        x, y, width, height = map(Fraction, lengths)
        found.append(Placement(piece, sheet, x, y, width, height, turned))
    return tuple(found)


def can_be_better(found: ShoppingList) -> bool:
    """Whether a longer search may find less to buy, or a proof: folded cloth is left as it is."""
    return any(line.cloth and not line.cloth.proved and not line.cloth.way.folded for line in found.lines)
