"""The text of a recipe: TOML, read with every mistake named at its line, and written in one spelling.

A text goes through `bounds` (before anything parses it), `scan` (its lines, and what is wrong with it as
TOML), then `read` (what each table must hold) and `meaning` (what its names and formulas say together).
"""

from .bounds import MOST_BYTES, MOST_LINE_BYTES
from .read import read_recipe
from .reading import MOST_FORMULA_LETTERS, MOST_FORMULAS, MOST_NAMES
from .scan import MOST_DEPTH, MOST_DOTS, MOST_KEYS
from .write import write_recipe

__all__ = [
    "MOST_BYTES",
    "MOST_DEPTH",
    "MOST_DOTS",
    "MOST_FORMULAS",
    "MOST_FORMULA_LETTERS",
    "MOST_KEYS",
    "MOST_LINE_BYTES",
    "MOST_NAMES",
    "read_recipe",
    "write_recipe",
]
