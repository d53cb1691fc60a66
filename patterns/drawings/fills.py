"""How a fabric is told apart: exterior by a plain tint, lining by a hatch, interfacing by dots, clear plain.

Hatch and dots are drawn as lines cut to the outline, not as pattern fills: they need no ids and print alike
everywhere.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from patterns.drafting.recipe import Tint

from . import tokens
from .geometry import Spot
from .svg import element, millimetres, path_through

Lean = Literal["up", "down"]


@dataclass(frozen=True, slots=True)
class Fabric:
    """A fabric as it looks in a drawing. lean: which way the hatch of a lining runs."""

    tint: Tint | None
    is_pale: bool = False
    is_shaded: bool = False
    lean: Lean = "up"
    gap: int = 1900


def fill(fabric: Fabric, outline: Sequence[Spot], way: str = "") -> list[str]:
    """Return an outline filled with the fabric; the edge itself is not drawn.

    way: path data of the same outline, where some of it is curved.
    """
    around = way or path_through(outline, is_closed=True)
    ground = element("path", (("d", around), ("fill", ground_of(fabric))))
    match fabric.tint:
        case "lining":
            return [ground, *_hatch(fabric, outline)]
        case "interfacing":
            return [ground, *_dots(fabric, outline)]
        case _:
            return [ground]


def ground_of(fabric: Fabric) -> str:
    """Return the colour that lies under hatch and dots."""
    match fabric.tint:
        case "exterior":
            usual = tokens.EXTERIOR_SIDE if fabric.is_shaded else tokens.EXTERIOR
            return tokens.EXTERIOR_PALE if fabric.is_pale else usual
        case "lining":
            usual = tokens.LINING_DEEP if fabric.is_shaded else tokens.LINING
            return tokens.LINING_PALE if fabric.is_pale else usual
        case "interfacing":
            return tokens.INTERFACING_PALE if fabric.is_pale else tokens.INTERFACING
        case "clear" | None:
            return tokens.SHEET


def _hatch(fabric: Fabric, outline: Sequence[Spot]) -> Iterator[str]:
    slope = 1 if fabric.lean == "up" else -1
    # Lines x + y = c rise to the right on a page whose y runs down; x − y = c fall.
    levels = [spot.x + slope * spot.y for spot in outline]
    step = fabric.gap * 7 // 5  # close to √2: the gap is measured square to the lines
    ways = [
        ends
        for level in range(min(levels) // step * step + step, max(levels), step)
        for ends in _crossings(outline, levels, level)
    ]
    if ways:
        colour = tokens.LINING_HATCH_PALE if fabric.is_pale else tokens.LINING_HATCH
        yield _thin(ways, colour, 170)


def _dots(fabric: Fabric, outline: Sequence[Spot]) -> Iterator[str]:
    levels = [spot.y for spot in outline]
    ways = []
    for row, level in enumerate(range(min(levels) + fabric.gap // 2, max(levels), fabric.gap)):
        for ends in _crossings(outline, levels, level):
            left, right = sorted(ends)
            start = left.x + (fabric.gap // 2 if row % 2 else fabric.gap)
            if start < right.x:
                ways.append((Spot(start, level), Spot(right.x, level)))
    if ways:
        colour = tokens.INTERFACING_DOTS_PALE if fabric.is_pale else tokens.INTERFACING_DOTS
        yield _thin(ways, colour, 420, f"0 {millimetres(fabric.gap)}")


def _crossings(outline: Sequence[Spot], levels: Sequence[int], level: int) -> Iterator[tuple[Spot, Spot]]:
    """Yield where a line of that level enters and leaves the outline. levels: those of its corners."""
    met = []
    for index, here in enumerate(levels):
        was = levels[index - 1]
        if (was < level) != (here < level):
            start, end = outline[index - 1], outline[index]
            share, whole = level - was, here - was
            met.append(
                Spot(
                    start.x + (end.x - start.x) * share // whole, start.y + (end.y - start.y) * share // whole
                )
            )
    met.sort()
    return ((start, end) for start, end in zip(met[::2], met[1::2], strict=True) if start != end)


def _thin(ways: Sequence[Sequence[Spot]], colour: str, width: int, dashes: str = "") -> str:
    attributes: list[tuple[str, str | int]] = [
        ("d", "".join(path_through(way) for way in ways)),
        ("fill", "none"),
        ("stroke", colour),
        ("stroke-width", width),
    ]
    if dashes:
        attributes += [("stroke-dasharray", dashes), ("stroke-linecap", "round")]
    return element("path", attributes)
