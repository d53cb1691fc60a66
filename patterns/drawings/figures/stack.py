"""A stack of layers seen from the side edge, pulled apart enough to be read."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.layers import Layer, zones
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Spot

from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, EdgeOn, layers_drawn, levels, reach
from .moments import FACES

MOST_GAP, LEAST_GAP = 2600, 1900
TALL = 19_000
SAMPLE = 6000


def stacked(state: State, units: Units, title: str) -> StepFigure:
    """Return all layers over each other, with how far the pleats reach and how high the whole is."""
    board = Board(title)
    lying = levels(state.layers)
    top = max(lying)
    gap = max(min(MOST_GAP, TALL // max(top, 1)), LEAST_GAP)
    left, right = min(layer.left for layer in state.layers), max(layer.right for layer in state.layers)
    beside = EDGE + reach(0, top, gap) + SPACE
    scale = Fraction(WIDTH - 2 * beside) / (right - left)
    floor = block_height() + 2 * SPACE + top * gap + BAND
    at = EdgeOn(scale, beside - round(left * scale), floor, gap)
    board.draw(layers_drawn(state, state.layers, at))
    _legend(board, state)
    low = floor + BAND
    first, *rest = zones(state.layers)
    _measure(
        board,
        (at.x(first.left), at.x(first.right)),
        low,
        1800,
        words.cutting(first.right - first.left, units),
    )
    if rest:
        below = low + 1800 + block_height() + SPACE
        _measure(board, (at.x(left), at.x(right)), below, 1800, words.cutting(right - left, units))
        low = below
    told = [f"{layer.strip}, {layer.up} side up" for layer in state.layers]
    counts = ", then ".join(f"{len(zone.layers)} layers" for zone in (first, *rest))
    return board.figure(
        low + 1800 + block_height() + SPACE // 2,
        f"From the bottom folds up: {counts}. From the table up: {'; '.join(told)}.",
        FACES,
    )


def _measure(board: Board, ends: tuple[int, int], low: int, away: int, text: str) -> None:
    board.measure(Spot(ends[0], low), Spot(ends[1], low), Spot(0, away), words.label(text))


def _legend(board: Board, state: State) -> None:
    """Show a sample of each cloth with its name, in one row at the top."""
    names = list(dict.fromkeys(layer.strip for layer in state.layers))
    every = WIDTH // len(names)
    for number, name in enumerate(names):
        start = number * every + SPACE
        at = EdgeOn(Fraction(1), start, block_height() // 2 + SPACE // 2, 0)
        sample = Layer(name, Fraction(0), Fraction(SAMPLE), Fraction(0), 1, "right")
        board.draw(layers_drawn(state, [sample], at))
        board.say(name, Spot(start + SAMPLE + SPACE, at.floor), "start")
