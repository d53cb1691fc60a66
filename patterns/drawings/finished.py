"""The finished item at the customer's size with its measures, beside a familiar thing at the same scale."""

from dataclasses import dataclass
from fractions import Fraction
from typing import assert_never

from patterns.drafting.sized import SizedPattern

from . import words
from .boxed_tote import boxed_tote
from .covered_bodies import BoxBody, PouchBody, RoundBody
from .covering import Body, Covering, tints_round_the_base
from .dimension import dimension
from .drawstring_bag import drawstring_bag, drawstring_of
from .familiar import Familiar, familiar
from .geometry import Box, Point, Spot, around, between
from .labels import Block, Placed, TextLine, number_and_name, wrapped
from .lines import Line, lines
from .open_basket import open_basket
from .packable_tote import handles_of, packable_tote, pocket_of
from .page import Placing, cloth
from .prints import Prints
from .round_bucket import round_bucket
from .standing import Standing
from .svg import document
from .tied_bag import ribbon_of, tied_bag
from .tokens import QUIET_INK
from .window_pouch import window_of, window_pouch
from .zip_pouch import Pouch, zip_pouch


@dataclass(frozen=True, slots=True)
class PictureRoom:
    """How wide the page of the drawing is, and how high the item may be on it, micrometres."""

    width: int
    item: int


# Letters of 11 pt are still read where the page is drawn 90 mm wide.
WIDE = PictureRoom(120_000, 78_000)
# Beside words, or across a telephone.
BESIDE = PictureRoom(88_000, 56_000)
# For a telephone, 80 mm wide and held nearer: less to see, and the same letters.
NARROW = PictureRoom(80_000, 31_000)
# Page, micrometres.
NUMBER = 3900
NAME = 3000
EDGE = 1500
AWAY = 4200
SPACE = 2200
GAP = 6000
# Zip tape that shows where a recipe does not say: that of a No. 3 coil zip between seams of 1/4 in.
USUAL_REVEAL = Fraction(127, 10)


def finished_svg(sized: SizedPattern, prints: Prints | None = None, room: PictureRoom = WIDE) -> str:
    """Return the drawing of the finished item, in the customer's own cloths where there are any.

    Raises DrawingError: a measure is missing or nothing, or the item could not stand at this size.
    """
    item = standing(sized)
    return _Picture(sized, item, familiar(sized.units), covering(sized, prints or {}), room).svg()


def covering(sized: SizedPattern, prints: Prints) -> Covering:
    """Return how these cloths lie on the item."""
    return Covering(body_of(sized), prints, tints_round_the_base(sized))


def body_of(sized: SizedPattern) -> Body:
    """Return the shape that cloth lies on. Raises DrawingError."""
    width, height, depth = (cloth(quantity, least=Fraction(1)) for quantity in sized.finished)
    match sized.form:
        case "zip-top pouch" | "window pouch":
            return PouchBody(Pouch(width, height, depth, reveal_of(sized)))
        case "round bucket":
            return RoundBody(width, height)
        case "open basket" | "packable tote" | "tied bag" | "boxed tote" | "drawstring bag":
            return BoxBody(width, height, depth)
        case _:
            assert_never(sized.form)


def standing(sized: SizedPattern) -> Standing:
    """Return the item as it stands. Raises DrawingError."""
    width, height, depth = (cloth(quantity, least=Fraction(1)) for quantity in sized.finished)
    match sized.form:
        case "open basket":
            return open_basket(width, height, depth)
        case "zip-top pouch":
            return zip_pouch(width, height, depth, reveal_of(sized))
        case "packable tote":
            return packable_tote(width, height, depth, handles_of(sized, width), pocket_of(sized))
        case "tied bag":
            return tied_bag(width, height, depth, ribbon_of(sized, width, height, depth))
        case "boxed tote":
            return boxed_tote(width, height, depth, handles_of(sized, width))
        case "round bucket":
            return round_bucket(width, height)
        case "window pouch":
            return window_pouch(width, height, depth, reveal_of(sized), window_of(sized, height))
        case "drawstring bag":
            return drawstring_bag(width, height, depth, drawstring_of(sized, width, height, depth))
        case _:
            assert_never(sized.form)


def reveal_of(sized: SizedPattern) -> Fraction:
    """Return how much of the zip's tape shows: its width less a seam allowance on each side."""
    tape, allowance = sized.values.get("zip tape width"), sized.values.get("zip seam allowance")
    if isinstance(tape, Fraction) and isinstance(allowance, Fraction) and tape > 2 * allowance:
        return tape - 2 * allowance
    return USUAL_REVEAL


class _Picture:
    """One drawing being laid out: the item left, the familiar thing right, both on one table."""

    def __init__(
        self, sized: SizedPattern, item: Standing, thing: Familiar, covering: Covering, room: PictureRoom
    ) -> None:
        self.sized, self.item, self.thing, self.covering, self.room = sized, item, thing, covering, room
        self.sizes = [words.chosen(words.known(quantity), sized.units) for quantity in sized.finished]
        names = (item.width_name, "height", "depth")
        self.width, self.height, self.depth = (
            number_and_name(words.label(size), name, NUMBER, NAME)
            for size, name in zip(self.sizes, names, strict=True)
        )
        if item.height_note:
            note = wrapped(item.height_note, NAME, room.width // 6, QUIET_INK)
            self.height = Block((*self.height.lines, *note))
        self.thing_label = Block(tuple(TextLine(text, NAME, QUIET_INK) for text in (thing.name, thing.size)))
        points = [*item.points(), *item.height]
        self.reach_left = -min(point.x for point in points)
        self.reach_right = max(point.x for point in points)
        self.reach_up = max(thing.height, *(point.y for point in points))
        self.scale = self._scale()

    def _scale(self) -> Fraction:
        """Return the largest scale, in micrometres for each mm, at which item, thing and all labels fit.

        Every part of the row is so much of the page and so much of the cloth; of two that may reach further,
        each is tried, because either must fit.
        """
        fixed = EDGE + self.height.width + SPACE + AWAY + GAP + EDGE
        to_right = [(self.reach_right, 0)]
        if middle := self._depth_middle():
            to_right.append((middle.x, AWAY + self.depth.width + SPACE))
        of_thing = ((self.thing.width, 0), (Fraction(0), self.thing_label.width))
        in_width = (
            Fraction(self.room.width - fixed - page - more) / (self.reach_left + mm + other)
            for mm, page in to_right
            for other, more in of_thing
        )
        return min(*in_width, Fraction(self.room.item) / self.reach_up)

    def _depth_middle(self) -> Point | None:
        return between(*self.item.depth, Fraction(1, 2)) if self.item.depth else None

    def svg(self) -> str:
        # The label of a low item's height reaches higher than the item.
        up_middle = between(*self.item.height, Fraction(1, 2)).y * self.scale
        up = max(self.reach_up * self.scale, up_middle + self.height.height // 2)
        ground = EDGE + round(up)
        foot = ground + AWAY + SPACE
        placing = Placing(self.scale, Spot(0, ground))
        labels = self._labels(placing, foot)
        item_right = max(round(self.reach_right * self.scale), *(label.box.right for label in labels))
        column = max(round(self.thing.width * self.scale), self.thing_label.width)
        middle = item_right + GAP + column // 2
        labels.append(self.thing_label.at(middle, foot, "middle"))
        used = around([label.box for label in labels])
        height = used.bottom + EDGE
        right = max(used.right, middle + (column + 1) // 2)
        shift = (self.room.width - (right - used.left)) // 2 - used.left
        return self._painted(labels, middle, (used.left, right), shift, ground, height)

    def _labels(self, placing: Placing, foot: int) -> list[Placed]:
        """Return the labels of its measures, with the item's corner at 0 across the page."""
        width, height = placing.spots(self.item.width), placing.spots(self.item.height)
        across = self.width.at((width[0].x + width[1].x) // 2, foot, "middle")
        up_middle = (height[0].y + height[1].y) // 2
        up = self.height.at(
            min(spot.x for spot in height) - AWAY - SPACE, up_middle - self.height.height // 2, "end"
        )
        depth_middle = self._depth_middle()
        if depth_middle is None:
            return [across, up]
        # Under its slanting line, and never against the width's label.
        off = placing.spot(depth_middle)
        left = max(off.x + AWAY + SPACE // 2, across.box.right + SPACE)
        return [across, up, self.depth.at(left, off.y + SPACE // 8)]

    def _painted(
        self, labels: list[Placed], middle: int, span: tuple[int, int], shift: int, ground: int, height: int
    ) -> str:
        placing = Placing(self.scale, Spot(shift, ground))
        thing = Placing(self.scale, Spot(shift + middle - round(self.thing.width * self.scale / 2), ground))
        depth = labels[2].box if self.item.depth else None
        parts = [self._table(depth, (self._foot(labels[1]), span[1]), shift, ground)]
        for edge, away in (
            (self.item.width, Spot(0, AWAY)),
            (self.item.height, Spot(-AWAY, 0)),
            (self.item.depth, Spot(AWAY, 0)),
        ):
            if edge is not None:
                start, end = placing.spots(edge)
                parts += dimension(start, end, away)
        parts += self.thing.drawn(thing)
        for shape in self.item.shapes:
            parts += self.covering.painted(shape, placing)
        for label in labels:
            parts += label.moved(shift, 0).drawn()
        return document(self.room.width, height, self._title(), self._description(), parts)

    def _foot(self, height: Placed) -> int:
        """Return how far left the table is drawn: to the foot of the height's dimension line."""
        return height.box.right + SPACE // 2

    def _table(self, depth: Box | None, span: tuple[int, int], shift: int, ground: int) -> str:
        """Return the table's edge, broken where the depth's label, if there is one, lies across it."""
        parts = [span]
        if depth is not None and (hole := depth.grown(SPACE // 2)).top < ground < hole.bottom:
            parts = [(span[0], hole.left), (hole.right, span[1])]
        return lines(
            Line.GROUND, [(Spot(shift + start, ground), Spot(shift + end, ground)) for start, end in parts]
        )

    def _title(self) -> str:
        wide, high, deep = self.sizes
        if self.item.depth is None:
            return f"{self.sized.title}, {wide} across, {high} high"
        return f"{self.sized.title}, {wide} wide, {high} high, {deep} deep"

    def _cloths(self) -> str:
        shown = [tint for tint in ("exterior", "lining") if tint in self.covering.prints]
        return f" Your own cloth is shown on the {' and the '.join(shown)}." if shown else ""

    def _description(self) -> str:
        return (
            f"The finished item to scale, {self.item.seen_as}. "
            f"Beside it, at the same scale: {self.thing.name}, {self.thing.size}.{self._cloths()}"
        )
