"""Labels: short lines of text whose box is known before they are drawn, and the finding of a free place."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from html import escape
from typing import Literal

from .geometry import Box, Spot
from .metrics import text_width
from .svg import element, millimetres
from .tokens import INK, QUIET_INK

Align = Literal["start", "middle", "end"]
# Shares of the letter size, in hundredths: the height of a line, and of it what stands above the base line.
LINE_HEIGHT = 118
ABOVE_BASE = 82


@dataclass(frozen=True, slots=True)
class TextLine:
    text: str
    size: int
    colour: str = INK

    @property
    def height(self) -> int:
        return self.size * LINE_HEIGHT // 100

    @property
    def width(self) -> int:
        return text_width(self.text, self.size)


@dataclass(frozen=True)
class Block:
    """Lines of text that stand together, one under the other."""

    lines: tuple[TextLine, ...]

    @cached_property
    def width(self) -> int:
        return max(line.width for line in self.lines)

    @cached_property
    def height(self) -> int:
        return sum(line.height for line in self.lines)

    def at(self, x: int, top: int, align: Align = "start") -> "Placed":
        """Place it: x is its left edge, its middle or its right edge, as `align` says."""
        left = {"start": x, "middle": x - self.width // 2, "end": x - self.width}[align]
        return Placed(self, Box(left, top, left + self.width, top + self.height), align)


@dataclass(frozen=True, slots=True)
class Placed:
    """A block in its place."""

    block: Block
    box: Box
    align: Align

    def moved(self, across: int, down: int) -> "Placed":
        return Placed(self.block, self.box.moved(across, down), self.align)

    def drawn(self) -> list[str]:
        x = {"start": self.box.left, "middle": self.box.middle.x, "end": self.box.right}[self.align]
        top, parts = self.box.top, []
        for line in self.block.lines:
            parts.append(_text(line, Spot(x, top + line.size * ABOVE_BASE // 100), self.align))
            top += line.height
        return parts


@dataclass(frozen=True, slots=True)
class Turned:
    """One line of text along an upright line, read from the right. box: as it stands, turned."""

    line: TextLine
    box: Box

    def drawn(self) -> list[str]:
        at = Spot(self.box.left + self.line.size * ABOVE_BASE // 100, self.box.bottom)
        turn = f"rotate(-90 {millimetres(at.x)} {millimetres(at.y)})"
        attributes: list[tuple[str, str | int]] = [("x", at.x), ("y", at.y), ("font-size", self.line.size)]
        if self.line.colour != INK:
            attributes.append(("fill", self.line.colour))
        return [element("text", (*attributes, ("transform", turn)), _safe(self.line))]


def _safe(line: TextLine) -> str:
    return escape(line.text, quote=False)


def _text(line: TextLine, at: Spot, align: Align) -> str:
    attributes: list[tuple[str, str | int]] = [("x", at.x), ("y", at.y), ("font-size", line.size)]
    if align != "start":
        attributes.append(("text-anchor", align))
    if line.colour != INK:
        attributes.append(("fill", line.colour))
    return element("text", attributes, _safe(line))


def number_and_name(number: str, name: str, size: int, small: int) -> Block:
    """Return a measure's label: what it is, small, and under it how long."""
    return Block((TextLine(name, small, QUIET_INK), TextLine(number, size)))


def wrapped(text: str, size: int, most: int, colour: str = INK) -> tuple[TextLine, ...]:
    """Return text broken between words into lines at most so wide; a longer word is broken too."""
    lines: list[str] = []
    for word in text.split():
        for part in _cut(word, size, most):
            longer = f"{lines[-1]} {part}" if lines else part
            if lines and text_width(longer, size) <= most:
                lines[-1] = longer
            else:
                lines.append(part)
    return tuple(TextLine(line, size, colour) for line in lines)


def _cut(word: str, size: int, most: int) -> Iterator[str]:
    while text_width(word, size) > most and len(word) > 1:
        room = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or text_width(word[:n], size) <= most)
        yield word[:room]
        word = word[room:]
    yield word


def first_free(block: Block, corners: Iterable[Spot], taken: Sequence[Box], inside: Box) -> Placed | None:
    """Return the block at the first corner where its box meets nothing taken, None if there is none.

    corners: where its top left corner may lie.
    """
    for corner in corners:
        placed = block.at(corner.x, corner.y)
        if inside.holds(placed.box) and not any(placed.box.overlaps(box) for box in taken):
            return placed
    return None


def corners_near(block: Block, thing: Box, step: int, rings: int) -> Iterator[Spot]:
    """Return top left corners for a block near a thing: under, over, beside, then the same further off."""
    for ring in range(1, rings + 1):
        off = ring * step
        middle = thing.middle.x - block.width // 2
        level = thing.middle.y - block.height // 2
        below, above = thing.bottom + off, thing.top - off - block.height
        right, left = thing.right + off, thing.left - off - block.width
        for x, y in (
            (middle, below),
            (middle, above),
            (right, level),
            (left, level),
            (right, below),
            (right, above),
            (left, below),
            (left, above),
            (right, thing.bottom + step),
            (right, thing.top - step - block.height),
            (left, thing.bottom + step),
            (left, thing.top - step - block.height),
        ):
            yield Spot(x, y)


def spread(wanted: Sequence[int], heights: Sequence[int], gap: int, top: int) -> list[int]:
    """Return the tops of labels in one column, each as near its wanted middle as the others let it.

    wanted: middles, in rising order. top: nothing stands above it.
    Labels that would touch are pushed apart round their common middle.
    Source: pooling of adjacent violators, as in isotonic regression.
    """
    groups: list[tuple[int, int, int, int]] = []  # top, height with gaps, sum of the tops wanted, how many
    for middle, height in zip(wanted, heights, strict=True):
        groups.append((max(middle - height // 2, top), height + gap, max(middle - height // 2, top), 1))
        while len(groups) > 1 and groups[-2][0] + groups[-2][1] > groups[-1][0]:
            _, upper, wish, count = groups[-2]
            _, lower, wish_below, count_below = groups[-1]
            total = wish + wish_below - count_below * upper
            groups[-2:] = [
                (max(total // (count + count_below), top), upper + lower, total, count + count_below)
            ]
    tops: list[int] = []
    place = iter(heights)
    for start, _, _, count in groups:
        for _ in range(count):
            tops.append(start)
            start += next(place) + gap
    return tops
