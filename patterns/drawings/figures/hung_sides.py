"""What hangs from a zip, its sides sewn in one seam each, and trimmed: seen from above."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.hung import is_hung
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line

from .above import Plan, faces, names, plan_of
from .arrows import straight
from .board import SPACE, Board, StepFigure, block_height
from .sides import label_of
from .zip_parts import STUB, tape


def sewn_across(state: State, units: Units, title: str) -> StepFigure:
    """Return the work with both sides sewn in one seam each, over the zip."""
    board = Board(title)
    plan = plan_of(state, block_height() + SPACE)
    box, sides = plan.box, state.sides
    assert sides is not None
    is_two = is_hung(state)
    _ends_of_the_zip(board, state, plan)
    faces(board, state, plan)
    _rows(board, plan, round(sides.doubled * plan.scale), is_two)
    _lengths(board, plan, round(sides.doubled * plan.scale), is_two, state, units)
    board.draw(straight(Spot(box.left - 4200, box.bottom), Spot(box.left - 4200, box.bottom - 5500)))
    board.fill(Box(box.left - 5200, box.bottom - 5500, box.left - 3200, box.bottom))
    board.say("bottom folds", Spot(box.middle.x, box.bottom - block_height()), is_needed=False, within=box)
    names(board, state, plan)
    if is_two:
        level = plan.y(seam_of_the_zip(state))
        board.say("zip", Spot(box.right + STUB + SPACE, level), "start", is_needed=False)
    head = "bottom folds" if is_two else "zip"
    board.say(head, Spot(box.middle.x, box.top - block_height() // 2 - SPACE // 2))
    between, doubled = (words.cutting(each, units) for each in (sides.right - sides.left, sides.doubled))
    way = (
        "from one fabric’s bottom folds across the zip to the other’s"
        if is_two
        else "from the bottom folds to the fold at the zip"
    )
    told = (
        f"Each side is sewn in one seam, {way}; the two seams are {between} apart, and {doubled} next to the "
        "bottom folds is sewn twice."
    )
    return board.figure(box.bottom, told, "From above; sew in the arrow’s direction, over the zip.")


def _rows(board: Board, plan: Plan, deep: int, is_two: bool) -> None:
    """Draw both side seams, sewn twice next to the bottom folds."""
    box = plan.box
    ends = [(box.bottom, box.bottom - deep), *([(box.top, box.top + deep)] if is_two else [])]
    for x in plan.sides:
        board.draw([line(Line.STITCH, Spot(x, box.bottom), Spot(x, box.top))])
        board.draw([line(Line.STITCH, Spot(x - 500, low), Spot(x - 500, high)) for low, high in ends])


def _lengths(board: Board, plan: Plan, deep: int, is_two: bool, state: State, units: Units) -> None:
    sides, box = state.sides, plan.box
    assert sides is not None
    left, right = plan.sides
    between = label_of(sides.right - sides.left, units)
    board.measure(Spot(left, box.bottom), Spot(right, box.bottom), Spot(0, 1800), between)
    twice = label_of(sides.doubled, units)
    board.measure(Spot(box.right, box.bottom - deep), Spot(box.right, box.bottom), Spot(1600, 0), twice)
    if is_two:
        board.measure(Spot(box.right, box.top), Spot(box.right, box.top + deep), Spot(1600, 0), twice)


def seam_of_the_zip(state: State) -> Fraction:
    """Return where on the table the zip's seams lie."""
    tapes = [layer for layer in state.layers if state.strips[layer.strip].is_zip]
    sewn = {end for seam in state.seams for end in seam.ends}
    for layer in tapes:
        for along in (layer.start, layer.end):
            if (layer.strip, along) in sewn:
                return layer.place(along)
    raise ValueError("no zip lies there")


def _thick(state: State, plan: Plan) -> int:
    """How high the folded zip is on the page, enough to be seen."""
    tapes = [layer for layer in state.layers if state.strips[layer.strip].is_zip]
    return max(round(max(layer.right - layer.left for layer in tapes) * plan.scale), 900)


def _ends_of_the_zip(board: Board, state: State, plan: Plan) -> None:
    """Draw the ends of the zip, sticking out beyond both sides."""
    level = plan.y(seam_of_the_zip(state))
    stub = Box(plan.box.left - STUB, level - _thick(state, plan), plan.box.right + STUB, level)
    board.draw(tape(stub, stub.top))
    board.fill(Box(stub.left, stub.top, plan.box.left, stub.bottom))
    board.fill(Box(plan.box.right, stub.top, stub.right, stub.bottom))


def ends_cut(state: State, units: Units, left_over: Fraction, title: str) -> StepFigure:
    """Return the work with its corners cut off and the zip's ends level, outside the stitching."""
    board = Board(title)
    plan = plan_of(state, block_height() + SPACE)
    box, (left, right) = plan.box, plan.sides
    cut = left - box.left - 500
    faces(board, state, plan, cut_off=cut)
    board.draw([line(Line.STITCH, Spot(x, box.bottom), Spot(x, box.top)) for x in (left, right)])
    for x, way in ((box.left, 1), (box.right, -1)):
        for y, down in ((box.bottom, -1), (box.top, 1)):
            start = Spot(x - way * 400, y + down * (cut + 400))
            board.draw([line(Line.OPENING, start, Spot(x + way * (cut + 400), y - down * 400))])
    level, deep = plan.y(seam_of_the_zip(state)), _thick(state, plan)
    for x in (box.left, box.right):
        board.draw([line(Line.OPENING, Spot(x, level + 700), Spot(x, level - deep - 700))])
    board.say("zip cut level", Spot(box.middle.x, box.top - block_height() // 2 - SPACE // 2))
    names(board, state, plan)
    half = words.cutting(left_over, units)
    below = Spot(box.middle.x, box.bottom + SPACE + block_height() // 2)
    board.say(words.label(f"inner layers: leave {half}"), below)
    told = (
        "The four corners are cut off slantwise and the ends of the zip level with the raw edges: all cuts "
        f"lie outside the stitching. Of the inner layers’ allowance {half} is left."
    )
    return board.figure(box.bottom, told, "From above; the thick lines are cuts, corners slantwise.")
