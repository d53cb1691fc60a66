"""Handles: their edges folded in, folded in half, basted to an edge; webbing and cords cut to length."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.bag_parts import Basted
from patterns.drawings.folding.layers import Layer
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.svg import millimetres, path_through
from patterns.drawings.tokens import INK, SHEET

from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, EdgeOn, layers_drawn, stroke
from .patches import corners_of, label_of, patch, scaled
from .sewn_on import is_webbing

GAP = 1700
AWAY = 1800


def narrowed(
    state: State, strip: Strip, folds: tuple[Fraction, Fraction], units: Units, title: str
) -> StepFigure:
    """Return a strip seen from its short edge, flat and with both long edges folded in to its middle."""
    board = Board(title)
    zero, wide = Fraction(0), strip.length
    scale = Fraction(30_000) / wide
    left = (WIDTH - 30_000) // 2
    floor = block_height() + SPACE
    at = EdgeOn(scale, left, floor, GAP)
    flat = Layer(strip.name, zero, wide, zero, 1, "wrong")
    board.draw(layers_drawn(state, [flat], at))
    board.measure(
        Spot(at.x(zero), floor + BAND), Spot(at.x(wide), floor + BAND), Spot(0, 1500), label_of(wide, units)
    )
    board.say("1", Spot(EDGE, floor), "start")
    second = EdgeOn(scale, left, floor + 10_500, GAP)
    board.draw(layers_drawn(state, _narrow_layers(strip, folds), second))
    board.say("2", Spot(EDGE, second.floor), "start")
    low = second.floor + BAND
    ends = Spot(second.x(folds[0]), low), Spot(second.x(folds[1]), low)
    board.measure(*ends, Spot(0, 1500), label_of(folds[1] - folds[0], units))
    band = _band(board, strip, low + 6500, units, strip.length)
    told = (
        f"From its short edge: the strip flat, {words.cutting(wide, units)} wide, wrong side up; then both "
        f"long edges folded in until they meet in the middle, {words.cutting(folds[1] - folds[0], units)} "
        f"wide. It is {words.cutting(strip.width, units)} long."
    )
    return board.figure(band, told, "1 and 2 from the short edge; below, the strip from above.")


def _narrow_layers(strip: Strip, folds: tuple[Fraction, Fraction]) -> list[Layer]:
    zero = Fraction(0)
    flat = Layer(strip.name, zero, strip.length, zero, 1, "wrong")
    first, rest = flat.parted(folds[0])
    assert first is not None
    assert rest is not None
    middle, last = rest.parted(folds[1])
    assert middle is not None
    assert last is not None
    return [middle, first.over(folds[0]), last.over(folds[1])]


def halved(
    state: State,
    strip: Strip,
    folds: tuple[Fraction, Fraction, Fraction],
    below: Fraction | None,
    units: Units,
    title: str,
) -> StepFigure:
    """Return a strip with its edges folded in, then folded in half: four layers, and the rows along it.

    strip: as it was cut. folds: its three fold lines. below: how far from its edges the rows run.
    """
    board = Board(title)
    scale = Fraction(30_000) / strip.length
    left = (WIDTH - 30_000) // 2
    first = EdgeOn(scale, left, block_height() + SPACE + GAP, GAP)
    layers = _narrow_layers(strip, (folds[0], folds[2]))
    board.draw(layers_drawn(state, layers, first))
    board.say("1", Spot(EDGE, first.floor), "start")
    second = EdgeOn(scale, left, first.floor + 9500, GAP)
    board.draw(layers_drawn(state, _half_layers(layers, folds[1]), second))
    board.say("2", Spot(EDGE, second.floor - GAP), "start")
    wide, low = folds[1] - folds[0], second.floor + BAND
    board.measure(
        Spot(second.x(folds[0]), low), Spot(second.x(folds[1]), low), Spot(0, 1500), label_of(wide, units)
    )
    bottom = _band(board, strip, low + 6500, units, wide, below)
    rows = (
        f" Two rows run along it, {words.cutting(below, units)} from its edges." if below is not None else ""
    )
    told = (
        "From its short edge: both long edges folded in to the middle, then folded in half: four layers, "
        f"{words.cutting(wide, units)} wide.{rows} It is {words.cutting(strip.width, units)} long."
    )
    return board.figure(bottom, told, "1 and 2 from the short edge; below, the handle from above.")


def _half_layers(layers: list[Layer], fold: Fraction) -> list[Layer]:
    middle, first, last = layers
    low, high = middle.parted(fold)
    assert low is not None
    assert high is not None
    return [low, first, last.over(fold), high.over(fold)]


def _band(
    board: Board, strip: Strip, top: int, units: Units, wide: Fraction, below: Fraction | None = None
) -> int:
    """Draw the strip from above, its length broken in the middle; return where it ends."""
    left, right = EDGE + 1500, WIDTH - 13_000
    scale = Fraction(right - left) / strip.width
    high = min(max(round(wide * scale), 2600), 5200)
    box = Box(left, top, right, top + high)
    patch(board, corners_of(box), strip.tint)
    if below is not None:
        off = max(round(below * scale), 450)
        for level in (box.top + off, box.bottom - off):
            board.draw([line(Line.TOPSTITCH, Spot(left, level), Spot(right, level))])
    board.measure(
        Spot(left, box.bottom), Spot(right, box.bottom), Spot(0, 1500), label_of(strip.width, units)
    )
    board.measure(Spot(right, box.top), Spot(right, box.bottom), Spot(1500, 0), label_of(wide, units))
    return box.bottom


def measured_off(strip: Strip, units: Units, title: str) -> StepFigure:
    """Return lengths of webbing or cord, one under the other, their ends level."""
    board = Board(title)
    left, right = EDGE + 1500, WIDTH - 11_000
    scale = Fraction(right - left) / strip.width
    high = min(max(round(strip.length * scale), 1100), 4200)
    level = block_height()
    for _ in range(strip.count):
        box = Box(left, level, right, level + high)
        board.draw([stroke(path_through([Spot(left, box.middle.y), Spot(right, box.middle.y)]), INK, high)])
        inner = path_through([Spot(left + 200, box.middle.y), Spot(right - 200, box.middle.y)])
        board.draw([stroke(inner, SHEET, high - 400)])
        board.draw([stroke(inner, INK, (high - 400) // 2, "0.3 0.9")] if high < 2600 else [])
        if strip.length:
            board.measure(
                Spot(right, box.top), Spot(right, box.bottom), Spot(1500, 0), label_of(strip.length, units)
            )
        level = box.bottom + 2600
    low = level - 2600
    board.measure(Spot(left, low), Spot(right, low), Spot(0, AWAY), label_of(strip.width, units))
    told = f"{strip.count} lengths of {strip.piece}, {words.cutting(strip.width, units)} each."
    return board.figure(low, told, f"{strip.count} lengths, {words.cutting(strip.width, units)} each.")


def basted_on(state: State, basted: Basted, allowance: Fraction, units: Units, title: str) -> StepFigure:
    """Return an edge of a cloth, right side up, with a handle's ends on it and its loop hanging down."""
    board = Board(title)
    strip = state.strip(basted.cloth)
    left, right, top = 4000, WIDTH - 10_000, 2 * block_height() + SPACE
    box = Box(left, top, right, top + 26_000)
    scale = Fraction(right - left) / strip.width
    patch(
        board,
        (Spot(left, box.bottom), Spot(left, top), Spot(right, top), Spot(right, box.bottom)),
        strip.tint,
        is_closed=False,
    )
    seam = top + scaled(allowance, scale, 2200)
    board.draw([line(Line.SEAM, Spot(left, seam), Spot(right, seam))])
    middles = [left + round(place * scale) for place in basted.places]
    half = min(max(round(basted.wide * scale) // 2, 900), 2600)
    _loop(board, middles, top, half, box.bottom - 2500, is_sewn=not is_webbing(state, basted))
    for middle in middles:
        for number in range(3):
            level = top + (seam - top) * (number + 1) // 4
            board.draw([line(Line.STITCH, Spot(middle - half, level), Spot(middle + half, level))])
    apart = basted.places[1] - basted.places[0]
    board.measure(Spot(middles[0], top), Spot(middles[1], top), Spot(0, -1400), label_of(apart, units))
    board.measure(Spot(left, top), Spot(middles[0], top), Spot(0, -1400), label_of(basted.places[0], units))
    board.measure(Spot(right, top), Spot(right, seam), Spot(1500, 0), label_of(allowance, units))
    told = (
        f"The {strip.name} lies right side up. The ends of the handle are level with its raw edge, their "
        f"middles {words.cutting(apart, units)} apart and {words.cutting(basted.places[0], units)} from the "
        "side edges; the loop hangs down, not twisted. Three short rows hold each end inside the allowance "
        f"of {words.cutting(allowance, units)}."
    )
    return board.figure(box.bottom, told, "Right side up; three short rows at each end.")


def _loop(board: Board, middles: list[int], top: int, half: int, low: int, is_sewn: bool) -> None:
    """Draw a handle that hangs from two places in a bow. is_sewn: of cloth, with stitches along it."""
    first, last = middles
    radius = min((last - first) // 2, low - top - 2000)
    level = low - radius
    r = millimetres(radius)
    way = (
        path_through([Spot(first, top), Spot(first, level)])
        + f"A{r} {r} 0 0 0 {millimetres(first + radius)} {millimetres(low)}"
        + f"L{millimetres(last - radius)} {millimetres(low)}"
        + f"A{r} {r} 0 0 0 {millimetres(last)} {millimetres(level)}"
        + f"L{millimetres(last)} {millimetres(top)}"
    )
    board.draw([stroke(way, INK, 2 * half), stroke(way, SHEET, 2 * half - 560)])
    if is_sewn:
        board.draw([stroke(way, INK, 120, "0.85 0.6")])
    board.say("handle", Spot(last + half + SPACE, low - radius), "start")
