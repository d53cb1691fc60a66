"""The list of patterns, each drawn at its default size."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from django.utils.safestring import SafeString

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.fields import MeasureField
from patterns.models import RECIPES_KEPT, Pattern, kept_recipe
from patterns.sale import catalogue_price, offers_on_sale
from patterns.size_page import drawing


@dataclass(frozen=True, slots=True)
class Sight:
    """What the list shows of a recipe. ranges: name and range of each measure that sets the size."""

    drawing: SafeString | None
    skill: str
    time: str
    ranges: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """A pattern on the list. price: in words."""

    pattern: Pattern
    sight: Sight
    price: str


def entries(patterns: Iterable[Pattern], units: Units) -> list[Entry]:
    """Return the patterns with what the list shows of each; none of them without a revision.

    patterns: brought `with_offers`.
    """
    revisions = [(pattern, pattern.latest_revision) for pattern in patterns]
    return [
        Entry(pattern, sight(latest.pk, latest.checksum, units), catalogue_price(offers_on_sale(pattern)))
        for pattern, latest in revisions
        if latest
    ]


@lru_cache(maxsize=RECIPES_KEPT * len(Units))
def sight(pk: int, checksum: str, units: Units) -> Sight:
    """Return what the list shows of a revision; drawn once in each process."""
    recipe = kept_recipe(pk, checksum)
    fields = [MeasureField(measure, units) for measure in recipe.measures if measure.role == "size"]
    return Sight(
        drawing=drawing(size(recipe, "", units)),
        skill=recipe.skill,
        time=recipe.time,
        ranges=tuple((field.measure.name, field.range_words) for field in fields),
    )
