"""How numbers stand in the JSON of the commands: exact text in the units, what is rounded named."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from patterns.drafting.formulas.values import Measured, Value
from patterns.drafting.lengths import exact
from patterns.drafting.units import Units

Json = dict[str, Any]


def printed(value: Value, power: int, units: Units) -> str | bool | None:
    """Return a value as commands print it: lowest terms, six decimals, yes/no or null."""
    return value if value is None or isinstance(value, bool) else exact(value, power, units)


def printed_values(values: Mapping[str, tuple[Measured | None, int]], units: Units) -> Json:
    """Return an object of numbers, name → text, with `rounded` naming those that have no exact text.

    values: name → value and power.
    """
    found: Json = {name: printed(value, power, units) for name, (value, power) in values.items()}
    rounded = [name for name, (value, _) in values.items() if isinstance(value, Decimal)]
    return {**found, "rounded": rounded} if rounded else found
