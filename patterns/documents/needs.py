"""What a sized pattern needs: its materials, how much to buy of each and why, and what is cut from it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from patterns.cutting.enough import Strip, enough
from patterns.cutting.listing import Line, ShoppingList
from patterns.drafting.sized import SizedMaterial, SizedPattern, SizedPiece

from .words import Words

CLOTH = "Cloth"
COUNTED = "Nothing is added for crooked ends, and for shrinking only where it says so: buy more if in doubt."
MATERIAL_GROUPS = (
    (CLOTH, ("fabric", "vinyl")),
    ("Interfacing", ("interfacing",)),
    ("Notions", ("zip", "notion")),
    ("Tools", ("tool",)),
)


@dataclass(frozen=True, slots=True)
class Need:
    """A material: what it is, how much to buy of it and why so much, what is cut from it."""

    name: str
    says: str
    amount: str
    pieces: str
    reason: str


@dataclass(frozen=True, slots=True)
class NeedGroup:
    """says: what is so of all amounts in it."""

    title: str
    needs: tuple[Need, ...]
    says: str = ""


def needs(sized: SizedPattern, words: Words, shopping: ShoppingList | None = None) -> tuple[NeedGroup, ...]:
    """Return the materials of a size that is not refused, group by group.

    What is not on the shopping list has the amount that the recipe tells, and cloth a piece that is
    certainly enough.
    """
    bought = {} if shopping is None else {line.material: line for line in shopping.lines}
    groups = []
    for title, kinds in MATERIAL_GROUPS:
        there = [material for material in sized.materials if material.kind in kinds]
        if there:
            has_zip = any(material.kind == "zip" for material in there)
            found = tuple(_need(material, sized, words, bought.get(material.name)) for material in there)
            says = COUNTED if title == CLOTH and bought else ""
            groups.append(NeedGroup("Zip and notions" if has_zip else title, found, says))
    return tuple(groups)


def _need(material: SizedMaterial, sized: SizedPattern, words: Words, line: Line | None) -> Need:
    pieces = [piece for piece in sized.pieces if piece.material == material.name]
    told = words.number(material.amount) if material.amount else ""
    return Need(
        name=material.name,
        says=words.text(material.says),
        amount=told if line is None else line.amount,
        pieces=", ".join(_copies(piece) for piece in pieces),
        reason=enough_words(pieces, words) if line is None else _reason(line),
    )


def _reason(line: Line) -> str:
    return f"{line.reason} At the price given: {line.cost}.".strip() if line.cost else line.reason


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
