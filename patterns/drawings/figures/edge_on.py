"""Layers seen from their side edge, pulled apart: a band each, its right side a coloured face."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.recipe import Tint
from patterns.drawings.folding.layers import Bond, Layer, bonds
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.svg import element, millimetres, path_through
from patterns.drawings.tokens import INK, OCHRE, PETROL, QUIET_INK, SHEET

# Page, micrometres: a band with its edges, without them; the coloured face, and how far off the middle.
BAND, INNER = 1000, 700
FACE, OFF = 420, 180
# How far a fold reaches out beyond its layers, for each layer that lies in it.
BULGE = 420
FACES: dict[Tint | None, tuple[str, str]] = {
    "exterior": (PETROL, ""),
    "lining": (OCHRE, "0.55 0.45"),
    "interfacing": (QUIET_INK, "0.1 0.5"),
    "clear": (QUIET_INK, ""),
    None: (QUIET_INK, ""),
}


@dataclass(frozen=True, slots=True)
class EdgeOn:
    """How layers are drawn. scale: micrometres for each mm. zero: where place 0 lies. floor: the lowest
    band's middle. gap: from band to band.
    """

    scale: Fraction
    zero: int
    floor: int
    gap: int

    def x(self, place: Fraction) -> int:
        return self.zero + round(place * self.scale)

    def y(self, level: int) -> int:
        return self.floor - level * self.gap


def levels(layers: Sequence[Layer]) -> tuple[int, ...]:
    """Return on which level each layer is drawn: above all that it lies over.

    Layers side by side that go on into each other flat lie level, where nothing keeps them apart.
    """
    found: list[int] = []
    ends = [(layer.left, layer.right) for layer in layers]
    for number, (left, right) in enumerate(ends):
        below = [found[other] for other in range(number) if ends[other][0] < right and left < ends[other][1]]
        found.append(max(below) + 1 if below else 0)
    return tuple(found)


def layers_drawn(
    state: State, layers: Sequence[Layer], at: EdgeOn, lying: Sequence[int] | None = None
) -> list[str]:
    """Return the layers as they look, with the folds and seams between them.

    lying: on which level each lies; None for those that they take by themselves.
    """
    on = lying or levels(layers)
    ways: list[tuple[str, str, Tint | None]] = []
    for layer, level in zip(layers, on, strict=True):
        y, off = at.y(level), -OFF if layer.up == "right" else OFF
        ends = at.x(layer.left), at.x(layer.right)
        way, face = (path_through(Spot(x, height) for x in ends) for height in (y, y + off))
        ways.append((way, face, state.strips[layer.strip].tint))
    seams: list[str] = []
    for bond in bonds(tuple(layers), [seam.ends for seam in state.seams]):
        low, high = on[bond.lower], on[bond.upper]
        if not bond.is_fold:
            x = at.x(bond.place)
            ways.append((path_through([Spot(x, at.y(low)), Spot(x, at.y(high))]), "", None))
            seams += _stitch(Spot(x, (at.y(low) + at.y(high)) // 2))
            continue
        is_seam = len(bond.ends) == 2
        inside = layers[bond.lower].up == "right"
        way, face = _turn(at, bond, low, high, 0), _turn(at, bond, low, high, OFF if inside else -OFF)
        ways.append((way, "" if is_seam else face, state.strips[layers[bond.lower].strip].tint))
        if is_seam:
            seams += _stitch(_tip(at, bond, low, high))
    return [*_stroked(ways), *seams]


def _stroked(ways: Iterable[tuple[str, str, Tint | None]]) -> list[str]:
    listed = list(ways)
    whole = "".join(way for way, _, _ in listed)
    parts = [stroke(whole, INK, BAND), stroke(whole, SHEET, INNER)]
    for tint, (colour, dashes) in FACES.items():
        faces = "".join(face for _, face, cloth in listed if cloth == tint)
        if faces:
            parts.append(stroke(faces, colour, FACE, dashes))
    return parts


def stroke(way: str, colour: str, width: int, dashes: str = "") -> str:
    attributes: list[tuple[str, str | int]] = [
        ("d", way),
        ("fill", "none"),
        ("stroke", colour),
        ("stroke-width", width),
    ]
    if dashes:
        attributes.append(("stroke-dasharray", dashes))
    return element("path", attributes)


def reach(low: int, high: int, gap: int) -> int:
    """Return how far a fold from level to level reaches out beyond its layers."""
    return gap // 2 + (abs(high - low) - 1) * BULGE


def _turn(at: EdgeOn, bond: Bond, low: int, high: int, inwards: int) -> str:
    """Return the way round a fold, drawn so far inside it; of a seam likewise."""
    out = -bond.sides[0]  # the layers lie on one side, the fold reaches out to the other
    x, bottom, top = at.x(bond.place), at.y(low) - inwards, at.y(high) + inwards
    deep = max(reach(low, high, at.gap) - inwards, 200)
    round_off = max(min(deep, (bottom - top) // 2), 100)
    straight = x + out * (deep - round_off)
    radius = millimetres(round_off)
    turn = 0 if out > 0 else 1
    corner = x + out * deep
    return (
        path_through([Spot(x, bottom), Spot(straight, bottom)])
        + f"A{radius} {radius} 0 0 {turn} {millimetres(corner)} {millimetres(bottom - round_off)}"
        + f"L{millimetres(corner)} {millimetres(top + round_off)}"
        + f"A{radius} {radius} 0 0 {turn} {millimetres(straight)} {millimetres(top)}"
        + f"L{millimetres(x)} {millimetres(top)}"
    )


def _tip(at: EdgeOn, bond: Bond, low: int, high: int) -> Spot:
    return Spot(at.x(bond.place) - bond.sides[0] * reach(low, high, at.gap), (at.y(low) + at.y(high)) // 2)


def _stitch(at: Spot) -> list[str]:
    """Return the sign of a seam seen from its end: a short cross line."""
    ends = Spot(at.x - 900, at.y), Spot(at.x + 900, at.y)
    return [stroke(path_through(ends), INK, 450)]


def room_of(layers: Sequence[Layer], at: EdgeOn, lying: Sequence[int] | None = None) -> list[Box]:
    """Return the boxes that the bands take."""
    on = lying or levels(layers)
    return [
        Box(at.x(layer.left), at.y(level) - BAND // 2, at.x(layer.right), at.y(level) + BAND // 2)
        for layer, level in zip(layers, on, strict=True)
    ]


def turned(parts: Iterable[str], degrees: int, about: Spot) -> str:
    """Return parts turned about a place: positive is clockwise on the page."""
    turn = f"rotate({degrees} {millimetres(about.x)} {millimetres(about.y)})"
    return element("g", (("transform", turn),), *parts)
