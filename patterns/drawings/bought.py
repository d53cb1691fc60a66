"""What is bought of a material, as its layouts are drawn: one for each piece of cloth that differs."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.cutting.on_cloth import OnCloth
from patterns.cutting.sheets import Placement
from patterns.drafting.formulas.values import Measured
from patterns.drafting.sized import SizedPattern, SizedPiece

from .laid_cloth import Cut, EdgeKind, LaidCloth, LaidPiece


@dataclass(frozen=True, slots=True)
class BoughtCloth:
    """One layout, and how many pieces of cloth are cut by it."""

    cloth: LaidCloth
    count: int


def bought_cloth(material: str, cloth: OnCloth, sized: SizedPattern) -> tuple[BoughtCloth, ...]:
    """Return the washed cloth as it is laid out, as much of it as is bought.

    Whole pieces that are cut alike are one. material: its name, which the drawings have.
    """
    alike: dict[tuple[object, ...], tuple[int, int]] = {}
    for sheet in sorted({place.sheet for place in cloth.layout}):
        look = tuple(
            (cloth.pieces[place.piece].name, place.x, place.y, place.turned)
            for place in cloth.layout
            if place.sheet == sheet
        )
        first, count = alike.get(look, (sheet, 0))
        alike[look] = first, count + 1
    drawn = _Drawn(material, cloth, sized)
    return tuple(BoughtCloth(drawn.sheet(sheet), count) for sheet, count in alike.values())


@dataclass(frozen=True, slots=True)
class _Drawn:
    material: str
    cloth: OnCloth
    sized: SizedPattern

    def sheet(self, number: int) -> LaidCloth:
        form, washed = self.cloth.form, self.cloth.way.shrinkage.washed_length
        length = washed(self.cloth.buy if form.height is None else form.height)
        kind = self.sized.materials_by_name[self.material].kind
        edge: EdgeKind = "selvedge" if form.is_by_length and kind == "fabric" else "cut edge"
        return LaidCloth(
            self.material,
            self.cloth.width,
            length,
            self._pieces([place for place in self.cloth.layout if place.sheet == number]),
            edge,
            edge,
            [
                Cut(cut.along, *map(Fraction, (cut.at, cut.start, cut.end)))
                for cut in self.cloth.cuts
                if cut.sheet is None or cut.sheet == number
            ],
            self.cloth.folded,
        )

    def _pieces(self, places: Sequence[Placement]) -> list[LaidPiece]:
        known = {piece.name: piece for piece in self.sized.pieces}
        tint = self.sized.materials_by_name[self.material].tint
        found = []
        for place in places:
            asked = self.cloth.pieces[place.piece]
            piece = known.get(asked.name)
            corners = piece.corners if piece is not None and piece.outline else ()
            sides = (place.height, place.width) if place.turned else (place.width, place.height)
            width, height, x, y = (Fraction(value) for value in (*sides, place.x, place.y))
            listed = None if piece is None else _sides(piece)
            found.append(LaidPiece(asked.name, tint, width, height, x, y, place.turned, corners, listed))
        return found


def _sides(piece: SizedPiece) -> tuple[Measured, Measured] | None:
    width, height = piece.width.value, piece.height.value
    return None if width is None or height is None else (width, height)
