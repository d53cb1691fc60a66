"""A shopping list: its lines, and what it costs."""

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from patterns.drafting.recipe import MaterialKind
from patterns.drafting.units import Units

from .on_cloth import OnCloth


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to buy, or to have at hand.

    says: what it is, in the recipe's words. amount, reason: in words; empty where the recipe knows none.
    bought: mm of length, or how many; None where it is not counted. cost_minor: exact; None without a price.
    cost: the same in words.
    """

    material: str
    kind: MaterialKind
    says: str
    amount: str = ""
    reason: str = ""
    bought: Fraction | None = None
    cost_minor: Fraction | None = None
    cloth: OnCloth | None = None
    cost: str = ""


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """items: how many are made of it, all together. cost_says: what they cost, in sentences."""

    units: Units
    items: int
    lines: tuple[Line, ...]
    cost_says: str = ""

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What is bought but has no price; tools are at hand."""
        return tuple(line.material for line in self.lines if line.kind != "tool" and line.cost_minor is None)

    @property
    def cost_minor(self) -> int | None:
        """What all that has a price costs; each line is rounded, halves up. None where nothing has one."""
        costs = [line.cost_minor for line in self.lines if line.cost_minor is not None]
        return sum(coins(cost) for cost in costs) if costs else None

    @property
    def cost_an_item_minor(self) -> int | None:
        cost = self.cost_minor
        return None if cost is None else coins(Fraction(cost, self.items))


def coins(cost: Fraction) -> int:
    """Return a cost in whole coins, halves up."""
    return floor(cost + Fraction(1, 2))
