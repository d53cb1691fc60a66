"""Which cloth lies where on the finished item: how the print of its panels runs over front, sides and base.

The middle of the picture lies in the middle of the front, and inside in the middle of the back, as far as the
panel reaches without a seam. A panel that runs round the base comes up behind upside down; two that meet in a
base seam stand upright on both faces. Nothing is matched at a seam that the maker did not match.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from patterns.drafting.recipe import Tint
from patterns.drafting.sized import SizedPattern, SizedPiece

from .fills import fill
from .lines import line
from .page import Placing, exact
from .prints import Drape, Print, Prints, in_print, shaded
from .standing import Face, Part, Shape, painted

ONE_WAY = "one way"


class Body(Protocol):
    """How cloth lies on an item of one shape."""

    def drapes(self, part: Part, is_round_the_base: bool) -> tuple[Drape, ...]:
        """Return the flat parts that a face is made of; none for a face that only lies in the shade."""


@dataclass(frozen=True, slots=True)
class Covering:
    """The cloths of one item. round_the_base: of which tints one panel runs from top edge to top edge."""

    body: Body
    prints: Prints
    round_the_base: frozenset[Tint]

    def painted(self, shape: Shape, placing: Placing) -> list[str]:
        """Return a shape as it looks in these cloths; what they do not cover looks as it always does."""
        if not isinstance(shape, Face) or shape.part is None or (print_ := self._of(shape)) is None:
            return painted(shape, placing)
        outline = placing.spots(shape.outline)
        tint = shape.fabric.tint
        drapes = self.body.drapes(shape.part, tint in self.round_the_base)
        # The usual ground lies beneath, should the picture not come.
        ground = fill(shape.fabric, outline) if drapes else []
        shade = [shaded(shape.outline, placing)] if shape.fabric.is_shaded else []
        edge = [line(shape.edge, *outline, is_closed=True)] if shape.edge else []
        return [*ground, *in_print(print_, drapes, placing), *shade, *edge]

    def _of(self, face: Face) -> Print | None:
        return self.prints.get(face.fabric.tint) if face.fabric.tint else None


def tints_round_the_base(sized: SizedPattern) -> frozenset[Tint]:
    """Return the tints whose main panel is one piece, from top edge to top edge."""
    return frozenset(
        tint
        for tint in ("exterior", "lining")
        if sized.options.get(f"{tint} print") != ONE_WAY and _main_piece_is_one(sized, tint)
    )


def _main_piece_is_one(sized: SizedPattern, tint: Tint) -> bool:
    materials = {material.name for material in sized.materials if material.tint == tint}
    pieces = [piece for piece in sized.pieces if piece.material in materials]
    return bool(pieces) and max(pieces, key=_area_of).cut == 1


def _area_of(piece: SizedPiece) -> Fraction:
    width, height = piece.width.value, piece.height.value
    return Fraction(0) if width is None or height is None else exact(width) * exact(height)
