"""What a drawing of a layout shows: a piece of cloth, what lies on it, and the cuts in their order."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from patterns.drafting.formulas.values import Measured
from patterns.drafting.lengths import sides_words, written
from patterns.drafting.outlines import Corner, rectangle
from patterns.drafting.recipe import Tint
from patterns.drafting.units import Units

from .outline import Outline, laid_outline
from .page import Placing, exact

EdgeKind = Literal["selvedge", "fold", "cut edge"]


@dataclass(frozen=True, slots=True)
class LaidPiece:
    """One copy of a piece on the cloth.

    width, height: as it is laid, its top edge up, mm: in whole cutting steps. x, y: of its upper left corner
    as it lies, mm from that of the cloth. turned: by a quarter to the right. corners: of its outline upright;
    none for a rectangle.
    listed: its sides as the cutting list has them; None where they are as it is laid.
    """

    name: str
    tint: Tint | None
    width: Measured
    height: Measured
    x: Fraction
    y: Fraction
    turned: bool = False
    corners: tuple[Corner, ...] = ()
    listed: tuple[Measured, Measured] | None = None

    @property
    def sides(self) -> tuple[Fraction, Fraction]:
        """How far it reaches across the cloth and along it."""
        sides = exact(self.width), exact(self.height)
        return sides[::-1] if self.turned else sides

    def size_words(self, units: Units) -> str:
        """Its cut size, in the words of the cutting list: `14 × 17 in`; of a circle, how far it is across."""
        width, height = self.listed or (self.width, self.height)
        if len(self.corners) == 4 and all(corner.arc for corner in self.corners):
            return f"{written(width, 1, units).text} across"
        return sides_words(width, height, units)

    def outline(self, placing: Placing) -> Outline:
        corners = [
            Corner(exact(corner.across), exact(corner.down), corner.arc)
            for corner in self.corners or rectangle(self.width, self.height)
        ]
        high = exact(self.height)
        if self.turned:
            corners = [Corner(high - exact(each.down), each.across, each.arc) for each in corners]
        return laid_outline(
            [Corner(exact(each.across) + self.x, exact(each.down) + self.y, each.arc) for each in corners],
            placing,
        )


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut with the rotary cutter. along: x, across the cloth at that y, or y. start, end: mm."""

    along: Literal["x", "y"]
    at: Fraction
    start: Fraction
    end: Fraction


@dataclass(frozen=True, slots=True)
class LaidCloth:
    """A piece of cloth: mm across, and along it, which is the way of the selvedge.

    left, right: what its long edges are. cuts: in the order in which they are made; none where they are not
    planned. folded: how far along it lies double while it is cut, its fold in the middle; None where it does
    not.
    """

    name: str
    width: Fraction
    length: Fraction
    pieces: Sequence[LaidPiece]
    left: EdgeKind = "cut edge"
    right: EdgeKind = "cut edge"
    cuts: Sequence[Cut] = ()
    folded: Fraction | None = None

    @property
    def edges(self) -> tuple[tuple[str, EdgeKind], ...]:
        """The edges that have a name: the side, and what it is there."""
        sides: tuple[tuple[str, EdgeKind], ...] = (("left", self.left), ("right", self.right))
        return tuple((side, kind) for side, kind in sides if kind != "cut edge")

    @property
    def has_grain(self) -> bool:
        """Whether it has threads that run one way: clear vinyl has none."""
        return any(piece.tint != "clear" for piece in self.pieces)
