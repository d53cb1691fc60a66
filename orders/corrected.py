"""A line of an order made anew from a corrected revision: whether anything in it is another, and what."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from orders.models import CorrectedLine, OrderLine
from patterns.documents.changes import changes
from patterns.documents.errors import DocumentError
from patterns.documents.words import Words
from patterns.drafting.errors import DraftingError
from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.templatetags.measures import plain_words

Outcome = CorrectedLine.Outcome


@dataclass(frozen=True, slots=True)
class Anew:
    """A size made anew. sized: None where the new revision refuses it, and why says so.

    changes: what is another in it, in sentences; none where a customer would cut and sew the same.
    """

    sized: SizedPattern | None
    changes: tuple[str, ...] = ()
    why: str = ""

    @property
    def outcome(self) -> CorrectedLine.Outcome:
        if self.sized is None:
            return Outcome.REFUSED
        return Outcome.CHANGED if self.changes else Outcome.SAME


def anew(before: SizedPattern, recipe: Recipe) -> Anew:
    """Make a kept size anew from a recipe: the same measures and choices in the same units."""
    measures = {measure.name: measure.value for measure in before.measures}
    try:
        after = size(recipe, before.recipe, before.units, measures, before.options)
        if after.is_refused:
            return Anew(None, why=plain_words(after.failed[0].otherwise, after.units))
        return Anew(after, changes(before, after))
    except (DraftingError, DocumentError) as error:
        return Anew(None, why=str(error))


def all_anew(lines: Iterable[OrderLine], recipe: Recipe) -> Iterator[tuple[OrderLine, Anew]]:
    """Yield each line with its size made anew; what was sold many times is worked out once."""
    known: dict[tuple[int, str], Anew] = {}
    for line in lines:
        key = line.revision_id, json.dumps([line.sized[part] for part in ("units", "measures", "options")])
        if key not in known:
            known[key] = anew(line.sized_pattern, recipe)
        yield line, known[key]


def called(line: OrderLine) -> str:
    """`Fold-flat basket, 9 in wide, 6 in high, 5 in deep`, as letters name a line."""
    return f"{line.title}, {Words(line.sized_pattern).size()}"
