"""The list of patterns, each drawn at its opening size; what is looked for in it, and what is found."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Final
from unicodedata import combining, normalize

from django.utils.safestring import SafeString

from patterns.addresses import size_query
from patterns.catalogue_form import FREE, THINGS, Search
from patterns.drafting.errors import HoldingError
from patterns.drafting.holding import sizes_that_hold
from patterns.drafting.recipe import Recipe
from patterns.drafting.sizing import size
from patterns.drafting.things import Solid, Things
from patterns.drafting.units import Units
from patterns.fields import MeasureField
from patterns.forms import in_a_row
from patterns.holding_page import search_watch
from patterns.models import RECIPES_KEPT, Offer, Pattern, Photograph, Revision, kept_recipe
from patterns.sale import catalogue_price, offers_on_sale
from patterns.size_page import drawing

# How thick a pile is of what comes in sheets, where no standard says how thick one is: about a hundred
# sheets of office paper (common practice: 0.1 mm each).
STACK: Final = Fraction(10)


@dataclass(frozen=True, slots=True)
class Sight:
    """What the list shows of a recipe. ranges: name and range of each measure that sets the size."""

    drawing: SafeString | None
    skill: str
    time: str
    ranges: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Fit:
    """The size with the least fabric that holds a thing. Empty where looking for it took too long."""

    words: str = ""
    query: str = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """A pattern on the list. price: in words. fit: None where no thing is asked for.

    photograph: the pattern's first, in place of its drawing; None if there is none.
    """

    pattern: Pattern
    sight: Sight
    price: str
    fit: Fit | None
    photograph: Photograph | None


@dataclass(frozen=True, slots=True)
class Looser:
    """Another search. words: how it differs from what was asked: `Without “zip”`, `What holds A5 sheets`."""

    words: str
    query: str
    count: int


@dataclass(frozen=True, slots=True)
class Catalogue:
    """count: how many patterns the shop has. looser: where nothing was found, what finds something."""

    search: Search
    entries: tuple[Entry, ...]
    count: int
    looser: tuple[Looser, ...]

    @property
    def holds_words(self) -> str:
        """What the sizes that are offered hold; empty where no thing is asked for."""
        thing = self.search.thing
        if thing is None:
            return ""
        held = "one of them" if thing.depth else "a pile of them 1 cm thick"
        return f"Each can hold {held}, standing upright, at the size beside “Holds”: the one of least fabric."

    @property
    def news(self) -> str:
        """How many there are, for everybody to read: `3 of 8 patterns`."""
        of_all = f"{self.count} pattern{'' if self.count == 1 else 's'}"
        if not self.search.asked:
            return of_all
        return f"{len(self.entries)} of {of_all}" if self.entries else "No pattern is all of that"


def catalogue(patterns: Iterable[Pattern], search: Search, units: Units) -> Catalogue:
    """Return what is found. patterns: published, and brought with revisions, offers and photographs."""
    all_of_them = list(patterns)
    found = matching(all_of_them, search, units)
    looser = () if found else _looser(all_of_them, search, units)
    entries = [_entry(each, latest, search, units) for each in found if (latest := each.latest_revision)]
    return Catalogue(search, tuple(entries), len(all_of_them), looser)


def matching(patterns: Iterable[Pattern], search: Search, units: Units) -> list[Pattern]:
    """Return the patterns that are all of what is looked for."""
    return [
        pattern
        for pattern in patterns
        if search.kind in ("", pattern.kind)
        and _has_words(pattern, search.words)
        and _has_price(pattern, search.price)
        and (not search.holds or fit_of(pattern, search.holds, units))
    ]


def fit_of(pattern: Pattern, thing: str, units: Units) -> Fit | None:
    """Return the size of a pattern that holds a thing; None if none does."""
    latest = pattern.latest_revision
    return _fit(latest.pk, latest.checksum, thing, units) if latest else None


def plain(text: str) -> str:
    """Return a text without its capitals and accents, as it is searched.

    >>> plain("Étui À Zip")
    'etui a zip'
    """
    return "".join(sign for sign in normalize("NFKD", text.casefold()) if not combining(sign))


def _has_words(pattern: Pattern, words: str) -> bool:
    text = plain(f"{pattern.title} {pattern.form} {pattern.summary}")
    return all(any(each in text for each in _one_or_many(word)) for word in plain(words).split())


def _one_or_many(word: str) -> list[str]:
    """Return a word, and it without the ending of many: who looks for pouches means a pouch as well."""
    endings = [ending for ending in ("es", "s") if word.endswith(ending) and len(word) > len(ending) + 2]
    return [word, *(word.removesuffix(ending) for ending in endings)]


def _has_price(pattern: Pattern, price: str) -> bool:
    offers = [offer for offer in offers_on_sale(pattern) if offer.kind != Offer.Kind.BATCH]
    if price == FREE:
        return any(offer.kind in (Offer.Kind.FREE, Offer.Kind.ONE_FREE) for offer in offers)
    return not price or any(offer.price_minor for offer in offers)


def _looser(patterns: Sequence[Pattern], search: Search, units: Units) -> tuple[Looser, ...]:
    searches = [(f"What holds {THINGS[key].name}", search.holding(key)) for key in _things_in(search.words)]
    searches += [(f"Without {search.in_words(key)}", search.without(key)) for key in search.asked]
    counted = [(words, less, len(matching(patterns, less, units))) for words, less in searches]
    return tuple(Looser(words, less.query, count) for words, less, count in counted if count and less.asked)


def _things_in(words: str) -> list[str]:
    """Return the keys of the things that words name: `A5 book` names A5 sheets, `passport` passports."""
    asked = {each for word in plain(words).split() for each in _one_or_many(word)}
    names = {key: plain(thing.name).split() for key, thing in THINGS.items()}
    return [key for key in THINGS if any(asked.intersection(_one_or_many(word)) for word in names[key])]


def _entry(pattern: Pattern, latest: Revision, search: Search, units: Units) -> Entry:
    fit = fit_of(pattern, search.holds, units) if search.holds else None
    price = catalogue_price(offers_on_sale(pattern))
    photograph = next(iter(pattern.photographs.all()), None)
    return Entry(pattern, sight(latest.pk, latest.checksum, units), price, fit, photograph)


@lru_cache(maxsize=RECIPES_KEPT * len(Units))
def sight(pk: int, checksum: str, units: Units) -> Sight:
    """Return what the list shows of a revision; drawn once in each process."""
    recipe = kept_recipe(pk, checksum)
    return Sight(
        drawing=drawing(size(recipe, "", units)),
        skill=recipe.skill,
        time=recipe.time,
        ranges=ranges_of(recipe, units),
    )


def ranges_of(recipe: Recipe, units: Units) -> tuple[tuple[str, str], ...]:
    """Return name and range of each measure that sets the size: `width`, `3 to 20 in`."""
    fields = [MeasureField(measure, units) for measure in recipe.measures if measure.role == "size"]
    return tuple((field.measure.name, field.range_words) for field in fields)


@lru_cache(maxsize=RECIPES_KEPT * len(Units) * len(THINGS))
def _fit(pk: int, checksum: str, key: str, units: Units) -> Fit | None:
    """Return the least size of a revision that holds one thing upright, nothing left over.

    Everything but the size itself is at its default. Looked for once in each process.
    """
    recipe, thing = kept_recipe(pk, checksum), THINGS[key]
    if recipe.holds is None:
        return None
    solid = Solid(thing.width, thing.height, thing.depth or STACK)
    things = Things(solid, Fraction(0), "upright")
    try:
        found = sizes_that_hold(recipe, units, things, 1, limit=1, watch=search_watch())
    except HoldingError:
        return Fit()
    if not found:
        return None
    measures = found[0].measures
    return Fit(in_a_row(recipe, units, measures), size_query(recipe, units, measures, {}))
