"""A sized pattern: one recipe at one size with its options, every number exact and with where it came from.

Immutable; an order line keeps it for good as JSON (`sized_json`). Lengths are mm.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal

from .formulas.formula import Formula
from .formulas.values import Measured, Value
from .formulas.working import working
from .outlines import Corner, Shape, Turn, rectangle
from .recipe import Form, Level, MarkKind, MaterialKind, Role, Tint
from .units import Units
from .work import Named


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number and the formula it came from.

    power: 0 a bare number, 1 a length in mm, 2 an area in mm², 3 a volume in mm³.
    value: None where there is none (the size is refused then).
    """

    value: Measured | None
    power: int
    formula: Formula


SizedText = tuple[str | Quantity, ...]


@dataclass(frozen=True, slots=True)
class SizedMeasure:
    name: str
    value: Fraction
    power: Literal[0, 1]
    role: Role


@dataclass(frozen=True, slots=True)
class SizedAmount:
    name: str
    quantity: Quantity


@dataclass(frozen=True, slots=True)
class SizedMark:
    """A line or point on a piece, measured from its left and top raw edges, as in `recipe.Mark`."""

    name: str
    kind: MarkKind
    down_from_top: Quantity | None
    in_from_left: Quantity | None
    start: Quantity | None
    end: Quantity | None
    says: str
    inside: Quantity | None = None


@dataclass(frozen=True, slots=True)
class SizedCorner:
    """Where an edge of an outline goes, as in `recipe.Corner`."""

    across: Quantity
    down: Quantity
    arc: Turn | None


@dataclass(frozen=True, slots=True)
class SizedPiece:
    """A piece to cut: `cut` times. turns: a layout may turn it by a quarter.

    width and height: of the smallest upright rectangle round it. outline: its corners; none for a rectangle.
    """

    name: str
    material: str
    cut: int
    width: Quantity
    height: Quantity
    turns: bool
    marks: tuple[SizedMark, ...]
    says: str
    shape: Shape = "rectangle"
    outline: tuple[SizedCorner, ...] = ()

    @property
    def corners(self) -> tuple[Corner, ...]:
        """Every corner of the piece, those of a rectangle too; none where a length has no value."""
        if not self.outline:
            width, height = self.width.value, self.height.value
            return () if width is None or height is None else rectangle(width, height)
        return valued(self.outline)


def valued(outline: tuple[SizedCorner, ...]) -> tuple[Corner, ...]:
    """Return the places of an outline's corners; none where one of them has no value."""
    found = []
    for corner in outline:
        across, down = corner.across.value, corner.down.value
        if across is None or down is None:
            return ()
        found.append(Corner(across, down, corner.arc))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class SizedCheck:
    """A check and whether it holds; None where a value it reads does not exist.

    measure: for a range, the measure whose range it is; else None.
    """

    level: Level
    says: str
    otherwise: SizedText
    holds: bool | None
    measure: str | None = None


@dataclass(frozen=True, slots=True)
class SizedMaterial:
    name: str
    kind: MaterialKind
    tint: Tint | None
    says: SizedText
    amount: Quantity | None


@dataclass(frozen=True, slots=True)
class SizedAct(Named):
    """One thing that a step does to the cloth, as in `work.Act`."""

    amounts: tuple[tuple[str, Quantity], ...] = ()

    def amount(self, key: str) -> Quantity:
        """Raises KeyError for an amount that it does not have."""
        return dict(self.amounts)[key]


@dataclass(frozen=True, slots=True)
class SizedStep:
    """One thing to do, as in `recipe.Step`."""

    title: str
    does: SizedText
    shows: tuple[str, ...]
    cautions: tuple[str, ...]
    work: tuple[SizedAct, ...] = ()


@dataclass(frozen=True, slots=True)
class SizedCaution:
    name: str
    says: str


@dataclass(frozen=True)
class SizedPattern:
    """One recipe at one size.

    recipe: its slug. revised: ISO date of the recipe text. values: what every name stood for.
    finished: width, height and depth of the finished item.
    """

    recipe: str
    title: str
    language: str
    summary: str
    skill: str
    time: str
    revised: str
    units: Units
    form: Form
    finished: tuple[Quantity, Quantity, Quantity]
    values: Mapping[str, Value]
    powers: Mapping[str, int]
    measures: tuple[SizedMeasure, ...]
    options: Mapping[str, str]
    amounts: tuple[SizedAmount, ...]
    pieces: tuple[SizedPiece, ...]
    checks: tuple[SizedCheck, ...]
    materials: tuple[SizedMaterial, ...]
    tells: tuple[SizedText, ...]
    steps: tuple[SizedStep, ...]
    cautions: tuple[SizedCaution, ...]

    @property
    def is_refused(self) -> bool:
        """Whether a check of level `refuse` does not hold."""
        return any(check.level == "refuse" and check.holds is not True for check in self.checks)

    @property
    def failed(self) -> tuple[SizedCheck, ...]:
        """The checks that do not hold, refusals first."""
        wrong = [check for check in self.checks if check.holds is not True]
        return tuple(sorted(wrong, key=lambda check: check.level != "refuse"))

    @cached_property
    def materials_by_name(self) -> Mapping[str, SizedMaterial]:
        return {material.name: material for material in self.materials}

    def working(self, quantity: Quantity) -> str:
        """The numbers put in, in the pattern's units: `8 1/2 + 4 3/4 + 2 × 1/2 = 14 1/4`."""
        return working(quantity.formula.tree, self.values, self.powers, self.units, quantity.power)
