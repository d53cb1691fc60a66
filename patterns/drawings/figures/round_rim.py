"""The rim of two round bags, one in the other, seen from above: quarter on quarter, sewn all round."""

from fractions import Fraction

from patterns.drafting.recipe import Tint
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.rounds import quarters_of
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Point, Spot
from patterns.drawings.lines import Line, line, lines
from patterns.drawings.page import exact
from patterns.drawings.svg import millimetres, path_through
from patterns.drawings.tokens import INK, SHEET

from .board import SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, FACE, FACES, INNER, OFF, stroke
from .patches import label_of

OUTER, APART = 14_000, 1500
# So many stitches are drawn all round: enough to be seen as a row.
STITCHES = 96
# Half a turn by its diameter (Metius, about 1600): to a seventh of a millionth.
HALF_TURN = Fraction(355, 113)


def rim_from_above(state: State, units: Units, title: str) -> StepFigure:
    """Return both raw edges from above, their seams and quarters on each other; once sewn, with the row."""
    board = Board(title)
    assert state.sewn.nested is not None
    inner, outer = (state.sewn.bags[name] for name in state.sewn.nested)
    rim, once = state.sewn.rim, exact(inner.round)
    middle = Spot(WIDTH // 2, 2 * block_height() + SPACE + OUTER + 1500)
    near, far = OUTER - APART, OUTER
    for radius, bag, side in ((far, outer, -OFF), (near, inner, OFF)):
        _ring(board, middle, radius, side, state.strip(bag.strip).tint)
    opening = rim.opening if rim else None
    ends = (
        [(place - outer.allowance) / once for place in (opening.start, opening.end)]
        if opening
        else [Fraction(1)] * 2
    )
    if rim:
        shares = [Fraction(2 * step + 1, 2 * STITCHES) for step in range(STITCHES)]
        sewn = [share for share in shares if not ends[0] < share < ends[1]]
        board.draw(
            [lines(Line.EDGE, [(_at(middle, s, near - 500), _at(middle, s, far + 500)) for s in sewn])]
        )
    if opening:
        steps = [ends[0] + (ends[1] - ends[0]) * step / 12 for step in range(13)]
        for radius in (near, far):
            board.draw([line(Line.OPENING, *(_at(middle, share, radius) for share in steps))])
    for place in quarters_of(state, inner):
        share = place / once
        board.draw([line(Line.CLIP, _at(middle, share, near - 1600), _at(middle, share, far + 1600))])
    board.fill(Box(middle.x - far - 1600, middle.y - 600, middle.x - near + 1600, middle.y + 600))
    board.fill(Box(middle.x + near - 1600, middle.y - 600, middle.x + far + 1600, middle.y + 600))
    once_round = words.cutting(inner.round, units)
    board.say("side seams", Spot(middle.x, middle.y - far - 1600 - block_height() // 2 - 300))
    board.say(inner.name, Spot(middle.x, middle.y - near * 2 // 5))
    board.say(f"round: {words.label(once_round)}", middle)
    board.say("quarter", Spot(middle.x + far + 1600 + SPACE, middle.y), "start")
    board.say(outer.name, Spot(middle.x - far * 3 // 4 - SPACE, middle.y - far * 3 // 4 - SPACE), "end")
    told = (
        f"From above: the {inner.name} lies in the {outer.name}, right sides together, the raw edges level, "
        f"side seam on side seam and quarter on quarter. Once round is {once_round}."
    )
    if rim:
        told += f" The seam runs all round, {words.cutting(rim.allowance, units)} below the raw edges."
    if opening:
        board.say(f"leave {label_of(opening.length, units)} open", Spot(middle.x, middle.y + near * 2 // 5))
        told += f" It is left open over {words.cutting(opening.length, units)}, marked on the {outer.name}."
    caption = "From above: thick marks are the quarters; the coloured lines are right sides."
    if opening:
        caption = "From above, sewn all round; the thick stretch stays open."
    return board.figure(middle.y + far + 1600, told, caption)


def _ring(board: Board, middle: Spot, radius: int, side: int, tint: Tint | None) -> None:
    """Draw a raw edge all round. side: how far off its middle its right side lies, outwards."""
    colour, dashes = FACES[tint]
    whole = _circle(middle, radius)
    board.draw([stroke(whole, INK, BAND), stroke(whole, SHEET, INNER)])
    board.draw([stroke(_circle(middle, radius + side), colour, FACE, dashes)])


def _circle(middle: Spot, radius: int) -> str:
    r = millimetres(radius)
    top, foot = Spot(middle.x, middle.y - radius), Spot(middle.x, middle.y + radius)
    return (
        path_through([top])
        + f"A{r} {r} 0 0 1 {millimetres(foot.x)} {millimetres(foot.y)}"
        + f"A{r} {r} 0 0 1 {millimetres(top.x)} {millimetres(top.y)}Z"
    )


def _at(middle: Spot, share: Fraction, radius: int) -> Spot:
    place = round_from_top(share)
    return Spot(middle.x + round(place.x * radius), middle.y - round(place.y * radius))


def round_from_top(share: Fraction) -> Point:
    """Return the place on the circle of 1, so great a part of a whole turn on from its top, clockwise.

    Within a turn an eighth at most is reckoned, by Lambert's fraction for the tangent of half the angle,
    cut off after its third term: to a hundred-thousandth.
    """
    turns = share % 1 * 4
    quarter, rest = int(turns), turns % 1
    half = HALF_TURN / 4 * rest
    tangent = half * (15 - half**2) / (15 - 6 * half**2)
    along, on = (1 - tangent**2) / (1 + tangent**2), 2 * tangent / (1 + tangent**2)
    place = Point(on, along)
    for _ in range(quarter):
        place = Point(place.y, -place.x)
    return place
