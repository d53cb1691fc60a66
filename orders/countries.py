"""Countries as customers choose them, named by the Unicode repository that Babel carries."""

import unicodedata
from functools import cache

from babel import Locale

# Two letters that stand for no country: unions, the unknown, and parts of countries that are choices already.
NO_COUNTRIES = frozenset(["AC", "CP", "CQ", "DG", "EA", "EU", "EZ", "IC", "QO", "TA", "UN", "XA", "XB", "ZZ"])


@cache
def country_choices() -> tuple[tuple[str, str], ...]:
    """Return each country's two letters (ISO 3166) and its name, in the order of names."""
    names = {str(code): str(name) for code, name in Locale("en").territories.items()}
    countries = [
        (code, name)
        for code, name in names.items()
        if len(code) == 2 and code.isalpha() and code not in NO_COUNTRIES
    ]
    return tuple(sorted(countries, key=lambda each: _letters(each[1])))


def _letters(name: str) -> str:
    """A name without its accents, by which Åland stands among the names in A."""
    parts = unicodedata.normalize("NFD", name.casefold())
    return "".join(each for each in parts if not unicodedata.combining(each))


def country_name(code: str) -> str:
    """Return the name of a country; nothing where there is no code."""
    return dict(country_choices()).get(code, code)
