"""The item folded flat, with its size: how much room it takes when it is put away or sent."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Final, assert_never

from patterns.drafting.recipe import Form
from patterns.drafting.sized import SizedPattern

from . import words
from .dimension import dimension
from .fills import Fabric, fill
from .finished import reveal_of
from .geometry import Box, Point, Spot, around
from .labels import Block, TextLine, number_and_name
from .lines import Line, line, lines
from .packable_tote import handle, handles_of, pocket_of, pocket_on
from .page import Placing, cloth
from .standing import painted
from .svg import document, plate
from .tied_bag import ribbon_of
from .tokens import EXTERIOR, QUIET_INK, SHEET
from .window_pouch import window_of

# Page, micrometres: as wide as a drawing beside a column of text.
WIDTH = 78_000
MOST_HEIGHT = 38_000
NUMBER = 3300
NAME = 2650
EDGE = 1200
AWAY = 3400
SPACE = 1500
_STANDS: Final = frozenset[Form]({"boxed tote", "round bucket", "drawstring bag"})
# What else is to be seen of an item that lies flat.
_ALSO: dict[Form, str] = {
    "packable tote": ", and its handles stand up over the top edge",
    "tied bag": ", and its ribbon is laid across",
    "window pouch": ", and its window runs across between the zip and the base",
}


def flat_svg(sized: SizedPattern) -> str | None:
    """Return the drawing of the item folded flat: width and depth together, by the height.

    None for one whose base is sewn to stand, which does not fold flat.
    Raises DrawingError: a measure is missing or nothing at this size.
    """
    return None if sized.form in _STANDS else _Flat(sized).svg()


class _Flat:
    def __init__(self, sized: SizedPattern) -> None:
        self.sized = sized
        width, height, depth = (cloth(quantity, least=Fraction(1)) for quantity in sized.finished)
        self.wide, self.high, self.base = width + depth, height, depth / 2
        self.handles = handles_of(sized, width) if sized.form == "packable tote" else None
        self.ribbon = ribbon_of(sized, width, height, depth) if sized.form == "tied bag" else None
        self.window = window_of(sized, height) if sized.form == "window pouch" else None
        wide = words.added(words.known(sized.finished[0]), words.known(sized.finished[2]))
        self.sizes = (
            words.chosen(wide, sized.units),
            words.chosen(words.known(sized.finished[1]), sized.units),
        )
        self.width_label = number_and_name(words.label(self.sizes[0]), "width + depth", NUMBER, NAME)
        self.height_label = number_and_name(words.label(self.sizes[1]), "height", NUMBER, NAME)
        left = EDGE + self.height_label.width + SPACE + AWAY
        over = self.handles.rise if self.handles else Fraction(0)
        scale = min(Fraction(WIDTH - left - EDGE) / self.wide, Fraction(MOST_HEIGHT) / (self.high + over))
        shift = (WIDTH - EDGE - left - round(self.wide * scale)) // 2
        top = EDGE + max(round(over * scale), (self.height_label.height - round(self.high * scale)) // 2)
        self.placing = Placing(scale, Spot(left + shift, top + round(self.high * scale)))
        corner, far = self.placing.spots((Point(Fraction(0), self.high), Point(self.wide, Fraction(0))))
        self.box = Box(*corner, *far)

    def svg(self) -> str:
        box = self.box
        left_top, right_bottom = Spot(box.left, box.top), Spot(box.right, box.bottom)
        left_bottom, right_top = Spot(box.left, box.bottom), Spot(box.right, box.top)
        outline = left_top, right_top, right_bottom, left_bottom
        across = self.width_label.at(box.middle.x, box.bottom + AWAY + SPACE // 2, "middle")
        up = self.height_label.at(
            box.left - AWAY - SPACE, box.middle.y - self.height_label.height // 2, "end"
        )
        parts = [
            *dimension(left_bottom, right_bottom, Spot(0, AWAY)),
            *dimension(left_top, left_bottom, Spot(-AWAY, 0)),
            *fill(Fabric("exterior"), outline),
            *self._pocket(),
            *self._ribbon(),
            *self._window(),
            *self._base(),
            line(Line.OUTLINE, *outline, is_closed=True),
            *self._top(),
            *across.drawn(),
            *up.drawn(),
        ]
        bottom = around([across.box, up.box, box]).bottom
        return document(WIDTH, bottom + EDGE, self._title(), self._description(), parts)

    def _level(self, up: Fraction) -> tuple[Spot, Spot]:
        return self.placing.spot(Point(Fraction(0), up)), self.placing.spot(Point(self.wide, up))

    def _base(self) -> list[str]:
        """The base, folded in half and tucked up inside: it reaches half the depth up."""
        if self.base >= self.high:
            return []
        parts = [line(Line.HIDDEN_FOLD, *self._level(self.base))]
        name = Block((TextLine("base, folded in", NAME, QUIET_INK),))
        for low, high, ground in self._places_of_the_name():
            top = self._level((low + high) / 2)[0].y - name.height // 2
            label = name.at(self.box.middle.x, top, "middle")
            is_free = label.box.height + SPACE <= self.placing.length(high - low)
            if is_free and self.box.grown(-SPACE // 2).holds(label.box):
                return [*parts, plate(label.box, ground), *label.drawn()]
        return parts

    def _places_of_the_name(self) -> Iterator[tuple[Fraction, Fraction, str]]:
        """Yield from where to where the base may be named, up from the bottom, and on which ground."""
        if self.window is None:
            yield Fraction(0), self.base, EXTERIOR
            return
        window_top = self.high - self.window.band
        yield self.window.border, min(self.base, window_top), SHEET
        yield Fraction(0), min(self.base, self.window.border), EXTERIOR

    def _top(self) -> list[str]:
        topstitch = min(max(Fraction(3), (self.wide + self.high) / 50), self.high / 4)
        match self.sized.form:
            case "open basket" | "packable tote" | "tied bag":
                row = line(Line.TOPSTITCH, *self._level(self.high - topstitch))
                return [row, *self._handle()]
            case "zip-top pouch" | "window pouch":
                return self._zip(min(reveal_of(self.sized) / 2, self.high / 4), topstitch)
            case "boxed tote" | "round bucket" | "drawstring bag":
                return []  # not drawn flat
            case _:
                assert_never(self.sized.form)

    def _edge(self) -> Point:
        """The middle of the top edge."""
        return Point(self.wide / 2, self.high)

    def _pocket(self) -> list[str]:
        pocket = pocket_of(self.sized) if self.sized.form == "packable tote" else None
        shapes = pocket_on(pocket, self._edge()) if pocket else ()
        return [part for shape in shapes for part in painted(shape, self.placing)]

    def _handle(self) -> list[str]:
        """Both handles, one behind the other, standing up over the edge."""
        shapes = handle(self.handles, self._edge()) if self.handles else ()
        return [part for shape in shapes for part in painted(shape, self.placing)]

    def _ribbon(self) -> list[str]:
        """The ribbon, laid across from the seam that holds it."""
        if self.ribbon is None:
            return []
        at, half = self.high - self.ribbon.place, self.ribbon.width / 2
        low, high = self._level(at - half), self._level(at + half)
        return [plate(Box(*high[0], *low[1]), SHEET), lines(Line.EDGE, [low, high])]

    def _window(self) -> list[str]:
        """The clear window, from side to side."""
        if self.window is None:
            return []
        top, foot = self._level(self.high - self.window.band), self._level(self.window.border)
        return [plate(Box(*top[0], *foot[1]), SHEET), lines(Line.EDGE, [top, foot])]

    def _zip(self, tape: Fraction, topstitch: Fraction) -> list[str]:
        left, right = self._level(self.high - tape)
        return [
            plate(Box(self.box.left, self.box.top, right.x, right.y), SHEET),
            line(Line.EDGE, left, right),
            line(Line.TOPSTITCH, *self._level(self.high - tape - topstitch)),
            line(
                Line.OUTLINE,
                left,
                Spot(self.box.left, self.box.top),
                Spot(self.box.right, self.box.top),
                right,
            ),
            line(Line.TEETH, Spot(self.box.left, self.box.top), Spot(self.box.right, self.box.top)),
        ]

    def _title(self) -> str:
        wide, high = self.sizes
        return f"{self.sized.title} folded flat, {wide} by {high}"

    def _description(self) -> str:
        base = "The item folded flat, to scale; its base lies folded in half inside, along the bottom"
        return f"{base}{_ALSO.get(self.sized.form, '')}."
