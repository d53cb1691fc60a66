"""Cloths side by side at one scale, each by its own outline: as they are cut, or backed."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.outlines import Corner, rectangle, seam_line
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.dimension import DOT
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Point, Spot
from patterns.drawings.lines import Line, along, line
from patterns.drawings.outline import Outline, laid_outline
from patterns.drawings.page import LIFE_SIZE, Placing

from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height, text_wide
from .patches import label_of, under

AWAY = 1800


@dataclass(frozen=True, slots=True)
class Laid:
    """A cloth in its place on the page. is_whole: before its corners are cut out. is_cut_short: its upper
    half only, the drawing breaks off at its middle.
    """

    strip: Strip
    placing: Placing
    is_whole: bool = False
    is_cut_short: bool = False

    @property
    def corners(self) -> tuple[Corner, ...]:
        if self.strip.corners and not self.is_whole:
            return self.strip.corners
        return rectangle(self.strip.width, self.strip.length)

    @property
    def outline(self) -> Outline:
        return laid_outline(self.corners, self.placing)

    @property
    def is_circle(self) -> bool:
        return bool(self.strip.corners) and all(corner.arc for corner in self.strip.corners)

    def spot(self, across: Fraction, down: Fraction) -> Spot:
        return self.placing.spot(Point(across, -down))

    @property
    def box(self) -> Box:
        return Box(*self.spot(Fraction(0), Fraction(0)), *self.spot(self.strip.width, self.strip.length))

    def inner(self, inside: Fraction) -> Outline | None:
        found = seam_line(self.corners, inside)
        return laid_outline(found, self.placing) if found else None


def lay_abreast(
    strips: Sequence[Strip], top: int, high: int, beside: int, left: int = EDGE, is_whole: bool = False
) -> list[Laid]:
    """Return cloths side by side in a page's width, at one scale, their tops level.

    top: where they begin. high: how high they may be. beside: what is kept free right of each. left: before
    the first.
    """
    room = WIDTH - left - EDGE - beside * len(strips)
    widest, highest = sum(strip.width for strip in strips), max(strip.length for strip in strips)
    scale = min(Fraction(room) / widest, Fraction(high) / highest, LIFE_SIZE)
    spare = (room - round(widest * scale)) // (len(strips) + 1)
    found, x = [], left + spare
    for strip in strips:
        found.append(Laid(strip, Placing(scale, Spot(x, top)), is_whole))
        x += round(strip.width * scale) + beside + spare
    return found


def ground(board: Board, laid: Laid, is_wrong: bool) -> None:
    outline = laid.outline
    board.draw(fill(Fabric(laid.strip.tint, is_pale=is_wrong, gap=2600), outline.spots, outline.path))
    if laid.is_cut_short:
        left_top, right_top, right_low, left_low = outline.spots
        board.draw([line(Line.CUT, left_low, left_top, right_top, right_low)])
    else:
        board.draw([along(Line.CUT, outline.path)])
    if laid.is_circle:
        _keep_off(board, laid)
    else:
        board.shun(*outline.spots, is_closed=True)


def _keep_off(board: Board, laid: Laid) -> None:
    """Take note of the edge of a circle, which no label may cross."""
    for spot in laid.outline.spots[::4]:
        board.fill(Box(spot.x, spot.y, spot.x, spot.y).grown(200))


def cut_abreast(strips: Sequence[Strip], units: Units, title: str) -> StepFigure:
    """Return pieces as they are cut, each with its size: how wide and high, or how far across."""
    board = Board(title)
    heights = [text_wide(label_of(strip.length, units)) for strip in strips]
    beside = max(9500, AWAY + DOT + 2 * SPACE + max(heights))
    for laid in lay_abreast(strips, block_height() + SPACE, 26_000, beside):
        ground(board, laid, is_wrong=False)
        _size(board, laid, units)
    told = "; ".join(f"{strip.count} of the {strip.name}, {_size_words(strip, units)}" for strip in strips)
    every = {strip.count for strip in strips}
    times = f"{every.pop()} of each. " if len(every) == 1 and len(strips) > 1 else ""
    return board.figure(0, f"Right side up: {told}.", f"{times}Right side up, to scale.")


def _size(board: Board, laid: Laid, units: Units) -> None:
    box, strip = laid.box, laid.strip
    width, high = label_of(strip.width, units), label_of(strip.length, units)
    board.measure(Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(0, AWAY), width)
    if not laid.is_circle:
        board.measure(Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(AWAY, 0), high)
    name = strip.name if strip.count == 1 else f"{strip.count} × {strip.name}"
    low = box.bottom + AWAY + block_height() + SPACE
    if len(board.title) and text_wide(name) < WIDTH:
        under(board, name, box.middle.x, low)


def _size_words(strip: Strip, units: Units) -> str:
    width = words.cutting(strip.width, units)
    if strip.corners and all(corner.arc for corner in strip.corners):
        return f"{width} across"
    return f"{width} by {words.cutting(strip.length, units)}"


def fused_abreast(
    groups: Sequence[Sequence[Strip]], backing: Sequence[Strip], units: Units, title: str
) -> StepFigure:
    """Return what is fused to cloths, and how much of the cloth stays free at their edges.

    groups: cloths that are backed alike. backing: what is fused to each of them, as it is cut.
    """
    board = Board(title)
    every = lay_abreast([alike[0] for alike in groups], 2 * block_height(), 27_000, 7000, 7000)
    free = max(laid.strip.fused[1] for laid in every if laid.strip.fused)
    for laid, back in zip(every, backing, strict=True):
        ground(board, laid, is_wrong=True)
        assert laid.strip.fused is not None
        _, across, down, _ = laid.strip.fused
        inner = Laid(back, Placing(laid.placing.scale, laid.spot(across, down))).outline
        board.draw(fill(Fabric("interfacing"), inner.spots, inner.path))
        board.draw([along(Line.EDGE, inner.path)])
        box = laid.box
        if across:
            at = Spot(box.middle.x, box.top - block_height() // 2 - 300)
            board.say(f"{label_of(across, units)} free", at, is_needed=False)
        board.say("glue side down", inner.box.middle, is_needed=False, within=inner.box.grown(-400))
    low = max(laid.box.bottom for laid in every)
    for laid, alike in zip(every, groups, strict=True):
        under(board, names_of(alike), laid.box.middle.x, low)
    names = "; ".join(names_of(alike) for alike in groups)
    told = f"{words.cutting(free, units)} of the cloth free at every edge" if free else "edges level"
    return board.figure(
        0,
        f"{names.capitalize()}: the interfacing lies glue side down on the wrong side, {told}.",
        f"Wrong side up; {told}.",
    )


def names_of(strips: Sequence[Strip]) -> str:
    """Name cloths; what is the last word of each is said once: “exterior and lining side”."""
    names = [each.name for each in strips]
    lasts = {name.rpartition(" ")[2] for name in names}
    if len(names) > 1 and len(lasts) == 1:
        names = [*(name.rpartition(" ")[0] for name in names[:-1]), names[-1]]
    return " and ".join(names)
