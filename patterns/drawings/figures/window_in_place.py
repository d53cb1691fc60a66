"""A window between turned-in edges: pressed, basted, lapped, the loop it makes, and its sides made even."""

from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.layers import Layer
from patterns.drawings.folding.state import Lap, State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, dot, line, lines
from patterns.drawings.svg import plate
from patterns.drawings.tokens import PETROL, SHEET

from .above import Plan, faces, glints, named, plan_of
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, EdgeOn, layers_drawn, levels, reach
from .moments import FACES
from .sides import label_of
from .zip_parts import corners

GAP = 3600
# Where on the page the folds lie; how wide what is turned in is drawn; how much of the cloths is shown, in
# depths of that.
FOLD, TURNED_IN, SHOWN = 34_000, 11_500, 3
# Of a loop laid open: how high its three parts are together, how high each is at least, where they lie.
PARTS, LEAST_PART, LEFT = 26_000, 5000, 7000


@dataclass(frozen=True, slots=True)
class Edges:
    """Two cloths, the first outside, their edges turned in so deep; a window lies so deep between them."""

    outer: Strip
    inner: Strip
    deep: Fraction
    window: Strip | None = None
    lies: Fraction = Fraction(0)


def edges_of(outer: Strip, mark: str, inner: Strip) -> Edges:
    along = outer.place(mark)
    return Edges(outer, inner, min(along, outer.length - along))


def pressed_in(edges: Edges, units: Units, title: str) -> StepFigure:
    """Return the two turned-in edges that a window will lie between, from the side edge."""
    board = Board(title)
    _close_look(board, edges, units)
    told = (
        f"From the side edge: the {edges.outer.name} and the {edges.inner.name} lie wrong sides "
        f"together, the edge of each folded to its own wrong side, {words.cutting(edges.deep, units)} "
        "deep; both folds are level."
    )
    return board.figure(0, told, "From the side edge, close to; every window edge alike.")


def lapped(edges: Edges, window: Strip, lap: Lap, units: Units, title: str) -> StepFigure:
    """Return a window's edge between two folds, with the two rows through all of them, from the side edge."""
    board = Board(title)
    along = dict(lap.ends)[window.name]
    lies = min(along, window.length - along)
    at, low = _close_look(board, replace(edges, window=window, lies=lies), units)
    top = at.y(4) - BAND
    # The farther row first, so that the length of the nearer one stands clear of its ends.
    for number, row in reversed(list(enumerate(lap.rows))):
        x = at.x(-row)
        board.draw([line(Line.STITCH, Spot(x, top + 300), Spot(x, low - 300))])
        down = 1500 + number * (block_height() + 1500)
        board.measure(Spot(x, low), Spot(at.x(Fraction(0)), low), Spot(0, down), label_of(row, units))
    first, second = (words.cutting(row, units) for row in lap.rows)
    told = (
        f"From the side edge: the {window.name} lies {words.cutting(lies, units)} deep between the "
        f"folds of the {edges.outer.name} and the {edges.inner.name}. Two rows run through all layers, "
        f"{first} and {second} from the folds."
    )
    return board.figure(low, told, "From the side edge, close to; thin lines are the two rows.")


def _close_look(board: Board, edges: Edges, units: Units) -> tuple[EdgeOn, int]:
    """Draw two turned-in edges, and a window between; return how they lie, and where the lowest ends.

    The exterior lies on top, its right side up.
    """
    zero, deep, long = Fraction(0), edges.deep, SHOWN * edges.deep
    count = 5 if edges.window else 4
    scale = Fraction(TURNED_IN) / max(deep, edges.lies)
    at = EdgeOn(scale, FOLD, 2 * block_height() + 2 * SPACE + (count - 1) * GAP, GAP)
    # Along each cloth drawn here its fold lies at 0: the cloth itself before, what is turned in after.
    stack = [
        (0, Layer(edges.inner.name, -long, zero, zero, 1, "wrong")),
        (1, Layer(edges.inner.name, zero, deep, zero, -1, "right")),
        (count - 2, Layer(edges.outer.name, zero, deep, zero, -1, "wrong")),
        (count - 1, Layer(edges.outer.name, -long, zero, zero, 1, "right")),
    ]
    strips = [edges.outer, edges.inner]
    if edges.window:
        stack.append((2, Layer(edges.window.name, -edges.lies, long, zero, 1, "right")))
        strips.append(edges.window)
    layers = [_clipped(layer, at) for _, layer in stack]
    lying = [level for level, _ in stack]
    board.draw(layers_drawn(State(strips={strip.name: strip for strip in strips}), layers, at, lying))
    for layer, level in zip(layers, lying, strict=True):
        y = at.y(level)
        board.fill(Box(at.x(layer.left), y - BAND // 2, at.x(layer.right), y + BAND // 2))
    over, low = at.y(count - 1) - BAND, at.y(0) + BAND
    board.measure(Spot(at.x(-deep), over), Spot(at.x(zero), over), Spot(0, -1500), label_of(deep, units))
    board.say(edges.outer.name, Spot(EDGE, over - block_height() // 2), "start")
    board.say(edges.inner.name, Spot(EDGE, low + block_height() // 2 + 300), "start")
    if edges.window:
        beside = Spot(at.x(zero) + 9000, at.y(2) - BAND - block_height() // 2)
        board.say(edges.window.name, beside, "start")
    return at, low


def _clipped(layer: Layer, at: EdgeOn) -> Layer:
    """Return as much of a layer as is shown on the page."""
    left, right = (Fraction(x - at.zero) / at.scale for x in (EDGE + 1200, WIDTH - EDGE - 1200))
    shown = max(layer.left, left), min(layer.right, right)
    start, end = sorted((place - layer.at) * layer.way for place in shown)
    return replace(layer, start=start, end=end)


def basted(state: State, units: Units, title: str) -> StepFigure:
    """Return the flat strip from above, its sides basted but for the last stretch before each window fold."""
    board = Board(title)
    plan = plan_of(state, SPACE, most=34_000)
    faces(board, state, plan)
    for names, free in state.pairs.items():
        top = next(each for each in reversed(state.layers) if each.strip in names)
        _row_of_basting(board, state, plan, (top, free), units)
        box = Box(plan.box.left, plan.y(top.right), plan.box.right, plan.y(top.left))
        named(board, top.strip, box)
    off = words.cutting(next(iter(state.pairs.values())), units)
    told = (
        "From above, the lining up: exterior and lining are basted together along both sides, except "
        f"over the last {off} before each window fold."
    )
    return board.figure(plan.box.bottom, told, "From above, lining up; the sides basted in the allowance.")


def _row_of_basting(
    board: Board, state: State, plan: Plan, basted_off: tuple[Layer, Fraction], units: Units
) -> None:
    """Draw the basting of a cloth, and how far it stays off its window fold."""
    layer, free = basted_off
    fold = layer.place(next(along for strip, along in state.hems if strip == layer.strip))
    other = layer.right if fold == layer.left else layer.left
    way = 1 if fold == layer.left else -1
    begins = plan.y(fold + way * max(free, Fraction(1800) / plan.scale))
    left, right = plan.box.left, plan.box.right
    off = max(plan.box.width // 30, 900)
    board.draw(
        [line(Line.STITCH, Spot(x, begins), Spot(x, plan.y(other))) for x in (left + off, right - off)]
    )
    board.draw([dot(Spot(right - off, begins), 600, PETROL)])
    low, high = sorted((plan.y(fold), begins))
    board.measure(Spot(right, low), Spot(right, high), Spot(1500, 0), label_of(free, units))


def made_round(state: State, window: Strip, units: Units, title: str) -> StepFigure:
    """Return the loop from the side edge, with how much of the window lies between the folds."""
    board = Board(title)
    left, right = min(layer.left for layer in state.layers), max(layer.right for layer in state.layers)
    lying = levels(state.layers)
    top, gap = max(lying), 3000
    beside = EDGE + reach(0, 1, gap) + 2 * SPACE
    scale = Fraction(WIDTH - 2 * beside) / (right - left)
    floor = 2 * block_height() + SPACE + top * gap + BAND
    at = EdgeOn(scale, beside - round(left * scale), floor, gap)
    board.draw(layers_drawn(state, state.layers, at, lying))
    for layer, level in zip(state.layers, lying, strict=True):
        y = at.y(level)
        board.fill(Box(at.x(layer.left), y - BAND // 2, at.x(layer.right), y + BAND // 2))
    low, over = floor + BAND, at.y(top) - BAND - block_height() // 2
    pane = next(layer for layer in state.layers if layer.strip == window.name)
    ends = Spot(at.x(pane.left), low), Spot(at.x(pane.right), low)
    clear = pane.right - pane.left
    board.measure(*ends, Spot(0, 2400), label_of(clear, units))
    board.say(window.name, Spot((ends[0].x + ends[1].x) // 2, low + 2400 + 2 * block_height()))
    highest = [layer for layer, level in zip(state.layers, lying, strict=True) if level == top]
    outside = max(highest, key=lambda layer: layer.right - layer.left)
    board.say(outside.strip, Spot((at.x(outside.left) + at.x(outside.right)) // 2, over))
    tape = next(layer for layer in state.layers if state.strips[layer.strip].is_zip)
    board.say(tape.strip, Spot(at.x(tape.right), over), is_needed=False)
    told = (
        f"From the side edge: a loop, the exterior outside. {words.cutting(clear, units)} of the "
        f"{window.name} lies between the folds of band and main, held by two rows at each."
    )
    return board.figure(low + 2400, told, FACES)


def made_even(strips: tuple[Strip, ...], units: Units, title: str) -> StepFigure:
    """Return the loop's parts laid open, one under the other, each equally wide, with the side seam lines."""
    board = Board(title)
    right, top = WIDTH - LEFT, SPACE
    long = sum(strip.length for strip in strips)
    for strip in strips:
        box = Box(LEFT, top, right, top + max(round(strip.length * Fraction(PARTS) / long), LEAST_PART))
        board.draw([plate(box, SHEET), *fill(Fabric(strip.tint, gap=2600), corners(box))])
        if strip.tint == "clear":
            glints(board, box)
        board.draw([line(Line.EDGE, *corners(box), is_closed=True)])
        level = box.middle.y + block_height() // 2
        ends = Spot(LEFT, level), Spot(right, level)
        board.draw([line(Line.MEASURE, *ends), *(dot(end, 420, PETROL) for end in ends)])
        text = f"{strip.name.split()[-1]}: {label_of(strip.width, units)}"
        board.say(text, Spot(box.middle.x, level - block_height() // 2), within=box)
        top = box.bottom
    across = [each.across for each in strips[0].lines.values() if each.kind == "stitch"]
    first, *_, last = sorted(place for place in across if place is not None)
    off = max(round(first * Fraction(right - LEFT) / strips[0].width), 1500)
    sides = LEFT + off, right - off
    board.draw([lines(Line.STITCH, [(Spot(x, SPACE), Spot(x, top)) for x in sides])])
    board.measure(Spot(sides[0], top), Spot(sides[1], top), Spot(0, 1700), label_of(last - first, units))
    told = (
        f"Band, window and main are each {words.cutting(strips[0].width, units)} wide; the side seam "
        f"lines on them are {words.cutting(last - first, units)} apart and run on in one line."
    )
    return board.figure(top + 1700, told, "The loop, lining up, measured in three places.")
