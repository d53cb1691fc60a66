"""Something whose size everybody knows, to stand beside the item at the same scale: a hand, a sheet of A5."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.units import INCH, Units

from .geometry import Point
from .lines import Line, lines, pen
from .page import Placing
from .svg import curve_through, element, path_through
from .tokens import SHEET


@dataclass(frozen=True, slots=True)
class Familiar:
    """A familiar thing, standing on (0, 0) to (width, 0). mm."""

    name: str
    size: str
    width: Fraction
    height: Fraction
    drawn: Callable[[Placing], list[str]]


def familiar(units: Units) -> Familiar:
    """Return the thing that people who think in these units know: A5 is not known where inches are."""
    return _hand() if units is Units.INCHES else _sheet()


def _sheet() -> Familiar:
    # Source: ISO 216, A5.
    width, height = Fraction(148), Fraction(210)

    def drawn(placing: Placing) -> list[str]:
        corners = ((0, 0), (width, 0), (width, height), (0, height))
        outline = placing.spots(Point(Fraction(x), Fraction(y)) for x, y in corners)
        ground = element("path", (("d", path_through(outline, is_closed=True)), ("fill", SHEET)))
        return [ground, lines(Line.FAMILIAR, [outline], is_closed=True)]

    return Familiar("sheet of A5", "148 × 210 mm", width, height, drawn)


# A grown-up hand, 7 in from the wrist to the tip of the middle finger: points of its outline in mm, from the
# thumb's side of the wrist round to the other side. Nothing is measured by it.
_HAND = (
    *((30, 0), (29, 18), (24, 35), (14, 53), (4, 70), (-4, 86), (-8, 97), (-5, 104), (2, 103), (10, 92)),
    *(
        (18, 79),
        (26, 75),
        (27, 98),
        (24, 124),
        (22, 148),
        (23, 160),
        (29, 165),
        (36, 159),
        (38, 144),
        (40, 121),
    ),
    *((42, 104), (43, 122), (43, 150), (44, 169), (51, 177), (58, 169), (59, 150), (60, 122), (62, 103)),
    *((65, 120), (67, 144), (69, 158), (75, 163), (81, 156), (80, 141), (78, 116), (78, 99), (84, 110)),
    *(
        (89, 124),
        (93, 133),
        (99, 135),
        (102, 128),
        (98, 112),
        (92, 92),
        (89, 76),
        (88, 58),
        (84, 38),
        (79, 18),
        (77, 0),
    ),
)
_HAND_LEFT, _HAND_RIGHT = -8, 102


def _hand() -> Familiar:
    return Familiar("a hand", "about 7 in", Fraction(_HAND_RIGHT - _HAND_LEFT), 7 * INCH, _drawn_hand)


def _drawn_hand(placing: Placing) -> list[str]:
    spots = placing.spots(Point(Fraction(x - _HAND_LEFT), Fraction(y)) for x, y in _HAND)
    attributes = (("d", curve_through(spots)), ("fill", SHEET), *pen(Line.FAMILIAR))
    return [element("path", attributes)]
