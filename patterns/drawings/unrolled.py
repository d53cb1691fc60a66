"""The body of an item unrolled: front, base and back in one strip, in the customer's own cloth.

Here it is seen how a print runs over the base: on in one piece, or turned where two panels meet in a seam.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.sized import SizedPattern

from .covering import tints_round_the_base
from .geometry import Point, Spot
from .labels import Block, wrapped
from .lines import Line, line
from .page import Placing, cloth
from .prints import Drape, Print, draped, in_print
from .svg import document
from .tokens import QUIET_INK

# Page, micrometres.
WIDTH, MOST_HEIGHT = 100_000, 88_000
EDGE = 1000
LETTERS = 3600
SPACE = 2400
LABEL_WIDTH = 30_000
PI = Fraction(355, 113)
NOTHING = Fraction(0)


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of the strip, from so far under its top edge; its height and what it is."""

    top: Fraction
    height: Fraction
    name: str


@dataclass(frozen=True, slots=True)
class _Strip:
    """What is unrolled, mm. seams: how far under the top edge each lies. told: what is seen, in words."""

    width: Fraction
    height: Fraction
    parts: tuple[_Part, ...]
    drapes: tuple[Drape, ...]
    seams: tuple[Fraction, ...]
    told: str


def unrolled_svg(sized: SizedPattern, tint: str, print_: Print) -> str:
    """Return the strip, seen from the cloth's right side. Raises DrawingError: a measure is nothing."""
    strip = _strip(sized, tint)
    scale = min(
        Fraction(WIDTH - LABEL_WIDTH - SPACE - 2 * EDGE) / strip.width, Fraction(MOST_HEIGHT) / strip.height
    )
    # The strip hangs from its top edge, which is 0.
    placing = Placing(scale, Spot(EDGE, EDGE))
    corners = _rectangle(NOTHING, strip.width, NOTHING, strip.height)
    right = EDGE + placing.length(strip.width)
    parts = in_print(print_, strip.drapes, placing)
    for part in strip.parts[1:]:
        parts.append(line(Line.FOLD, *placing.spots(_across(strip, part.top))))
    for seam in strip.seams:
        parts.append(line(Line.STITCH, *placing.spots(_across(strip, seam))))
    parts.append(line(Line.OUTLINE, *placing.spots(corners), is_closed=True))
    for part in strip.parts:
        parts += _label(part, placing, right + SPACE)
    height = 2 * EDGE + placing.length(strip.height)
    return document(
        right + SPACE + LABEL_WIDTH + EDGE, height, f"{sized.title}, the {tint} unrolled", strip.told, parts
    )


def _strip(sized: SizedPattern, tint: str) -> _Strip:
    width, height, depth = (cloth(quantity, least=Fraction(1)) for quantity in sized.finished)
    if sized.form == "round bucket":
        return _round_strip(width, height)
    first, last = ("front", "back") if tint == "exterior" else ("back", "front")
    parts = (
        _Part(NOTHING, height, first),
        _Part(height, depth, "base"),
        _Part(height + depth, height, f"{last}, its top edge at the foot"),
    )
    whole = 2 * height + depth
    if tint in tints_round_the_base(sized):
        told = f"One panel: the print runs on under the base and stands upside down on the {last}."
        return _Strip(width, whole, parts, (_drape(width, height, NOTHING, whole),), (), told)
    middle = height + depth / 2
    told = f"Two panels meet in the base seam: the print stands upright on {first} and {last}."
    drapes = (_drape(width, height, NOTHING, middle), _turned(width, height, middle, whole))
    return _Strip(width, whole, parts, drapes, (middle,), told)


def _round_strip(diameter: Fraction, height: Fraction) -> _Strip:
    width = PI * diameter
    parts = (_Part(NOTHING, height, "side, its ends meet in a seam"),)
    told = (
        "The side, laid flat: its left and right edge meet in its seam, where the print goes on as it will."
    )
    return _Strip(width, height, parts, (_drape(width, height, NOTHING, height),), (), told)


def _drape(width: Fraction, height: Fraction, start: Fraction, end: Fraction) -> Drape:
    """Cloth whose picture's middle lies in the middle of the first part."""
    places = _rectangle(NOTHING, width, start, end)
    return draped(*((each, each.x - width / 2, each.y + height / 2) for each in places))


def _turned(width: Fraction, height: Fraction, start: Fraction, end: Fraction) -> Drape:
    """The same on the other panel, which hangs from its own top edge at the foot."""
    places = _rectangle(NOTHING, width, start, end)
    return draped(*((each, width / 2 - each.x, height / 2 - (each.y + end)) for each in places))


def _rectangle(left: Fraction, right: Fraction, start: Fraction, end: Fraction) -> tuple[Point, ...]:
    return Point(left, -start), Point(right, -start), Point(right, -end), Point(left, -end)


def _across(strip: _Strip, down: Fraction) -> Sequence[Point]:
    return Point(NOTHING, -down), Point(strip.width, -down)


def _label(part: _Part, placing: Placing, left: int) -> list[str]:
    block = Block(wrapped(part.name, LETTERS, LABEL_WIDTH, QUIET_INK))
    middle = EDGE + placing.length(part.top + part.height / 2)
    return block.at(left, middle - block.height // 2).drawn()
