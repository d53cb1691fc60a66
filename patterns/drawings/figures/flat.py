"""A cloth lying flat, wrong side up, with the marks that a step adds, what is fused to it, or its size."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.lists import listed
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
# Of several pieces, one under the other: how far apart.
BETWEEN = 1800
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


def _laid_under_each_other(strips: Sequence[Strip], under: int) -> list[_Laid]:
    """Return cloths in their places, one under the other, at one scale."""
    room = MOST_HEIGHT - OVER - under - (len(strips) - 1) * BETWEEN
    wide, long = max(strip.width for strip in strips), sum(strip.length for strip in strips)
    scale = min(Fraction(WIDTH - 2 * BESIDE) / wide, Fraction(room) / long, LIFE_SIZE)
    found, top = [], OVER
    for strip in strips:
        left = (WIDTH - round(strip.width * scale)) // 2
        found.append(_Laid(strip, Placing(scale, Spot(left, top))))
        top = found[-1].box.bottom + BETWEEN
    return found


def cut_several(strips: Sequence[Strip], counts: Sequence[int], units: Units) -> StepFigure:
    """Return pieces that are cut in one step, each with its size."""
    board = Board("Cut " + listed([f"the {strip.piece}" for strip in strips], "and"))
    placed = _laid_under_each_other(strips, block_height() + 2 * AWAY)
    for laid in placed:
        _ground(board, laid, is_pale=False)
    _heights_and_width(board, placed, units)
    _names_of(board, placed)
    told = "; ".join(
        f"{strip.piece}, {count} of "
        + " by ".join(words.cutting(length, units) for length in (strip.width, strip.length))
        for strip, count in zip(strips, counts, strict=True)
    )
    return board.figure(placed[-1].box.bottom, f"Right side up: {told}.", "Right side up, to one scale.")


def fused_several(strips: Sequence[Strip], units: Units) -> StepFigure:
    """Return cloths with what is fused to each of them in one step."""
    board = Board("Interfacing on " + listed([f"the {strip.name}" for strip in strips], "and"))
    placed = _laid_under_each_other(strips, block_height() + 2 * AWAY)
    for laid in placed:
        _ground(board, laid)
        _glued(board, laid)
    _heights_and_width(board, placed, units)
    is_level = all(strip.fused is not None and not any(strip.fused[1:]) for strip in strips)
    told = [
        f"{strip.name}, {'edges level' if is_level else _free(strip, units).rstrip('.')}" for strip in strips
    ]
    caption = "edges level" if is_level else "seam allowances free"
    return board.figure(
        placed[-1].box.bottom, f"Wrong sides up: {'; '.join(told)}.", f"Wrong sides up, {caption}."
    )


def marked_several(
    strips: Sequence[Strip], names: Sequence[Sequence[str]], alike: Sequence[str], units: Units
) -> StepFigure:
    """Return cloths that are marked in one step, each with its own marks. alike: what else is marked so."""
    board = Board("Marks on " + listed([f"the {strip.name}" for strip in strips], "and"))
    placed = _laid_under_each_other(strips, 2 * SPACE)
    told = []
    for laid, own in zip(placed, names, strict=True):
        _ground(board, laid)
        added = [laid.strip.line(name) for name in own]
        _all_marks(board, added, laid, units)
        told.append(f"{laid.strip.name} with " + ", ".join(_where(mark, laid.strip, units) for mark in added))
    _names_of(board, placed)
    also = f" {listed(list(alike), 'and').capitalize()} alike." if alike else ""
    caption = f"Wrong sides up.{also}"
    return board.figure(placed[-1].box.bottom, f"Wrong sides up: {'; '.join(told)}.{also}", caption)


def _heights_and_width(board: Board, placed: Sequence[_Laid], units: Units) -> None:
    for laid in placed:
        box, strip = laid.box, laid.strip
        text = words.label(words.cutting(strip.length, units))
        board.measure(Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(AWAY, 0), text)
    last = placed[-1]
    text = words.label(words.cutting(last.strip.width, units))
    ends = Spot(last.box.left, last.box.bottom), Spot(last.box.right, last.box.bottom)
    board.measure(*ends, Spot(0, AWAY), text)


def _names_of(board: Board, placed: Sequence[_Laid]) -> None:
    for laid in placed:
        for text in (laid.strip.name, laid.strip.name.split()[-1]):
            if board.say(text, laid.box.middle, is_needed=False, within=laid.box):
                break


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
    name, across, along, rest = strip.fused
    board = Board(f"The {name} on the {strip.name}")
    laid = _laid(strip, block_height() + 2 * AWAY)
    _ground(board, laid)
    _glued(board, laid)
    _sides(board, laid, units)
    told = "Its edges are level with those of the cloth."
    over = Spot(laid.box.middle.x, laid.box.top - SPACE - block_height() // 2)
    if across and along == rest == across:
        free = words.cutting(across, units)
        told = f"{free} of the cloth stays free at each edge."
        board.say(words.label(f"{free} free"), over)
    elif across:
        told = _free(strip, units)
        board.say(words.label(_free_in_short(strip, units)), over)
    caption = told if across != along or across != rest else f"Wrong side up. {told}"
    return board.figure(laid.box.bottom, f"The cloth lies wrong side up. {told}", caption)


def _glued(board: Board, laid: _Laid) -> None:
    """Draw what is fused to a cloth."""
    strip = laid.strip
    assert strip.fused is not None
    _, across, along, rest = strip.fused
    corner, far = laid.spot(across, along), laid.spot(strip.width - across, strip.length - rest)
    inner = Box(*corner, *far)
    board.draw(fill(Fabric("interfacing"), _corners(inner)))
    board.draw([line(Line.EDGE, *_corners(inner), is_closed=True)])
    board.say("glue side down", inner.middle, is_needed=False, within=inner)


def _free(strip: Strip, units: Units) -> str:
    assert strip.fused is not None
    sides, first, last = (words.cutting(length, units) for length in strip.fused[1:])
    return f"{sides} of the cloth stays free at each side, {first} above and {last} below."


def _free_in_short(strip: Strip, units: Units) -> str:
    assert strip.fused is not None
    sides, first, last = (words.cutting(length, units) for length in strip.fused[1:])
    return f"sides {sides}, ends {first}" + (f" and {last}" if first != last else "")


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
    _all_marks(board, added, laid, units)
    if edge := _upper_edge(strip):
        board.say(edge, Spot(laid.box.middle.x, laid.box.top - block_height() // 2 - 200), is_needed=False)
    told = "; ".join(_where(mark, strip, units) for mark in added)
    alike = " and ".join(each.name for each in strips)
    lying = "" if strip.tint == "clear" else ", wrong side up"
    both = f"{alike.capitalize()} alike{lying}" if len(strips) > 1 else f"{alike.capitalize()}{lying}"
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


def _upper_edge(strip: Strip) -> str:
    """What is written on a piece's upper edge: a clear one takes no such writing."""
    if strip.tint == "clear":
        return ""
    return "ZIP" if any("zip" in name for name in strip.lines) else "TOP"


def _all_marks(board: Board, added: Sequence[Mark], laid: _Laid, units: Units) -> None:
    """Draw marks, measure them and name them; a place that lies on another line is named only."""
    for mark in added:
        board.draw(_drawn(mark, laid))
    for mark in added:
        if not _is_on_a_line(mark, added):
            _measured(board, mark, laid, units)
    for mark in added:
        if not _is_on_a_line(mark, added):
            _named(board, mark, laid)
    for name in dict.fromkeys(_short_name(mark) for mark in added if _is_on_a_line(mark, added)):
        _name_of_places(board, name, [mark for mark in added if _short_name(mark) == name], laid)


def _is_on_a_line(mark: Mark, added: Sequence[Mark]) -> bool:
    """Whether a place lies on another line of this step, which is measured already."""
    return mark.kind == "place" and any(
        other.place == mark.place and other.kind != "place" for other in added if mark.place is not None
    )


def _short_name(mark: Mark) -> str:
    """What a place is called, whether it is the front's or the back's."""
    return mark.name.removeprefix("front ").removeprefix("back ")


def _name_of_places(board: Board, name: str, marks: Sequence[Mark], laid: _Laid) -> None:
    """Write the name of places that are alike once, in the middle, a thin line to each."""
    where = [laid.ends(mark)[0] for mark in marks]
    at = Spot(where[0].x, laid.box.middle.y)
    if board.say(name, at, is_needed=False, within=laid.box):
        for spot in where:
            gap = block_height() // 2 + 300
            end = at.y - gap if spot.y < at.y else at.y + gap
            board.draw([line(Line.LEADER, spot, Spot(at.x, end))])


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
