"""What hangs from a zip, turned right side out; its short side with the triangle; its opening closed."""

from fractions import Fraction
from math import isqrt

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.hung import is_hung, pleats
from patterns.drawings.folding.openings import Opening
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.svg import plate
from patterns.drawings.tokens import SHEET

from .above import BESIDE, MOST, Plan, faces, names
from .arrows import straight
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .sides import label_of
from .zip_parts import corners

# Of a figure in three parts: how wide each is, and how far apart.
THIRD, APART = 15_500, 3500
# A length with no end is carried to a millionth of a mm.
FINE = 10**6


def turned_through(
    before: State, after: State, opening: Opening | None, units: Units, title: str
) -> StepFigure:
    """Return the work as it was sewn, the same turned, and its short side with the triangle."""
    board = Board(title)
    top = block_height() + 2 * SPACE
    first, second = (_small(state, number, top) for number, state in enumerate((before, after)))
    for state, plan in ((before, first), (after, second)):
        faces(board, state, plan)
    if opening:
        _way_out(board, before, opening, first)
    level = first.box.middle.y
    board.draw(straight(Spot(first.box.right + 600, level), Spot(second.box.left - 600, level)))
    foot = max(first.box.bottom, second.box.bottom)
    third = Box(EDGE + 2 * (THIRD + APART), top, WIDTH - EDGE, foot)
    foot = max(foot, _short_side(board, after, third, units))
    for box, name in ((first.box, "before"), (second.box, "turned"), (third, "short side")):
        board.say(name, Spot(box.middle.x, foot + SPACE + block_height() // 2))
    for state, plan in ((before, first), (after, second)):
        names(board, state, plan, is_alone=False)
    way = "through the opening and the zip" if opening else "through the open zip"
    return board.figure(foot, _told(after, units), f"Everything comes out {way}.")


def _small(state: State, number: int, top: int) -> Plan:
    """Return the work in one of the three places of the figure, without its allowances."""
    sides = state.sides
    assert sides is not None
    wide = sides.right - sides.left
    low, high = min(each.left for each in state.layers), max(each.right for each in state.layers)
    scale = min(Fraction(THIRD) / wide, Fraction(MOST - 3000) / (high - low))
    left = EDGE + THIRD // 2 + number * (THIRD + APART) - round(wide * scale) // 2
    box = Box(left, top, left + round(wide * scale), top + round((high - low) * scale))
    return Plan(box, scale, low, (box.left, box.right))


def _way_out(board: Board, state: State, opening: Opening, plan: Plan) -> None:
    """Draw the opening on the fold in which it lies."""
    sides = state.sides
    assert sides is not None
    gap = [plan.box.left + round((each - sides.left) * plan.scale) for each in (opening.start, opening.end)]
    level = _opening_level(state, opening, plan)
    board.draw([line(Line.OPENING, Spot(gap[0], level), Spot(gap[1], level))])
    over = Spot(plan.box.middle.x, plan.box.top - block_height() // 2 - SPACE // 2)
    board.say("opening", over, is_needed=False)


def _told(state: State, units: Units) -> str:
    sides = state.sides
    assert sides is not None
    hangs = _hanging(state)
    tail = f", and the {hangs} hangs out of the open zip" if hangs else ""
    return (
        f"Left the work as it was sewn; beside it the same turned: the right side of the {state.outside} "
        f"lies outside{tail}. At the right the short side once the base is opened: a triangle lies on "
        f"it, its point {words.cutting(sides.doubled, units)} up the side seam."
    )


def _hanging(state: State) -> str:
    """The cloth that hangs out of the zip; "" if none does."""
    if not is_hung(state):
        return ""
    return next(layer.strip for layer in state.layers if layer.strip != state.outside)


def _short_side(board: Board, state: State, room: Box, units: Units) -> int:
    """Draw the short side with its triangle, seen straight on, standing; return where it ends.

    The walls slant from the base, twice as deep as the pleats, to the zip: a right-angled triangle each way.
    """
    pleat = pleats(state)[0]
    deep = pleat.right - pleat.left
    wall = max(layer.right - layer.left for layer in state.layers if layer.strip == pleat.strip)
    stands = Fraction(isqrt(int((wall**2 - deep**2) * FINE**2)), FINE)
    scale = min(Fraction(room.width - 8500) / (2 * deep), Fraction(MOST - 6000) / stands)
    foot = room.top + round(stands * scale)
    left = room.left
    right, middle = left + round(2 * deep * scale), left + round(deep * scale)
    point = Spot(middle, foot - round(deep * stands / wall * scale))
    outline = Spot(left, foot), Spot(middle, room.top), Spot(right, foot)
    tint = state.strips[pleat.strip].tint
    board.draw(fill(Fabric(tint, is_shaded=True), outline))
    board.draw(
        [
            line(Line.OUTLINE, *outline, is_closed=True),
            line(Line.SEAM, Spot(middle, room.top), Spot(middle, foot)),
        ]
    )
    flap = Spot(left, foot), point, Spot(right, foot)
    board.draw([*fill(Fabric(tint, is_pale=True), flap), line(Line.EDGE, *flap, is_closed=True)])
    board.measure(Spot(right, point.y), Spot(right, foot), Spot(1200, 0), label_of(deep, units))
    return foot


def _opening_level(state: State, opening: Opening, plan: Plan) -> int:
    along = state.strips[opening.strip].place(opening.mark)
    layer = next(
        layer
        for layer in reversed(state.layers)
        if layer.strip == opening.strip and along in (layer.start, layer.end)
    )
    return plan.y(layer.place(along))


def closed(
    state: State, strip: Strip, opening: Opening, off: Fraction, units: Units, title: str
) -> StepFigure:
    """Return an opening stitched shut: the edge in which it lies."""
    board = Board(title)
    sides = state.sides
    assert sides is not None
    top = 2 * block_height() + 2 * SPACE
    box = Box(EDGE + 3000, top, WIDTH - BESIDE, top + 14_000)
    left_bottom, left_top, right_top, right_bottom = corners(box)
    board.draw([plate(box, SHEET), *fill(Fabric(strip.tint, gap=2600), corners(box))])
    board.draw([line(Line.OUTLINE, left_top, left_bottom, right_bottom, right_top)])
    scale = Fraction(box.width) / (sides.right - sides.left)
    start, end = (box.left + round((each - sides.left) * scale) for each in (opening.start, opening.end))
    board.draw([line(Line.OPENING, Spot(start, box.bottom), Spot(end, box.bottom))])
    level = box.bottom - 2300
    board.draw([line(Line.TOPSTITCH, Spot(start - 1800, level), Spot(end + 1800, level))])
    board.measure(Spot(box.right, level), Spot(box.right, box.bottom), Spot(1400, 0), label_of(off, units))
    length = opening.end - opening.start
    board.measure(Spot(start, box.bottom), Spot(end, box.bottom), Spot(0, 1700), label_of(length, units))
    board.say(f"{strip.name}, right side up", Spot(box.middle.x, box.top + block_height()), within=box)
    board.say("both edges caught", Spot(box.middle.x, level - block_height()), within=box)
    told = (
        f"The two edges of the opening lie on each other, turned in; one row holds both over all "
        f"{words.cutting(length, units)} and a little beyond, {words.cutting(off, units)} from the edge."
    )
    return board.figure(box.bottom + 1700, told, f"The edge of the {strip.name}, seen from above.")
