"""A bag of two panels with cut-out corners: the squares, the seams between them, the corners pulled open."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.bag_parts import Bag
from patterns.drawings.folding.openings import Opening
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.svg import plate
from patterns.drawings.tokens import SHEET

from .abreast import AWAY, Laid, lay_abreast
from .arrows import straight, swing
from .board import CLOSE, EDGE, SPACE, Board, StepFigure, block_height, room_over
from .patches import corners_of, label_of, patch, scaled, sewn

BESIDE = 11_000
HIGH = 24_000
OUT = 1200
LEAST_ALLOWANCE = 1500
TALL = 23_000


def corners_removed(strip: Strip, names: str, units: Units, title: str) -> StepFigure:
    """Return a panel with the squares that are cut out of it, and what is left of its edges."""
    board = Board(title)
    (laid,) = lay_abreast([strip], SPACE, HIGH, BESIDE, BESIDE)
    whole = Laid(strip, laid.placing, is_whole=True)
    board.draw(fill(Fabric(strip.tint, is_pale=True, gap=2600), laid.outline.spots, laid.outline.path))
    board.draw([line(Line.SEAM, *corners_of(whole.box), is_closed=True)])
    board.draw([line(Line.CUT, *laid.outline.spots, is_closed=True)])
    square = strip.removed
    inner = laid.spot(square, strip.length - square)
    far = laid.spot(strip.width - square, strip.length - square)
    box = whole.box
    text = label_of(square, units)
    for left, right in ((box.left, inner.x), (far.x, box.right)):
        board.draw([line(Line.LEADER, Spot(left, box.bottom), Spot(right, inner.y))])
        board.draw([line(Line.LEADER, Spot(left, inner.y), Spot(right, box.bottom))])
    board.measure(Spot(box.right, inner.y), Spot(box.right, box.bottom), Spot(AWAY, 0), text)
    side = strip.length - square
    board.measure(Spot(box.left, box.top), Spot(box.left, inner.y), Spot(-AWAY, 0), label_of(side, units))
    base = strip.width - 2 * square
    board.measure(Spot(inner.x, box.bottom), Spot(far.x, box.bottom), Spot(0, AWAY), label_of(base, units))
    board.measure(Spot(far.x, box.bottom), Spot(box.right, box.bottom), Spot(0, AWAY), text)
    board.say(names, Spot(box.middle.x, box.top + box.height // 3), is_needed=False, within=box)
    told = (
        f"A square of {words.cutting(square, units)} is cut out of both lower corners; "
        f"{words.cutting(base, units)} of the lower edge and {words.cutting(side, units)} of each side edge "
        "are left."
    )
    return board.figure(
        0, f"{names.capitalize()}, wrong side up. {told}", "Wrong side up; the crossed squares go."
    )


def sewn_up(strip: Strip, bag: Bag, edges: frozenset[str], units: Units, title: str) -> StepFigure:
    """Return two panels right sides together with the seams of a step, and what is left open in them.

    edges: those that this step sews; seams from before stand thin.
    """
    board = Board(title)
    high = HIGH
    (laid,) = lay_abreast([strip], room_over(), high, BESIDE, BESIDE)
    under_spots = [Spot(spot.x + OUT, spot.y + OUT) for spot in laid.outline.spots]
    patch(board, under_spots, strip.tint)
    board.draw([plate(_inside(laid.box, 300), SHEET)] if not strip.corners else [])
    patch(board, laid.outline.spots, strip.tint, is_wrong=True)
    off = scaled(bag.allowance, laid.placing.scale, LEAST_ALLOWANCE)
    box, cut = laid.box, scaled(strip.removed, laid.placing.scale)
    told = []
    for x, edge in ((box.left + off, box.left), (box.right - off, box.right)):
        if "sides" in edges:
            _side(board, bag, x, edge, laid, units)
        elif "sides" in bag.edges:
            board.draw([line(Line.SEAM, Spot(x, box.top), Spot(x, box.bottom - cut))])
    if "sides" in edges:
        told.append(_sides_told(bag, units))
    level = box.bottom - off
    if "base" in edges:
        told.append(_base(board, strip, bag, laid, level, units))
    allowance = label_of(bag.allowance, units)
    x = box.right - off
    board.measure(Spot(x, box.top), Spot(box.right, box.top), Spot(0, -CLOSE), allowance)
    if cut:
        told.append("the cut-outs stay open")
        board.say(
            "open", Spot(box.left + cut - SPACE, box.bottom - block_height() // 2), "end", is_needed=False
        )
    at = Spot(box.middle.x, box.top + box.height // 3)
    board.say("wrong side up", at, is_needed=False, within=box.grown(-off - 300))
    return board.figure(
        box.bottom + OUT,
        f"The two panels of the {strip.name} lie right sides together. Sew "
        f"{words.cutting(bag.allowance, units)} from the raw edges: {'; '.join(told)}.",
        "Right sides together; the thick ends are backstitches.",
    )


def _inside(box: Box, by: int) -> Box:
    return box.grown(-by)


def _side(board: Board, bag: Bag, x: int, edge: int, laid: Laid, units: Units) -> None:
    box, scale = laid.box, laid.placing.scale
    foot = box.bottom - scaled(laid.strip.removed, scale)
    gap = next((each for each in bag.gaps if _is_at(each, laid, x)), None)
    if gap is None:
        sewn(board, Spot(x, box.top), Spot(x, foot))
        return
    start, end = (box.top + scaled(each, scale) for each in (gap.start, gap.end))
    sewn(board, Spot(x, box.top), Spot(x, start))
    sewn(board, Spot(x, end), Spot(x, foot))
    inward = 1700 if x < box.middle.x else -1700
    board.draw(
        [line(Line.OPENING, Spot(x, start), Spot(x + inward, start), Spot(x + inward, end), Spot(x, end))]
    )
    if x > box.middle.x:
        right = max(edge, x) + OUT
        board.measure(Spot(right, box.top), Spot(right, start), Spot(1300, 0), label_of(gap.start, units))
        board.measure(Spot(right, start), Spot(right, end), Spot(1300, 0), label_of(gap.length, units))
    else:
        board.say("gap", Spot(x + inward + SPACE, (start + end) // 2), "start", is_needed=False)


def _is_at(gap: Opening, laid: Laid, x: int) -> bool:
    across = laid.strip.line(gap.mark).across or Fraction(0)
    return (2 * across < laid.strip.width) == (x < laid.box.middle.x)


def _sides_told(bag: Bag, units: Units) -> str:
    if not bag.gaps:
        return "both sides from the top edge to the cut-outs"
    gap = bag.gaps[0]
    return (
        f"both sides from the top edge to the cut-outs, with a gap of {words.cutting(gap.length, units)}, "
        f"{words.cutting(gap.start, units)} below the top edge"
    )


def _base(board: Board, strip: Strip, bag: Bag, laid: Laid, level: int, units: Units) -> str:
    scale, box = laid.placing.scale, laid.box
    start, end = (laid.spot(each, strip.length).x for each in (strip.removed, strip.width - strip.removed))
    length = strip.width - 2 * strip.removed
    board.measure(
        Spot(start, box.bottom + OUT), Spot(end, box.bottom + OUT), Spot(0, 1500), label_of(length, units)
    )
    told = f"the base between the cut-outs, {words.cutting(length, units)}"
    if bag.opening is None:
        sewn(board, Spot(start, level), Spot(end, level))
        return told
    gap = [box.left + scaled(each, scale) for each in (bag.opening.start, bag.opening.end)]
    sewn(board, Spot(start, level), Spot(gap[0], level))
    sewn(board, Spot(gap[1], level), Spot(end, level))
    up = level - 1800
    board.draw(
        [line(Line.OPENING, Spot(gap[0], level), Spot(gap[0], up), Spot(gap[1], up), Spot(gap[1], level))]
    )
    open_words = label_of(bag.opening.length, units)
    text, at = f"leave {open_words} open", Spot((gap[0] + gap[1]) // 2, up - block_height())
    if not board.say(text, at, is_needed=False, within=box.grown(-2500)):
        board.draw([line(Line.LEADER, Spot(gap[1], level), Spot(box.right + OUT + SPACE, level - 3000))])
        board.say(text, Spot(box.right + OUT + SPACE, level - 3000), "start")
    return f"{told}, but for an opening in its middle, {words.cutting(bag.opening.length, units)} long"


def pulled_open(strip: Strip, bag: Bag, units: Units, title: str) -> StepFigure:
    """Return a corner before and after: the cut-out, and its edges together with the seam across."""
    board = Board(title)
    assert bag.base is not None
    _before(board, strip)
    _after(board, strip, bag, units)
    width, depth = (words.cutting(length, units) for length in bag.base)
    told = (
        f"The cut-out is pulled open until the side seam lies on the base seam; the seam across it is "
        f"{depth} long, {words.cutting(bag.allowance, units)} from the raw edges, sewn twice. "
        f"The base is then {width} by {depth}."
    )
    base = f"base {words.label(width)} × {words.label(depth)}"
    board.say(base, Spot(12_500, TALL - 500))
    return board.figure(TALL, told, "A corner, wrong side out: pull it open, sew across.")


def _before(board: Board, strip: Strip) -> None:
    """The lower right corner of the bag: both panels, the square, the seams that end at it."""
    left, top, right, bottom = EDGE + 400, SPACE, 20_800, 19_000
    cut = 8000
    seam = 2000
    outline = (
        Spot(left, top),
        Spot(right, top),
        Spot(right, bottom - cut),
        Spot(right - cut, bottom - cut),
        Spot(right - cut, bottom),
        Spot(left, bottom),
    )
    board.draw(fill(Fabric(strip.tint, is_pale=True, gap=2600), outline))
    board.draw([line(Line.CUT, *outline[1:-1])])
    board.draw([line(Line.CUT, outline[4], outline[5])])
    sewn(board, Spot(right - seam, top), Spot(right - seam, bottom - cut), "last")
    sewn(board, Spot(left, bottom - seam), Spot(right - cut, bottom - seam), "last")
    start, end = Spot(right - seam, bottom - cut + 900), Spot(right - cut + 900, bottom - seam)
    board.draw(swing(start, Spot(end.x, end.y), cut, is_clockwise=True))
    board.say("side seam", Spot(right - seam - SPACE, top + 2500), "end", is_needed=False)
    board.say("base seam", Spot(left + 200, bottom - seam - block_height()), "start", is_needed=False)
    board.draw(straight(Spot(right + 700, 5000), Spot(right + 4300, 5000)))


def _after(board: Board, strip: Strip, bag: Bag, units: Units) -> None:
    """The same corner flattened: raw edges level, side seam on base seam in the middle, the seam across."""
    assert bag.base is not None
    across = bag.base[1] / 2
    middle, room = 40_500, 8000
    scale = Fraction(room) / across
    seam = max(min(scaled(bag.allowance, scale), 4200), 1500)
    raw, top = 19_000, SPACE
    half_raw, half_seam = room - seam, room
    rise = min(raw - top, raw - seam - top + seam)
    grown = half_raw + rise
    grown = min(grown, 14_300)
    level = raw - (grown - half_raw)
    outline = (
        Spot(middle - grown, top),
        Spot(middle - grown, level),
        Spot(middle - half_raw, raw),
        Spot(middle + half_raw, raw),
        Spot(middle + grown, level),
        Spot(middle + grown, top),
    )
    board.draw(fill(Fabric(strip.tint, is_pale=True, gap=2600), outline))
    board.draw(
        [
            line(Line.CUT, outline[2], outline[3]),
            line(Line.OUTLINE, *outline[:3]),
            line(Line.OUTLINE, *outline[3:]),
        ]
    )
    board.draw([line(Line.SEAM, Spot(middle, top), Spot(middle, raw))])
    for up in (0, 500):
        sewn(board, Spot(middle - half_seam, raw - seam - up), Spot(middle + half_seam, raw - seam - up))
    start, end = Spot(middle - half_seam, raw), Spot(middle + half_seam, raw)
    board.measure(start, end, Spot(0, 1800), label_of(bag.base[1], units))
    board.say("both seams", Spot(middle + SPACE, top + 3000), "start", is_needed=False)
    left = middle - half_raw
    board.measure(Spot(left, raw - seam), Spot(left, raw), Spot(-2600, 0), label_of(bag.allowance, units))
