"""Lengths that a drawing needs beyond the three measures, by the names that recipes give them."""

from fractions import Fraction

from patterns.drafting.sized import SizedPattern


def given(sized: SizedPattern, name: str) -> Fraction | None:
    """Return the length of that name, mm; None where the recipe has none, or none above nothing."""
    value = sized.values.get(name)
    return value if isinstance(value, Fraction) and sized.powers.get(name) == 1 and value > 0 else None
