"""Whom a revision would concern, worked out before it is published; nothing is kept of it."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from orders import letters
from orders.corrected import Outcome, all_anew, called
from orders.correcting import reasons
from orders.models import Order
from orders.models.corrections import sold_before
from patterns.drafting.recipe import Recipe
from patterns.models import Pattern

# So many lines are made anew while the owner waits, the newest first.
MOST_LOOKED_AT = 400


@dataclass(frozen=True, slots=True)
class Buyer:
    """An order that would get a letter, and what it would be told of each of its lines."""

    order: Order
    told: list[letters.Told] = field(default_factory=list)

    @property
    def changes(self) -> int:
        return sum(len(each.changes) for each in self.told)

    @property
    def letter(self) -> str:
        """The letter, as it would be written."""
        return letters.corrected_words(self.order, self.told)


@dataclass(frozen=True, slots=True)
class Refused:
    """A line whose size would be refused. line: its name and size. why: the check that refuses it."""

    order: Order
    line: str
    why: str


@dataclass(frozen=True, slots=True)
class Concerned:
    """same: orders in which nothing comes out otherwise. left: lines that were too many to look at now."""

    buyers: Sequence[Buyer]
    refused: Sequence[Refused]
    same: int
    left: int

    def buyer(self, number: str) -> Buyer | None:
        """The buyer with that order, or the first; none if there is none."""
        found = (buyer for buyer in self.buyers if str(buyer.order.number) == number)
        return next(found, self.buyers[0] if self.buyers else None)


def concerned(pattern: Pattern, recipe: Recipe, reason: str, number: int) -> Concerned:
    """Return whom a revision of that number would concern, of those who bought the pattern before."""
    lines = sold_before(pattern.pk, number).select_related("order", "revision")
    newest = lines.order_by("-order", "position")[:MOST_LOOKED_AT]
    buyers: dict[int, Buyer] = {}
    refused, seen = [], set()
    before: dict[int, tuple[str, ...]] = {}
    for line, made_anew in all_anew(newest, recipe):
        seen.add(line.order_id)
        if made_anew.outcome == Outcome.REFUSED:
            refused.append(Refused(line.order, called(line), made_anew.why))
        elif made_anew.outcome == Outcome.CHANGED:
            since = line.revision.number
            if since not in before:
                before[since] = reasons(pattern.pk, since, number)
            why = tuple(dict.fromkeys(filter(None, (*before[since], reason))))
            told = letters.Told(called(line), why, made_anew.changes)
            buyers.setdefault(line.order_id, Buyer(line.order)).told.append(told)
    same = seen - buyers.keys() - {each.order.pk for each in refused}
    return Concerned(list(buyers.values()), refused, len(same), max(lines.count() - MOST_LOOKED_AT, 0))
