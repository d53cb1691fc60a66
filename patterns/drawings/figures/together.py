"""Two cloths together with the seam between them: its allowance, where it runs, and what it leaves open."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.openings import Opening
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line, line, lines
from patterns.drawings.svg import plate
from patterns.drawings.tokens import SHEET

from .arrows import straight
from .board import EDGE, SPACE, WIDTH, Board, StepFigure, block_height

# Beside the cloths: where the seam begins, and its allowance.
BEFORE, BEHIND = 6500, 12_000
# How much of the cloths is drawn below the edge; how far the lower one looks out.
DEEP = 15_000
OUT = 1500
BACKSTITCH = 1500
LEAST_ALLOWANCE = 2200


def sewn_together(
    below: Strip, above: Strip, allowance: Fraction, opening: Opening | None, units: Units, title: str
) -> StepFigure:
    """Return the edge of two cloths right sides together, seen from the wrong side of the upper one.

    The stitching runs from raw edge to raw edge. The allowance is drawn wide enough to be seen.
    """
    board = Board(title)
    top = 2 * block_height() + 2 * SPACE
    left, right = BEFORE, WIDTH - BEHIND
    scale = Fraction(right - left) / above.width
    seam = top + max(round(allowance * scale), LEAST_ALLOWANCE)
    for cloth, off in ((below, OUT), (above, 0)):
        _cloth(board, cloth, Box(left + off, top, right + off, top + DEEP + off), is_pale=off == 0)
    ends = [left, right]
    if opening:
        gap = [left + round(each * scale) for each in (opening.start, opening.end)]
        ways = [(Spot(left, seam), Spot(gap[0], seam)), (Spot(gap[1], seam), Spot(right, seam))]
        board.draw([lines(Line.STITCH, ways)])
        board.draw([line(Line.OPENING, *_bracket(gap, seam))])
        for end, way in ((gap[0], -1), (gap[1], 1)):
            board.draw([line(Line.CLIP, Spot(end, seam), Spot(end + way * BACKSTITCH, seam))])
        length = words.label(words.cutting(opening.end - opening.start, units))
        board.say(f"leave {length} open", Spot((gap[0] + gap[1]) // 2, seam + 4200))
    else:
        board.draw([line(Line.STITCH, Spot(left, seam), Spot(right, seam))])
        board.say("without a gap", Spot((left + right) // 2, seam + 3200))
    for end, way in zip(ends, (1, -1), strict=True):
        board.draw([line(Line.CLIP, Spot(end, seam), Spot(end + way * BACKSTITCH, seam))])
    board.draw(straight(Spot(left - 4500, seam), Spot(left - 900, seam)))
    free = words.label(words.cutting(allowance, units))
    board.measure(Spot(right + OUT, top), Spot(right + OUT, seam), Spot(1300, 0), free)
    board.say(f"{above.name}, wrong side up", Spot((left + right) // 2, top + DEEP - block_height()))
    board.say("raw edges level", Spot((left + right) // 2, top - block_height() // 2 - SPACE))
    open_part = (
        f" It is left open over {words.cutting(opening.end - opening.start, units)}." if opening else ""
    )
    told = (
        f"Sew {words.cutting(allowance, units)} from the raw edges, from side edge to side edge.{open_part}"
    )
    return board.figure(
        top + DEEP + OUT,
        f"The {above.name} lies on the {below.name}, right sides together. {told}",
        "Right sides together; the thick ends are backstitches.",
    )


def _cloth(board: Board, strip: Strip, box: Box, is_pale: bool) -> None:
    corners = (
        Spot(box.left, box.bottom),
        Spot(box.left, box.top),
        Spot(box.right, box.top),
        Spot(box.right, box.bottom),
    )
    board.draw([plate(box, SHEET), *fill(Fabric(strip.tint, is_pale=is_pale, gap=2600), corners)])
    board.draw([line(Line.CUT, *corners)])


def _bracket(gap: list[int], seam: int) -> tuple[Spot, ...]:
    return Spot(gap[0], seam), Spot(gap[0], seam + 1900), Spot(gap[1], seam + 1900), Spot(gap[1], seam)


def pressed_open(
    one: Strip, other: Strip, allowance: Fraction, units: Units, title: str, gap: Fraction | None = None
) -> StepFigure:
    """Return a seam pressed open: the two cloths wrong side up, their allowances folded back.

    gap: how long one is that was left in it; along it they are folded back likewise.
    """
    board = Board(title)
    top, deep = block_height() + 2 * SPACE, 14_000
    middle = WIDTH // 2
    wide = 9000
    for strip, box in (
        (one, Box(EDGE, top, middle, top + deep)),
        (other, Box(middle, top, WIDTH - EDGE, top + deep)),
    ):
        _cloth(board, strip, box, is_pale=True)
        flap = (
            Box(middle - wide, top, middle, top + deep)
            if box.left == EDGE
            else Box(middle, top, middle + wide, top + deep)
        )
        _cloth(board, strip, flap, is_pale=True)
        text = Spot(
            (box.left + flap.left) // 2 if box.left == EDGE else (box.right + flap.right) // 2,
            top + deep // 2,
        )
        board.say(strip.name, text, is_needed=False)
    board.draw([line(Line.STITCH, Spot(middle, top), Spot(middle, top + deep))])
    if gap is not None:
        start, end = Spot(middle, top + deep // 3), Spot(middle, top + deep * 3 // 4)
        board.draw([line(Line.OPENING, start, end)])
        board.say("gap", Spot(middle + SPACE, (start.y + end.y) // 2), "start")
    both = f"The {one.name} and the {other.name}" if one != other else f"Both edges of the {one.name}"
    likewise = "" if gap is None else f", along the gap of {words.cutting(gap, units)} as well"
    free = words.label(words.cutting(allowance, units))
    board.measure(Spot(middle - wide, top + deep), Spot(middle, top + deep), Spot(0, 1600), free)
    board.measure(Spot(middle, top + deep), Spot(middle + wide, top + deep), Spot(0, 1600), free)
    return board.figure(
        top + deep,
        f"{both} lie wrong side up, the seam between them; its allowances, "
        f"{words.cutting(allowance, units)} each, are folded back to either side{likewise}.",
        "A close look at the seam, wrong sides up.",
    )
