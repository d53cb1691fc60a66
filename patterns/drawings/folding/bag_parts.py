"""Bags that are sewn to stand: what is known of each, of the seam that joins two, of handles and cords."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from patterns.drafting.formulas.values import Measured

from .openings import Opening


@dataclass(frozen=True, slots=True)
class Bag:
    """A cloth sewn into a tube, and closed by a base; mm, between the seam lines.

    strip: the cloth it is sewn from. round: once round it, unrounded where π is in it. allowance: of its
    seams. height: from the top seam line to the base, 0 before it is known. base: how wide and deep its base
    is, once it has one. gaps: left open in its side seams. opening: left open in its base seam. edges: which
    are sewn. stay: how far inside the raw edge its lower edge is stay stitched. is_out: right side out.
    """

    name: str
    strip: str
    round: Measured
    allowance: Fraction
    height: Fraction
    base: tuple[Fraction, Fraction] | None = None
    is_round: bool = False
    gaps: tuple[Opening, ...] = ()
    opening: Opening | None = None
    edges: frozenset[str] = frozenset()
    stay: Fraction = Fraction(0)
    is_out: bool = False


@dataclass(frozen=True, slots=True)
class Rim:
    """The seam round the top of two bags. inner, outer: as they were put together."""

    inner: str
    outer: str
    allowance: Fraction
    opening: Opening | None = None


@dataclass(frozen=True, slots=True)
class Basted:
    """A handle basted to a cloth. places: of the middles of its ends, from the left raw edge.

    long: how much of it will be seen, from end to end. wide: across it.
    """

    handle: str
    cloth: str
    places: tuple[Fraction, Fraction]
    long: Fraction
    wide: Fraction


@dataclass(frozen=True, slots=True)
class Pocket:
    """Two pieces sewn together all round. width, height: between the seams.

    cloth, mouth: what it is sewn to, and how far from the raw edge its mouth lies there.
    """

    name: str
    width: Fraction
    height: Fraction
    opening: Opening
    is_out: bool = False
    cloth: str = ""
    mouth: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Parcel:
    """What is folded up to be packed. across, up: how large it is then."""

    cloth: str
    pocket: str
    across: Fraction
    up: Fraction


@dataclass(frozen=True, slots=True)
class Channel:
    """Two rows round a bag with gaps between them. drop, foot: how far below the top seam each runs."""

    cloth: str
    drop: Fraction
    foot: Fraction
    is_sewn: bool = False


@dataclass(frozen=True, slots=True)
class Caught:
    """A ribbon basted to a side edge of a cloth, at a mark that lies in the allowance; mm.

    is_left: as it is marked, wrong side up. below: how far from the top seam. shown: how long each of its
    tails is if it is folded there, else how much of its loop is seen.
    """

    ribbon: str
    cloth: str
    mark: str
    is_left: bool
    allowance: Fraction
    below: Fraction
    shown: Fraction
    is_folded: bool

    @property
    def shows_left(self) -> bool:
        """Whether it lies at the left with the right side up."""
        return not self.is_left


@dataclass(frozen=True, slots=True)
class Tied:
    """A ribbon tied round. below: the top edge. holds: what lies below it. bow: left of each tail; mm."""

    ribbon: str
    below: Fraction
    holds: Fraction
    bow: Fraction


@dataclass(frozen=True, slots=True)
class Gathered:
    """A bag drawn shut, mm. ends: how far each end of a cord hangs out. holds: how high soft things are."""

    ends: Fraction
    holds: Fraction


@dataclass(frozen=True, slots=True)
class Sewn:
    """What is sewn of bags. nested: the inner and the outer, once one is put into the other.

    shut: the marks of openings that are closed. framed: the gaps that are stitched round. pinned: pairs of
    cloths. ends: how long each end of a cord hangs out. knotted: how far from their tips. gathered: once it
    was drawn shut. caught: ribbons basted to side edges. tied: the one that is tied round.
    """

    bags: Mapping[str, Bag] = field(default_factory=dict)
    nested: tuple[str, str] | None = None
    rim: Rim | None = None
    shut: frozenset[tuple[str, str]] = frozenset()
    handles: tuple[Basted, ...] = ()
    pockets: Mapping[str, Pocket] = field(default_factory=dict)
    parcel: Parcel | None = None
    framed: frozenset[str] = frozenset()
    pinned: frozenset[tuple[str, str]] = frozenset()
    channel: Channel | None = None
    ends: Fraction | None = None
    knotted: Fraction | None = None
    gathered: Gathered | None = None
    caught: tuple[Caught, ...] = ()
    tied: Tied | None = None
