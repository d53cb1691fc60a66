"""Bags as they stand, lie in each other and hang together: turn, nest, sew round the top, shut, stand."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from patterns.drafting.recipe import Tint
from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric
from patterns.drawings.finished import standing
from patterns.drawings.folding.bag_parts import Bag
from patterns.drawings.folding.nesting import drop_of
from patterns.drawings.folding.openings import Opening
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.open_basket import open_basket
from patterns.drawings.page import Placing, exact
from patterns.drawings.round_bucket import round_bucket
from patterns.drawings.standing import Face, Shape, Standing, Stroke, painted
from patterns.drawings.svg import path_through
from patterns.drawings.tokens import INK, PETROL, SHEET

from . import sewn_on
from .arrows import straight
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import stroke
from .patches import cloth_seen_on_edge, corners_of, label_of, patch, sewn, under
from .top_edge import section

AWAY = 1800
STANDING_HIGH = 22_000
# Of what is drawn out, how high one bag is with the handles that hang below it.
MOST_DRAWN_OUT = 36_000


def shape_of(bag: Bag, tint: Tint | None) -> Standing:
    """Return a bag as it stands by itself: its right side or its wrong side outside, the other inside."""
    assert bag.base is not None
    width, depth = bag.base
    item = round_bucket(width, bag.height) if bag.is_round else open_basket(width, bag.height, depth, False)
    outside, inside = (not bag.is_out, bag.is_out)
    shapes = tuple(
        _repainted(shape, tint, outside, inside)
        for shape in item.shapes
        if not (isinstance(shape, Stroke) and shape.kind is Line.TOPSTITCH)
    )
    return replace(item, shapes=shapes)


def _repainted(shape: Shape, tint: Tint | None, is_outside_pale: bool, is_inside_pale: bool) -> Shape:
    if isinstance(shape, Stroke):
        return shape
    is_pale = is_outside_pale if shape.fabric.tint == "exterior" else is_inside_pale
    lean = shape.fabric.lean
    return Face(shape.outline, Fabric(tint, is_pale, shape.fabric.is_shaded, lean, 2600), shape.edge)


def bounds(item: Standing) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Return how far an item reaches: left, right, down and up, mm."""
    points = list(item.points())
    across, up = [point.x for point in points], [point.y for point in points]
    return min(across), max(across), min(up), max(up)


def stood_on(board: Board, item: Standing, middle: int, ground: int, scale: Fraction) -> Placing:
    """Draw an item on the ground, its middle there, and return where it lies."""
    left, right, low, _ = bounds(item)
    at = Spot(middle - round((left + right) * scale / 2), ground + round(low * scale))
    placing = Placing(scale, at)
    for shape in item.shapes:
        board.draw(painted(shape, placing))
        if isinstance(shape, Face) and shape.edge:
            board.shun(*placing.spots(shape.outline), is_closed=True)
    return placing


def scale_of(item: Standing, wide: int, high: int) -> Fraction:
    """Return the largest scale at which an item fits."""
    left, right, low, top = bounds(item)
    return min(Fraction(wide) / (right - left), Fraction(high) / (top - low))


def turned(before: Bag, after: Bag, tint: Tint | None, units: Units, title: str) -> StepFigure:
    """Return a bag wrong side out, and the same right side out."""
    board = Board(title)
    first, second = shape_of(before, tint), shape_of(after, tint)
    scale = scale_of(first, 21_000, STANDING_HIGH)
    left, right, low, top = bounds(first)
    ground = SPACE + round((top - low) * scale)
    middles = WIDTH // 4 - 1500, WIDTH * 3 // 4 + 1500
    for item, middle, text in ((first, middles[0], "wrong side out"), (second, middles[1], "right side out")):
        stood_on(board, item, middle, ground, scale)
        under(board, text, middle, ground)
    half = round((right - left) * scale) // 2
    level = ground - round((top - low) * scale) // 3
    board.draw(straight(Spot(middles[0] + half + 900, level), Spot(middles[1] - half - 900, level)))
    assert after.base is not None
    size = " by ".join(words.cutting(length, units) for length in after.base)
    if after.is_round:
        size = f"{words.cutting(after.base[0], units)} across"
    return board.figure(
        ground,
        f"Left the {after.name} stands wrong side out, right it stands right side out; its base is {size}.",
        f"The {after.name}: its base is {size}.",
    )


def _walls(
    board: Board, inner: Box, state: State, inner_name: str, outer_name: str, has_stitch: bool
) -> None:
    """Draw two bags in each other, cut through: walls and base of each, right sides facing."""
    tints = {name: state.strip(state.sewn.bags[name].strip).tint for name in (inner_name, outer_name)}
    outer = inner.grown(2600)
    outer = Box(outer.left, inner.top, outer.right, outer.bottom)
    for box, name, way in ((inner, inner_name, 1), (outer, outer_name, -1)):
        spots = (
            Spot(box.left, box.top),
            Spot(box.left, box.bottom),
            Spot(box.right, box.bottom),
            Spot(box.right, box.top),
        )
        # The right side lies outside of the inner one and inside of the outer one.
        face = ((-way, 0), (-way, way), (way, way), (way, 0))
        cloth_seen_on_edge(board, spots, tints[name], face)
    if has_stitch:
        for x in (inner.left - 1300, inner.right + 1300):
            level = inner.top + 2200
            board.draw([line(Line.CLIP, Spot(x - 2000, level), Spot(x + 2000, level))])
    if state.sewn.handles:
        for x in (inner.left - 1300, inner.right + 1300):
            band = path_through([Spot(x, inner.top), Spot(x, inner.top + 10_000)])
            board.draw([stroke(band, INK, 1000), stroke(band, PETROL, 640)])


def nested(state: State, units: Units, title: str) -> StepFigure:
    """Return two bags, one in the other, cut through; once they are sewn, with the seam round the top."""
    board = Board(title)
    assert state.sewn.nested is not None
    inner_name, outer_name = state.sewn.nested
    inner, rim = state.sewn.bags[inner_name], state.sewn.rim
    box = Box(16_000, 2 * block_height() + SPACE, 36_000, 21_000)
    _walls(board, box, state, inner_name, outer_name, rim is not None)
    told = f"The {inner_name} lies in the {outer_name}, right sides together, the raw edges level at the top."
    once_round = words.cutting(inner.round, units)
    if rim is not None:
        allowance = label_of(rim.allowance, units)
        edge = box.right + 2600
        board.measure(Spot(edge, box.top), Spot(edge, box.top + 2200), Spot(2600, 0), allowance)
        told += f" The seam runs all round, {words.cutting(rim.allowance, units)} from the raw edges."
    told += f" Once round is {once_round}."
    board.say(f"round: {words.label(once_round)}", Spot(box.middle.x, box.top - block_height()))
    board.say(inner_name, Spot(box.middle.x, box.bottom - 2 * block_height()), is_needed=False)
    board.say(outer_name, Spot(box.left - 4200, box.bottom - block_height()), "end")
    if state.sewn.handles:
        hanging = Spot(box.right + 1300, box.top + 9000)
        board.draw([line(Line.LEADER, hanging, Spot(box.right + 5500, hanging.y))])
        board.say("handle", Spot(box.right + 6000, hanging.y), "start")
        told += " The handles hang between them."
    if rim is not None and rim.opening:
        board.say(f"leave {label_of(rim.opening.length, units)} open", Spot(box.middle.x, box.top + 3000))
        told += (
            f" It is left open over {words.cutting(rim.opening.length, units)}, marked on the {rim.outer}."
        )
    return board.figure(box.bottom + 2600, told, "Cut through; the coloured lines are right sides.")


def drawn_out(state: State, opening: Opening, units: Units, title: str) -> StepFigure:
    """Return what comes out through an opening: the two bags hang from one another by their top seam."""
    board = Board(title)
    rim = state.sewn.rim
    assert rim is not None
    outer, inner = (state.sewn.bags[name] for name in (rim.outer, rim.inner))
    wide, high = exact(inner.round) / 2, inner.height
    if inner.base and not inner.is_round:
        high += inner.base[1] / 2
    down = sewn_on.rise(state, inner.strip)
    scale = min(Fraction(24_000) / wide, Fraction(15_000) / high, Fraction(MOST_DRAWN_OUT) / (high + down))
    middle, top = WIDTH // 2, block_height() + SPACE
    half, tall = round(wide * scale) // 2, round(high * scale)
    boxes = [Box(middle - half, top + tall * each, middle + half, top + tall * (each + 1)) for each in (0, 1)]
    for box, bag in zip(boxes, (outer, inner), strict=True):
        patch(board, corners_of(box), state.strip(bag.strip).tint)
    for bag, is_down in ((outer, False), (inner, True)):
        sewn_on.handles_drawn(board, state, bag.strip, Spot(middle, boxes[1].top), scale, is_down)
    for box, bag in zip(boxes, (outer, inner), strict=True):
        if not board.say(bag.name, box.middle, is_needed=False, within=box):
            board.say(bag.name, Spot(box.left - 4000, box.middle.y), "end")
    long = round(opening.length * scale) // 2
    at_base = rim.opening is None
    level = boxes[0].top if at_base else boxes[0].bottom
    board.draw([line(Line.OPENING, Spot(middle - long, level), Spot(middle + long, level))])
    beside = boxes[0].left - 2200
    board.draw(straight(Spot(beside, boxes[0].bottom + 3500), Spot(beside, boxes[0].bottom - 3500)))
    board.say("top seam", Spot(boxes[1].right + SPACE, boxes[1].top), "start")
    above = Spot(middle + long + SPACE, level - block_height() // 2 - 400)
    board.say("opening", above if at_base else Spot(boxes[0].right + SPACE, level + block_height()), "start")
    where = "base seam" if at_base else "top seam"
    told = (
        f"The {inner.name} has come out through the opening, {words.cutting(opening.length, units)} long, "
        f"in the {where} of the {outer.name}; both hang from one another by the top seam, right sides out."
    )
    caption = f"Drawn out; then the {outer.name} goes down into the {inner.name}."
    foot = max(boxes[1].bottom, boxes[1].top + round(down * scale))
    return board.figure(foot, told, caption)


def shut(state: State, opening: Opening, units: Units, title: str) -> StepFigure:
    """Return an opening closed: its edges turned in, laid together and stitched close to the edge."""
    board = Board(title)
    strip = state.strip(opening.strip)
    box = Box(6000, block_height() + SPACE, WIDTH - 6000, 16_000)
    patch(board, corners_of(box), strip.tint, edge=None)
    board.draw([line(Line.OUTLINE, Spot(box.left, box.bottom), Spot(box.right, box.bottom))])
    start, end = box.left + 11_000, box.right - 11_000
    board.draw([line(Line.OPENING, Spot(start, box.bottom), Spot(end, box.bottom))])
    sewn(board, Spot(start - 1800, box.bottom - 1100), Spot(end + 1800, box.bottom - 1100))
    board.measure(
        Spot(start, box.bottom), Spot(end, box.bottom), Spot(0, AWAY), label_of(opening.length, units)
    )
    board.say("seam", Spot((box.left + start) // 2, box.bottom + block_height()), is_needed=False)
    board.say(f"{strip.name}, right side up", Spot(box.middle.x, box.top + 4000))
    told = (
        f"The edges of the opening, {words.cutting(opening.length, units)} long, are turned in and lie on "
        "each other; a row close to the edge holds both, and runs on a little at each end."
    )
    return board.figure(box.bottom, told, f"The base seam of the {strip.name}, close by.")


def top_edge(
    state: State, rows: Sequence[Fraction], units: Units, title: str, opening: Opening | None
) -> StepFigure:
    """Return the top edge, from outside and cut through. rows: how far below it each row runs."""
    board = Board(title)
    rim = state.sewn.rim
    assert rim is not None
    strips = [state.strip(state.sewn.bags[name].strip) for name in (rim.inner, rim.outer)]
    above = 2 * block_height() if state.sewn.handles else block_height()
    box = Box(EDGE, above + SPACE, 28_500, above + 18_000)
    scale = Fraction(360)  # as large as the section beside it shows it
    sewn_on.end_drawn(board, state, strips[0].name, Spot(box.left + 7000, box.top), EDGE, scale)
    patch(board, corners_of(box), strips[0].tint, edge=None)
    board.draw([line(Line.OUTLINE, Spot(box.left, box.top), Spot(box.right, box.top))])
    low = box.top
    for below in rows:
        low = max(box.top + round(below * scale), low + 900)
        board.draw([line(Line.TOPSTITCH, Spot(box.left, low), Spot(box.right, low))])
    if opening:
        ends = box.left + 8000, box.right - 8000
        board.draw([line(Line.OPENING, Spot(ends[0], box.top), Spot(ends[1], box.top))])
        board.say("opening", Spot(box.middle.x, box.top - block_height() // 2 - 300), is_needed=False)
    board.say(strips[0].name, box.middle, is_needed=False, within=box)
    beside = Box(WIDTH - 22_000, box.top, WIDTH - EDGE, box.top + 19_000)
    if state.sewn.handles:
        way = path_through([Spot(beside.left + 6000, EDGE), Spot(beside.left + 6000, beside.top + 8000)])
        board.draw([stroke(way, INK, 1300), stroke(way, SHEET, 940)])
        board.say("handle", Spot(beside.left + 7500, EDGE + block_height() // 2), "start")
    section(board, strips, beside, rows, units)
    told = "The top seam lies exactly on the edge."
    if rows:
        listed = " and ".join(words.cutting(each, units) for each in rows)
        told += f" Topstitching runs once round, {listed} below it."
    if opening:
        told += " Along the opening both allowances are turned in, and the first row holds them."
    if state.sewn.handles:
        told += " The handles stand up over the edge, their ends between the fabrics."
    shown = "; short dashes: the rows" if rows else ""
    shown = "; thickest line: the opening" if opening else shown
    return board.figure(box.bottom, told, f"The edge from outside, and cut through{shown}.")


def stood(sized: SizedPattern, state: State, bag: Bag, title: str) -> StepFigure:
    """Return the finished thing as it stands, with its measures as they were followed."""
    board = Board(title)
    item = standing(sized)
    scale = scale_of(item, 30_000, 30_000)
    *_, low, top = bounds(item)
    ground = SPACE + round((top - low) * scale)
    placing = stood_on(board, item, WIDTH // 2 - 3000, ground, scale)
    assert bag.base is not None
    units = sized.units
    width, depth, height = (words.cutting(length, units) for length in (*bag.base, bag.height))
    lengths = ((item.width, Spot(0, AWAY), width), (item.height, Spot(-AWAY, 0), height))
    for edge, away, text in lengths:
        start, end = placing.spots(edge)
        board.measure(start, end, away, words.label(text))
    if item.depth is not None:
        start, end = placing.spots(item.depth)
        board.measure(start, end, Spot(AWAY, 0), words.label(depth))
    told = f"It stands {width} wide, {depth} deep and {height} high."
    caption = f"{width} wide, {depth} deep, {height} high."
    if bag.is_round:
        told = caption = f"It stands {width} across and {height} high."
    for handles in state.sewn.handles[:1]:
        drop = words.cutting(drop_of(handles.long, handles.places), units)
        told += f" The handles drop {drop}."
        caption = f"{width} wide, {depth} deep, {height} high; the handles drop {drop}."
    return board.figure(ground + AWAY, told, caption)
