"""The item drawn shut, with the size of its base: how it looks when it is full."""

from fractions import Fraction

from patterns.drafting.sized import SizedPattern

from . import words
from .dimension import dimension
from .drawn_cords import Cords
from .drawn_shut import Shut, drawn_shut
from .drawstring_bag import drawstring_of
from .geometry import Spot, around
from .given import given
from .labels import number_and_name
from .page import Placing, cloth
from .standing import painted
from .svg import document

# Page, micrometres: as wide as the drawing of what folds flat, which stands in the same place.
WIDTH = 78_000
MOST_HEIGHT = 40_000
NUMBER = 3300
NAME = 2650
EDGE = 1200
AWAY = 3400
SPACE = 1500
# The knot lies so far from the tips where a recipe does not say: an inch.
USUAL_KNOT = Fraction(127, 5)


def shut_svg(sized: SizedPattern) -> str | None:
    """Return the drawing of a drawstring bag drawn shut; None for any other form.

    Raises DrawingError: a measure is missing or nothing at this size.
    """
    if sized.form != "drawstring bag":
        return None
    width, height, depth = (cloth(quantity, least=Fraction(1)) for quantity in sized.finished)
    drawstring = drawstring_of(sized, width, height, depth)
    run = drawstring.drop + drawstring.channel / 2
    shut = Shut(width, depth, height - run, run)
    ends = (2 * (width + depth) + drawstring.spare) / 2
    item = drawn_shut(shut, Cords(shut, ends, given(sized, "knot place") or USUAL_KNOT).drawn())
    assert item.depth is not None
    said = [words.chosen(words.known(sized.finished[number]), sized.units) for number in (0, 2)]
    across, away = (
        number_and_name(words.label(size), name, NUMBER, NAME)
        for size, name in zip(said, ("width", "depth"), strict=True)
    )
    points = list(item.points())
    left, right = min(point.x for point in points), max(point.x for point in points)
    top = max(point.y for point in points)
    room = WIDTH - 2 * EDGE - AWAY - away.width - SPACE
    scale = min(Fraction(room) / (right - left), Fraction(MOST_HEIGHT) / top)
    beside = (room - round((right - left) * scale)) // 2
    ground = EDGE + round(top * scale)
    placing = Placing(scale, Spot(EDGE + beside - round(left * scale), ground))
    start, end = placing.spots(item.width)
    near, far = placing.spots(item.depth)
    labels = [
        across.at((start.x + end.x) // 2, ground + AWAY + SPACE // 2, "middle"),
        away.at(max((near.x + far.x) // 2 + AWAY + SPACE // 2, end.x + SPACE), (near.y + far.y) // 2),
    ]
    parts = [
        *dimension(start, end, Spot(0, AWAY)),
        *dimension(near, far, Spot(AWAY, 0)),
        *(part for shape in item.shapes for part in painted(shape, placing)),
        *(part for label in labels for part in label.drawn()),
    ]
    bottom = around([label.box for label in labels]).bottom
    told = (
        "The item drawn shut, to scale across: the walls lean in to the channel, the edge above it stands up "
        "as a frill, and both ends of each cord hang out at one side, knotted."
    )
    return document(WIDTH, bottom + EDGE, f"{sized.title} drawn shut, {said[0]} by {said[1]}", told, parts)
