"""A formula: its tree, ready to compute.

The other rooms hold formulas and ask them; they do not walk trees.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from .evaluate import compiled
from .grammar import read
from .spell import spell
from .tree import Node
from .values import Value


@dataclass(frozen=True, slots=True)
class Formula:
    """One formula. Equal to another when their trees are equal.

    tree: the tree that was read.
    value: called with the values of the names, it gives the formula's value.

    >>> from fractions import Fraction
    >>> formula = Formula.read("width + 2 × seam allowance")
    >>> formula.value({"width": Fraction(9), "seam allowance": Fraction(1, 2)})
    Fraction(10, 1)
    """

    tree: Node
    value: Callable[[Mapping[str, Value]], Value] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "value", compiled(self.tree))

    @staticmethod
    def read(text: str) -> "Formula":
        """Return the formula that the text writes. Raises FormulaError with every mistake found."""
        return _read(text)

    def __str__(self) -> str:
        return spell(self.tree)


@lru_cache(maxsize=4096)
def _read(text: str) -> Formula:
    """Kept patterns of one recipe hold the same few hundred formulas: each is read once."""
    return Formula(read(text))
