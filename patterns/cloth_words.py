"""Cloth in words, and why a size cannot be cut from it."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from patterns.cutting.known_cloth import known_cloth
from patterns.cutting.sharing import Cloth
from patterns.drafting.formulas.values import Measured
from patterns.drafting.lengths import sides_words, written
from patterns.drafting.lists import listed
from patterns.drafting.sized import SizedPattern, SizedPiece
from patterns.drafting.units import Units
from patterns.templatetags.measures import plain_words


def counted_cloth(cloth: Sequence[Cloth], units: Units) -> str:
    """Return the cloth in words: `2 fat quarters`, `a piece of 60 × 90 cm for the lining fabric`."""
    return listed([_kind(each, len(list(same)), units) for each, same in groupby(cloth)], "and")


def _kind(cloth: Cloth, count: int, units: Units) -> str:
    known = known_cloth(cloth.width, cloth.height)
    if known is not None:
        first, joint, rest = known.name.partition(" of ")
        words = f"a {known.name}" if count == 1 else f"{count} {first}s{joint}{rest}"
    else:
        size = sides_words(cloth.width, cloth.height, units)
        words = f"a piece of {size}" if count == 1 else f"{count} pieces of {size}"
    return f"{words} for the {cloth.material}" if cloth.material else words


def fewer_than_fabrics(sized: SizedPattern, cloth: Sequence[Cloth]) -> list[str]:
    """Return a sentence where some fabric gets no cloth at all, whatever the size."""
    fabrics = list(dict.fromkeys(piece.material for piece in _cut(sized)))
    without = [name for name in fabrics if not any(each.material in (None, name) for each in cloth)]
    if without:
        return [f"There is no cloth for the {listed(without, 'and the')}."]
    if len(cloth) < len(fabrics):
        pieces = "one piece" if len(cloth) == 1 else f"{len(cloth)} pieces"
        return [
            f"It is cut from {len(fabrics)} fabrics, the {listed(fabrics, 'and the')}, and each piece of "
            f"cloth serves one of them: {pieces} cannot be enough."
        ]
    return []


def why_not(sized: SizedPattern, cloth: Sequence[Cloth], units: Units) -> str:
    """Return why a size cannot be cut from the cloth, which is known: the simplest reason that is true."""
    refusals = [check for check in sized.failed if check.level == "refuse"]
    if refusals:
        return f"it cannot be sewn. {plain_words(refusals[0].otherwise, units)}"
    if few := fewer_than_fabrics(sized, cloth):
        return few[0]
    pieces = _cut(sized)
    for piece in pieces:
        if not any(_lies(piece, each) for each in cloth if each.material in (None, piece.material)):
            return _too_large(piece, units)
    area = sum(
        (piece.cut * _exact(piece.width.value) * _exact(piece.height.value) for piece in pieces), Fraction(0)
    )
    room = sum((each.width * each.height for each in cloth), Fraction(0))
    if area > room and not any(piece.outline for piece in pieces):
        return (
            f"its pieces take {written(area, 2, units).text} together, and the cloth has "
            f"{written(room, 2, units).text}."
        )
    count = sum(piece.cut for piece in pieces)
    if count == 1:
        return "its one piece does not go on the cloth."
    return f"its {count} pieces do not all go on the cloth: every way to lay them is ruled out."


def _too_large(piece: SizedPiece, units: Units) -> str:
    sides = sides_words(_exact(piece.width.value), _exact(piece.height.value), units)
    way = "" if piece.turns else " which may not be turned,"
    return f"its {piece.name}, {sides},{way} does not go on any of the cloth."


def _cut(sized: SizedPattern) -> list[SizedPiece]:
    """The pieces of fabric."""
    return [each for each in sized.pieces if sized.materials_by_name[each.material].kind == "fabric"]


def _lies(piece: SizedPiece, cloth: Cloth) -> bool:
    width, height = _exact(piece.width.value), _exact(piece.height.value)
    if width <= cloth.width and height <= cloth.height:
        return True
    return piece.turns and height <= cloth.width and width <= cloth.height


def _exact(value: Measured | None) -> Fraction:
    return Fraction(0) if value is None else Fraction(value)
