"""The tree of a formula: a few immutable kinds of node, known to every reader in this folder.

The tree knows no recipe: a name is only its words. `at` is the column (from 1) where the node
began in the text that was read; it takes no part in equality.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal


@dataclass(frozen=True, slots=True)
class _Placed:
    at: int = field(default=0, compare=False, repr=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Number(_Placed):
    """A number as written, with its unit (`in`, `cm`, `mm`, `m` or `yd`) or none."""

    value: Fraction
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class Pi(_Placed):
    """π."""


@dataclass(frozen=True, slots=True)
class Name(_Placed):
    """A name: lower case, one space between its words."""

    text: str


@dataclass(frozen=True, slots=True)
class Negative(_Placed):
    """− of"""

    of: "Node"


@dataclass(frozen=True, slots=True)
class Sum(_Placed):
    """left + right"""

    left: "Node"
    right: "Node"


@dataclass(frozen=True, slots=True)
class Difference(_Placed):
    """left − right"""

    left: "Node"
    right: "Node"


@dataclass(frozen=True, slots=True)
class Product(_Placed):
    """left × right"""

    left: "Node"
    right: "Node"


@dataclass(frozen=True, slots=True)
class Quotient(_Placed):
    """left ÷ right"""

    left: "Node"
    right: "Node"


@dataclass(frozen=True, slots=True)
class Power(_Placed):
    """base² or base³"""

    base: "Node"
    exponent: Literal[2, 3]


@dataclass(frozen=True, slots=True)
class Root(_Placed):
    """√( of )"""

    of: "Node"


@dataclass(frozen=True, slots=True)
class Choice(_Placed):
    """smaller of (…) or larger of (…), two or more."""

    which: Literal["smaller", "larger"]
    among: tuple["Node", ...]


@dataclass(frozen=True, slots=True)
class Rounding(_Placed):
    """round up (of, to step) or round down (of, to step)"""

    way: Literal["up", "down"]
    of: "Node"
    step: "Node"


@dataclass(frozen=True, slots=True)
class Comparison(_Placed):
    """left sign right"""

    sign: Literal["<", "≤", ">", "≥", "=", "≠"]
    left: "Node"
    right: "Node"


@dataclass(frozen=True, slots=True)
class Both(_Placed):
    """left and right"""

    left: "Node"
    right: "Node"


@dataclass(frozen=True, slots=True)
class Either(_Placed):
    """left or right"""

    left: "Node"
    right: "Node"


Node = (
    Number
    | Pi
    | Name
    | Negative
    | Sum
    | Difference
    | Product
    | Quotient
    | Power
    | Root
    | Choice
    | Rounding
    | Comparison
    | Both
    | Either
)
