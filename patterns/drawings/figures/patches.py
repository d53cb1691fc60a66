"""Parts that several figures share: patches of cloth, stitching with its ends, a length beside an edge."""

from collections.abc import Sequence
from fractions import Fraction

from patterns.drafting.formulas.values import Measured
from patterns.drafting.recipe import Tint
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.svg import path_through
from patterns.drawings.tokens import INK, SHEET

from .board import Board, block_height
from .edge_on import BAND, FACE, FACES, INNER, OFF, stroke

BACKSTITCH = 1500
HATCH = 2600


def corners_of(box: Box) -> tuple[Spot, ...]:
    return (
        Spot(box.left, box.top),
        Spot(box.right, box.top),
        Spot(box.right, box.bottom),
        Spot(box.left, box.bottom),
    )


def patch(
    board: Board,
    spots: Sequence[Spot],
    tint: Tint | None,
    is_wrong: bool = False,
    edge: Line | None = Line.CUT,
    is_closed: bool = True,
) -> None:
    """Draw a piece of cloth; its wrong side is paler. An open edge is one where the figure breaks off."""
    board.draw(fill(Fabric(tint, is_pale=is_wrong, gap=HATCH), spots))
    if edge:
        board.draw([line(edge, *spots, is_closed=is_closed)])
        board.shun(*spots, is_closed=is_closed)


def sewn(board: Board, start: Spot, end: Spot, ends: str = "both") -> None:
    """Draw a row of stitches, thick where it is backstitched. ends: both, first, last, none."""
    board.draw([line(Line.STITCH, start, end)])
    board.shun(start, end)
    for here, there, name in ((start, end, "first"), (end, start, "last")):
        if ends in ("both", name):
            board.draw([line(Line.CLIP, here, toward(here, there, BACKSTITCH))])


def toward(here: Spot, there: Spot, far: int) -> Spot:
    """Return the spot so far from one on the level or upright way to another."""
    across = (there.x > here.x) - (there.x < here.x)
    down = (there.y > here.y) - (there.y < here.y)
    return Spot(here.x + across * far, here.y + down * far)


def label_of(length: Measured, units: Units) -> str:
    return words.label(words.cutting(length, units))


def under(board: Board, text: str, x: int, low: int) -> None:
    """Write a word under something that ends there."""
    board.say(text, Spot(x, low + block_height() // 2 + 500))


def cloth_seen_on_edge(
    board: Board, way: Sequence[Spot], tint: Tint | None, face: Sequence[tuple[int, int]] = ()
) -> None:
    """Draw cloth cut through, along a way, its right side as a coloured line.

    face: for each spot of the way, to which side of it the right side lies: across and down, −1, 0 or 1.
    """
    path = path_through(way)
    board.draw([stroke(path, INK, BAND), stroke(path, SHEET, INNER)])
    if face:
        colour, dashes = FACES[tint]
        spots = [Spot(spot.x + x * OFF, spot.y + y * OFF) for spot, (x, y) in zip(way, face, strict=True)]
        board.draw([stroke(path_through(spots), colour, FACE, dashes)])


def scaled(length: Fraction, scale: Fraction, least: int = 0) -> int:
    """Return a length on the page, micrometres; never less than can be seen."""
    return max(round(length * scale), least)
