"""The finished thing, open and folded flat, side by side at one scale."""

from fractions import Fraction

from patterns.drafting.sized import SizedPattern
from patterns.drawings import words
from patterns.drawings.finished import standing
from patterns.drawings.folding.folds import height_of
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.page import Placing
from patterns.drawings.standing import painted

from . import sewn_on
from .above import Plan, faces
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .zip_parts import corners

APART = 6000
MOST = 24_000
AWAY = 1800


def open_and_flat(sized: SizedPattern, state: State, title: str) -> StepFigure:
    """Return the finished thing standing open, and folded flat as the model leaves it."""
    board = Board(title)
    item = standing(sized)
    points = list(item.points())
    left, right = min(point.x for point in points), max(point.x for point in points)
    low, high = min(point.y for point in points), max(point.y for point in points)
    sides = state.sides
    assert sides is not None
    wide, tall = sides.right - sides.left, height_of(state)
    label = 9000
    scale = min(
        Fraction(WIDTH - 2 * EDGE - APART - label) / (right - left + wide),
        Fraction(MOST) / max(high - low, tall),
    )
    ground = EDGE + round(max(high - low, tall) * scale)
    placing = Placing(scale, Spot(EDGE + label // 2 - round(left * scale), ground + round(low * scale)))
    for shape in item.shapes:
        board.draw(painted(shape, placing))
    flat_left = WIDTH - EDGE - label // 2 - round(wide * scale)
    box = Box(flat_left, ground - round(tall * scale), flat_left + round(wide * scale), ground)
    plan = Plan(box, scale, min(layer.left for layer in state.layers), (box.left, box.right))
    cloth = state.layers[-1].strip
    sewn_on.handles_drawn(board, state, cloth, Spot(box.middle.x, box.top), scale)
    faces(board, state, plan)
    board.draw([line(Line.OUTLINE, *corners(box), is_closed=True)])
    sewn_on.pocket_drawn(board, state, cloth, box, scale)
    width, height, depth = (words.cutting(words.known(each), sized.units) for each in sized.finished)
    start, end = placing.spots(item.width)
    board.measure(start, end, Spot(0, AWAY), words.label(width))
    flat_width, flat_height = (words.cutting(length, sized.units) for length in (wide, tall))
    board.measure(Spot(box.left, ground), Spot(box.right, ground), Spot(0, AWAY), words.label(flat_width))
    board.say("open", Spot((start.x + end.x) // 2, ground + AWAY + 2 * block_height() + SPACE))
    board.say("folded flat", Spot(box.middle.x, ground + AWAY + 2 * block_height() + SPACE))
    high_as = f"{height} {item.height_note}" if item.height_note else f"{height} high"
    told = (
        f"Left it stands open, {width} wide, {depth} deep and {high_as}; right it lies folded flat, "
        f"{flat_width} by {flat_height}."
    )
    caption = f"Open {width} × {depth} × {height}; flat {flat_width} × {flat_height}."
    return board.figure(ground + AWAY, told, caption)
