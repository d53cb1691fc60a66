"""A zip made ready, laid between two cloths, and sewn in."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.layers import Layer, Side
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, dot, line, lines
from patterns.drawings.svg import plate
from patterns.drawings.tokens import PETROL, SHEET

from .arrows import straight
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, EdgeOn, layers_drawn
from .sides import label_of
from .zip_parts import STUB, corners, slider, stop, tape

LEFT, RIGHT = 9500, WIDTH - 9500
TAPE = 7000
LEAST_ALLOWANCE = 1900
DEEP = 12_000
# Of layers pulled apart: from one to the next; how much of the cloths is shown, in widths of the tape.
GAP = 4300
SHOWN = 3
# A cloth in the words of a figure, by the side that faces up.
FACING: dict[Side, str] = {"right": "right side up", "wrong": "right side down"}


def ready(made: Strip, units: Units, title: str) -> StepFigure:
    """Return a zip by itself, with its stop, its slider, its centre, and the end that is tacked together."""
    board = Board(title)
    top = block_height() + SPACE
    box = Box(EDGE, top, WIDTH - 10_500, top + TAPE)
    teeth, start, end = box.middle.y, box.left + 2600, box.right - 4200
    board.draw(tape(box, None))
    board.draw([line(Line.TEETH, Spot(start, teeth), Spot(end, teeth))])
    board.draw([*stop(Spot(start, teeth)), *slider(Spot(end - 7000, teeth), 1)])
    tacks = [(Spot(end + x, teeth - 1500), Spot(end + x, teeth + 1500)) for x in (900, 1700, 2500)]
    middle = box.middle.x
    ticks = [
        (Spot(middle, edge), Spot(middle, edge + way * 1500))
        for edge, way in ((box.top, 1), (box.bottom, -1))
    ]
    board.draw([lines(Line.CLIP, [*tacks, *ticks])])
    over = box.top - SPACE // 2 - block_height() // 2
    for name, x in (("stop", start), ("centre", middle), ("slider", end - 7000), ("tacked", end + 2400)):
        board.say(name, Spot(x, over))
    wide, long = (words.cutting(length, units) for length in (made.length, made.width))
    board.measure(Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(1500, 0), words.label(wide))
    ends = Spot(box.left, box.bottom), Spot(box.right, box.bottom)
    board.measure(*ends, Spot(0, 1700), words.label(f"{long} or longer"))
    told = (
        f"The zip lies closed, its right side up, {wide} wide over both tapes and {long} or longer. The stop "
        "is at the left, the slider a hand’s width from the right end, where the tapes are tacked "
        "together; the centre is marked on both tapes."
    )
    return board.figure(box.bottom + 1700, told, "Right side up, shown wider than it is.")


def laid_between(
    outer: Strip, made: Strip, inner: Strip, allowance: Fraction, units: Units, title: str
) -> StepFigure:
    """Return a tape on the edge of a cloth from above, and all three layers from the side edge."""
    board = Board(title)
    top, middle = block_height() + SPACE, (LEFT + RIGHT) // 2
    cloth = Box(LEFT, top, RIGHT, top + DEEP)
    board.draw([plate(cloth, SHEET), *fill(Fabric(outer.tint, gap=2600), corners(cloth))])
    board.draw([line(Line.CUT, *corners(cloth))])
    lying = Box(LEFT - STUB, top, RIGHT + STUB, top + 5200)
    board.draw(tape(lying, lying.middle.y, is_hidden=True))
    board.draw([line(Line.CLIP, Spot(middle, top - 700), Spot(middle, top + 1500))])
    board.draw([dot(Spot(middle, top), 600, PETROL)])
    board.say("centres on each other", Spot(middle, top - block_height() // 2 - SPACE // 2))
    board.say(f"{outer.name}, right side up", Spot(middle, cloth.bottom - block_height()), within=cloth)
    low = cloth.bottom + SPACE
    _three_layers(board, (outer, made, inner), allowance, low, units)
    told = (
        f"The {outer.name} lies right side up; on its raw edge lies the tape of the {made.name}, right side "
        f"down, and on that the {inner.name}, right side down. All three edges are level, the centres lie on "
        f"each other, and the {made.name} sticks out beyond both sides. The seam will run "
        f"{words.cutting(allowance, units)} from the edges."
    )
    caption = f"Above without the {inner.name}; below from the side edge."
    return board.figure(low + 4 * GAP + BAND, told, caption)


def _three_layers(
    board: Board, strips: tuple[Strip, Strip, Strip], allowance: Fraction, top: int, units: Units
) -> None:
    """Draw the edges of a cloth, the tape and a cloth over each other, the raw edges at the left."""
    outer, made, inner = strips
    shown, left, zero = SHOWN * made.length, EDGE + 4000, Fraction(0)
    scale = Fraction(22_000) / shown
    state = State(strips={strip.name: strip for strip in strips})
    stack: tuple[tuple[Strip, Side, Fraction], ...] = (
        (inner, "wrong", shown),
        (made, "wrong", made.length),
        (outer, "right", shown),
    )
    for number, (strip, up, length) in enumerate(stack, 1):
        at = EdgeOn(scale, left, top + number * GAP, 0)
        layer = Layer(strip.name, zero, min(length, strip.length), zero, 1, up)
        board.draw(layers_drawn(state, [layer], at))
        board.fill(Box(left, at.floor - BAND // 2, at.x(layer.right), at.floor + BAND // 2))
        if strip.is_zip:
            board.draw([dot(Spot(at.x(made.place("teeth")), at.floor), 900, PETROL)])
        beside = max(at.x(layer.right) + SPACE, left + 9500)
        board.say(f"{strip.name}, {FACING[up]}", Spot(beside, at.floor), "start")
    seam = left + round(allowance * scale)
    board.draw([line(Line.STITCH, Spot(seam, top + GAP - 1800), Spot(seam, top + 3 * GAP + 1800))])
    low = top + 3 * GAP + BAND
    board.measure(Spot(left, low), Spot(seam, low), Spot(0, 1700), label_of(allowance, units))


def sewn_in(
    outer: Strip, made: Strip, inner: Strip, allowance: Fraction, units: Units, title: str
) -> StepFigure:
    """Return the edge of two cloths with a tape between them, seen from the wrong side of the upper one."""
    board = Board(title)
    top, right = 2 * block_height() + 2 * SPACE, RIGHT - 4000
    seam = top + max(round(allowance * Fraction(right - LEFT) / inner.width), LEAST_ALLOWANCE)
    wide = max(2 * (seam - top) + 2400, 6400)
    teeth, middle = top + wide // 2, (LEFT + right) // 2
    board.draw(tape(Box(LEFT - STUB, top, right + STUB, top + wide), teeth))
    upper = Box(LEFT, top, right, top + DEEP + 3000)
    board.draw([plate(upper, SHEET), *fill(Fabric(inner.tint, is_pale=True, gap=2600), corners(upper))])
    board.draw([line(Line.CUT, *corners(upper))])
    board.draw([line(Line.HIDDEN_FOLD, Spot(LEFT, teeth), Spot(right, teeth))])
    board.draw([line(Line.STITCH, Spot(LEFT, seam), Spot(right, seam))])
    board.draw(straight(Spot(LEFT - STUB - 3600, seam), Spot(LEFT - STUB - 500, seam)))
    board.say("edges level", Spot(middle, top - block_height() // 2 - SPACE))
    board.say("teeth underneath", Spot(middle, teeth + block_height() // 2 + 300), within=upper)
    board.say(f"{inner.name}, wrong side up", Spot(middle, upper.bottom - block_height()), within=upper)
    ends = Spot(right + STUB, top), Spot(right + STUB, seam)
    board.measure(*ends, Spot(900, 0), label_of(allowance, units))
    told = (
        f"The {outer.name} lies underneath, the {made.name} between, the {inner.name} on top, its wrong side "
        f"up. One row runs from side edge to side edge, {words.cutting(allowance, units)} from the raw "
        f"edges, beside the teeth; the {made.name} sticks out beyond both sides."
    )
    return board.figure(upper.bottom, told, "Through all three; the row keeps clear of the teeth.")
