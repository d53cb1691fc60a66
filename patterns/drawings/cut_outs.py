"""What is cut out of the corners of a piece, with its size: the label under the piece, and the words."""

from collections.abc import Iterator
from dataclasses import dataclass

from patterns.drafting.formulas.values import Measured, compare
from patterns.drafting.outlines import Edge, box, edge_length, edges, is_nothing
from patterns.drafting.sized import SizedPiece
from patterns.drafting.units import Units

from . import words
from .geometry import Spot
from .labels import Block, TextLine
from .naming import SMALL, Ended
from .outline import Outline, corners_of
from .tokens import QUIET_INK


@dataclass(frozen=True, slots=True)
class CutOut:
    """A rectangle cut out of a corner of a piece. corner: which corner of the outline lies inside it."""

    corner: int
    width: Measured
    height: Measured


def cut_outs(piece: SizedPiece) -> Iterator[CutOut]:
    """Yield the rectangles that are cut out of the corners of a piece's box."""
    if not piece.outline:
        return
    corners = corners_of(piece)
    around, walked = box(corners), edges(corners)
    for place, arriving in enumerate(walked):
        leaving = walked[(place + 1) % len(walked)]
        if _is_inside(arriving, around) and _is_cut_out(arriving, leaving, around):
            level, upright = (arriving, leaving) if is_nothing(arriving.way.down) else (leaving, arriving)
            yield CutOut(place, edge_length(level), edge_length(upright))


def _is_inside(arriving: Edge, around: tuple[Measured, ...]) -> bool:
    """Whether the corner at which it ends lies on no side of the box."""
    left, top, right, bottom = around
    across, down = arriving.end
    return not any(
        compare(*pair) == 0 for pair in ((across, left), (across, right), (down, top), (down, bottom))
    )


def _is_cut_out(arriving: Edge, leaving: Edge, around: tuple[Measured, ...]) -> bool:
    """Whether two edges come from one side of the box and go to the next, one level and one upright."""
    if arriving.arc is not None or leaving.arc is not None:
        return False
    is_level, leaves_level = is_nothing(arriving.way.down), is_nothing(leaving.way.down)
    square = is_level != leaves_level and all(
        is_nothing(edge.way.across) or is_nothing(edge.way.down) for edge in (arriving, leaving)
    )
    left, top, right, bottom = around
    level, upright = (arriving.start, leaving.end) if is_level else (leaving.end, arriving.start)
    return (
        square
        and any(compare(level.across, side) == 0 for side in (left, right))
        and any(compare(upright.down, side) == 0 for side in (top, bottom))
    )


def cut_outs_told(piece: SizedPiece, units: Units) -> Iterator[str]:
    """Yield the cut-outs in words, those of one size together: `2 corners, each 2 1⁄2 in × 2 1⁄2 in`."""
    for size, places in _by_size(piece, units).items():
        yield f"1 corner, {size}" if len(places) == 1 else f"{len(places)} corners, each {size}"


def cut_out_labels(piece: SizedPiece, outline: Outline, units: Units) -> Iterator[Ended]:
    """Yield a label for the cut-outs of each size, and where its leader begins: at the lowest of them."""
    for size, places in _by_size(piece, units).items():
        spot = max((_middle_of(place, outline) for place in places), key=lambda spot: (spot.y, -spot.x))
        named = "cut out" if len(places) == 1 else f"cut out, {len(places)} times"
        yield spot, Block((TextLine(named, SMALL), TextLine(words.label(size), SMALL, QUIET_INK)))


def _by_size(piece: SizedPiece, units: Units) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for each in cut_outs(piece):
        size = " × ".join(words.cutting(side, units) for side in (each.width, each.height))
        found.setdefault(size, []).append(each.corner)
    return found


def _middle_of(place: int, outline: Outline) -> Spot:
    """Return the middle of a cut-out's level edge."""
    spots = [spot for spot, _ in outline.corners]
    here, before, after = spots[place], spots[place - 1], spots[(place + 1) % len(spots)]
    other = before if before.y == here.y else after
    return Spot((here.x + other.x) // 2, here.y)
