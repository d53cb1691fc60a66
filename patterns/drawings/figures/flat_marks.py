"""The marks that a step adds to a cloth lying flat: drawn, measured from the nearer edge, and named."""

from collections.abc import Sequence
from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.dimension import DOT
from patterns.drawings.folding.strips import Line as Mark
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Spot
from patterns.drawings.lines import Line, line

from .board import EDGE, SPACE, Board, block_height, text_wide
from .laid_flat import AWAY, Laid

# A piece that is drawn narrower than this has no room for lengths on it.
NARROW = 16_000
CROSS = 1000
_KINDS = {
    "fold": Line.FOLD,
    "stitch": Line.STITCH,
    "place": Line.MARK,
    "clip": Line.CLIP,
    "opening": Line.OPENING,
}


def all_marks(board: Board, added: Sequence[Mark], laid: Laid, units: Units) -> None:
    """Draw marks, measure them and name them; a place that lies on another line is named only."""
    for mark in added:
        for kind, ends in _drawn(mark, laid):
            board.draw([line(kind, *ends)])
            board.keep_clear(*ends)
    for mark in added:
        if not _is_on_a_line(mark, added):
            _measured(board, mark, laid, units)
        else:
            # From here a thin line will lead to the name of the place, in the middle.
            at, _ = laid.ends(mark)
            board.shun(at, Spot(at.x, (at.y + laid.box.middle.y) // 2))
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


def _name_of_places(board: Board, name: str, marks: Sequence[Mark], laid: Laid) -> None:
    """Write the name of places that are alike once, in the middle, a thin line to each."""
    where = [laid.ends(mark)[0] for mark in marks]
    at = Spot(where[0].x, laid.box.middle.y)
    if box := board.say_in_lines(name, at, "middle", laid.box.width, laid.box):
        for spot in where:
            end = box.top - 300 if spot.y < box.middle.y else box.bottom + 300
            leader = spot, Spot(min(max(at.x, box.left), box.right), end)
            board.draw([line(Line.LEADER, *leader)])
            board.shun(*leader)


def _drawn(mark: Mark, laid: Laid) -> list[tuple[Line, tuple[Spot, Spot]]]:
    start, end = laid.ends(mark)
    if mark.kind == "place" and start == end:
        return [
            (Line.EDGE, (Spot(start.x - CROSS, start.y), Spot(start.x + CROSS, start.y))),
            (Line.EDGE, (Spot(start.x, start.y - CROSS), Spot(start.x, start.y + CROSS))),
        ]
    if mark.kind == "clip" and end.x - start.x < CROSS:
        out = Spot(max(end.x, start.x + CROSS), end.y), Spot(min(start.x, end.x - CROSS), start.y)
        start, end = (start, out[0]) if start.x == laid.box.left else (out[1], end)
    return [(_KINDS[mark.kind], (start, end))]


def _measured(board: Board, mark: Mark, laid: Laid, units: Units) -> None:
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


def _length_of(board: Board, mark: Mark, laid: Laid, units: Units) -> None:
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
        # The other length begins at the same end, farther in: its thin line passes these words.
        board.shun(start, Spot(start.x, start.y + 4 * AWAY))
        board.measure(start, end, Spot(0, 3 * AWAY // 2), text)
        if sides and mark.start is not None:
            from_side = laid.spot(sides[0], mark.place or Fraction(0))
            rest = words.label(words.cutting(mark.start - sides[0], units))
            board.measure(from_side, start, Spot(0, 4 * AWAY), rest)
    elif start.x == laid.box.left:
        board.say(text, Spot(laid.box.left - SPACE, start.y), "end")
    else:
        board.say(text, Spot(laid.box.right + SPACE, start.y), "start")


def _named(board: Board, mark: Mark, laid: Laid) -> None:
    """Write a mark's name at it on the cloth, else beside or under the cloth, clear of every line."""
    start, end = laid.ends(mark)
    box = laid.box
    if mark.place is None:
        _below(board, mark.name, start.x, laid)
    elif mark.kind == "place":
        at = start.x if _is_at_the_left(mark, laid) else end.x
        _beside(board, mark.name, Spot(at, end.y + block_height() + 600), laid)
    elif mark.kind not in ("clip", "opening"):
        off = block_height() // 2 + 300
        level = end.y + (off if 2 * end.y < box.top + box.bottom else -off)
        middle = Spot(box.middle.x, level)
        if not board.say(mark.name, middle, is_needed=False, within=box, is_clear=True):
            _led_beside(board, mark.name, Spot(box.left, end.y), laid)


def _below(board: Board, name: str, x: int, laid: Laid) -> None:
    """Write an upright line's name under the length that is measured there, in its half of the page."""
    most = _in_two_lines(name)
    half, middle = most // 2 + SPACE // 2, board.width // 2
    at = min(x, middle - half) if x < middle else max(x, middle + half)
    level = laid.box.bottom + AWAY + DOT + SPACE + 2 * block_height()
    board.say_in_lines(name, Spot(at, level), "middle", most)


def _led_beside(board: Board, name: str, at: Spot, laid: Laid) -> None:
    """Write a level line's name left of the cloth, a thin line from it to the line."""
    edge = laid.box.left - SPACE - AWAY
    room = edge - EDGE
    most = room if text_wide(name) <= room else min(room, _in_two_lines(name))
    if box := board.say_in_lines(name, Spot(edge, at.y), "end", most):
        # Where something stands before the line's end already, the leader passes it and ends on the line.
        is_beside = box.top < at.y < box.bottom
        end = at.x - 300 if is_beside else at.x + min(2500, laid.box.width // 2)
        board.draw([line(Line.LEADER, Spot(box.right + 300, box.middle.y), Spot(end, at.y))])


def _in_two_lines(name: str) -> int:
    """Return how wide a name may be so that it breaks near its middle."""
    return text_wide(name) * 3 // 5


def _is_at_the_left(mark: Mark, laid: Laid) -> bool:
    """Whether a mark that does not reach right across lies at the left edge."""
    start, end = laid.ends(mark)
    return mark.kind == "place" and end.x < laid.box.middle.x and start.x <= end.x


def _beside(board: Board, name: str, at: Spot, laid: Laid) -> None:
    """Write a name beside the cloth at the nearer edge; where it has no room there, on the cloth."""
    is_left = at.x < laid.box.middle.x
    if text_wide(name) + 2 * SPACE + AWAY <= laid.box.left:
        edge = laid.box.left - SPACE - AWAY if is_left else laid.box.right + SPACE + AWAY
        board.say(name, Spot(edge, at.y), "end" if is_left else "start", is_needed=False)
    else:
        edge = laid.box.left + SPACE if is_left else laid.box.right - SPACE
        board.say(name, Spot(edge, at.y), "start" if is_left else "end", is_needed=False, within=laid.box)


def where_lies(mark: Mark, strip: Strip, units: Units) -> str:
    """Return in words how far a mark lies from the nearer edge, or how long it is."""
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
