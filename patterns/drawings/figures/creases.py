"""A cloth folded at its lines one after the other, and opened again, seen edge-on."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.layers import Layer
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import dot
from patterns.drawings.tokens import PETROL

from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, EdgeOn, layers_drawn

GAP = 1700
BESIDE = 3200


def creased(state: State, strips: Sequence[Strip], names: Sequence[str], units: Units) -> StepFigure:
    """Return a cloth flat with its lines, then folded at each of them in turn."""
    strip = strips[0]
    board = Board(f"Press the creases of the {' and the '.join(each.name for each in strips)}")
    places = [strip.place(name) for name in names]
    scale = Fraction(WIDTH - 2 * (EDGE + BESIDE)) / strip.length
    zero = Fraction(0)
    flat = Layer(strip.name, zero, strip.length, zero, 1, "wrong")
    floor = block_height() + SPACE + BAND
    at = EdgeOn(scale, EDGE + BESIDE, floor, GAP)
    board.draw(layers_drawn(state, [flat], at))
    board.draw([dot(Spot(at.x(place), floor), 650, PETROL) for place in places])
    board.fill(Box(0, floor - BAND // 2, WIDTH, floor + BAND // 2))
    stops = [zero, *places, strip.length]
    for start, end in pairwise(stops):
        middle = Spot((at.x(start) + at.x(end)) // 2, floor - BAND - block_height() // 2)
        board.say(words.label(words.cutting(end - start, units)), middle, is_needed=False)
    for number, place in enumerate(places, 1):
        floor += GAP + 5 * SPACE + BAND
        at = EdgeOn(scale, EDGE + BESIDE, floor, GAP)
        resting, moving = flat.parted(place)
        assert resting is not None
        assert moving is not None
        is_short = 2 * place > strip.length  # the shorter part is folded over
        folded = [resting, moving.over(place)] if is_short else [moving, resting.over(place)]
        board.draw(layers_drawn(state, folded, at))
        board.say(str(number), Spot(EDGE, floor - GAP // 2), "start", is_needed=False)
    told = ", ".join(
        f"{name} {words.cutting(place, units)}" for name, place in zip(names, places, strict=True)
    )
    both = " and ".join(each.name for each in strips)
    return board.figure(
        floor + BAND,
        f"From the side edge: flat, then folded at each line in turn. From the front top edge: {told}.",
        f"{both.capitalize()}, from the side edge: fold, press, open again.",
    )
