"""A fold in three moments, seen edge-on: as it lies, half-way with an arrow, folded."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.hung import is_hung
from patterns.drawings.folding.layers import Layer, bonds
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, dot, line
from patterns.drawings.tokens import INK, PETROL, SHEET

from .arrows import straight, swing
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import BAND, EdgeOn, layers_drawn, levels, reach, room_of, turned

GAP = 1700
BESIDE = 4200
# Half-way the moving part stands at so many degrees; its foot is drawn clear of what rests.
STANDING = 60
# The arrow over it goes so far at least, however short the part that moves.
LEAST_SWING = 3600
MOST_STANDING = 13_000
# Half of how thick a rolled handle is drawn, and how far from the seam.
ROLL, FROM_SEAM = 560, 2200
FACES = "From the side edge; the coloured line is each layer’s right side."


def laid_out(state: State, units: Units, title: str) -> StepFigure:
    """Return the loop as it lies: one picture, pulled apart."""
    board = Board(title)
    over = block_height() + SPACE if state.sewn.handles else 0
    at = _placing([state.layers], 7_000 + over, 2 * GAP)
    board.draw(layers_drawn(state, state.layers, at))
    rolled = _rolls(board, state, at)
    _name(board, state, state.layers, at)
    low = at.floor + BAND
    for name in sorted({layer.strip for layer in state.layers}):
        mine = [layer for layer in state.layers if layer.strip == name]
        left, right = at.x(min(layer.left for layer in mine)), at.x(max(layer.right for layer in mine))
        length = mine[0].right - mine[0].left
        board.measure(
            Spot(left, low), Spot(right, low), Spot(0, 2600), words.label(words.cutting(length, units))
        )
    _opening(board, state, at, low + 2600 + block_height() + SPACE)
    return board.figure(low + 2600, _told(state, units) + rolled, FACES)


def _rolls(board: Board, state: State, at: EdgeOn) -> str:
    """Draw handles rolled up on the right side of their cloth, close under its top seams; tell of them."""
    cloths = {each.cloth for each in state.sewn.handles}
    lying, rolls = levels(state.layers), []
    for bond in bonds(state.layers, [seam.ends for seam in state.seams]):
        for number in (bond.lower, bond.upper):
            layer = state.layers[number]
            if bond.is_fold or layer.strip not in cloths:
                continue
            inward = 1 if layer.left == bond.place else -1
            up = -1 if layer.up == "right" else 1
            y = at.y(lying[number]) + up * (BAND // 2 + ROLL)
            rolls.append(Spot(at.x(bond.place) + inward * FROM_SEAM, y))
    if not rolls:
        return ""
    for spot in rolls:
        for radius, colour in ((ROLL, INK), (ROLL - 150, SHEET), (ROLL - 310, PETROL)):
            board.draw([dot(spot, radius, colour)])
    highest = min(rolls, key=lambda spot: spot.y)
    head = Spot(highest.x, block_height() + SPACE // 2)
    board.draw([line(Line.LEADER, head, highest)])
    board.say("rolled handles", Spot(head.x, block_height() // 2))
    return " The handles are rolled up between the two layers of their cloth, close under the top seams."


def _opening(board: Board, state: State, at: EdgeOn, low: int) -> None:
    """Say which of the seams is left open."""
    lying = levels(state.layers)
    left_open = {seam.ends for seam in state.seams if seam.opening}
    for bond in bonds(state.layers, [seam.ends for seam in state.seams]):
        if bond.ends in left_open:
            seam = Spot(at.x(bond.place), at.y(lying[bond.lower]))
            foot = Spot(seam.x, low)
            board.draw([line(Line.LEADER, seam, foot), dot(seam, 800, PETROL)])
            board.say("opening", Spot(foot.x, low + block_height() // 2))


def folded(before: State, after: State, act: SizedAct, units: Units, title: str) -> StepFigure:
    """Return a fold of everything beyond a line, in three moments. after: with all that belongs to it."""
    board = Board(title)
    before, after = (_what_moves(state, act.one("bring")) for state in (before, after))
    crease, beyond = before.place(act.all("fold")), before.place([act.one("bring")])
    resting, _ = _parted(before.layers, crease, beyond)
    first = _placing([before.layers, after.layers], _height(before.layers), GAP)
    if before.zips:
        first = _low(first, abs(beyond - crease))
    board.draw(layers_drawn(before, before.layers, first))
    _number(board, "1", first)
    _name(board, before, before.layers, first)
    standing = _standing(abs(beyond - crease), first.scale)
    second = EdgeOn(first.scale, first.zero, first.floor + 3 * SPACE + standing + _height(resting), GAP)
    _half_way(board, before, _parted(before.layers, crease, beyond), (crease, beyond), second)
    _number(board, "2", second)
    third = EdgeOn(first.scale, first.zero, second.floor + 2 * SPACE + BAND + _height(after.layers), GAP)
    board.draw(layers_drawn(after, after.layers, third))
    _number(board, "3", third)
    for box in room_of(after.layers, third):
        board.fill(box)
    bottom = third.floor + BAND
    cloth = before.mark(act.one("bring"))[0].name
    mine = [layer for layer in after.layers if layer.strip == cloth]
    left, right = min(layer.left for layer in mine), max(layer.right for layer in mine)
    _measured(board, third, (left, right), bottom, units)
    flap = min(crease, 2 * crease - beyond), max(crease, 2 * crease - beyond)
    if flap != (left, right):
        level = third.floor - _height(after.layers)
        board.say(
            words.label(f"{words.cutting(flap[1] - flap[0], units)} flap"),
            Spot(third.x(flap[1]) + 2 * SPACE, level + GAP // 2),
            "start",
            is_needed=False,
        )
    return board.figure(
        bottom + 2000, _told(after, units), "From the side edge: as it lies, on the way, and folded."
    )


def _low(at: EdgeOn, moving: Fraction) -> EdgeOn:
    """Return a placing at which the part that stands up half-way is no higher than there is room for."""
    scale = min(at.scale, Fraction(MOST_STANDING) / moving)
    left = Fraction(EDGE + BESIDE - at.zero) / at.scale
    return EdgeOn(scale, EDGE + BESIDE - round(left * scale), at.floor, at.gap)


def _what_moves(state: State, mark: str) -> State:
    """Of two loops on either side of a zip only the one that is folded, from the seams on."""
    if not state.zips or not is_hung(state):
        return state
    strip, _ = state.mark(mark)
    return replace(state, layers=tuple(layer for layer in state.layers if layer.strip == strip.name))


def _standing(length: Fraction, scale: Fraction) -> int:
    """Return how high a part stands half-way, with the arrow over it."""
    return max(round(length * scale) * 9 // 10, LEAST_SWING) + 1500


def _measured(board: Board, at: EdgeOn, ends: tuple[Fraction, Fraction], low: int, units: Units) -> None:
    start, end = (Spot(at.x(place), low) for place in ends)
    board.measure(start, end, Spot(0, 2000), words.label(words.cutting(ends[1] - ends[0], units)))


def pushed(before: State, after: State, act: SizedAct, units: Units, title: str) -> StepFigure:
    """Return a fold pushed in between its layers: as it lies with an arrow, and pushed in."""
    board = Board(title)
    first = _placing([before.layers, after.layers], _height(before.layers) + BAND, GAP)
    board.draw(layers_drawn(before, before.layers, first))
    place = before.place([act.one("push")])
    tip = first.x(place)
    way = 1 if place > before.place(act.all("between")) else -1
    _name(board, before, before.layers, first)
    lying = levels(before.layers)
    fold = next(
        bond
        for bond in bonds(before.layers, [seam.ends for seam in before.seams])
        if bond.place == place and bond.is_fold and len(bond.ends) == 1 and bond.sides[0] == -way
    )
    level = (first.y(lying[fold.lower]) + first.y(lying[fold.upper])) // 2
    out = tip + way * (reach(lying[fold.lower], lying[fold.upper], GAP) + BESIDE)
    board.draw(straight(Spot(out, level), Spot(tip + way * (BAND + 900), level)))
    board.fill(Box(min(out, tip), level - BAND, max(out, tip), level + BAND))
    _number(board, "1", first)
    second = EdgeOn(
        first.scale, first.zero, first.floor + 4 * SPACE + block_height() + _height(after.layers), GAP
    )
    board.draw(layers_drawn(after, after.layers, second))
    _number(board, "2", second)
    bottom = second.floor + BAND
    left, right = sorted((after.place([act.one("push")]), after.place(act.all("between"))))
    _measured(board, second, (left, right), bottom, units)
    return board.figure(bottom + 2000, _told(after, units), "From the side edge: before, and pushed in.")


def _half_way(
    board: Board,
    state: State,
    parts: tuple[Sequence[Layer], Sequence[Layer]],
    places: tuple[Fraction, Fraction],
    at: EdgeOn,
) -> None:
    resting, moving = parts
    crease, beyond = places
    top = max(levels(resting)) if resting else 0
    board.draw(layers_drawn(state, resting, at))
    hinge = Spot(at.x(crease), at.y(top) - BAND)
    lifted = EdgeOn(at.scale, at.zero, hinge.y, GAP)
    is_right = beyond > crease
    board.draw([turned(layers_drawn(state, moving, lifted), -STANDING if is_right else STANDING, hinge)])
    board.draw([dot(hinge, 500, PETROL)])
    length = round(abs(beyond - crease) * at.scale)
    side = 1 if is_right else -1
    start = Spot(hinge.x + side * length * 3 // 10, hinge.y - max(length * 9 // 10, LEAST_SWING))
    end = Spot(hinge.x - side * max(length * 8 // 10, 5 * LEAST_SWING // 4), hinge.y - 1400)
    board.draw(swing(start, end, max(length, 3 * LEAST_SWING // 2), not is_right))


def _parted(layers: Sequence[Layer], line: Fraction, beyond: Fraction) -> tuple[list[Layer], list[Layer]]:
    resting, moving = [], []
    for layer in layers:
        left, right = layer.parted(line)
        stays, goes = (left, right) if beyond > line else (right, left)
        resting += [stays] if stays else []
        moving += [goes] if goes else []
    return resting, moving


def _placing(moments: Sequence[Sequence[Layer]], floor: int, gap: int) -> EdgeOn:
    """Return a placing in which all moments fit across the page, at one scale."""
    every = [layer for moment in moments for layer in moment]
    left, right = min(layer.left for layer in every), max(layer.right for layer in every)
    scale = Fraction(WIDTH - 2 * (EDGE + BESIDE)) / (right - left)
    return EdgeOn(scale, EDGE + BESIDE - round(left * scale), floor + block_height() + SPACE, gap)


def _height(layers: Sequence[Layer]) -> int:
    return max(levels(layers)) * GAP + BAND if layers else 0


def _number(board: Board, number: str, at: EdgeOn) -> None:
    board.say(number, Spot(EDGE, at.floor), "start")


def _name(board: Board, state: State, layers: Sequence[Layer], at: EdgeOn) -> None:
    """Name each cloth once, over its uppermost layer."""
    lying = levels(layers)
    for box in room_of(layers, at):
        board.fill(box)
    for name in dict.fromkeys(layer.strip for layer in layers):
        mine = [(level, layer) for level, layer in zip(lying, layers, strict=True) if layer.strip == name]
        level, layer = max(mine, key=lambda each: each[0])
        middle = (at.x(layer.left) + at.x(layer.right)) // 2
        board.say(name, Spot(middle, at.y(level) - BAND - block_height() // 2), is_needed=False)


def _told(state: State, units: Units) -> str:
    """What lies there, from the table up, for who cannot see it."""
    parts = [
        f"{layer.strip}, {layer.up} side up, {words.cutting(layer.right - layer.left, units)} long"
        for layer in state.layers
    ]
    return f"The layers from the table up: {'; '.join(parts)}."
