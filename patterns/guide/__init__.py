"""How a recipe is written, for the designer: each part of the text, the formulas, and a whole example."""

from functools import cache
from pathlib import Path

_EXAMPLE = Path(__file__).parent / "felt_tray.toml"


@cache
def example_text() -> str:
    """Return the whole example, a recipe that can be published as it is."""
    return _EXAMPLE.read_text(encoding="utf-8")


def example_of(header: str) -> str:
    """Return one table of the example, from its header to the next table; "" is what stands above the first.

    Raises ValueError: the example has no such table.

    >>> example_of("[[tells]]")
    '[[tells]]\\nsays = "Holds {width × height × depth} to the brim."'
    """
    tables = [table.strip() for table in example_text().split("\n\n")]
    if not header:
        return tables[0]
    found = next((table for table in tables if table.startswith(f"{header}\n")), None)
    if found is None:
        raise ValueError(f"The example has no table {header}.")
    return found
