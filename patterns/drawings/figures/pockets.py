"""A pocket of two pieces: sewn all round, turned, and sewn to its place."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.bag_parts import Pocket
from patterns.drawings.folding.strips import Line as Mark
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line

from .abreast import lay_abreast
from .arrows import straight
from .board import CLOSE, SPACE, WIDTH, Board, StepFigure, block_height, room_over
from .patches import BACKSTITCH, corners_of, label_of, patch, scaled, sewn, toward

BESIDE = 11_000
HIGH = 22_000
OUT = 1200
AWAY = 1800
# How far the sign of an opening stands up from its seam.
UP = 1800


def surrounded(strip: Strip, pocket: Pocket, units: Units, title: str) -> StepFigure:
    """Return two pieces right sides together with the seam all round, its opening and the corners to cut."""
    board = Board(title)
    (laid,) = lay_abreast([strip], room_over(), HIGH, BESIDE, BESIDE)
    box = laid.box
    patch(board, corners_of(box.moved(OUT, OUT)), strip.tint)
    patch(board, corners_of(box), strip.tint, is_wrong=True)
    allowance = (strip.width - pocket.width) / 2
    off = scaled(allowance, laid.placing.scale, 1500)
    inner = box.grown(-off)
    scale = laid.placing.scale
    gap = box.left + scaled(pocket.opening.start, scale), box.left + scaled(pocket.opening.end, scale)
    _seam_round(board, inner, gap)
    text = f"leave {label_of(pocket.opening.length, units)}"
    board.say(text, Spot(box.middle.x, inner.bottom - UP - block_height()))
    for x, side in ((box.left, 1), (box.right, -1)):
        for y, down in ((box.top, 1), (box.bottom, -1)):
            board.draw(
                [line(Line.OPENING, Spot(x, y + down * off * 3 // 2), Spot(x + side * off * 3 // 2, y))]
            )
    reach = Box(inner.left, inner.top, box.right + OUT, box.bottom + OUT)
    board.measure(
        Spot(inner.left, reach.bottom),
        Spot(inner.right, reach.bottom),
        Spot(0, AWAY),
        label_of(pocket.width, units),
    )
    right, height = reach.right, label_of(pocket.height, units)
    board.measure(Spot(right, inner.top), Spot(right, inner.bottom), Spot(AWAY, 0), height)
    edge = Spot(box.left, box.top)
    board.measure(edge, Spot(inner.left, box.top), Spot(0, -CLOSE), label_of(allowance, units))
    told = (
        f"Two pieces lie right sides together. The seam runs all round, {words.cutting(allowance, units)} "
        f"from the raw edges and {words.cutting(pocket.width, units)} by "
        f"{words.cutting(pocket.height, units)} large, but for an opening in the lower edge, "
        f"{words.cutting(pocket.opening.length, units)} long; the corners are cut off outside it."
    )
    return board.figure(reach.bottom, told, "Right sides together; thick lines at the corners are cuts.")


def _seam_round(board: Board, inner: Box, gap: tuple[int, int]) -> None:
    """Draw a seam all round but for a gap in its lower edge, backstitched at both ends of that."""
    start, end = (Spot(each, inner.bottom) for each in gap)
    left_low, right_low = Spot(inner.left, inner.bottom), Spot(inner.right, inner.bottom)
    left_top, right_top = Spot(inner.left, inner.top), Spot(inner.right, inner.top)
    board.draw([line(Line.STITCH, start, left_low, left_top, right_top, right_low, end)])
    for here, there in ((start, left_low), (end, right_low)):
        board.draw([line(Line.CLIP, here, toward(here, there, BACKSTITCH))])
    up = inner.bottom - UP
    board.draw([line(Line.OPENING, start, Spot(start.x, up), Spot(end.x, up), end)])


def turned_pocket(
    strip: Strip, pocket: Pocket, below: Fraction | None, units: Units, title: str
) -> StepFigure:
    """Return the pocket right side out, its opening below and the row along its mouth."""
    board = Board(title)
    top = block_height() + SPACE
    scale = min(Fraction(WIDTH - 2 * BESIDE) / pocket.width, Fraction(HIGH) / pocket.height)
    half = round(pocket.width * scale) // 2
    box = Box(WIDTH // 2 - half, top, WIDTH // 2 + half, top + round(pocket.height * scale))
    patch(board, corners_of(box), strip.tint, edge=Line.OUTLINE)
    if below is not None:
        row = box.top + scaled(below, scale, 800)
        board.draw([line(Line.TOPSTITCH, Spot(box.left, row), Spot(box.right, row))])
    gap = round(pocket.opening.length * scale) // 2
    board.draw(
        [line(Line.OPENING, Spot(box.middle.x - gap, box.bottom), Spot(box.middle.x + gap, box.bottom))]
    )
    board.draw(straight(Spot(box.left - 3500, box.top), Spot(box.left - 700, box.top)))
    board.say("mouth", Spot(box.middle.x, box.top - block_height() // 2 - 300))
    board.say("opening", Spot(box.middle.x, box.bottom - block_height()), is_needed=False, within=box)
    board.measure(
        Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(0, AWAY), label_of(pocket.width, units)
    )
    board.measure(
        Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(AWAY, 0), label_of(pocket.height, units)
    )
    row_words = f" A row runs {words.cutting(below, units)} below its mouth." if below is not None else ""
    told = (
        f"The pocket is turned right side out, {words.cutting(pocket.width, units)} by "
        f"{words.cutting(pocket.height, units)}, the edges of its opening turned in below.{row_words}"
    )
    return board.figure(box.bottom, told, "Right side out; the upper edge is the mouth.")


def applied(
    cloth: Strip,
    strip: Strip,
    pocket: Pocket,
    lines: tuple[Mark, Mark],
    below: Fraction,
    units: Units,
    title: str,
) -> StepFigure:
    """Return a cloth, right side up, with the pocket sewn on at its sides and its lower edge."""
    board = Board(title)
    mouth, foot = lines
    assert mouth.place is not None
    assert foot.place is not None
    assert mouth.start is not None
    # As much of the cloth as reaches from its top edge to a little below the pocket.
    shown = foot.place + pocket.height / 5
    top = block_height()
    scale = min(Fraction(WIDTH - 2 * BESIDE) / cloth.width, Fraction(HIGH) / shown)
    left = (WIDTH - round(cloth.width * scale)) // 2
    right, low = left + round(cloth.width * scale), top + round(shown * scale)
    patch(
        board,
        (Spot(left, low), Spot(left, top), Spot(right, top), Spot(right, low)),
        cloth.tint,
        is_closed=False,
    )
    start = left + round(mouth.start * scale)
    box = Box(
        start,
        top + round(mouth.place * scale),
        start + round(pocket.width * scale),
        top + round(foot.place * scale),
    )
    patch(board, corners_of(box), strip.tint, edge=Line.OUTLINE)
    _row_round(board, box, scaled(below, scale, 700))
    board.say("mouth", Spot(box.middle.x, box.top - block_height() // 2 - 300), is_needed=False)
    board.say("pocket", box.middle, is_needed=False, within=box)
    board.measure(Spot(right, top), Spot(right, box.top), Spot(AWAY, 0), label_of(mouth.place, units))
    board.measure(
        Spot(right, box.top), Spot(right, box.bottom), Spot(AWAY, 0), label_of(pocket.height, units)
    )
    board.measure(Spot(left, low), Spot(box.left, low), Spot(0, AWAY), label_of(mouth.start, units))
    board.measure(Spot(box.left, low), Spot(box.right, low), Spot(0, AWAY), label_of(pocket.width, units))
    told = (
        f"The pocket lies on the right side of the front, its mouth {words.cutting(mouth.place, units)} "
        f"below the raw edge and its sides {words.cutting(mouth.start, units)} from the side edges. It is "
        f"sewn {words.cutting(below, units)} from its edge down one side, along the bottom and up the "
        "other; the mouth stays open."
    )
    return board.figure(low, told, "Right side up; thick stitches at both ends of the mouth.")


def _row_round(board: Board, box: Box, off: int) -> None:
    """Draw the row that holds a pocket: down one side, along the bottom, up the other; its ends are firm."""
    left, right, low = box.left + off, box.right - off, box.bottom - off
    tops = Spot(left, box.top), Spot(right, box.top)
    board.draw([line(Line.TOPSTITCH, tops[0], Spot(left, low), Spot(right, low), tops[1])])
    for top in tops:
        sewn(board, top, Spot(top.x, low), "first")
