"""How the finished thing is washed, dried, ironed and kept: from what it is made of at this size."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from patterns.drafting.recipe import Form, MaterialKind
from patterns.drafting.sized import SizedPattern

from .words import listed

# What a thing of each form is like when it dries and when it is put away. Those that fold have creases.
_FOLDS: Final = frozenset[Form]({"open basket", "zip-top pouch", "packable tote", "tied bag", "window pouch"})
# What ends up in the finished thing; tools, thread and glue do not ask for care of their own.
_KEPT: Final[tuple[MaterialKind, ...]] = ("fabric", "interfacing", "vinyl", "zip")
# Notions are told apart by a word of their name: these are often synthetic, and melt.
_MELTS: Final = ("ribbon", "cord", "webbing")


@dataclass(frozen=True, slots=True)
class CareRow:
    """One thing that is done: `Washing`, and how."""

    name: str
    says: str


@dataclass(frozen=True, slots=True)
class _Made:
    """What the finished thing is made of. notions: of the names that melt, those it has."""

    has_vinyl: bool
    has_zip: bool
    is_fused: bool
    is_stiff: bool
    folds: bool
    is_packed: bool
    has_board: bool
    notions: tuple[str, ...]


def care(sized: SizedPattern) -> tuple[CareRow, ...]:
    """Return how to care for it: what asks for most care decides, vinyl before interfacing before cloth."""
    made = _made_of(sized)
    rows = (
        ("Before washing", _before(made)),
        ("Washing", _washing(made)),
        ("Drying", _drying(made)),
        ("Ironing", _ironing(made)),
        ("Keeping", _keeping(made)),
    )
    return tuple(CareRow(name, " ".join(said)) for name, found in rows if (said := [*found]))


def made_of(sized: SizedPattern) -> str:
    """Return the materials whose labels count: `exterior fabric, lining fabric and zip`."""
    names = [each.name for each in sized.materials if each.kind in _KEPT or _melting(each.name)]
    return listed(names)


def _melting(name: str) -> str:
    last = name.split()[-1]
    return last if last in _MELTS else ""


def _made_of(sized: SizedPattern) -> _Made:
    kinds = {each.kind for each in sized.materials}
    words = {word for each in sized.materials if each.kind == "notion" if (word := _melting(each.name))}
    return _Made(
        has_vinyl="vinyl" in kinds,
        has_zip="zip" in kinds,
        is_fused="interfacing" in kinds,
        is_stiff=any(each.kind == "interfacing" and "heavy" in each.name for each in sized.materials),
        folds=sized.form in _FOLDS,
        is_packed=sized.form == "packable tote",
        has_board=any("board" in each.name.split() and each.kind == "notion" for each in sized.materials),
        notions=tuple(word for word in _MELTS if word in words),
    )


def _before(made: _Made) -> Iterator[str]:
    yield "Empty it, and brush out seams and corners."
    if made.is_packed:
        yield "Take it out of its pocket and unfold it."
    if made.has_zip:
        yield "Close the zip."
    if "cord" in made.notions:
        yield "Draw it open, and tie the two cords together, so that none slips out."
    if "ribbon" in made.notions:
        yield "Untie the ribbon."
    if made.has_board:
        yield "Take out the base board."


def _washing(made: _Made) -> Iterator[str]:
    if made.has_vinyl:
        yield (
            "Wash it by hand, in lukewarm water with a little mild soap, and do not wring it: vinyl creases "
            "and clouds. Wipe the window with a soft, damp cloth. No washing machine, no bleach, no spirit, "
            "no dry cleaning, and nothing that scratches."
        )
        return
    yield (
        "Wash it as the most delicate of its materials allows; where you do not know, by hand or in a gentle "
        "cycle, at 30 °C at most. Wash it by itself the first time: strong colours may run."
    )
    if made.is_stiff:
        yield (
            "Heavy interfacing keeps every crease: do not spin or wring it, but press the water out "
            "between towels."
        )
    elif made.is_fused:
        yield "Do not wring it: what is fused would come off in bubbles."


def _drying(made: _Made) -> Iterator[str]:
    if made.has_vinyl:
        yield (
            "Pat it dry, and let it dry open and flat, away from heaters and the sun. Never in a tumble "
            "dryer: the window shrinks and sticks together."
        )
        return
    how = "flat" if made.folds else "standing"
    yield f"Pull it into shape while damp and let it dry {how}, away from direct heat."
    if made.is_fused:
        yield "Not in a tumble dryer: its heat loosens what is fused."
    else:
        yield "In a tumble dryer only if every label allows it: it shrinks what was not shrunk before."


def _ironing(made: _Made) -> Iterator[str]:
    if made.has_vinyl:
        yield (
            "Never iron it again, not even through a cloth: the window melts, sticks to the iron and gives "
            "off fumes. Smooth the cloth and crease the base with your fingers."
        )
        return
    if made.is_fused:
        yield (
            "Through a thin cloth, at the heat that the maker of the interfacing names, or less if a fabric "
            "asks for less. Set the iron down and lift it, do not push it: too hot, the glue comes through "
            "or lets go."
        )
    else:
        yield "While still a little damp, at the heat that its most delicate fabric bears."
    if made.is_stiff:
        yield "Fleece is crushed by weight: hold the iron lightly there."
    if made.has_zip:
        yield "Keep the iron off the zip: a coil melts."
    if made.notions:
        yield f"Keep it off {listed(made.notions)}: what is synthetic melts."
    if made.folds:
        yield "Press the folds in again, one by one."


def _keeping(made: _Made) -> Iterator[str]:
    if made.has_vinyl:
        yield (
            "Dry, flat or rolled with the window outside, never folded across it; away from the sun, from "
            "heaters and from dark print, which rubs off on vinyl. In the cold vinyl is brittle: let it warm "
            "up before you bend it."
        )
    elif made.folds:
        yield "Dry, folded flat along its own creases."
    else:
        yield "Dry, standing, and filled with paper if it is to keep its shape."
