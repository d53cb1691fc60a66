"""A strip folded in four, side seams trimmed evenly, and bound with it."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.layers import Layer
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line, lines
from patterns.drawings.svg import path_through, plate
from patterns.drawings.tokens import INK, SHEET

from .above import Plan, faces, plan_of
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, FACE, FACES, INNER, EdgeOn, layers_drawn, stroke
from .sides import label_of
from .zip_parts import corners

GAP = 2300
STRIP = 34_000
# How wide the bound work is drawn at most; where the part that is cut through stands, and how high it is.
WORK = 25_000
SECTION, SECTION_HIGH = WIDTH - 14_500, 14_000
# Of the section: half the thickness of the layers, how far the binding lies off them, how deep it is drawn.
LAYERS, OFF, DEEP = 1700, 1400, 8000


def in_four(strip: Strip, count: int, units: Units, title: str) -> StepFigure:
    """Return a strip flat, folded in half, and opened with its edges folded to the middle, from its end."""
    board = Board(title)
    state = State(strips={strip.name: strip})
    scale, floor = Fraction(STRIP) / strip.length, block_height() + SPACE
    for number, stack in enumerate(_moments(strip), 1):
        lying, layers = [level for level, _ in stack], [layer for _, layer in stack]
        floor += BAND + max(lying) * GAP + (0 if number == 1 else block_height() + 3 * SPACE)
        at = EdgeOn(scale, 9000, floor, GAP)
        board.draw(layers_drawn(state, layers, at, lying))
        board.say(str(number), Spot(EDGE, floor), "start")
        left, right = min(each.left for each in layers), max(each.right for each in layers)
        ends = Spot(at.x(left), floor + BAND), Spot(at.x(right), floor + BAND)
        board.measure(*ends, Spot(0, 1400), label_of(right - left, units))
        floor += BAND + 1400
    long, wide, half = (words.cutting(each, units) for each in (strip.width, strip.length, strip.length / 2))
    told = (
        f"{count} strips, {long} long and {wide} wide, from the end: flat; folded in half, wrong sides "
        f"together; opened, both long edges folded to the middle crease, {half} wide."
    )
    return board.figure(floor, told, f"{count} strips, {long} long, from the end, wrong side up.")


def _moments(strip: Strip) -> tuple[list[tuple[int, Layer]], ...]:
    """Return the strip in three moments: its layers, each with its level."""
    name, whole, zero = strip.name, strip.length, Fraction(0)
    half, quarter = whole / 2, whole / 4
    return (
        [(0, Layer(name, zero, whole, zero, 1, "wrong"))],
        [
            (0, Layer(name, half, whole, zero, 1, "wrong")),
            (1, Layer(name, zero, half, whole, -1, "right")),
        ],
        [
            (0, Layer(name, quarter, whole - quarter, zero, 1, "wrong")),
            (1, Layer(name, zero, quarter, half, -1, "right")),
            (1, Layer(name, whole - quarter, whole, whole + half, -1, "right")),
        ],
    )


def trimmed_evenly(state: State, units: Units, title: str) -> StepFigure:
    """Return the sewn work with both allowances, and the zip's ends, cut to one width."""
    board = Board(title)
    assert state.trimmed is not None
    assert state.sides is not None
    plan = plan_of(state, block_height() + SPACE)
    faces(board, state, plan)
    box, (left, right) = plan.box, plan.sides
    board.draw([line(Line.STITCH, Spot(x, box.bottom), Spot(x, box.top)) for x in (left, right)])
    off = round((box.right - right) * state.trimmed / state.sides.left)
    for x in (left - off, right + off):
        board.draw([line(Line.OPENING, Spot(x, box.top - 900), Spot(x, box.bottom + 900))])
    ends = Spot(right, box.bottom), Spot(right + off, box.bottom)
    board.measure(*ends, Spot(0, 2000), label_of(state.trimmed, units))
    told = (
        f"All layers of both side seams, and the ends of the zip, are cut "
        f"{words.cutting(state.trimmed, units)} outside the stitching, straight from the upper fold to the "
        "bottom folds."
    )
    return board.figure(box.bottom, told, "From above, all layers together; the thick lines are cuts.")


def bound(state: State, strip: Strip, long: Fraction, units: Units, title: str) -> StepFigure:
    """Return the work with both sides bound, and a binding over the edge, cut through."""
    board = Board(title)
    assert state.trimmed is not None
    whole = plan_of(state, block_height() + SPACE)
    scale = min(whole.scale, whole.scale * Fraction(WORK, whole.box.width))
    wide, high = (round(each * scale / whole.scale) for each in (whole.box.width, whole.box.height))
    left = EDGE + 1200
    box = Box(left, whole.box.top, left + wide, whole.box.top + high)
    faces(board, state, Plan(box, scale, whole.left, (box.left, box.right)))
    tape = max(round(state.trimmed * scale), 1500)
    for start, row in ((box.left, tape - 500), (box.right - tape, 500)):
        band = Box(start, box.top, start + tape, box.bottom)
        board.draw([plate(band, SHEET), line(Line.OUTLINE, *corners(band), is_closed=True)])
        board.draw([line(Line.TOPSTITCH, Spot(start + row, box.top), Spot(start + row, box.bottom))])
    board.measure(Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(1500, 0), label_of(long, units))
    _section(board, state, strip, box.top, label_of(state.trimmed, units))
    length, deep = (words.cutting(each, units) for each in (long, state.trimmed))
    told = (
        f"Left both side seams bound from the upper fold to the bottom folds, {length} long, both ends "
        f"turned in. Right a binding cut through: it lies over the trimmed edge, {deep} deep on both "
        "faces, its long edges turned in, one row through all."
    )
    foot = max(box.bottom, box.top + SECTION_HIGH)
    return board.figure(foot, told, "Right, the binding over the edge, cut through.")


def _section(board: Board, state: State, strip: Strip, top: int, deep: str) -> None:
    """Draw the layers of an allowance, the edge at the foot, and the binding folded round them."""
    foot = top + 11_000
    edge, side = foot - DEEP, LAYERS + OFF
    ways = [(SECTION + off, top - 2000, foot - 1300) for off in range(-LAYERS, LAYERS + 1, LAYERS // 2)]
    board.draw([lines(Line.EDGE, [(Spot(x, start), Spot(x, end)) for x, start, end in ways])])
    colour, dashes = FACES[state.strips[strip.name].tint]
    half = ((LAYERS + 500, edge + 5000), (LAYERS + 500, edge), (side, edge), (side, foot))
    way = path_through(
        [
            *(Spot(SECTION - off, y) for off, y in half),
            *(Spot(SECTION + off, y) for off, y in reversed(half)),
        ]
    )
    board.draw([stroke(way, INK, BAND), stroke(way, SHEET, INNER), stroke(way, colour, FACE // 2, dashes)])
    row, out = edge + 1800, side + 1600
    board.draw([line(Line.TOPSTITCH, Spot(SECTION - out, row), Spot(SECTION + out, row))])
    ends = Spot(SECTION + side, edge), Spot(SECTION + side, foot)
    board.measure(*ends, Spot(1500, 0), deep)
