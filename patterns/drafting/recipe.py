"""A recipe: everything the designer wrote, read and checked once. Immutable.

The text it is read from, and written back to, is the subject of `recipe_text`.
"""

from collections.abc import Container, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import cached_property
from typing import Final, Literal, NamedTuple, Protocol, TypeVar

from .formulas.formula import Formula
from .ordering import in_order
from .outlines import Turn
from .units import Units
from .work import Act

# What a finished item can look like; the drawings room has one drawing for each.
Form = Literal[
    "open basket",
    "zip-top pouch",
    "packable tote",
    "tied bag",
    "boxed tote",
    "round bucket",
    "window pouch",
    "drawstring bag",
]
# Those that are as deep as they are wide, because they are round: their width is a diameter.
ROUND: Final = frozenset[Form]({"round bucket"})
MaterialKind = Literal["fabric", "interfacing", "vinyl", "zip", "notion", "tool"]
# How a material is told apart in a drawing: plain tint, hatch, dots, clear.
Tint = Literal["exterior", "lining", "interfacing", "clear"]
MarkKind = Literal["fold", "stitch", "opening", "clip", "place"]
Level = Literal["refuse", "advise"]
Role = Literal["size", "making"]


@dataclass(frozen=True, slots=True)
class Blank:
    """A formula among words: what stands in braces in the recipe text. power: 0 to 3."""

    formula: Formula
    power: int


Text = tuple[str | Blank, ...]


@dataclass(frozen=True, slots=True)
class When:
    """The choices under which something exists: every option named must have one of its choices.

    Empty means always.
    """

    options: tuple[tuple[str, tuple[str, ...]], ...] = ()

    def holds(self, chosen: Mapping[str, str]) -> bool:
        return not self.options or all(chosen[option] in choices for option, choices in self.options)

    @property
    def names(self) -> frozenset[str]:
        """The options that it depends on."""
        return frozenset(option for option, _ in self.options)


ALWAYS = When()


@dataclass(frozen=True, slots=True)
class Scale:
    """A measure's range in one unit system: mm for a length, else a bare number. All exact."""

    least: Fraction
    most: Fraction
    default: Fraction
    step: Fraction


@dataclass(frozen=True, slots=True)
class Measure:
    """A number that the customer chooses.

    power: 1 for a length, 0 for a bare number (whose two scales are equal).
    role: `size` measures may be moved to find a size that works; `making` ones are the sewer's own.
    """

    name: str
    power: Literal[0, 1]
    role: Role
    says: str
    scales: Mapping[Units, Scale]


@dataclass(frozen=True, slots=True)
class Constant:
    """A fixed number, perhaps another one in each unit system: mm for a length (power 1)."""

    name: str
    power: Literal[0, 1]
    values: Mapping[Units, Fraction]


@dataclass(frozen=True, slots=True)
class OptionChoice:
    """One choice of an option, and the values that it sets (a name of a measure, or a name of its own)."""

    name: str
    says: str = ""
    sets: tuple[Constant, ...] = ()


@dataclass(frozen=True, slots=True)
class Option:
    name: str
    says: str
    choices: tuple[OptionChoice, ...]
    default: str

    def choice(self, name: str) -> OptionChoice:
        """Raises KeyError for a name that is no choice of it."""
        return _named(self.choices, name)


@dataclass(frozen=True, slots=True)
class Amount:
    """A named formula. power: as in formulas.dimensions, 0 to 3."""

    name: str
    power: int
    formula: Formula


@dataclass(frozen=True, slots=True)
class Mark:
    """A line or point on a piece, measured from its left and top raw edges.

    A line that runs across the piece has `down_from_top` only, one that runs down it has `in_from_left`
    only; `start` and `end` limit it (else edge to edge). Both set: a point. `inside` alone: a line all round
    the piece, so far inside its raw edges.
    """

    name: str
    kind: MarkKind
    down_from_top: Formula | None = None
    in_from_left: Formula | None = None
    start: Formula | None = None
    end: Formula | None = None
    says: str = ""
    when: When = ALWAYS
    inside: Formula | None = None


@dataclass(frozen=True, slots=True)
class Corner:
    """Where an edge of an outline goes: measured from the left and from the top of the piece.

    arc: None for a straight edge; else it is a quarter circle, and bends to that side of whoever walks.
    name: formulas read the corner as `<piece> <name> across` and `<piece> <name> down`; "" if none does.
    """

    across: Formula
    down: Formula
    arc: Turn | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece to cut. `upright`: when it holds, a layout may not turn the piece.

    outline: its corners, one after the other all round; none for a rectangle. width and height are those of
    the smallest upright rectangle round it.
    """

    name: str
    material: str
    cut: Formula
    width: Formula
    height: Formula
    marks: tuple[Mark, ...] = ()
    says: str = ""
    upright: When | None = None
    when: When = ALWAYS
    outline: tuple[Corner, ...] = ()


def corner_names(piece: str, corner: str) -> tuple[str, str]:
    """Return what formulas call a named corner of an outline: how far across it lies, and how far down."""
    return f"{piece} {corner} across", f"{piece} {corner} down"


def edge_names(piece: str, measures: Container[str]) -> tuple[str, str]:
    """Return what formulas call the width and the height of a piece as it is cut.

    measures: the names of the recipe's measures. A tote's handle is a piece, and how wide it is when it
    is made is a measure: where the two would share a name, the piece's edges say that they are cut.

    >>> edge_names("pocket", ["handle width"])
    ('pocket width', 'pocket height')
    >>> edge_names("handle", ["handle width"])
    ('cut handle width', 'cut handle height')
    """
    width, height = f"{piece} width", f"{piece} height"
    if width in measures or height in measures:
        return f"cut {width}", f"cut {height}"
    return width, height


@dataclass(frozen=True, slots=True)
class Truing:
    """Two ways of measuring the same thing, which must agree for every size."""

    says: str
    one: Formula
    other: Formula
    when: When = ALWAYS


@dataclass(frozen=True, slots=True)
class Check:
    """What a size must (refuse) or should (advise) fulfil.

    says: the rule, as a statement that is true when it holds.
    otherwise: what the customer reads when it does not hold: what is wrong and why, without the mend.
    """

    level: Level
    says: str
    holds: Formula
    otherwise: Text
    when: When = ALWAYS


@dataclass(frozen=True, slots=True)
class Material:
    """Something to buy or to have at hand. amount: a length to buy, where the recipe knows one."""

    name: str
    kind: MaterialKind
    says: Text = ()
    amount: Formula | None = None
    tint: Tint | None = None
    when: When = ALWAYS


@dataclass(frozen=True, slots=True)
class Tell:
    """A fact about the finished item: what it holds, how flat it folds."""

    says: Text
    when: When = ALWAYS


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do. shows: the pieces whose flat drawing belongs to it. cautions: by name.

    work: what it does to the cloth, for the folding model; none where the designer does not say.
    """

    title: str
    does: Text
    shows: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    when: When = ALWAYS
    work: tuple[Act, ...] = ()


@dataclass(frozen=True, slots=True)
class Caution:
    name: str
    says: str
    when: When = ALWAYS


@dataclass(frozen=True, slots=True)
class NamedSize:
    """One row of the size chart. values: mm, or bare numbers, for some or all of the measures."""

    name: str
    values: Mapping[Units, Mapping[str, Fraction]]


class BoxRoom(NamedTuple):
    """What can be filled, where it is a box."""

    width: Formula
    height: Formula
    depth: Formula


class RoundRoom(NamedTuple):
    """What can be filled, where its floor is a circle."""

    diameter: Formula
    height: Formula


@dataclass(frozen=True)
class Recipe:
    """One pattern as its designer wrote it.

    form and finished: what the finished item looks like, and the formulas of its width, height and depth.
    holds: the room that can be filled; None where the designer does not say, and then nobody can ask what
    goes in.
    """

    title: str
    language: str
    summary: str
    skill: str
    time: str
    revised: date
    form: Form
    finished: tuple[Formula, Formula, Formula]
    measures: tuple[Measure, ...]
    constants: tuple[Constant, ...] = ()
    options: tuple[Option, ...] = ()
    amounts: tuple[Amount, ...] = ()
    pieces: tuple[Piece, ...] = ()
    truings: tuple[Truing, ...] = ()
    checks: tuple[Check, ...] = ()
    materials: tuple[Material, ...] = ()
    tells: tuple[Tell, ...] = ()
    steps: tuple[Step, ...] = ()
    cautions: tuple[Caution, ...] = ()
    sizes: tuple[NamedSize, ...] = ()
    note: str = ""
    holds: BoxRoom | RoundRoom | None = None

    def measure(self, name: str) -> Measure:
        """Raises KeyError for a name that is no measure of the recipe."""
        return _named(self.measures, name)

    def option(self, name: str) -> Option:
        """Raises KeyError for a name that is no option of the recipe."""
        return _named(self.options, name)

    @cached_property
    def edges(self) -> Mapping[str, tuple[str, str]]:
        """What formulas call the width and the height of each piece, by the piece's name."""
        measures = {measure.name for measure in self.measures}
        return {piece.name: edge_names(piece.name, measures) for piece in self.pieces}

    @cached_property
    def lengths_of_pieces(self) -> Mapping[str, Mapping[str, Formula]]:
        """What formulas may read of each piece, by the piece's name: its edges and its named corners."""
        found: dict[str, dict[str, Formula]] = {}
        for piece in self.pieces:
            lengths = dict(zip(self.edges[piece.name], (piece.width, piece.height), strict=True))
            for corner in piece.outline:
                if corner.name:
                    names = corner_names(piece.name, corner.name)
                    lengths |= zip(names, (corner.across, corner.down), strict=True)
            found[piece.name] = lengths
        return found

    @cached_property
    def definitions(self) -> Mapping[str, Formula]:
        """The formula behind each name that is worked out and not chosen: amounts, and lengths of pieces."""
        found = {amount.name: amount.formula for amount in self.amounts}
        for lengths in self.lengths_of_pieces.values():
            found |= lengths
        return found

    @cached_property
    def worked_out(self) -> tuple[tuple[str, Formula], ...]:
        """The definitions, each after those it reads. Raises CircleError."""
        return in_order(self.definitions)

    @cached_property
    def powers(self) -> Mapping[str, int]:
        """The power (0 a bare number, 1 a length …) of every name that a formula may read."""
        sets = [value for option in self.options for choice in option.choices for value in choice.sets]
        powers: dict[str, int] = {value.name: value.power for value in (*sets, *self.constants)}
        powers |= {measure.name: measure.power for measure in self.measures}
        powers |= {amount.name: amount.power for amount in self.amounts}
        return powers | {name: 1 for lengths in self.lengths_of_pieces.values() for name in lengths}


class _HasName(Protocol):
    @property
    def name(self) -> str: ...


Item = TypeVar("Item", bound=_HasName)


def _named(items: tuple[Item, ...], name: str) -> Item:
    for item in items:
        if item.name == name:
            return item
    raise KeyError(name)
