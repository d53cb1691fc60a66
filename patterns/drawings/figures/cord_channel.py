"""A channel round a bag and the cords in it: gaps stitched round, rows, cords drawn in and knotted."""

from fractions import Fraction

from patterns.drafting.formulas.values import Measured
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.bag_parts import Bag, Channel
from patterns.drawings.folding.openings import Opening
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, dot, line
from patterns.drawings.page import exact
from patterns.drawings.svg import path_through
from patterns.drawings.tokens import INK, PETROL, SHEET

from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height
from .edge_on import stroke
from .patches import corners_of, label_of, patch, scaled

AWAY = 1800
CORD = 900
LEAST_TALL, MOST_TALL = Fraction(16_000), Fraction(30_000)


def framed(strip: Strip, gap: Opening, off: Fraction, units: Units, title: str) -> StepFigure:
    """Return a gap from the right side, close by, with the narrow rectangle that is stitched round it."""
    board = Board(title)
    box = Box(EDGE + 1500, SPACE, 38_000, 30_000)
    patch(board, corners_of(box), strip.tint, edge=None)
    middle, long = box.middle.x, 15_000
    top = box.middle.y - long // 2
    scale = Fraction(long) / gap.length
    aside = min(scaled(off, scale, 1800), 4500)
    for start, end in ((box.top, top), (top + long, box.bottom)):
        board.draw([line(Line.SEAM, Spot(middle, start), Spot(middle, end))])
        board.shun(Spot(middle, start), Spot(middle, end))
    for x in (middle - 350, middle + 350):
        board.draw([line(Line.OUTLINE, Spot(x, top), Spot(x, top + long))])
    frame = Box(middle - aside, top - 600, middle + aside, top + long + 600)
    board.draw([line(Line.STITCH, *corners_of(frame), is_closed=True)])
    board.measure(
        Spot(box.right, top), Spot(box.right, top + long), Spot(1400, 0), label_of(gap.length, units)
    )
    board.measure(
        Spot(middle, frame.bottom), Spot(frame.right, frame.bottom), Spot(0, 1500), label_of(off, units)
    )
    board.say("gap", Spot(frame.left - SPACE, frame.middle.y), "end")
    board.say("side seam", Spot(middle + SPACE, box.top + 2000), "start")
    told = (
        f"The gap, {words.cutting(gap.length, units)} long, from the right side: a narrow rectangle of "
        f"stitches runs round it, {words.cutting(off, units)} from its folded edges and across at both "
        "ends. It stays open."
    )
    return board.figure(box.bottom, told, "A gap close by, right side up; short dashes: the row round it.")


def channel_drawn(
    strip: Strip, bag: Bag, channel: Channel, kind: str, units: Units, title: str
) -> StepFigure:
    """Return the front of the bag below its top edge with the channel. kind: lines, pins, or rows."""
    board = Board(title)
    left, right, top = 4000, WIDTH - 12_000, SPACE
    wide = exact(bag.round) / 2
    shown = channel.foot * 7 / 4
    across = min(Fraction(right - left) / wide, Fraction(24_000) / shown)
    half = round(wide * across) // 2
    # A part of the front: of a low bag it is drawn higher, and so that a narrow channel has room for words.
    room = min((block_height() + 2 * SPACE) / (channel.foot - channel.drop), MOST_TALL / shown)
    scale = max(across, LEAST_TALL / shown, room)
    middle = (left + right) // 2
    box = Box(middle - half, top, middle + half, top + round(shown * scale))
    patch(
        board,
        (Spot(box.left, box.bottom), Spot(box.left, top), Spot(box.right, top), Spot(box.right, box.bottom)),
        strip.tint,
        edge=Line.OUTLINE,
        is_closed=False,
    )
    rows = [top + scaled(far, scale) for far in (channel.drop, channel.foot)]
    look = Line.STITCH if kind == "rows" else Line.MARK
    for level in rows:
        board.draw([line(look, Spot(box.left, level), Spot(box.right, level))])
        board.keep_clear(Spot(box.left, level), Spot(box.right, level))
    for x in (box.left, box.right):
        board.draw([line(Line.OPENING, Spot(x, rows[0]), Spot(x, rows[1]))])
    if kind == "pins":
        for level in (rows[0] - 1900, rows[1] + 1900):
            for share in range(1, 6):
                _pin(board, Spot(box.left + box.width * share // 6, level))
    edge = box.right
    board.measure(Spot(edge, top), Spot(edge, rows[0]), Spot(AWAY, 0), label_of(channel.drop, units))
    board.measure(
        Spot(edge, rows[0]), Spot(edge, rows[1]), Spot(AWAY, 0), label_of(channel.foot - channel.drop, units)
    )
    board.say("channel", Spot(box.middle.x, (rows[0] + rows[1]) // 2), is_needed=False)
    board.say("gap", Spot(box.left + SPACE, (rows[0] + rows[1]) // 2), "start", is_needed=False)
    drop, wide_words = (words.cutting(each, units) for each in (channel.drop, channel.foot - channel.drop))
    what = {
        "lines": "Two thin lines run all round",
        "pins": "Exterior and lining are pinned together above and below the channel lines, which run",
        "rows": "Two rows through exterior and lining run all round",
    }[kind]
    told = f"{what} {drop} below the top edge and {wide_words} below that, level with the ends of both gaps."
    caption = {
        "lines": "The top of the bag, right side; thin lines: the channel; thickest: the gaps.",
        "pins": "Pins above and below the thin lines, none on them; thickest: the gaps.",
        "rows": "Short dashes: the rows, just above and below the gaps, the thickest lines.",
    }[kind]
    return board.figure(box.bottom, told, caption)


def _pin(board: Board, at: Spot) -> None:
    board.draw(
        [
            line(Line.EDGE, Spot(at.x - 1300, at.y), Spot(at.x + 1300, at.y)),
            dot(Spot(at.x + 1300, at.y), 480, PETROL),
        ]
    )


def threaded(cord: Strip, round_words: Measured, ends: Fraction, units: Units, title: str) -> StepFigure:
    """Return the bag from above, its channel open: one cord in and out at each gap, all the way round."""
    board = Board(title)
    middle = Spot(WIDTH // 2, 15_000)
    half_wide, half_high = 14_000, 9500
    outer = Box(middle.x - half_wide, middle.y - half_high, middle.x + half_wide, middle.y + half_high)
    for box in (outer, outer.grown(-5200)):
        board.draw([line(Line.OUTLINE, *corners_of(box), is_closed=True)])
    for x in (outer.left, outer.right):
        board.draw([stroke(path_through([Spot(x, middle.y - 2400), Spot(x, middle.y + 2400)]), SHEET, 1200)])
    for way, inner, dashes in ((-1, 1600, ""), (1, 3400, "1.4 0.7")):
        loop = outer.grown(-inner)
        gap = loop.left if way < 0 else loop.right
        far = loop.right if way < 0 else loop.left
        out = (EDGE + 500) if way < 0 else WIDTH - EDGE - 500
        for side in (-1, 1):
            level = middle.y + side * 1200
            turn = loop.top if side < 0 else loop.bottom
            cord_way = [
                Spot(out, level),
                Spot(gap, level),
                Spot(gap, turn),
                Spot(far, turn),
                Spot(far, middle.y),
            ]
            board.draw(
                [
                    stroke(path_through(cord_way), INK, CORD),
                    stroke(path_through(cord_way), SHEET if way > 0 else PETROL, CORD - 360, dashes),
                ]
            )
    low = middle.y + 1200
    start, end = Spot(EDGE + 500, low), Spot(outer.left, low)
    board.measure(start, end, Spot(0, 3000), label_of(ends, units))
    board.measure(Spot(outer.right, low), Spot(WIDTH - EDGE - 500, low), Spot(0, 3000), label_of(ends, units))
    board.fill(Box(outer.left - 200, outer.top, outer.left + 5200, outer.bottom))
    board.fill(Box(outer.right - 5200, outer.top, outer.right + 200, outer.bottom))
    board.say("left gap", Spot(outer.left - SPACE, middle.y - 5000), "end", is_needed=False)
    board.say("right gap", Spot(outer.right + SPACE, middle.y - 5000), "start", is_needed=False)
    board.say("inside", middle, is_needed=False)
    total = words.cutting(round_words, units)
    told = (
        f"The bag from above, open, {total} round. One {cord.name} goes in at the left gap, all round "
        "between exterior and lining, and out at the left gap; the other likewise at the right. Each end "
        f"hangs out by {words.cutting(ends, units)}."
    )
    return board.figure(outer.bottom, told, "From above: one cord from each gap, all round and out again.")


def knotted(ends: Fraction, place: Fraction, units: Units, title: str) -> StepFigure:
    """Return both ends of a cord out of a gap, with their knot."""
    board = Board(title)
    box = Box(EDGE, SPACE, 17_000, 18_000)
    patch(
        board,
        (
            Spot(box.left, box.top),
            Spot(box.right, box.top),
            Spot(box.right, box.bottom),
            Spot(box.left, box.bottom),
        ),
        "exterior",
        edge=None,
    )
    board.draw([line(Line.OUTLINE, Spot(box.right, box.top), Spot(box.right, box.bottom))])
    scale = Fraction(30_000) / ends
    tip = box.right + 30_000
    knot = tip - max(round(place * scale), 3200)
    level = box.middle.y
    board.draw([line(Line.OPENING, Spot(box.right, level - 2800), Spot(box.right, level + 2800))])
    for side in (-1, 1):
        way = [
            Spot(box.right - 6000, level + side * 1200),
            Spot(box.right + 2000, level + side * 1200),
            Spot(knot, level + side * 300),
            Spot(tip, level + side * 1500),
        ]
        board.draw([stroke(path_through(way), INK, CORD), stroke(path_through(way), SHEET, CORD - 360)])
    board.draw([dot(Spot(knot, level), 1500, INK), dot(Spot(knot, level), 1200, SHEET)])
    board.draw([line(Line.EDGE, Spot(knot - 700, level - 900), Spot(knot + 700, level + 900))])
    board.measure(Spot(knot, level + 1800), Spot(tip, level + 1800), Spot(0, 1500), label_of(place, units))
    board.measure(
        Spot(box.right, level - 1800), Spot(tip, level - 1800), Spot(0, -1800), label_of(ends, units)
    )
    board.say("gap", Spot(box.right - SPACE, level + 4500), "end")
    told = (
        f"Both ends of a cord hang out of one gap by {words.cutting(ends, units)}, the bag fully open; they "
        f"are knotted together {words.cutting(place, units)} from their tips."
    )
    return board.figure(box.bottom, told, "One gap, the thickest line, the bag open; the other is alike.")
