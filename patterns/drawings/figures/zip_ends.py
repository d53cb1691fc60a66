"""A zip between its cloths, right side up: the rows beside it, and its ends sewn across."""

from collections.abc import Iterable
from fractions import Fraction

from patterns.drafting.lists import listed
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.state import Row, State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, dot, line
from patterns.drawings.svg import plate
from patterns.drawings.tokens import PETROL, SHEET

from .board import SPACE, WIDTH, Board, StepFigure, block_height
from .sides import label_of
from .zip_parts import STUB, bars, corners, slider, tape

LEFT, RIGHT = 9000, WIDTH - 9500
# Of a close look: from the raw edge to the side seam line, and from there to where a row begins; half the
# zip; from a fold to the row beside it.
ALLOWANCE, SHORT, HALF, OFF = 6000, 8000, 3400, 2600
# Of a whole zip: how high the cloths beside it are, and the zip.
CLOTH, ZIP = 8500, 8000
PARTS = {
    Fraction(1): "all the way",
    Fraction(1, 2): "half",
    Fraction(1, 3): "one third",
    Fraction(2, 3): "two thirds",
    Fraction(3, 4): "three quarters",
}


def stitched_beside(state: State, row: Row, made: Strip, units: Units, title: str) -> StepFigure:
    """Return a close look at the end of a zip, the row beside it, and how far from the sides that ends."""
    board = Board(title)
    has_other = any(each != row and made.name in dict(each.seam) for each in state.rows)
    middle = SPACE + HALF + (11_500 if has_other else 2600)
    upper = Box(LEFT, SPACE, RIGHT, middle - HALF)
    lower = Box(LEFT, middle + HALF, RIGHT, middle + HALF + 13_500)
    above = 0 if has_other else 2600
    board.draw(tape(Box(LEFT - STUB, middle - HALF - above, RIGHT, middle + HALF), middle))
    seam = LEFT + ALLOWANCE
    begins = seam + SHORT if row.short > 0 else LEFT
    cloth = _outside(state, row.strips)
    for box, way in ((lower, 1), *([(upper, -1)] if has_other else [])):
        board.draw([plate(box, SHEET), *fill(Fabric(cloth.tint, gap=2600), corners(box))])
        ends = Spot(box.right, box.top), Spot(box.left, box.top), Spot(box.left, box.bottom)
        board.draw([line(Line.OUTLINE, *ends, Spot(box.right, box.bottom))])
        level = box.top + OFF if way == 1 else box.bottom - OFF
        board.draw([line(Line.TOPSTITCH, Spot(begins, level), Spot(box.right, level))])
        board.draw([line(Line.SEAM, Spot(seam, box.top), Spot(seam, box.bottom))])
    _lengths(board, row, lower, (seam, begins), units)
    shows = ""
    if has_other:
        reveal = made.place("back seam line") - made.place("front seam line")
        ends = Spot(RIGHT, upper.bottom), Spot(RIGHT, lower.top), Spot(1100, 0)
        board.measure(*ends, label_of(reveal, units))
        shows = f" Between both rows of seam {words.cutting(reveal, units)} of the zip shows."
    told = f"A close look at one end of the zip, right side up. {_told(row, units)}{shows}"
    return board.figure(lower.bottom, told, "A close look at one end, right side up.")


def _lengths(board: Board, row: Row, box: Box, places: tuple[int, int], units: Units) -> None:
    """Write how far a row lies from the fold, and how far from the side seam line it begins."""
    seam, begins = places
    level = box.top + OFF
    board.measure(Spot(RIGHT, box.top), Spot(RIGHT, level), Spot(1100, 0), label_of(row.off, units))
    board.fill(Box(begins, level - 300, RIGHT, level + 300))
    if row.short > 0:
        board.measure(Spot(seam, level), Spot(begins, level), Spot(0, 2600), label_of(row.short, units))
        board.draw([dot(Spot(begins, level), 650, PETROL)])
    board.fill(Box(seam - 250, box.top, seam + 250, box.bottom))
    foot = Spot(seam + SPACE, box.bottom - block_height() // 2 - 300)
    board.say("side seam line", foot, "start", within=box)
    under = Spot((begins + RIGHT) // 2, level + block_height())
    board.say("fold above", under, is_needed=False, within=box)


def _told(row: Row, units: Units) -> str:
    ends = "It runs from side edge to side edge."
    if row.short > 0:
        ends = f"It begins and ends {words.cutting(row.short, units)} short of the side seam lines."
    names = listed(sorted(row.strips), "and")
    off = words.cutting(row.off, units)
    return f"The row lies {off} from the fold, through {names}, wrong sides together. {ends}"


def _outside(state: State, names: Iterable[str]) -> Strip:
    """Return that of the cloths which is seen from the zip's right side."""
    strips = [state.strips[name] for name in sorted(names)]
    return next((strip for strip in strips if strip.tint == "exterior"), strips[0])


def secured(state: State, made: Strip, title: str) -> StepFigure:
    """Return both ends of a zip sewn across in the allowances, and how far it is open."""
    board = Board(title)
    names = {name for seam in state.seams if made.name in dict(seam.ends) for name, _ in seam.ends}
    cloth = _outside(state, names - {made.name})
    across = [each.across for each in cloth.lines.values() if each.kind == "stitch"]
    off = min(place for place in across if place is not None)
    allowance = max(round(off * Fraction(RIGHT - LEFT) / cloth.width), 3000)
    seams = LEFT + allowance, RIGHT - allowance
    top = block_height() + 2 * SPACE
    upper = Box(LEFT, top, RIGHT, top + CLOTH)
    lower = Box(LEFT, upper.bottom + ZIP, RIGHT, upper.bottom + ZIP + CLOTH)
    board.draw(tape(Box(LEFT - STUB, upper.bottom, RIGHT + STUB, lower.top), None))
    by = state.unzipped.get(made.name, Fraction(0))
    at = seams[1] - round((seams[1] - seams[0]) * by) if by else seams[1] - 3500
    _teeth(board, at, seams[1], upper.bottom + ZIP // 2)
    for box in (upper, lower):
        board.draw([plate(box, SHEET), *fill(Fabric(cloth.tint, gap=2600), corners(box))])
        board.draw([line(Line.OUTLINE, *corners(box), is_closed=True)])
        board.draw([line(Line.SEAM, Spot(x, box.top), Spot(x, box.bottom)) for x in seams])
    for x in (LEFT + allowance // 2, RIGHT - allowance // 2):
        board.draw(bars(x, upper.bottom - 900, lower.top + 900))
    board.say("side seam line", Spot(seams[0] + SPACE, upper.middle.y), "start", within=upper)
    foot = Spot(LEFT + allowance // 2, lower.bottom + SPACE)
    board.draw([line(Line.LEADER, Spot(foot.x, lower.top + 900), foot)])
    board.say("sewn across", Spot(LEFT - 2000, foot.y + block_height() // 2), "start")
    stands = ""
    if by:
        board.say(f"open {words_of(by)}", Spot((at + seams[1]) // 2, lower.middle.y), within=lower)
        stands = f"; the zip stands open {words_of(by)} of its length"
    told = (
        "Both tapes are sewn together several times at each end, between the raw edges and the side seam "
        f"lines, the slider inside{stands}."
    )
    caption = "The zip between its two fabrics, right side up."
    return board.figure(foot.y + block_height(), told, caption)


def _teeth(board: Board, at: int, end: int, level: int) -> None:
    """Draw the teeth, shut up to the slider and apart from there to an end."""
    board.draw([line(Line.TEETH, Spot(LEFT - STUB, level), Spot(at, level))])
    for off in (-2500, 2500):
        apart = Spot(at + 2500, level + off), Spot(end - 2500, level + off)
        ends = Spot(end, level), Spot(RIGHT + STUB, level)
        board.draw([line(Line.TEETH, Spot(at, level), *apart, *ends)])
    board.draw(slider(Spot(at, level), -1))


def words_of(part: Fraction) -> str:
    """Return a part of a length in words.

    >>> words_of(Fraction(2, 3)), words_of(Fraction(1))
    ('two thirds', 'all the way')
    """
    return PARTS.get(part, f"{round(100 * part)} %")
