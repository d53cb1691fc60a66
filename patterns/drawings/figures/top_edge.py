"""The top edge of what is turned: its seam on the edge, its opening closed, the rows of stitches below it."""

from collections.abc import Sequence
from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.folds import height_of
from patterns.drawings.folding.openings import Opening
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.svg import path_through
from patterns.drawings.tokens import INK, SHEET

from . import sewn_on
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, FACE, FACES, INNER, OFF, stroke
from .sides import MOST, MOST_WITH_HANDLES, box_of, face, label_of

# On the page: how wide the work is, how high the part that is cut through.
WORK = 30_000
SECTION = 20_000


def edged(
    state: State, units: Units, title: str, rows: Sequence[Fraction], opening: Opening | None
) -> StepFigure:
    """Return the top edge on the work, and cut through at the opening, turned in.

    rows: how far below it each row of stitches runs, the nearest first.
    """
    board = Board(title)
    sides = state.sides
    assert sides is not None
    wide, high = sides.right - sides.left, height_of(state)
    outside = state.layers[-1]
    rise = sewn_on.rise(state, outside.strip)
    scale = min(Fraction(WORK) / wide, Fraction(MOST) / high, Fraction(MOST_WITH_HANDLES) / (high + rise))
    top = max(block_height() + 2 * SPACE, EDGE + round(rise * scale))
    box = box_of(EDGE, top, wide, high, scale)
    sewn_on.handles_drawn(board, state, outside.strip, Spot(box.middle.x, box.top), scale)
    face(board, box, state.strips[outside.strip].tint, outside.up)
    sewn_on.pocket_drawn(board, state, outside.strip, box, scale)
    low = box.top
    for below in rows:
        low = max(box.top + round(below * scale), low + 900)
        board.draw([line(Line.TOPSTITCH, Spot(box.left, low), Spot(box.right, low))])
    if opening:
        gap = [box.left + round((each - sides.left) * scale) for each in (opening.start, opening.end)]
        board.draw([line(Line.OPENING, Spot(gap[0], box.top), Spot(gap[1], box.top))])
        level = top - block_height() // 2 - SPACE // 2
        if beside := sewn_on.reach(state, outside.strip):
            # Between the ends of a handle there is seldom room.
            board.say("opening", Spot(box.middle.x + round(beside * scale) + SPACE, level), "start")
        else:
            board.say("opening", Spot((gap[0] + gap[1]) // 2, level), is_needed=False)
    names = dict.fromkeys(layer.strip for layer in reversed(state.layers))
    strips = [state.strips[name] for name in names]
    section(board, strips, Box(WIDTH - 20_000, top, WIDTH - EDGE, top + SECTION), rows, units)
    told = "The top seam lies exactly on the edge; along the opening both allowances are turned in."
    if rows:
        far = " and ".join(words.cutting(below, units) for below in rows)
        told += f" Topstitching runs once round, {far} below it."
    return board.figure(max(box.bottom, top + SECTION), told, "Right, cut through at the opening.")


def section(board: Board, strips: Sequence[Strip], box: Box, rows: Sequence[Fraction], units: Units) -> None:
    """Draw two cloths standing at the top edge, cut through, each turned in: the outer one to the right.

    rows: how far below the edge each row of stitches runs.
    """
    middle = box.left + 6000
    outside, inside = strips[0], strips[-1]
    for strip, way in ((outside, 1), (inside, -1)):
        colour, dashes = FACES[strip.tint]
        outer, inner = middle + way * 3000, middle + way * 1300
        top = box.top + BAND // 2
        path = path_through(
            [Spot(outer, box.bottom), Spot(outer, top), Spot(inner, top), Spot(inner, box.top + 9000)]
        )
        side = outer + way * OFF
        board.draw([stroke(path, INK, BAND), stroke(path, SHEET, INNER)])
        board.draw([stroke(path_through([Spot(side, box.bottom), Spot(side, top)]), colour, FACE, dashes)])
    for number, below in enumerate(rows):
        row = box.top + (5000 if len(rows) == 1 else (2600, 6600)[number])
        board.draw([line(Line.TOPSTITCH, Spot(middle - 4300, row), Spot(middle + 4300, row))])
        edge = Spot(middle + 3500, box.top + 300)
        away = 1500 + 1100 * (len(rows) - 1 - number)
        board.measure(edge, Spot(edge.x, row), Spot(away, 0), label_of(below, units))
    level = box.bottom - block_height()
    board.say(outside.name, Spot(middle + 4200, level), "start", is_needed=False)
    board.say(inside.name, Spot(middle - 4200, level), "end", is_needed=False)
