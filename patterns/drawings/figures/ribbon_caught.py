"""Ribbons basted to the side edges of a cloth: one folded, its tails rolled up, and one as a loop."""

from collections.abc import Sequence
from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.dimension import DOT
from patterns.drawings.folding.bag_parts import Caught
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, dot, line
from patterns.drawings.svg import millimetres, path_through
from patterns.drawings.tokens import INK, PETROL, SHEET

from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height, text_wide
from .edge_on import stroke
from .patches import label_of, patch, scaled

AWAY = 1500
BAND = 1700
ROLL = 2300
LEAST, MOST = 7500, 19_000


def basted_at_the_sides(state: State, caught: Sequence[Caught], units: Units, title: str) -> StepFigure:
    """Return a cloth from its top seam to below its ribbons, right side up, with each where it is basted."""
    board = Board(title)
    strip = state.strip(caught[0].cloth)
    main = max(caught, key=lambda each: each.is_folded)
    below = label_of(main.below, units)
    left = max(11_500, EDGE + text_wide(below) + SPACE + DOT + AWAY)
    right, top = WIDTH - 2500, 2 * block_height() + SPACE
    scale = Fraction(right - left) / strip.width
    levels = [top + min(max(round(each.below * scale), LEAST), MOST) for each in caught]
    box = Box(left, top, right, max(levels) + 8500)
    patch(
        board,
        (Spot(left, box.bottom), Spot(left, top), Spot(right, top), Spot(right, box.bottom)),
        strip.tint,
        is_closed=False,
    )
    allowance = scaled(caught[0].allowance, scale, 2600)
    for x in (left + allowance, right - allowance):
        board.draw([line(Line.SEAM, Spot(x, top), Spot(x, box.bottom))])
        board.shun(Spot(x, top), Spot(x, box.bottom))
    for each, level in zip(caught, levels, strict=True):
        (_folded if each.is_folded else _looped)(board, each, box, level, allowance, scale)
    level = levels[list(caught).index(main)]
    edge, way = (left, -1) if main.shows_left else (right, 1)
    inner = edge - way * allowance
    board.measure(Spot(left, top), Spot(left, level), Spot(-AWAY, 0), below)
    ends = sorted((edge, inner))
    board.measure(Spot(ends[0], top), Spot(ends[1], top), Spot(0, -1400), label_of(main.allowance, units))
    board.say("top seam", Spot(box.middle.x, top - block_height() // 2 - 400), is_needed=False)
    return board.figure(box.bottom, _told(caught, strip.name, units), _caption(caught))


def _told(caught: Sequence[Caught], cloth: str, units: Units) -> str:
    parts = [f"The {cloth} lies right side up."]
    for each in caught:
        side = "left" if each.shows_left else "right"
        below, shown = words.cutting(each.below, units), words.cutting(each.shown, units)
        if each.is_folded:
            parts.append(
                f"The fold of the {each.ribbon} lies level with its {side} raw edge, {below} below the top "
                f"seam, held by two short rows inside the allowance; both tails, {shown} each, point inwards "
                "and are rolled up and pinned."
            )
        else:
            parts.append(
                f"The ends of the {each.ribbon} lie level with the {side} raw edge, {below} below the top "
                f"seam; {shown} of it show as a loop that points inwards."
            )
    return " ".join(parts)


def _caption(caught: Sequence[Caught]) -> str:
    return (
        "Right side up; only fold and ends lie in the allowance."
        if len(caught) > 1
        else ("Right side up; only its end lies in the allowance.")
    )


def _folded(board: Board, caught: Caught, box: Box, level: int, allowance: int, scale: Fraction) -> None:
    """Draw a ribbon with its fold on the edge; its tails lie on each other up to a roll in the middle."""
    edge, way = (box.left, 1) if caught.shows_left else (box.right, -1)
    roll = Spot(box.middle.x, level)
    for off in (350, 0):
        band = path_through([Spot(edge, level + off), Spot(roll.x, level + off)])
        board.draw([stroke(band, INK, BAND), stroke(band, SHEET, BAND - 400)])
    board.draw([line(Line.CUT, Spot(edge, level - BAND // 2), Spot(edge, level + BAND // 2 + 350))])
    _basting(board, edge, way, level, allowance)
    board.draw([dot(roll, ROLL, INK), dot(roll, ROLL - 230, SHEET)])
    board.draw([stroke(_spiral(roll), INK, 230)])
    board.draw([line(Line.EDGE, Spot(roll.x, level - ROLL - 1300), Spot(roll.x, level + ROLL + 900))])
    board.draw([dot(Spot(roll.x, level - ROLL - 1300), 480, PETROL)])
    board.fill(Box(roll.x - ROLL, level - ROLL - 1800, roll.x + ROLL, level + ROLL + 900))
    middle = (edge + way * allowance + roll.x - way * ROLL) // 2
    board.say("ribbon", Spot(middle, level + BAND // 2 + block_height() // 2 + 700), is_needed=False)
    board.say("tails, rolled up", Spot(roll.x, level + ROLL + block_height() // 2 + 1300))


def _looped(board: Board, caught: Caught, box: Box, level: int, allowance: int, scale: Fraction) -> None:
    """Draw a narrower ribbon with both ends on the edge, its loop pointing inwards."""
    edge, way = (box.left, 1) if caught.shows_left else (box.right, -1)
    long = min(max(round(caught.shown * scale / 2), 3500), box.width // 4)
    turn = edge + way * (allowance + long)
    r = millimetres(800)
    sweep = 0 if way < 0 else 1
    loop = (
        path_through([Spot(edge, level - 800), Spot(turn, level - 800)])
        + f"A{r} {r} 0 0 {sweep} {millimetres(turn)} {millimetres(level + 800)}"
        + f"L{millimetres(edge)} {millimetres(level + 800)}"
    )
    board.draw([stroke(loop, INK, 1100), stroke(loop, SHEET, 740)])
    board.draw([line(Line.CUT, Spot(edge, level - 1400), Spot(edge, level + 1400))])
    _basting(board, edge, way, level, allowance)
    beside = Spot(edge + way * (allowance + SPACE), level + 1400 + block_height() // 2 + 400)
    board.say(caught.ribbon, beside, "end" if way < 0 else "start")


def _basting(board: Board, edge: int, way: int, level: int, allowance: int) -> None:
    for number in (1, 2):
        x = edge + way * allowance * number // 3
        board.draw([line(Line.STITCH, Spot(x, level - BAND * 3 // 4), Spot(x, level + BAND))])


def _spiral(at: Spot) -> str:
    """Return the way of a rolled ribbon, seen from its edge: half circles, each smaller."""
    way = path_through([Spot(at.x - ROLL, at.y)])
    radius, x, side = ROLL, at.x - ROLL, 1
    while radius > 700:
        radius -= 330
        x += side * 2 * radius
        way += f"A{millimetres(radius)} {millimetres(radius)} 0 0 1 {millimetres(x)} {millimetres(at.y)}"
        side = -side
    return way
