"""A neck drawn together: a ribbon tied round it, or cords pulled until the bag is shut."""

from collections.abc import Sequence
from fractions import Fraction

from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.dimension import DOT
from patterns.drawings.drawn_cords import Cords, band
from patterns.drawings.drawn_shut import Shut, drawn_shut
from patterns.drawings.finished import standing
from patterns.drawings.folding.bag_parts import Bag, Channel, Gathered, Tied
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.standing import Face
from patterns.drawings.tied_bag import Bow

from .arrows import straight
from .bagged import bounds, scale_of, stood_on
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height, text_wide
from .patches import label_of, under

AWAY = 1800
# Room for the arrow that pulls a knot.
PULL = 3800
# How wide the ribbon is drawn, as a part of width and depth together: it can be seen at every size.
RIBBON = Fraction(1, 24)


def tied(state: State, ribbon: Tied, units: Units, title: str) -> StepFigure:
    """Return a bag that folds flat, with a ribbon tied round its neck: how high it is below and above it."""
    board = Board(title)
    sides = state.sides
    assert sides is not None
    depth = 2 * sides.doubled
    width = sides.right - sides.left - depth
    shut = Shut(width, depth, ribbon.holds, ribbon.below)
    half = min((width + depth) * RIBBON / 2, ribbon.below / 4)
    bow = Bow(width / 2 + shut.half, shut.neck, depth / 2, half, min(ribbon.bow, (width + depth) * 3 / 4))
    loops = bow.loops()
    item = drawn_shut(shut, (*band(shut, half), *bow.tails(), *loops, bow.knot()))
    labels = max(text_wide(label_of(length, units)) for length in (ribbon.holds, ribbon.below))
    beside = EDGE + labels + SPACE + AWAY + SPACE
    scale = scale_of(item, WIDTH - beside - 8000, 30_000)
    *_, low, top = bounds(item)
    ground = SPACE + round((top - low) * scale)
    placing = stood_on(board, item, (beside + WIDTH - 8000) // 2, ground, scale)
    nothing = Fraction(0)
    tip = max(item.points(), key=lambda point: point.y)
    places = (item.height[0], shut.at(nothing, nothing, nothing), tip)
    foot, neck, high = (placing.spot(point).y for point in places)
    left = min(placing.spot(point).x for point in item.points())
    for start, end, length in ((neck, foot, ribbon.holds), (high, neck, ribbon.below)):
        board.measure(Spot(left, start), Spot(left, end), Spot(-AWAY, 0), label_of(length, units))
    right = max(
        placing.spot(point).x for shape in loops if isinstance(shape, Face) for point in shape.outline
    )
    board.say("bow", Spot(right + SPACE, neck - block_height()), "start")
    below, holds, spare = (words.cutting(each, units) for each in (ribbon.below, ribbon.holds, ribbon.bow))
    told = (
        f"The {ribbon.ribbon} is tied round the neck, {below} below the top edge, measured along the cloth: "
        f"{holds} of it lie below the tie. One tail has come round the front and one round the back; {spare} "
        "of each are left for the bow at the other side."
    )
    return board.figure(ground, told, f"Along the cloth: {holds} below the tie, {below} above it.")


def gathered(
    sized: SizedPattern, bag: Bag, channel: Channel, cords: Gathered, knot: Fraction, title: str
) -> StepFigure:
    """Return a bag drawn shut by its cords, and the same open. knot: how far from the tips, mm."""
    board = Board(title)
    assert bag.base is not None
    units, (width, depth) = sized.units, bag.base
    run = (channel.drop + channel.foot) / 2
    shut = Shut(width, depth, bag.height - run, run)
    pulled = Cords(shut, cords.ends, knot)
    closed = drawn_shut(shut, pulled.drawn())
    opened = standing(sized)
    labels = [text_wide(label_of(length, units)) for length in (bag.height, depth)]
    first_left = EDGE + PULL
    second_right = WIDTH - EDGE - labels[1] - SPACE - DOT - AWAY
    room = second_right - first_left - PULL - labels[0] - 2 * SPACE - AWAY
    spans = [right - left for left, right, *_ in map(bounds, (closed, opened))]
    tops = [top - low for *_, low, top in map(bounds, (closed, opened))]
    scale = min(Fraction(room) / sum(spans), Fraction(24_000) / max(tops))
    ground = SPACE + round(max(tops) * scale)
    middles = (
        first_left + round(spans[0] * scale) // 2,
        second_right - round(spans[1] * scale) // 2,
    )
    first, second = (
        stood_on(board, item, middle, ground, scale)
        for item, middle in zip((closed, opened), middles, strict=True)
    )
    _pulls(board, [first.spot(pulled.knot_at(way)) for way in (-1, 1)])
    width_said, depth_said, height_said, ends, holds = (
        words.cutting(each, units) for each in (width, depth, bag.height, cords.ends, cords.holds)
    )
    assert opened.depth is not None
    for edge, away, length in (
        (opened.width, Spot(0, AWAY), width_said),
        (opened.height, Spot(-AWAY, 0), height_said),
        (opened.depth, Spot(AWAY, 0), depth_said),
    ):
        start, end = second.spots(edge)
        board.measure(start, end, away, words.label(length))
    for middle, text in zip(middles, ("drawn shut", "open"), strict=True):
        under(board, text, middle, ground + (AWAY + block_height() if text == "open" else 0))
    told = (
        "Left the bag is drawn shut: both pairs of ends were pulled away from each other, and each end "
        f"hangs out up to {ends}, with the knot near its tip; soft things below the channel may stand "
        f"{holds} high. Right it is open, {width_said} wide, {depth_said} deep and {height_said} high."
    )
    caption = f"Shut: each end hangs out up to {ends}. Open: {width_said} × {depth_said} × {height_said}."
    return board.figure(ground + AWAY, told, caption)


def _pulls(board: Board, knots: Sequence[Spot]) -> None:
    """Draw which way each knot is pulled, where there is room."""
    for at, way in zip(knots, (-1, 1), strict=True):
        start = at.x + way * 1400
        end = max(start - 2600, EDGE) if way < 0 else start + 2600
        board.fill(Box(min(start, end), at.y - 700, max(start, end), at.y + 700))
        board.draw(straight(Spot(start, at.y), Spot(end, at.y)))
