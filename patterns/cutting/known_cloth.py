"""Pieces of cloth that shops cut again and again, with what can be used of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.units import Units

from .fat_quarter import SIDES


@dataclass(frozen=True, slots=True)
class KnownCloth:
    """A usual piece, mm. width: across, without selvedges. selvedges: one, on the left, or two."""

    name: str
    width: Fraction
    length: Fraction
    selvedges: int


def _cloth(units: Units, name: str, width: int, length: int, selvedges: int) -> KnownCloth:
    return KnownCloth(name, width * units.mm, length * units.mm, selvedges)


# Source: common practice. Cloth sold as 44 in, 54 in, 110 cm and 140 cm wide, less its selvedges.
_INCHES, _CENTIMETRES = Units.INCHES, Units.CENTIMETRES
KNOWN_CLOTH: dict[Units, Sequence[KnownCloth]] = {
    _INCHES: (
        KnownCloth("fat quarter", *SIDES[_INCHES], 1),
        _cloth(_INCHES, "half yard of cloth 44 in wide", 42, 18, 2),
        _cloth(_INCHES, "half yard of cloth 54 in wide", 52, 18, 2),
    ),
    _CENTIMETRES: (
        KnownCloth("fat quarter", *SIDES[_CENTIMETRES], 1),
        _cloth(_CENTIMETRES, "half metre of cloth 110 cm wide", 107, 50, 2),
        _cloth(_CENTIMETRES, "half metre of cloth 140 cm wide", 136, 50, 2),
    ),
}


def known_cloth(width: Fraction, length: Fraction) -> KnownCloth | None:
    """Return the usual piece of just these measures, if there is one."""
    every = (cloth for kinds in KNOWN_CLOTH.values() for cloth in kinds)
    return next((cloth for cloth in every if (cloth.width, cloth.length) == (width, length)), None)
