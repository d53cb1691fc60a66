"""Handles and a pocket on work that lies flat, right side out: drawn where they are sewn on."""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.lists import listed
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.bag_parts import Basted
from patterns.drawings.folding.pockets import top_allowance
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Point, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.packable_tote import Handles, Pocket, handle, pocket_on
from patterns.drawings.page import Placing
from patterns.drawings.standing import Face, Shape, painted

from .board import Board

# Half the width at which the end of a handle is drawn close by, page.
LEAST_HALF, MOST_HALF = 1500, 4500
TOP = Point(Fraction(0), Fraction(0))


def rise(state: State, cloth: str) -> Fraction:
    """Return how high the handles of a cloth stand over its top edge, mm; 0 without handles."""
    basted = _basted(state, cloth)
    return _handles(state, basted).rise if basted else Fraction(0)


def reach(state: State, cloth: str) -> Fraction:
    """Return how far a handle of a cloth reaches to either side of the middle, mm; 0 without handles."""
    basted = _basted(state, cloth)
    return (_handles(state, basted).apart + basted.wide) / 2 if basted else Fraction(0)


def handles_drawn(
    board: Board, state: State, cloth: str, foot: Spot, scale: Fraction, is_down: bool = False
) -> None:
    """Draw the handles of a cloth, of which the front one is seen. foot: the middle of the top edge.

    is_down: whether they hang down from it.
    """
    basted = _basted(state, cloth)
    if basted is None:
        return
    handles = _handles(state, basted)
    for shape in handle(handles, TOP):
        board.draw(painted(_hanging(shape) if is_down else shape, Placing(scale, foot)))
    # No label lies on it; one that is short enough may stand in its arch.
    wide, high = round((handles.apart + handles.width) * scale) // 2, round(handles.rise * scale)
    across, arch = round(handles.width * scale), high * 2 // 3
    for left, right, low, top in (
        (-wide, across - wide, 0, arch),
        (wide - across, wide, 0, arch),
        (-wide, wide, arch, high),
    ):
        ends = (foot.y + low, foot.y + top) if is_down else (foot.y - top, foot.y - low)
        board.fill(Box(foot.x + left, ends[0], foot.x + right, ends[1]))


def end_drawn(board: Board, state: State, cloth: str, foot: Spot, top: int, scale: Fraction) -> None:
    """Draw one end of a handle of a cloth, close by: it stands on the edge and breaks off above.

    foot: the middle of the end, on the edge. top: where it breaks off.
    """
    basted = _basted(state, cloth)
    if basted is None:
        return
    half = min(max(round(basted.wide * scale) // 2, LEAST_HALF), MOST_HALF)
    left, right = foot.x - half, foot.x + half
    spots = Spot(left, top), Spot(left, foot.y), Spot(right, foot.y), Spot(right, top)
    board.draw(fill(Fabric("exterior"), spots))
    for x in (left, right):
        board.draw([line(Line.EDGE, Spot(x, foot.y), Spot(x, top))])
        if not is_webbing(state, basted):
            row = x + (half if x < foot.x else -half) * 3 // 10
            board.draw([line(Line.TOPSTITCH, Spot(row, foot.y), Spot(row, top))])
    board.fill(Box(left, top, right, foot.y))


def pocket_drawn(board: Board, state: State, cloth: str, box: Box, scale: Fraction) -> None:
    """Draw the pockets that are sewn to a cloth, in the middle under its top edge. box: the work."""
    for pocket in state.sewn.pockets.values():
        if pocket.cloth == cloth:
            below = pocket.mouth - top_allowance(state, cloth)
            shapes = pocket_on(Pocket(pocket.width, pocket.height, below), TOP)
            for shape in shapes:
                board.draw(painted(shape, Placing(scale, Spot(box.middle.x, box.top))))


def told(state: State, cloth: str) -> str:
    """Return what is sewn to a cloth, in words: `with its handles and its pocket`; empty for nothing."""
    found = ["its handles"] if _basted(state, cloth) else []
    found += [f"its {pocket.name}" for pocket in state.sewn.pockets.values() if pocket.cloth == cloth]
    return f" with {listed(found, 'and')}" if found else ""


def _basted(state: State, cloth: str) -> Basted | None:
    return next((each for each in state.sewn.handles if each.cloth == cloth), None)


def _handles(state: State, basted: Basted) -> Handles:
    first, last = sorted(basted.places)
    return Handles(basted.long, basted.wide, last - first, is_webbing(state, basted))


def is_webbing(state: State, basted: Basted) -> bool:
    """Whether a handle was bought by length, and not sewn from cloth: then it has no tint of a cloth."""
    return state.strip(basted.handle).tint is None


def _hanging(shape: Shape) -> Shape:
    def down(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple(Point(point.x, -point.y) for point in points)

    if isinstance(shape, Face):
        return replace(shape, outline=down(shape.outline))
    return replace(shape, way=down(shape.way))
