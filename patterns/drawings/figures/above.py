"""What lies on the table seen from above: of every stretch the uppermost layer, bottom folds at the foot."""

from dataclasses import dataclass
from fractions import Fraction

from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.layers import Layer, zones
from patterns.drawings.folding.state import State
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.svg import plate
from patterns.drawings.tokens import SHEET

from .board import MOST_HEIGHT, SPACE, WIDTH, Board
from .zip_parts import corners, tape

MOST = 27_000
BESIDE = 9500
LEAST_ALLOWANCE = 1700
# Half of what the teeth of a zip take.
TEETH = 500


@dataclass(frozen=True, slots=True)
class Seen:
    """A part of what is seen, from place to place on the table."""

    left: Fraction
    right: Fraction
    layer: Layer


def seen(state: State) -> tuple[Seen, ...]:
    """Return what is seen from above, from left to right on the table."""
    found: list[Seen] = []
    for zone in zones(state.layers):
        if not zone.layers:
            continue
        top = zone.layers[-1]
        if found and found[-1].layer == top:
            found[-1] = Seen(found[-1].left, zone.right, top)
        else:
            found.append(Seen(zone.left, zone.right, top))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Plan:
    """How the work lies on the page. left: of the table, at the foot. sides: where the side seams run."""

    box: Box
    scale: Fraction
    left: Fraction
    sides: tuple[int, int]

    def y(self, place: Fraction) -> int:
        return self.box.bottom - round((place - self.left) * self.scale)

    def part(self, each: Seen) -> Box:
        return Box(self.box.left, self.y(each.right), self.box.right, self.y(each.left))


def plan_of(state: State, top: int, is_sewn_to_the_edge: bool = False, most: int = MOST) -> Plan:
    """Place the work on the page; once it is turned, it ends at its side seams."""
    left, right = min(layer.left for layer in state.layers), max(layer.right for layer in state.layers)
    wide = max(strip.width for strip in state.strips.values() if not strip.is_zip)
    off = state.sides.left if state.sides else Fraction(0)
    across = wide - 2 * off if is_sewn_to_the_edge else wide
    scale = min(Fraction(WIDTH - 2 * BESIDE) / across, Fraction(most) / (right - left))
    on_page = round(across * scale)
    start = (WIDTH - on_page) // 2
    box = Box(start, top, start + on_page, top + round((right - left) * scale))
    seam = 0 if is_sewn_to_the_edge else max(round(off * scale), LEAST_ALLOWANCE)
    return Plan(box, scale, left, (box.left + seam, box.right - seam))


def faces(board: Board, state: State, plan: Plan, cut_off: int = 0) -> None:
    """Draw what is seen; cut_off: how far the outer corners are cut off, across."""
    listed = seen(state)
    for number, each in enumerate(listed):
        box = plan.part(each)
        strip = state.strips[each.layer.strip]
        if strip.is_zip:
            teeth = box.top if each.layer.place(strip.place("teeth")) == each.right else box.bottom
            board.draw(tape(box, teeth))
            board.fill(Box(box.left, teeth - TEETH, box.right, teeth + TEETH))
            continue
        outline = _outline(box, cut_off, number == 0, number == len(listed) - 1)
        board.draw([] if cut_off else [plate(box, SHEET)])
        board.draw(fill(Fabric(strip.tint, is_pale=each.layer.up == "wrong", gap=2600), outline))
        if strip.tint == "clear":
            glints(board, box)
        board.draw([line(Line.EDGE, *outline, is_closed=True)])
        board.shun(*outline, is_closed=True)


def glints(board: Board, box: Box) -> None:
    """Draw two slanting strokes, which say that one can see through."""
    high = min(box.height * 3 // 5, 6000)
    for off in (box.width // 12, box.width // 12 + 2200):
        foot = Spot(box.left + off, box.middle.y + high // 2)
        head = Spot(foot.x + high // 2, foot.y - high)
        board.draw([line(Line.SEAM, foot, head)])
        board.shun(foot, head)


def _outline(box: Box, off: int, is_foot: bool, is_head: bool) -> tuple[Spot, ...]:
    left_bottom, left_top, right_top, right_bottom = corners(box)
    if not off:
        return left_bottom, left_top, right_top, right_bottom
    low = (Spot(box.left + off, box.bottom), Spot(box.left, box.bottom - off)) if is_foot else (left_bottom,)
    high = (Spot(box.left, box.top + off), Spot(box.left + off, box.top)) if is_head else (left_top,)
    mirrored = [Spot(box.left + box.right - spot.x, spot.y) for spot in (*low, *high)]
    return (*low, *high, *reversed(mirrored))


def names(board: Board, state: State, plan: Plan, is_alone: bool = True) -> None:
    """Name each cloth once, on the largest part of it that is seen. is_alone: nothing is drawn beside it."""
    largest: dict[str, Box] = {}
    for each in seen(state):
        name, box = each.layer.strip, plan.part(each)
        if not state.strips[name].is_zip and box.height > largest.get(name, Box(0, 0, 0, 0)).height:
            largest[name] = box
    for name, box in largest.items():
        named(board, name, box, is_alone)


def named(board: Board, name: str, box: Box, is_alone: bool = True) -> None:
    """Name a cloth on what is seen of it, clear of lines; else at its left; else across its lines."""
    if board.say(name, box.middle, is_needed=False, within=box, is_clear=True):
        return
    beside = Box(0, 0, box.left - SPACE, MOST_HEIGHT)
    edge = Spot(beside.right, box.middle.y)
    if is_alone and board.say_in_lines(name, edge, "end", beside.width - SPACE, within=beside):
        return
    board.say(name, box.middle, is_needed=False, within=box)
