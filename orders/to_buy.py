"""What an order's page shows of what to buy: the list that is kept with each line, as its book has it."""

from dataclasses import dataclass

from orders.models import OrderLine
from patterns.cutting.listing import Line, ShoppingList
from patterns.cutting.listing_json import from_json


@dataclass(frozen=True, slots=True)
class ToBuy:
    """The list of one line. found: None until it is worked out, together with the files."""

    line: OrderLine
    found: ShoppingList | None

    @property
    def bought(self) -> tuple[Line, ...]:
        """What there is an amount of."""
        return tuple(line for line in self.found.lines if line.amount) if self.found else ()

    @property
    def besides(self) -> tuple[str, ...]:
        """What is to be at hand, or has no amount."""
        return tuple(line.material for line in self.found.lines if not line.amount) if self.found else ()


def to_buy(line: OrderLine) -> ToBuy:
    return ToBuy(line, None if line.layouts is None else from_json(line.layouts))
