"""The folded work seen from above, with its side seams: sewn, trimmed, turned."""

from fractions import Fraction
from typing import Literal

from patterns.drafting.lists import listed
from patterns.drafting.recipe import Tint
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.folds import height_of
from patterns.drawings.folding.openings import Opening
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line

from . import sewn_on
from .arrows import straight
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height

MOST = 22_000
# How high the work may be with its handles up.
MOST_WITH_HANDLES = 34_000
BESIDE = 9000
CORNER = 2600
LEAST_ALLOWANCE = 1700


def sides_sewn(state: State, units: Units, title: str) -> StepFigure:
    """Return the work with both side seams, the lowest stretch of each sewn twice."""
    board = Board(title)
    box, (left, right), seam = _work(board, state)
    _edges(board, state, box, trimmed=None)
    for x in (left, right):
        board.draw([line(Line.STITCH, Spot(x, box.bottom), Spot(x, box.top))])
        board.draw([line(Line.STITCH, Spot(x - 500, box.bottom), Spot(x - 500, seam))])
    scale = Fraction(box.height) / height_of(state)
    for each in state.sewn.caught:
        x, level = (left, right)[not each.shows_left], box.top + round(each.below * scale)
        board.draw([line(Line.STITCH, Spot(x - 500, level - 1300), Spot(x - 500, level + 1300))])
        side = SPACE if each.shows_left else -SPACE - 500
        board.say(each.ribbon, Spot(x + side, level), "start" if each.shows_left else "end")
    between = _between(state)
    board.measure(Spot(left, box.bottom), Spot(right, box.bottom), Spot(0, 1800), label_of(between, units))
    doubled = _doubled(state)
    board.measure(Spot(box.right, seam), Spot(box.right, box.bottom), Spot(1400, 0), label_of(doubled, units))
    board.say("top seam", Spot(box.middle.x, box.top - block_height() // 2 - SPACE // 2))
    board.say("bottom folds", Spot(box.middle.x, box.bottom - block_height()), is_needed=False, within=box)
    board.draw(straight(Spot(box.left - 2200, box.bottom), Spot(box.left - 2200, box.bottom - 4500)))
    told = (
        f"Both side seams run from the bottom folds to the top seam, {words.cutting(between, units)} apart; "
        f"the lowest {words.cutting(doubled, units)} of each is sewn twice."
    )
    if state.sewn.caught:
        over = listed([each.ribbon for each in state.sewn.caught], "and")
        told += f" They are sewn twice over the {over} too."
    return board.figure(box.bottom, told, "From above, all layers together; sew in the arrow’s direction.")


def trimmed(state: State, left_over: Fraction, units: Units, title: str) -> StepFigure:
    """Return the work with its corners cut off outside the stitching."""
    board = Board(title)
    box, (left, right), _ = _work(board, state)
    _edges(board, state, box, trimmed=left - box.left)
    for x in (left, right):
        board.draw([line(Line.STITCH, Spot(x, box.bottom), Spot(x, box.top))])
    for x, far, y, down in (
        (box.left, left, box.bottom, -1),
        (box.right, right, box.bottom, -1),
        (box.left, left, box.top, 1),
        (box.right, right, box.top, 1),
    ):
        off = abs(far - x)
        board.draw(
            [line(Line.OPENING, Spot(x, y + down * (off + 700)), Spot(far + (700 if far < x else -700), y))]
        )
    half = words.label(words.cutting(left_over, units))
    board.say(f"inner layers: leave {half}", Spot(box.middle.x, box.bottom + SPACE + block_height() // 2))
    board.say("cut outside the stitching", box.middle, is_needed=False, within=box)
    told = (
        "The four corners are cut off slantwise, outside the stitching; of the inner layers’ allowance "
        f"{words.cutting(left_over, units)} is left."
    )
    return board.figure(box.bottom, told, "From above; the thick lines are cuts.")


def turned_out(before: State, after: State, opening: Opening, units: Units, title: str) -> StepFigure:
    """Return the work wrong side out with its opening, and the same right side out."""
    board = Board(title)
    half = WIDTH // 2 - 4500
    sides = before.sides
    assert sides is not None
    wide, high = sides.right - sides.left, height_of(before)
    inside_out, outside = before.layers[-1], after.layers[-1]
    rise = sewn_on.rise(after, outside.strip)
    scale = min(
        Fraction(half - 2 * EDGE) / wide, Fraction(MOST) / high, Fraction(MOST_WITH_HANDLES) / (high + rise)
    )
    top = max(2 * block_height() + SPACE, EDGE + round(rise * scale))
    off = WIDTH // 4 - round(wide * scale) // 2 - 2000
    first = box_of(off, top, wide, high, scale)
    second = box_of(WIDTH - off - round(wide * scale), top, wide, high, scale)
    face(board, first, before.strips[inside_out.strip].tint, inside_out.up)
    sewn_on.handles_drawn(board, after, outside.strip, Spot(second.middle.x, second.top), scale)
    face(board, second, after.strips[outside.strip].tint, outside.up)
    sewn_on.pocket_drawn(board, after, outside.strip, second, scale)
    gap = [first.left + round((each - sides.left) * scale) for each in (opening.start, opening.end)]
    board.draw([line(Line.OPENING, Spot(gap[0], first.top), Spot(gap[1], first.top))])
    middle = (gap[0] + gap[1]) // 2
    board.draw(straight(Spot(middle, first.top + 5000), Spot(middle, first.top - 2600)))
    board.draw(straight(Spot(first.right + 1500, first.middle.y), Spot(second.left - 1500, second.middle.y)))
    for box, name in ((first, "wrong side out"), (second, "right side out")):
        board.say(name, Spot(box.middle.x, box.bottom + SPACE + block_height() // 2))
    board.say("opening", Spot(first.middle.x, top - 2600 - block_height() // 2), is_needed=False)
    told = (
        "Left the work wrong side out, its opening in the top seam; right the same turned, "
        f"the right side of the {outside.strip} outside{sewn_on.told(after, outside.strip)}, "
        f"{words.cutting(wide, units)} by {words.cutting(high, units)}."
    )
    return board.figure(
        max(first.bottom, second.bottom), told, "Everything comes out through the opening, the thickest line."
    )


def label_of(length: Fraction, units: Units) -> str:
    return words.label(words.cutting(length, units))


def _between(state: State) -> Fraction:
    assert state.sides is not None
    return state.sides.right - state.sides.left


def _doubled(state: State) -> Fraction:
    assert state.sides is not None
    return state.sides.doubled


def box_of(left: int, top: int, wide: Fraction, high: Fraction, scale: Fraction) -> Box:
    return Box(left, top, left + round(wide * scale), top + round(high * scale))


def _work(board: Board, state: State) -> tuple[Box, tuple[int, int], int]:
    """Draw the folded work wrong side out; return its box, where its side seams run, and how far up twice."""
    sides = state.sides
    assert sides is not None
    strip = state.strips[state.layers[-1].strip]
    high = height_of(state)
    scale = min(Fraction(WIDTH - 2 * BESIDE) / strip.width, Fraction(MOST) / high)
    wide = round(strip.width * scale)
    left, top = (WIDTH - wide) // 2, block_height() + SPACE
    box = Box(left, top, left + wide, top + round(high * scale))
    off = max(round(sides.left * scale), LEAST_ALLOWANCE)
    return box, (box.left + off, box.right - off), box.bottom - round(sides.doubled * scale)


def _edges(board: Board, state: State, box: Box, trimmed: int | None) -> None:
    top = state.layers[-1]
    off = trimmed + 700 if trimmed else 0
    aside = trimmed - 700 if trimmed else 0
    corners = (
        Spot(box.left, box.bottom - off),
        Spot(box.left, box.top + off),
        Spot(box.left + aside, box.top),
        Spot(box.right - aside, box.top),
        Spot(box.right, box.top + off),
        Spot(box.right, box.bottom - off),
        Spot(box.right - aside, box.bottom),
        Spot(box.left + aside, box.bottom),
    )
    fabric = Fabric(state.strips[top.strip].tint, is_pale=top.up == "wrong", gap=2600)
    board.draw([*fill(fabric, corners), line(Line.EDGE, *corners, is_closed=True)])
    board.shun(*corners, is_closed=True)


def face(board: Board, box: Box, tint: Tint | None, up: Literal["right", "wrong"]) -> None:
    corners = (
        Spot(box.left, box.bottom),
        Spot(box.left, box.top),
        Spot(box.right, box.top),
        Spot(box.right, box.bottom),
    )
    board.draw(fill(Fabric(tint, is_pale=up == "wrong", gap=2600), corners))
    board.draw([line(Line.OUTLINE, *corners, is_closed=True)])
