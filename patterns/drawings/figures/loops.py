"""What hangs from a zip, seen from its side edge: two loops, and the same laid apart."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Spot
from patterns.drawings.lines import Line, dot, line
from patterns.drawings.tokens import PETROL

from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, EdgeOn, layers_drawn, levels, reach
from .moments import FACES
from .sides import label_of

GAP = 4200


def two_loops(state: State, made: Strip, units: Units, title: str) -> StepFigure:
    """Return the zip lying flat with a loop over it and one under it, and how much of it shows."""
    board = Board(title)
    left, right = min(layer.left for layer in state.layers), max(layer.right for layer in state.layers)
    # The zip and what goes on from it flat lie on one level, a loop above it and a loop below.
    under, over = state.layers[0], state.layers[-1]
    lying = [{under: 0, over: 2}.get(layer, 1) for layer in state.layers]
    beside = EDGE + reach(0, 1, GAP) + SPACE
    scale = Fraction(WIDTH - 2 * beside) / (right - left)
    at = EdgeOn(scale, beside - round(left * scale), block_height() + SPACE + BAND + 2 * GAP, GAP)
    board.draw(layers_drawn(state, state.layers, at, lying))
    tape = next(layer for layer in state.layers if layer.strip == made.name)
    teeth = Spot(at.x(tape.place(made.place("teeth"))), at.y(1))
    board.draw([dot(teeth, 950, PETROL), line(Line.LEADER, teeth, Spot(teeth.x, at.y(0) - BAND))])
    low = at.y(0) + BAND
    foot = low + block_height() + 2 * SPACE
    shows = words.cutting(tape.right - tape.left, units)
    board.say(over.strip, Spot(WIDTH // 2, at.y(2) - BAND - block_height() // 2))
    board.say(under.strip, Spot(WIDTH // 2, low + block_height() // 2))
    text = words.label(f"{shows} of the {made.name} between the seams")
    board.say(text, Spot(WIDTH // 2, foot + block_height() // 2))
    told = (
        f"From the side edge: the {made.name} lies flat in the middle, {shows} of it between its two "
        f"seams. The {over.strip} makes a loop over it, its right side inside; the {under.strip} makes a "
        "loop under it, its right side inside too. Neither is twisted."
    )
    return board.figure(foot, told, FACES)


def laid_apart(state: State, made: Strip, units: Units, title: str) -> StepFigure:
    """Return two loops laid apart, the zip folded between the layers of one of them."""
    board = Board(title)
    left, right = min(layer.left for layer in state.layers), max(layer.right for layer in state.layers)
    lying = _hanging_levels(state)
    top, beside, gap = max(lying), EDGE + 4200, 2600
    scale = Fraction(WIDTH - 2 * beside) / (right - left)
    floor = 2 * block_height() + SPACE + BAND + top * gap
    at = EdgeOn(scale, beside - round(left * scale), floor, gap)
    board.draw(layers_drawn(state, state.layers, at, lying))
    low = floor + BAND
    one, other = dict.fromkeys(layer.strip for layer in state.layers if layer.strip != made.name)
    for name in (one, other):
        mine = next(layer for layer in state.layers if layer.strip == name)
        ends = Spot(at.x(mine.left), low), Spot(at.x(mine.right), low)
        over = Spot((ends[0].x + ends[1].x) // 2, at.y(top) - BAND - block_height() // 2)
        board.say(name, over)
        board.measure(*ends, Spot(0, 2200), label_of(mine.right - mine.left, units))
    tapes = [number for number, layer in enumerate(state.layers) if layer.strip == made.name]
    level = sum(at.y(lying[number]) for number in tapes) // len(tapes)
    tip = Spot(at.x(state.layers[tapes[0]].right) + reach(1, 2, gap), level)
    board.draw([dot(tip, 800, PETROL)])
    board.say("teeth", Spot(tip.x + SPACE + 600, tip.y), "start", is_needed=False)
    told = (
        f"From the side edge: the {one} lies to the left of the zip seams, the {other} to the right, each "
        f"folded right sides together and {words.cutting(mine.right - mine.left, units)} long. The "
        f"{made.name} is folded at its teeth, which point to the {other}."
    )
    return board.figure(low + 2200 + block_height() + SPACE, told, FACES)


def _hanging_levels(state: State) -> list[int]:
    """Return on which level each layer lies; what goes on over a seam lies level with what it goes on to.

    The lower half lies as low as it can, the upper half as high.
    """
    found = list(levels(state.layers))
    top = max(found)
    for number in range(len(found) - 1, len(found) // 2 - 1, -1):
        layer = state.layers[number]
        over = [
            found[other]
            for other in range(number + 1, len(found))
            if state.layers[other].left < layer.right and layer.left < state.layers[other].right
        ]
        found[number] = min(over, default=top + 1) - 1
    return found
