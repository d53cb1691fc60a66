"""Cloths side by side with the marks that a step adds: how far they lie from the edges and each other."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.dimension import dimension
from patterns.drawings.folding.strips import Line as Mark
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, along, line

from .abreast import AWAY, Laid, ground, lay_abreast, names_of
from .board import EDGE, SPACE, Board, StepFigure, block_height
from .patches import label_of, under

CROSS = 900
TICK = 1400


@dataclass(frozen=True, slots=True)
class Group:
    """Cloths that are marked alike: the marks, and whether on their right side."""

    strips: Sequence[Strip]
    names: Sequence[str]
    is_right: bool = False

    @property
    def is_short(self) -> bool:
        """Whether all of it is on the upper half of a right side: the rest need not be drawn."""
        strip = self.strips[0]
        places = [strip.line(name).place for name in self.names]
        return self.is_right and all(place is not None and place < strip.length / 2 for place in places)

    @property
    def drawn(self) -> Strip:
        strip = self.strips[0]
        return replace(strip, length=strip.length / 2) if self.is_short else strip


def marked(
    groups: Sequence[Group], drawn: frozenset[tuple[str, str]], units: Units, title: str
) -> StepFigure:
    """Return cloths with the marks that a step adds. drawn: what is on them already, which stands thin."""
    board = Board(title)
    is_wide = len(groups) == 1
    beside = 11_000 if is_wide else 7500
    top = 2 * block_height() + 2 * AWAY
    told = []
    every = lay_abreast([group.drawn for group in groups], top, 22_000, beside, beside if is_wide else EDGE)
    for laid, group in zip(every, groups, strict=True):
        laid = replace(laid, is_cut_short=group.is_short)
        ground(board, laid, is_wrong=not group.is_right)
        for cloth, name in sorted(drawn):
            if cloth == laid.strip.name and name not in group.names and not group.is_right:
                _draw(board, laid, laid.strip.line(name), is_new=False)
        added = [laid.strip.line(name) for name in group.names]
        for mark in added:
            _draw(board, laid, mark, is_new=True)
        told.append(f"{names_of(group.strips)}, {_up(group)}: {_measures(board, laid, added, units)}")
    low = max(*(laid.box.bottom for laid in every), *(label.box.bottom for label in board.labels))
    for laid, group in zip(every, groups, strict=True):
        side = "" if is_wide else f", {_up(group).removesuffix(' up')}"
        under(board, f"{names_of(group.strips)}{side}", laid.box.middle.x, low)
    ups = list(dict.fromkeys(_up(group) for group in groups))
    caption = (
        f"{ups[0].capitalize()}; the new marks are the dark lines."
        if len(ups) == 1
        else "The new marks are the dark lines."
    )
    return board.figure(low, f"{'; '.join(told)}.".capitalize(), caption)


def _up(group: Group) -> str:
    return "right side up" if group.is_right else "wrong side up"


def _draw(board: Board, laid: Laid, mark: Mark, is_new: bool) -> None:
    usual = {"stitch": Line.STITCH, "opening": Line.OPENING, "fold": Line.FOLD, "place": Line.EDGE}
    kind = usual.get(mark.kind, Line.MARK) if is_new else Line.SEAM
    if mark.inside is not None:
        inner = laid.inner(mark.inside)
        if inner:
            board.draw([along(kind, inner.path)])
            board.shun(*inner.spots, is_closed=True)
        return
    if mark.place is not None and mark.across is not None:
        at = laid.spot(mark.across, mark.place)
        board.draw([line(kind, Spot(at.x - CROSS, at.y), Spot(at.x + CROSS, at.y))])
        board.draw([line(kind, Spot(at.x, at.y - CROSS), Spot(at.x, at.y + CROSS))])
        return
    ends = ends_of(laid, mark)
    board.draw([line(kind, *ends)])
    (board.keep_clear if is_new else board.shun)(*ends)


def ends_of(laid: Laid, mark: Mark) -> tuple[Spot, Spot]:
    zero, strip = Fraction(0), laid.strip
    if mark.place is not None:
        end = strip.width if mark.end is None else mark.end
        return laid.spot(mark.start or zero, mark.place), laid.spot(end, mark.place)
    end = strip.length if mark.end is None else mark.end
    return laid.spot(mark.across or zero, mark.start or zero), laid.spot(mark.across or zero, end)


def _measures(board: Board, laid: Laid, added: Sequence[Mark], units: Units) -> str:
    """Write how far marks lie from the edges and from each other; return it in words."""
    told: list[str] = []
    for mark in added:
        if mark.inside is not None:
            told.append(_allowance(board, laid, mark.inside, units))
    points = [mark for mark in added if mark.place is not None and mark.across is not None]
    if points:
        told.append(_points(board, laid, points, units))
    openings = [mark for mark in added if mark.kind == "opening"]
    for mark in openings:
        if mark.place is not None:
            told.append(_opening(board, laid, mark, units))
    if gaps := [mark for mark in openings if mark.place is None]:
        told.append(_gaps(board, laid, gaps, units))
    if levels := [
        mark for mark in added if mark.kind == "place" and mark.across is None and not laid.is_circle
    ]:
        told.append(_levels(board, laid, levels, units))
    uprights = [mark for mark in added if mark.kind == "place" and mark.place is None]
    if uprights and laid.is_circle:
        told.append("two quarter lines cross in its middle")
    elif uprights:
        told.append(_quarters(board, laid, uprights, units))
    return ", ".join(told)


def _allowance(board: Board, laid: Laid, inside: Fraction, units: Units) -> str:
    box, strip = laid.box, laid.strip
    text = label_of(inside, units)
    corner = laid.spot(strip.width - inside, inside)
    if laid.is_circle:
        edge, low = Spot(box.right, box.middle.y), box.bottom + AWAY
        board.draw(dimension(Spot(corner.x, edge.y), edge, Spot(0, low - edge.y)))
        board.say(text, Spot(box.right + SPACE, low), "start")
        return f"a seam line {words.cutting(inside, units)} from the edge"
    board.measure(Spot(box.right, box.top), Spot(box.right, corner.y), Spot(1200, 0), text)
    between = strip.width - 2 * inside
    left = laid.spot(inside, Fraction(0))
    board.measure(Spot(left.x, box.top), Spot(corner.x, box.top), Spot(0, -1200), label_of(between, units))
    told = (
        f"a seam line {words.cutting(inside, units)} from every edge, "
        f"{words.cutting(between, units)} from side to side"
    )
    if strip.removed:
        across = strip.removed + inside
        start, end = laid.spot(across, strip.length), laid.spot(strip.width - across, strip.length)
        base = strip.width - 2 * across
        board.measure(start, end, Spot(0, AWAY), label_of(base, units))
        told += f", {words.cutting(base, units)} along the base"
    return told


def _points(board: Board, laid: Laid, points: Sequence[Mark], units: Units) -> str:
    places = sorted(mark.across for mark in points if mark.across is not None)
    box = laid.box
    stops = [laid.spot(place, Fraction(0)) for place in (Fraction(0), *places)]
    away = -1200
    board.measure(stops[0], stops[1], Spot(0, away), label_of(places[0], units))
    told = f"marks {words.cutting(places[0], units)} from the side edges"
    if len(places) == 2:
        below = laid.spot(places[0], points[0].place or Fraction(0)).y
        start, end = Spot(stops[1].x, below), Spot(stops[2].x, below)
        board.measure(start, end, Spot(0, AWAY + 800), label_of(places[1] - places[0], units))
        told += f", {words.cutting(places[1] - places[0], units)} apart"
    board.fill(Box(box.left, box.top - 200, box.right, box.top + 200))
    return told


def _opening(board: Board, laid: Laid, mark: Mark, units: Units) -> str:
    start, end = ends_of(laid, mark)
    assert mark.start is not None
    assert mark.end is not None
    is_low = 2 * start.y > laid.box.top + laid.box.bottom
    edge = laid.box.bottom if is_low else laid.box.top
    away = Spot(0, AWAY if is_low else -1200)
    length = mark.end - mark.start
    inward = start.y + (-1 if is_low else 1) * (block_height() // 2 + SPACE)
    at = Spot((start.x + end.x) // 2, inward)
    is_named = board.say("opening", at, is_needed=False, within=_clear(laid, at), is_clear=True)
    text = label_of(length, units) if is_named else f"opening {label_of(length, units)}"
    board.measure(Spot(start.x, edge), Spot(end.x, edge), away, text)
    where = "lower" if is_low else "upper"
    return f"an opening {words.cutting(length, units)} long in the middle of its {where} seam line"


def _clear(laid: Laid, at: Spot) -> Box:
    """Return the room on a cloth beside a place, between its edges at that level."""
    level = min(max(at.y, laid.box.top + 1), laid.box.bottom - 1)
    (left, right), *_ = laid.outline.across(level)
    return Box(left, laid.box.top, right, laid.box.bottom)


def _gaps(board: Board, laid: Laid, gaps: Sequence[Mark], units: Units) -> str:
    mark = max(gaps, key=lambda each: each.across or Fraction(0))
    start, end = ends_of(laid, mark)
    assert mark.start is not None
    assert mark.end is not None
    right, drop, length = laid.box.right, mark.start, mark.end - mark.start
    board.measure(Spot(right, laid.box.top), Spot(right, start.y), Spot(AWAY, 0), label_of(drop, units))
    board.measure(Spot(right, start.y), Spot(right, end.y), Spot(AWAY, 0), label_of(length, units))
    for other in gaps:
        here, there = ends_of(laid, other)
        is_left = here.x < laid.box.middle.x
        at = Spot(here.x + (SPACE if is_left else -SPACE), (here.y + there.y) // 2)
        board.say("gap", at, "start" if is_left else "end", is_needed=False)
    return (
        f"a gap on both side seam lines, {words.cutting(length, units)} long, "
        f"{words.cutting(drop, units)} below the top edge"
    )


def _levels(board: Board, laid: Laid, levels: Sequence[Mark], units: Units) -> str:
    """Lines across that begin and end on the cloth: how long, and how far from the nearer edge."""
    told: list[str] = []
    box, strip, was = laid.box, laid.strip, Fraction(0)
    for mark in sorted(levels, key=lambda each: each.place or Fraction(0)):
        start, end = ends_of(laid, mark)
        place = mark.place or Fraction(0)
        length = (strip.width if mark.end is None else mark.end) - (mark.start or Fraction(0))
        is_low = not laid.is_cut_short and 2 * place > strip.length
        far, edge = (
            (strip.length - place, box.bottom) if is_low else (place - was, laid.spot(Fraction(0), was).y)
        )
        board.measure(Spot(box.right, edge), Spot(box.right, end.y), Spot(AWAY, 0), label_of(far, units))
        if not told:
            board.measure(start, end, Spot(0, AWAY), label_of(length, units))
        from_edge = strip.length - place if is_low else place
        told.append(
            f"{mark.name} {words.cutting(from_edge, units)} from the {'lower' if is_low else 'upper'} edge, "
            f"{words.cutting(length, units)} long"
        )
        was = place
    return ", ".join(told)


def _quarters(board: Board, laid: Laid, uprights: Sequence[Mark], units: Units) -> str:
    inside = next((each.inside for each in laid.strip.lines.values() if each.inside is not None), Fraction(0))
    places = [inside, *sorted(mark.across for mark in uprights if mark.across is not None)]
    low = laid.box.bottom
    first = places[1] - places[0]
    start, end = (laid.spot(place, laid.strip.length) for place in places[:2])
    board.measure(start, end, Spot(0, AWAY), label_of(first, units))
    for place in places[1:]:
        for edge, way in ((laid.box.top, 1), (low, -1)):
            x = laid.spot(place, Fraction(0)).x
            board.draw([line(Line.CLIP, Spot(x, edge), Spot(x, edge + way * TICK))])
    return f"quarters {words.cutting(first, units)} apart on both long edges, from the seam line"
