"""The finished thing folded up into a parcel, and its pocket turned over that."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.dimension import DOT
from patterns.drawings.folding.bag_parts import Parcel, Pocket
from patterns.drawings.folding.folds import height_of
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line

from . import sewn_on
from .arrows import straight
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height, text_wide
from .patches import corners_of, label_of, patch, under

AWAY = 1600
APART = 3400
HIGH = 22_000
# How far handles may hang down over the back.
MOST = 30_000


def packed(
    state: State, parcel: Parcel, pocket: Pocket, below: Fraction, units: Units, title: str
) -> StepFigure:
    """Return the parcel in three moments, from the back, its pocket underneath."""
    board = Board(title)
    tint = state.strip(parcel.cloth).tint
    high = height_of(state)
    widths = 3 * parcel.across, max(parcel.across, pocket.width), max(parcel.across, pocket.width)
    turn = label_of(parcel.up, units)
    beside = AWAY + DOT + SPACE + text_wide(turn)  # the height of the parcel
    handles = sewn_on.rise(state, parcel.cloth)
    scale = min(
        Fraction(WIDTH - 2 * EDGE - 2 * APART - beside) / sum(widths),
        Fraction(HIGH) / high,
        Fraction(MOST) / max(high, handles),
    )
    first, second, third = _boxes(parcel, high, widths, scale)
    place = round((parcel.up - below) * scale)
    _pocket(board, second, pocket, place, scale)
    _pocket(board, third, pocket, -round(below * scale), scale)
    for box in (first, second, third):
        patch(board, corners_of(box), tint, edge=Line.OUTLINE)
    sewn_on.handles_drawn(board, state, parcel.cloth, Spot(first.middle.x, first.top), scale, is_down=True)
    _hidden(board, first, pocket, place, scale)
    _fold_lines(board, first, second, int(high / parcel.up))
    low = max(first.bottom, second.bottom)
    board.measure(
        Spot(second.left, low), Spot(second.right, low), Spot(0, AWAY), label_of(parcel.across, units)
    )
    edge = max(third.right, third.middle.x + round(pocket.width * scale) // 2)
    board.measure(Spot(edge, third.top), Spot(edge, third.bottom), Spot(AWAY, 0), turn)
    foot = max(low, first.top + round(handles * scale))
    board.say("1", Spot(first.middle.x, foot + block_height() // 2 + 600))
    under(board, "2", second.left - 1800, low)
    under(board, "3", third.middle.x, max(third.bottom, third.top + round((pocket.height - below) * scale)))
    across, up, out = (
        words.cutting(length, units)
        for length in (parcel.across, parcel.up, (pocket.width - parcel.across) / 2)
    )
    told = (
        f"From the back, the pocket underneath and the handles down: both sides are folded in, {across} "
        f"wide; then the top is folded down and the rest up in turns, {up} high. The pocket stands out {out} "
        f"at both sides, and the first fold lies {words.cutting(below, units)} below its mouth."
    )
    return board.figure(foot, told, "From the back: flat, in thirds, folded up; dashed, the pocket.")


def _boxes(
    parcel: Parcel, high: Fraction, widths: tuple[Fraction, ...], scale: Fraction
) -> tuple[Box, Box, Box]:
    """Return where it lies flat, in thirds, and folded up, each in the middle of its own width.

    Folded up it lies where its second turn was, below the first fold.
    """
    top, left, found = block_height(), EDGE, []
    shown = ((3 * parcel.across, Fraction(0), high), (parcel.across, Fraction(0), high))
    for wide, (across, down, tall) in zip(
        widths, (*shown, (parcel.across, parcel.up, parcel.up)), strict=True
    ):
        room, inner = round(wide * scale), round(across * scale)
        start, level = left + (room - inner) // 2, top + round(down * scale)
        found.append(Box(start, level, start + inner, level + round(tall * scale)))
        left += room + APART
    flat, thirds, folded = found
    return flat, thirds, folded


def _fold_lines(board: Board, first: Box, second: Box, turns: int) -> None:
    """Draw the folds of the first two moments, with arrows for the sides."""
    third = first.width // 3
    for x in (first.left + third, first.right - third):
        board.draw([line(Line.FOLD, Spot(x, first.top), Spot(x, first.bottom))])
    for x, way, share in ((first.left, 1, 5), (first.right, -1, 9)):
        level = first.bottom - first.height * share // 50
        board.draw(straight(Spot(x + way * 400, level), Spot(x + way * third * 7 // 4, level)))
    for number in range(1, turns):
        level = second.top + second.height * number // turns
        board.draw([line(Line.FOLD, Spot(second.left, level), Spot(second.right, level))])


def _pocket(board: Board, box: Box, pocket: Pocket, down: int, scale: Fraction) -> None:
    """Draw the pocket that looks out from under a parcel. down: how far below the top its mouth lies."""
    half = round(pocket.width * scale) // 2
    top = box.top + down
    under_it = Box(box.middle.x - half, top, box.middle.x + half, top + round(pocket.height * scale))
    patch(board, corners_of(under_it), "exterior", is_wrong=True, edge=Line.EDGE)


def _hidden(board: Board, box: Box, pocket: Pocket, down: int, scale: Fraction) -> None:
    half = round(pocket.width * scale) // 2
    top = box.top + down
    hidden = Box(box.middle.x - half, top, box.middle.x + half, top + round(pocket.height * scale))
    board.draw([line(Line.TOPSTITCH, *corners_of(hidden), is_closed=True)])


def stowed(state: State, parcel: Parcel, pocket: Pocket, units: Units, title: str) -> StepFigure:
    """Return the pocket turned inside out over the parcel, which is seen through it."""
    board = Board(title)
    scale = min(Fraction(WIDTH - 24_000) / pocket.width, Fraction(HIGH) / pocket.height)
    top, half = block_height(), round(pocket.width * scale) // 2
    box = Box(WIDTH // 2 - half, top, WIDTH // 2 + half, top + round(pocket.height * scale))
    patch(board, corners_of(box), state.strip(pocket.name).tint, edge=Line.OUTLINE)
    wide, high = round(parcel.across * scale) // 2, round(parcel.up * scale) // 2
    inner = Box(box.middle.x - wide, box.middle.y - high, box.middle.x + wide, box.middle.y + high)
    board.draw([line(Line.TOPSTITCH, *corners_of(inner), is_closed=True)])
    middle, line_high = box.middle, block_height()
    is_low = inner.height < 4 * line_high  # too low for both names: the pocket’s stands over it
    name = Spot(middle.x, (box.top + inner.top) // 2 if is_low else middle.y - line_high)
    parcel_name = middle if is_low else Spot(middle.x, middle.y + line_high)
    board.say("parcel inside", parcel_name, is_needed=False, within=inner)
    if is_low:
        board.fill(inner)
    board.say("pocket", name, is_needed=False, within=box)
    board.measure(
        Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(0, AWAY), label_of(pocket.width, units)
    )
    board.measure(
        Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(AWAY, 0), label_of(pocket.height, units)
    )
    width, height = (words.cutting(length, units) for length in (pocket.width, pocket.height))
    told = (
        f"The pocket, {width} by {height}, is turned inside out over the parcel of "
        f"{words.cutting(parcel.across, units)} by {words.cutting(parcel.up, units)}; only the pocket is "
        "seen."
    )
    return board.figure(box.bottom, told, "Only the pocket is to be seen; dashed, the parcel in it.")
