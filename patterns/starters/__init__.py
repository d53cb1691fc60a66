"""The starter recipes: one text file each, written in the one spelling of `recipe_text`."""

from functools import cache
from pathlib import Path

from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import read_recipe

_FOLDER = Path(__file__).parent


def slugs() -> tuple[str, ...]:
    """Return every starter's slug, in the order of the alphabet; `zip_pouch.toml` is `zip-pouch`."""
    return tuple(sorted(path.stem.replace("_", "-") for path in _FOLDER.glob("*.toml")))


def text_of(slug: str) -> str:
    """Return the recipe text of a starter. Raises KeyError: there is none of that slug."""
    if slug not in slugs():
        raise KeyError(slug)
    return (_FOLDER / f"{slug.replace('-', '_')}.toml").read_text(encoding="utf-8")


@cache
def read_starter(slug: str) -> Recipe:
    """Return a starter, read once. Raises KeyError: there is none of that slug."""
    return read_recipe(text_of(slug))
