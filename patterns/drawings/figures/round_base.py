"""A side and its round base: the ring, its lower edge, both pinned in quarters and sewn, the seam trimmed."""

from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.dimension import DOT
from patterns.drawings.fills import Fabric, fill
from patterns.drawings.folding.bag_parts import Bag
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Box, Point, Spot, quarter_circle
from patterns.drawings.lines import Line, along, line, lines
from patterns.drawings.page import exact
from patterns.drawings.svg import millimetres

from .arrows import straight
from .board import CLOSE, EDGE, SPACE, WIDTH, Board, StepFigure, block_height, room_over, text_wide
from .patches import cloth_seen_on_edge, corners_of, label_of, patch, scaled, sewn

AWAY = 1800
RADIUS = 15_000
# Snips are drawn so many to a quarter: enough to be seen as many.
SNIPS = 8
_QUARTER = quarter_circle(SNIPS)


def into_ring(strip: Strip, bag: Bag, units: Units, title: str) -> StepFigure:
    """Return the side right sides together, its short edges level and sewn."""
    board = Board(title)
    once = exact(bag.round)
    half = once / 2 + bag.allowance * strip.count  # folded, it has one seam
    scale = min(Fraction(WIDTH - 24_000) / half, Fraction(24_000) / strip.length)
    left, top = 9000, room_over()
    box = Box(left, top, left + round(half * scale), top + round(strip.length * scale))
    patch(board, corners_of(box.moved(1000, 1000)), strip.tint)
    patch(board, corners_of(box), strip.tint, is_wrong=True)
    off = scaled(bag.allowance, scale, 1500)
    sewn(board, Spot(box.right - off, box.top), Spot(box.right - off, box.bottom))
    other = "fold"
    if strip.count > 1:
        sewn(board, Spot(box.left + off, box.top), Spot(box.left + off, box.bottom))
        other = "seam"
    else:
        board.draw([line(Line.OUTLINE, Spot(box.left, box.top), Spot(box.left, box.bottom))])
    board.say(other, Spot(box.left - SPACE, box.middle.y), "end")
    board.say("seam", Spot(box.right + 1000 + SPACE, box.middle.y), "start")
    board.measure(
        Spot(box.right - off, box.top),
        Spot(box.right, box.top),
        Spot(0, -CLOSE),
        label_of(bag.allowance, units),
    )
    board.say("wrong side up", box.middle, is_needed=False, within=box)
    round_words = words.cutting(bag.round, units)
    board.say(f"round: {words.label(round_words)}", Spot(box.middle.x, box.bottom + 1000 + block_height()))
    seams = "Both pairs of short edges are" if strip.count > 1 else "Its short edges are"
    told = (
        f"The {strip.name} lies right sides together. {seams} sewn {words.cutting(bag.allowance, units)} "
        f"from the raw edge; the ring is {round_words} round."
    )
    return board.figure(box.bottom + 1000, told, "Right sides together; the thick ends are backstitches.")


def stayed(strip: Strip, bag: Bag, every: Fraction, units: Units, title: str) -> StepFigure:
    """Return the lower edge of the ring, close by: the row in its allowance, and snips that end at it."""
    board = Board(title)
    wide = every * 6
    row_words, allowance_words = f"row {label_of(bag.stay, units)}", label_of(bag.allowance, units)
    left, right = (EDGE + text_wide(text) + SPACE + DOT + AWAY for text in (row_words, allowance_words))
    right, top = WIDTH - right, block_height()
    scale = Fraction(right - left) / wide
    low = top + 15_000
    patch(
        board,
        (Spot(left, top), Spot(left, low), Spot(right, low), Spot(right, top)),
        strip.tint,
        is_wrong=True,
        is_closed=False,
    )
    deep = min(max(round(bag.allowance * scale), 5500), 9500)
    seam, row = low - deep, low - round(deep * bag.stay / bag.allowance)
    board.draw([line(Line.SEAM, Spot(left, seam), Spot(right, seam))])
    board.draw([line(Line.STITCH, Spot(left, row), Spot(right, row))])
    cuts = [left + round(every * scale * (2 * number + 1) / 2) for number in range(6)]
    board.draw([lines(Line.CUT, [(Spot(x, low), Spot(x, row + 350)) for x in cuts])])
    board.measure(Spot(right, seam), Spot(right, low), Spot(AWAY, 0), allowance_words)
    board.measure(Spot(left, row), Spot(left, low), Spot(-AWAY, 0), row_words)
    board.measure(Spot(cuts[2], low), Spot(cuts[3], low), Spot(0, AWAY), label_of(every, units))
    board.say("seam line", Spot((left + right) // 2, seam - block_height() // 2 - 300))
    told = (
        f"The lower edge of the ring, close by: a row {words.cutting(bag.stay, units)} from the raw edge, "
        f"inside the allowance of {words.cutting(bag.allowance, units)}, and snips every "
        f"{words.cutting(every, units)} that end just short of the row."
    )
    return board.figure(low, told, "The lower edge close by; the snips stop at the row.")


def on_base(
    base: Strip, tint_of_ring: Strip, bag: Bag, allowance: Fraction, is_sewn: bool, units: Units, title: str
) -> StepFigure:
    """Return the ring's lower edge on its base, seen from above: quarter on quarter, pinned or sewn."""
    board = Board(title)
    middle = Spot(WIDTH // 2, SPACE + block_height() + RADIUS)
    scale = Fraction(RADIUS) / (base.width / 2)
    seam = RADIUS - min(max(round(allowance * scale), 2600), RADIUS // 3)
    _disc(board, middle, RADIUS, Fabric(tint_of_ring.tint, is_pale=True, gap=2600), Line.CUT)
    _disc(board, middle, seam, Fabric(base.tint, gap=2600), None)
    row = RADIUS - (RADIUS - seam) * 3 // 4
    board.draw([lines(Line.CUT, [(_at(middle, p, RADIUS), _at(middle, p, row)) for p in _every()])])
    if is_sewn:
        board.draw(
            [along(Line.STITCH, _circle(middle, seam)), along(Line.STITCH, _circle(middle, seam + 500))]
        )
    else:
        board.draw([along(Line.SEAM, _circle(middle, seam))])
    for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1)):
        out, inner = (Spot(middle.x + x * far, middle.y + y * far) for far in (RADIUS + 1500, seam - 2200))
        board.draw([line(Line.CLIP, out, inner)])
    board.fill(Box(middle.x - RADIUS, middle.y - RADIUS, middle.x - seam, middle.y + RADIUS))
    board.fill(Box(middle.x + seam, middle.y - RADIUS, middle.x + RADIUS, middle.y + RADIUS))
    board.say(base.name, Spot(middle.x, middle.y - block_height()), is_needed=False)
    board.say("right side up", Spot(middle.x, middle.y + block_height()), is_needed=False)
    beside = middle.x + RADIUS + 1500 + SPACE
    board.say("quarter", Spot(beside, middle.y), "start")
    board.say("ring on top", Spot(middle.x - RADIUS * 3 // 4, SPACE + block_height() // 2), "end")
    quarter = words.cutting(exact(bag.round) / 4, units)
    if is_sewn:
        start = Spot(middle.x + RADIUS * 4 // 5, middle.y + RADIUS * 4 // 5)
        board.say(f"{label_of(allowance, units)} from the edge", Spot(start.x, start.y + SPACE), "start")
    board.say(
        f"{words.label(quarter)} each", Spot(middle.x + RADIUS * 3 // 4, SPACE + block_height() // 2), "start"
    )
    how = (
        f"sewn twice, {words.cutting(allowance, units)} from the raw edges"
        if is_sewn
        else "pinned, the snipped edge on top"
    )
    told = (
        f"From above: the ring, wrong side out, lies on the right side of the {base.name}, quarter on "
        f"quarter, {how}. Each quarter of both seam lines is {quarter} long."
    )
    caption = "From above: sewn all round, twice." if is_sewn else "From above: thick lines are the quarters."
    return board.figure(middle.y + RADIUS + 1500, told, caption)


def _every() -> list[Point]:
    """Return places all round the circle of 1 at which snips are drawn, none of them at a quarter."""
    found = []
    for place in _QUARTER[1:-1]:
        found += [place, Point(-place.y, place.x), Point(-place.x, -place.y), Point(place.y, -place.x)]
    return found


def _at(middle: Spot, place: Point, radius: int) -> Spot:
    return Spot(middle.x + round(place.x * radius), middle.y - round(place.y * radius))


def _circle(middle: Spot, radius: int) -> str:
    r = millimetres(radius)
    left, right = (f"{millimetres(middle.x + way * radius)} {millimetres(middle.y)}" for way in (-1, 1))
    return f"M{left}A{r} {r} 0 0 1 {right}A{r} {r} 0 0 1 {left}Z"


def _disc(board: Board, middle: Spot, radius: int, fabric: Fabric, edge: Line | None) -> None:
    places = _QUARTER[:-1]
    ring = [
        _at(middle, turned, radius)
        for turn in range(4)
        for turned in (_turned(place, turn) for place in places)
    ]
    board.draw(fill(fabric, ring, _circle(middle, radius)))
    if edge:
        board.draw([along(edge, _circle(middle, radius))])


def _turned(place: Point, quarters: int) -> Point:
    for _ in range(quarters):
        place = Point(-place.y, place.x)
    return place


def graded(strip: Strip, base: Strip, bag: Bag, units: Units, title: str) -> StepFigure:
    """Return the base seam cut through: both allowances, the base's trimmed narrower than the ring's."""
    board = Board(title)
    seam, top = Spot(24_000, 20_000), block_height()
    cloth_seen_on_edge(
        board, [Spot(EDGE + 2000, seam.y), Spot(seam.x + 8000, seam.y)], base.tint, [(0, -1), (0, -1)]
    )
    wall = [Spot(seam.x, top), Spot(seam.x, seam.y - 1500), Spot(seam.x + 13_000, seam.y - 1500)]
    cloth_seen_on_edge(board, wall, strip.tint, [(-1, 0), (-1, 1), (0, 1)])
    board.draw([line(Line.CLIP, Spot(seam.x + 1800, seam.y - 2500), Spot(seam.x + 1800, seam.y + 1100))])
    for x in (seam.x + 8000, seam.x + 13_000):
        board.draw([line(Line.OPENING, Spot(x, seam.y - 3400), Spot(x, seam.y + 1600))])
    board.say("ring", Spot(seam.x + SPACE + 600, top + 3000), "start")
    board.say("base", Spot(EDGE + 3000, seam.y + block_height()), "start")
    board.say("cut", Spot(seam.x + 13_000 + SPACE, seam.y), "start")
    assert bag.base is not None
    across = words.cutting(bag.base[0], units)
    board.draw(straight(Spot(seam.x - 4000, seam.y - 7000), Spot(seam.x - 10_000, seam.y - 7000)))
    told = (
        "The base seam cut through: the allowance of the base is trimmed narrower than that of the ring. "
        f"Then the {bag.name} is turned right side out; its base is {across} across."
    )
    return board.figure(seam.y + block_height(), told, "The base seam cut through; thick lines are cuts.")
