"""A size in the address of a page: `?units=in&width=8+1%2F2&seam-allowance=1%2F2&interfacing=light`."""

from collections.abc import Mapping
from fractions import Fraction

from django.utils.http import urlencode

from patterns.drafting.lengths import typed
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units

# What an address holds beside the recipe's own names. No recipe with such a name is published.
UNITS_KEY = "units"
LOOK_KEY = "look"
# The measures along the edges of a range chart.
ACROSS_KEY = "chart across"
UP_KEY = "chart up"
# The way in which a size is chosen on the pattern's own page; nothing for by its measures.
BY_KEY = "by"
WAYS = BY_CHART, BY_CONTENTS, BY_CLOTH = "chart", "contents", "cloth"
# What goes in, where a size is found for it.
THING_KEYS = ("thing-width", "thing-height", "thing-depth", "thing-count", "thing-loose", "thing-turn")
# What cloth there is, where a size is found from it: two kinds of it, and what matters.
CLOTH_KEYS = (
    *("cloth-width", "cloth-length", "cloth-count", "cloth-for"),
    *("other-cloth-width", "other-cloth-length", "other-cloth-count", "other-cloth-for"),
    "cloth-keep",
)
# What cloth is bought, on the pattern's own page.
BUYING_KEYS = (
    *("cloth", "cloth-measured", "interfacing-roll", "roll-measured", "shrinks", "make"),
    *("cloth-price", "roll-price", "print-repeat", "repeat-on", "folded", "edge-to-edge"),
)
# What is typed where a size is looked for; it stays in the address beside the size that was found.
SEARCH_KEYS = (*THING_KEYS, *CLOTH_KEYS)
_FORM_KEYS = (*SEARCH_KEYS, *BUYING_KEYS)
RESERVED_KEYS = frozenset(
    {UNITS_KEY, LOOK_KEY, ACROSS_KEY, UP_KEY, BY_KEY, *(key.replace("-", " ") for key in _FORM_KEYS)}
)
MOST_SHOWN = 40


def in_address(name: str) -> str:
    """Return a name as an address writes it: `seam-allowance`."""
    return name.replace(" ", "-")


def from_address(key: str) -> str:
    """Return the name that a key of an address writes.

    >>> from_address("Seam-allowance")
    'seam allowance'
    """
    return key.replace("-", " ").casefold()


def choice_in_address(name: str) -> str:
    """Return a choice as an address writes it; what was typed there may be handed in too.

    >>> choice_in_address("No. 5 coil")
    'no-5-coil'
    """
    return in_address(name.replace(".", "").casefold())


def size_query(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction], options: Mapping[str, str]
) -> str:
    """Return the query that brings a size back; what is not given is left to its default."""
    pairs = {UNITS_KEY: units.value}
    for measure in recipe.measures:
        if measure.name in measures:
            pairs[in_address(measure.name)] = typed(measures[measure.name], measure.power, units)
    for option in recipe.options:
        if option.name in options:
            pairs[in_address(option.name)] = choice_in_address(options[option.name])
    return urlencode(pairs)


def shortened(text: str) -> str:
    """Return what a stranger wrote, short enough to be shown, its control characters replaced."""
    shown = "".join(sign if sign.isprintable() else "\ufffd" for sign in text)
    return shown if len(shown) <= MOST_SHOWN else f"{shown[: MOST_SHOWN - 1]}…"
