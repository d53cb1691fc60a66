"""What a sized pattern needs: its materials, what to buy of each, and how much is certainly enough."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from patterns.cutting.enough import Strip, enough
from patterns.drafting.sized import SizedMaterial, SizedPattern, SizedPiece

from .words import Words

MATERIAL_GROUPS = (
    ("Cloth", ("fabric", "vinyl")),
    ("Interfacing", ("interfacing",)),
    ("Zip and notions", ("zip", "notion")),
    ("Tools", ("tool",)),
)


@dataclass(frozen=True, slots=True)
class Need:
    """A material: what it is, what to buy of it, what is cut from it and how much is certainly enough."""

    name: str
    says: str
    amount: str
    pieces: str
    enough: str


@dataclass(frozen=True, slots=True)
class NeedGroup:
    title: str
    needs: tuple[Need, ...]


def needs(sized: SizedPattern, words: Words) -> tuple[NeedGroup, ...]:
    """Return the materials of a size that is not refused, group by group."""
    groups = []
    for title, kinds in MATERIAL_GROUPS:
        found = tuple(_need(material, sized, words) for material in sized.materials if material.kind in kinds)
        if found:
            groups.append(NeedGroup(title, found))
    return tuple(groups)


def _need(material: SizedMaterial, sized: SizedPattern, words: Words) -> Need:
    pieces = [piece for piece in sized.pieces if piece.material == material.name]
    return Need(
        name=material.name,
        says=words.text(material.says),
        amount=words.number(material.amount) if material.amount else "",
        pieces=", ".join(_copies(piece) for piece in pieces),
        enough=enough_words(pieces, words),
    )


def _copies(piece: SizedPiece) -> str:
    return piece.name if piece.cut == 1 else f"{piece.name} × {piece.cut}"


def enough_of(pieces: Iterable[SizedPiece], words: Words) -> Strip | None:
    """Return a strip that is certainly enough for pieces of one material; None for no pieces."""
    cuts = [(piece.cut, words.value(piece.width), words.value(piece.height)) for piece in pieces]
    return enough(cuts, words.sized.units.cutting_step)


def enough_words(pieces: Sequence[SizedPiece], words: Words) -> str:
    """Return how much of one material is certainly enough for its pieces, in words; empty for none."""
    strip = enough_of(pieces, words)
    if strip is None:
        return ""
    size = f"One piece {words.length(strip.width)} wide and {words.length(strip.length)} long is enough"
    if strip.pieces == 1:
        return f"{size}."
    tops = "" if all(piece.turns for piece in pieces) else ", all tops the same way"
    return f"{size}: lay the pieces one below the other{tops}."
