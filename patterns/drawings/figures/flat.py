"""A cloth lying flat, wrong side up, with the marks that a step adds, what is fused to it, or its size."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Line as Mark
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Point, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.page import LIFE_SIZE, Placing

from .board import MOST_HEIGHT, SPACE, WIDTH, Board, StepFigure, block_height, text_wide

BESIDE = 12_500
OVER = 4500
# A piece that is drawn narrower than this has no room for lengths on it.
NARROW = 16_000
AWAY = 1900
CROSS = 1000
_KINDS = {
    "fold": Line.FOLD,
    "stitch": Line.STITCH,
    "place": Line.MARK,
    "clip": Line.CLIP,
    "opening": Line.OPENING,
}


@dataclass(frozen=True, slots=True)
class _Laid:
    """A cloth in its place on the page."""

    strip: Strip
    placing: Placing

    def spot(self, across: Fraction, along: Fraction) -> Spot:
        return self.placing.spot(Point(across, -along))

    @property
    def box(self) -> Box:
        return Box(*self.spot(Fraction(0), Fraction(0)), *self.spot(self.strip.width, self.strip.length))

    def ends(self, mark: Mark) -> tuple[Spot, Spot]:
        zero = Fraction(0)
        if mark.place is not None:
            if mark.across is not None:
                return (self.spot(mark.across, mark.place),) * 2
            end = self.strip.width if mark.end is None else mark.end
            return self.spot(mark.start or zero, mark.place), self.spot(end, mark.place)
        end = self.strip.length if mark.end is None else mark.end
        return self.spot(mark.across or zero, mark.start or zero), self.spot(mark.across or zero, end)


def _laid(strip: Strip, under: int) -> _Laid:
    room = MOST_HEIGHT - OVER - under
    scale = min(Fraction(WIDTH - 2 * BESIDE) / strip.width, Fraction(room) / strip.length, LIFE_SIZE)
    left = (WIDTH - round(strip.width * scale)) // 2
    return _Laid(strip, Placing(scale, Spot(left, OVER)))


def cut_out(strip: Strip, count: int, units: Units) -> StepFigure:
    """Return a piece as it is cut, with its size."""
    board = Board(f"Cut the {strip.piece}")
    laid = _laid(strip, block_height() + 2 * AWAY)
    _ground(board, laid, is_pale=False)
    _sides(board, laid, units)
    times = f"{count} pieces, right side up" if count > 1 else "Right side up"
    size = " by ".join(words.cutting(length, units) for length in (strip.width, strip.length))
    return board.figure(laid.box.bottom, f"{times}, {size}.", f"{times}, to scale.")


def fused(strip: Strip, units: Units) -> StepFigure:
    """Return what is fused to the wrong side of a cloth, and how much of the cloth stays free round it."""
    assert strip.fused is not None
    name, across, along = strip.fused
    board = Board(f"The {name} on the {strip.name}")
    laid = _laid(strip, block_height() + 2 * AWAY)
    _ground(board, laid)
    corner, far = laid.spot(across, along), laid.spot(strip.width - across, strip.length - along)
    inner = Box(*corner, *far)
    board.draw(fill(Fabric("interfacing"), _corners(inner)))
    board.draw([line(Line.EDGE, *_corners(inner), is_closed=True)])
    board.say("glue side down", inner.middle, is_needed=False, within=inner)
    _sides(board, laid, units)
    told = "Its edges are level with those of the cloth."
    if across:
        free = words.cutting(across, units)
        told = f"{free} of the cloth stays free at each edge."
        board.say(
            words.label(f"{free} free"), Spot(inner.middle.x, laid.box.top - SPACE - block_height() // 2)
        )
    return board.figure(laid.box.bottom, f"The cloth lies wrong side up. {told}", f"Wrong side up. {told}")


def marked(
    state: State, strips: Sequence[Strip], names: Sequence[str], before: State, units: Units
) -> StepFigure:
    """Return a cloth with the marks that a step adds, each with how far from the nearer edge it lies.

    strips: all that are marked alike; the first is drawn. before: the work before, whose marks stand thin.
    """
    strip = strips[0]
    board = Board(f"Marks on the {' and the '.join(each.name for each in strips)}")
    added = [strip.line(name) for name in names]
    is_under = any(mark.place is None for mark in added)
    laid = _laid(strip, 2 * (block_height() + AWAY) if is_under else 2 * SPACE)
    _ground(board, laid)
    for name in sorted(name for cloth, name in before.drawn if cloth == strip.name and name in strip.lines):
        if name not in names:
            board.draw([line(Line.SEAM, *laid.ends(strip.line(name)))])
    for mark in added:
        board.draw(_drawn(mark, laid))
    for mark in added:
        _measured(board, mark, laid, units)
    for mark in added:
        _named(board, mark, laid)
    board.say("TOP", Spot(laid.box.middle.x, laid.box.top - block_height() // 2 - 200), is_needed=False)
    told = "; ".join(_where(mark, strip, units) for mark in added)
    alike = " and ".join(each.name for each in strips)
    both = (
        f"{alike.capitalize()} alike, wrong side up"
        if len(strips) > 1
        else f"{alike.capitalize()}, wrong side up"
    )
    return board.figure(laid.box.bottom, f"{both}: {told}.", f"{both}.")


def _ground(board: Board, laid: _Laid, is_pale: bool = True) -> None:
    corners = _corners(laid.box)
    board.draw(fill(Fabric(laid.strip.tint, is_pale=is_pale, gap=2600), corners))
    board.draw([line(Line.CUT, *corners, is_closed=True)])
    for join in laid.strip.joins:
        board.draw([line(Line.SEAM, laid.spot(Fraction(0), join), laid.spot(laid.strip.width, join))])


def _corners(box: Box) -> tuple[Spot, ...]:
    return (
        Spot(box.left, box.top),
        Spot(box.right, box.top),
        Spot(box.right, box.bottom),
        Spot(box.left, box.bottom),
    )


def _sides(board: Board, laid: _Laid, units: Units) -> None:
    box, strip = laid.box, laid.strip
    width, length = (words.label(words.cutting(each, units)) for each in (strip.width, strip.length))
    board.measure(Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(0, AWAY), width)
    board.measure(Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(AWAY, 0), length)


def _drawn(mark: Mark, laid: _Laid) -> list[str]:
    start, end = laid.ends(mark)
    if mark.kind == "place" and start == end:
        return [
            line(Line.EDGE, Spot(start.x - CROSS, start.y), Spot(start.x + CROSS, start.y)),
            line(Line.EDGE, Spot(start.x, start.y - CROSS), Spot(start.x, start.y + CROSS)),
        ]
    if mark.kind == "clip" and end.x - start.x < CROSS:
        out = Spot(max(end.x, start.x + CROSS), end.y), Spot(min(start.x, end.x - CROSS), start.y)
        start, end = (start, out[0]) if start.x == laid.box.left else (out[1], end)
    return [line(_KINDS[mark.kind], start, end)]


def _measured(board: Board, mark: Mark, laid: _Laid, units: Units) -> None:
    """Write how far a mark lies from the nearer raw edge, beside the piece or under it."""
    box, strip = laid.box, laid.strip
    start, end = laid.ends(mark)
    if mark.kind in ("opening", "clip") and mark.place is not None:
        _length_of(board, mark, laid, units)
    elif mark.place is not None:
        is_top = 2 * mark.place <= strip.length
        far = mark.place if is_top else strip.length - mark.place
        side, way = (box.left, -1) if _is_at_the_left(mark, laid) else (box.right, 1)
        edge = Spot(side, box.top if is_top else box.bottom)
        text = words.label(words.cutting(far, units))
        board.measure(edge, Spot(side, end.y), Spot(way * AWAY, 0), text)
    elif mark.across is not None:
        is_left = 2 * mark.across <= strip.width
        far = mark.across if is_left else strip.width - mark.across
        edge = Spot(box.left if is_left else box.right, box.bottom)
        board.measure(edge, Spot(start.x, box.bottom), Spot(0, AWAY), words.label(words.cutting(far, units)))


def _length_of(board: Board, mark: Mark, laid: _Laid, units: Units) -> None:
    start, end = laid.ends(mark)
    length = (laid.strip.width if mark.end is None else mark.end) - (mark.start or Fraction(0))
    text = words.label(words.cutting(length, units))
    if mark.kind == "opening" and laid.box.width < NARROW:
        over = Spot(laid.box.right + SPACE, laid.box.top - block_height() // 2 - SPACE // 2)
        board.say(f"opening {text}", over, "start")
    elif mark.kind == "opening":
        sides = [
            each.across
            for each in laid.strip.lines.values()
            if each.kind == "stitch" and each.across is not None and each.across < (mark.start or 0)
        ]
        board.measure(start, end, Spot(0, 3 * AWAY // 2), text)
        if sides and mark.start is not None:
            from_side = laid.spot(sides[0], mark.place or Fraction(0))
            rest = words.label(words.cutting(mark.start - sides[0], units))
            board.measure(from_side, start, Spot(0, 4 * AWAY), rest)
    elif start.x == laid.box.left:
        board.say(text, Spot(laid.box.left - SPACE, start.y), "end")
    else:
        board.say(text, Spot(laid.box.right + SPACE, start.y), "start")


def _named(board: Board, mark: Mark, laid: _Laid) -> None:
    """Write a mark's name at it, on the cloth, if there is room for it."""
    start, end = laid.ends(mark)
    box = laid.box
    if mark.place is None:
        inward = block_height() // 2 + SPACE // 2
        x = start.x + (inward if 2 * start.x < box.left + box.right else -inward)
        board.say_upright(mark.name, Spot(x, box.middle.y))
        return
    if mark.kind in ("clip", "opening"):
        return
    off = block_height() // 2 + 300
    level = end.y + (off if 2 * end.y < box.top + box.bottom else -off)
    if mark.kind == "place":
        at = start.x if _is_at_the_left(mark, laid) else end.x
        _beside(board, mark.name, Spot(at, end.y + 2 * off), laid)
    elif not board.say(mark.name, Spot(box.middle.x, level), is_needed=False, within=box):
        _beside(board, mark.name, Spot(box.left, end.y), laid)


def _is_at_the_left(mark: Mark, laid: _Laid) -> bool:
    """Whether a mark that does not reach right across lies at the left edge."""
    start, end = laid.ends(mark)
    return mark.kind == "place" and end.x < laid.box.middle.x and start.x <= end.x


def _beside(board: Board, name: str, at: Spot, laid: _Laid) -> None:
    """Write a name beside the cloth at the nearer edge; where it has no room there, on the cloth."""
    is_left = at.x < laid.box.middle.x
    if text_wide(name) + 2 * SPACE + AWAY <= laid.box.left:
        edge = laid.box.left - SPACE - AWAY if is_left else laid.box.right + SPACE + AWAY
        board.say(name, Spot(edge, at.y), "end" if is_left else "start", is_needed=False)
    else:
        edge = laid.box.left + SPACE if is_left else laid.box.right - SPACE
        board.say(name, Spot(edge, at.y), "start" if is_left else "end", is_needed=False, within=laid.box)


def _where(mark: Mark, strip: Strip, units: Units) -> str:
    if mark.kind in ("opening", "clip") and mark.place is not None:
        length = (strip.width if mark.end is None else mark.end) - (mark.start or Fraction(0))
        return f"{mark.name}, {words.cutting(length, units)} long"
    far, most, ends = (
        (mark.place, strip.length, ("top", "bottom"))
        if mark.place is not None
        else (mark.across or Fraction(0), strip.width, ("left", "right"))
    )
    near = min(far, most - far)
    return f"{mark.name}, {words.cutting(near, units)} from the {ends[0] if near == far else ends[1]} edge"
