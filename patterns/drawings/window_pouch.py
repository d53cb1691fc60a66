"""A zip-topped pouch with a fold-flat base and a clear window across its front."""

from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.drafting.sized import SizedPattern

from .fills import Fabric
from .geometry import Point, between
from .given import given
from .lines import Line
from .standing import Face, Shape, Standing, Stroke
from .zip_pouch import Pouch, zip_pouch

# Where a recipe does not say: of the height, the parts above and below the window.
USUAL_BAND, USUAL_BORDER = Fraction(1, 4), Fraction(1, 8)
CLEAR = Fabric("clear")
# Two slanting lines show that the window is clear: how far across its foot and across its top each lies.
GLINTS = ((Fraction(1, 16), Fraction(3, 16)), (Fraction(2, 16), Fraction(4, 16)))
# Of the window's height, how much a glint leaves free at its foot and at its top.
FREE = Fraction(1, 5)


@dataclass(frozen=True, slots=True)
class Window:
    """How a front is parted, mm: the band from the middle of the zip to the window, the border below it."""

    band: Fraction
    border: Fraction


def window_of(sized: SizedPattern, height: Fraction) -> Window:
    """Return the window of a front of that height; what the recipe does not name, or cannot be, is usual."""
    band, border = given(sized, "top band"), given(sized, "lower border")
    if band and border and band + border < height:
        return Window(band, border)
    return Window(height * USUAL_BAND, height * USUAL_BORDER)


def window_pouch(
    width: Fraction, height: Fraction, depth: Fraction, reveal: Fraction, window: Window
) -> Standing:
    """Return the pouch, standing width × depth on the table, its window up to the seams of the short sides.

    reveal: how much of the zip tape shows, over both sides, mm.
    Raises DrawingError: it would not stand.
    """
    pouch = Pouch(width, height, depth, reveal)
    pane = _Pane(pouch, window)
    shapes = (
        *pouch.leaning_wall(),
        *pane.on_the_side(),
        *pouch.triangle(),
        *pouch.front(),
        *pane.on_the_front(),
        *pouch.zip(),
    )
    plain = zip_pouch(width, height, depth, reveal)
    return replace(
        plain, shapes=shapes, seen_as=f"{plain.seen_as}, a clear window across its front between two bands"
    )


class _Pane:
    """The vinyl between the folded edges of band and border, on the front and round its edge to the seam."""

    def __init__(self, pouch: Pouch, window: Window) -> None:
        self.pouch = pouch
        self.top, self.foot = max(window.band, pouch.tuck), pouch.height - window.border
        # Sewn a few mm from the folds; in a small picture of a large pouch nobody would see it.
        wanted = min(max(Fraction(3), (pouch.width + pouch.height) / 50), pouch.height / 4)
        self.row_over = self.top - min(wanted, (self.top - pouch.tuck) / 2)
        self.row_under = self.foot + min(wanted, window.border / 2)

    def on_the_front(self) -> tuple[Shape, ...]:
        (top_left, top_right), (left, right) = self.pouch.row(self.top), self.pouch.row(self.foot)
        return (
            Face((left, right, top_right, top_left), CLEAR, Line.EDGE),
            *self._glints(left, right, top_left, top_right),
            Stroke(Line.TOPSTITCH, self.pouch.row(self.row_over)),
            Stroke(Line.TOPSTITCH, self.pouch.row(self.row_under)),
        )

    def on_the_side(self) -> tuple[Shape, ...]:
        """As much of it as lies on the near half of the short side, before the seam."""
        (_, near_top), (_, near_foot) = self.pouch.row(self.top), self.pouch.row(self.foot)
        outline = near_foot, self.pouch.seam(self.foot), self.pouch.seam(self.top), near_top
        rows = (self.row_over, self.row_under)
        return (
            Face(outline, CLEAR, Line.EDGE),
            *(
                Stroke(Line.TOPSTITCH, (self.pouch.row(down)[1], self.pouch.seam(down)))
                for down in rows
                if self.pouch.row(down)[1] != self.pouch.seam(down)
            ),
        )

    def _glints(self, left: Point, right: Point, top_left: Point, top_right: Point) -> tuple[Shape, ...]:
        ways = []
        for at_foot, at_top in GLINTS:
            low, high = between(left, right, at_foot), between(top_left, top_right, at_top)
            ways.append(Stroke(Line.SEAM, (between(low, high, FREE), between(low, high, 1 - FREE))))
        return tuple(ways)
