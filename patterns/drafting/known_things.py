"""Things whose size is published, to ask by name what holds them."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final


@dataclass(frozen=True, slots=True)
class KnownThing:
    """A thing of a published size, standing upright. All in mm, exact.

    depth: how thick one is; None where the standard leaves it open, as it does for paper.
    source: the standard that lays the size down.
    """

    name: str
    width: Fraction
    height: Fraction
    source: str
    depth: Fraction | None = None


_SHEETS, _ENVELOPES, _CARDS = "ISO 216", "ISO 269", "ISO/IEC 7810"


def _thing(name: str, width: str, height: str, source: str, depth: str | None = None) -> KnownThing:
    return KnownThing(
        name, Fraction(width), Fraction(height), source, None if depth is None else Fraction(depth)
    )


KNOWN_THINGS: Final = (
    _thing("A6 sheets", "105", "148", _SHEETS),
    _thing("A5 sheets", "148", "210", _SHEETS),
    _thing("A4 sheets", "210", "297", _SHEETS),
    _thing("C6 envelopes", "114", "162", _ENVELOPES),
    _thing("C5 envelopes", "162", "229", _ENVELOPES),
    _thing("DL envelopes", "110", "220", _ENVELOPES),
    # Every card of the standard is 0.76 mm thick, give or take 0.08; a passport is a booklet.
    _thing("ID-1 cards", "85.60", "53.98", _CARDS, depth="0.76"),
    _thing("ID-3 passports", "88", "125", _CARDS),
)
