"""Walks the content streams of a page and tells what they paint: texts and paths, where and how large."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import hypot
from typing import Any

import pikepdf
from pikepdf import Array, Name, Object

from .boxes import EVERYWHERE, Box, Painted

Matrix = tuple[float, float, float, float, float, float]
PLAIN: Matrix = (1, 0, 0, 1, 0, 0)
# Of the letter size: how far the tallest letters reach over the base line, the deepest under it.
OVER, UNDER = 0.73, 0.21
# A glyph whose width the font does not tell.
FULL_WIDTH = 1000.0


@dataclass(frozen=True, slots=True)
class State:
    """What `q` keeps and `Q` brings back. fill, stroke: colours. width: of a line."""

    matrix: Matrix = PLAIN
    window: Box = EVERYWHERE
    fill: tuple[float, ...] = (0.0,)
    stroke: tuple[float, ...] = (0.0,)
    width: float = 1.0


class Font:
    """The widths of a font's glyphs, thousandths of its size, and what they mean."""

    def __init__(self, font: Any) -> None:
        self.widths = dict(_widths(font.DescendantFonts[0].get(Name.W, Array())))
        self.words = dict(_meanings(font.ToUnicode.read_bytes())) if Name.ToUnicode in font else {}

    def width(self, glyph: int) -> float:
        return self.widths.get(glyph, FULL_WIDTH)


def _widths(listed: Any) -> Iterator[tuple[int, float]]:
    """`first [w w w]` or `first last w` (ISO 32000, 9.7.4.3)."""
    at = 0
    while at < len(listed):
        first, second = int(listed[at]), listed[at + 1]
        if isinstance(second, Array):
            yield from ((first + place, float(width)) for place, width in enumerate(second))
            at += 2
        else:
            width = float(listed[at + 2])
            yield from ((glyph, width) for glyph in range(first, int(second) + 1))
            at += 3


def _meanings(cmap: bytes) -> Iterator[tuple[int, str]]:
    for glyph, text in re.findall(rb"<([0-9a-fA-F]{4})> <([0-9a-fA-F]+)>\s", cmap):
        if len(text) % 4 == 0:
            yield int(glyph, 16), bytes.fromhex(text.decode()).decode("utf-16-be", "replace")


class Stream:
    """One content stream being read. found: what was painted, in its order; forms add to the same list.

    fonts: those read already, by their objects. number: the marked content that it is part of.
    """

    def __init__(
        self,
        resources: Any,
        fonts: dict[tuple[int, int], Font],
        found: list[Painted],
        state: State | None = None,
        number: int | None = None,
    ) -> None:
        self.resources, self.fonts, self.found = resources, fonts, found
        self.state = state or State()
        self.kept: list[State] = []
        self.marked: list[int | None] = [number]
        self.way: list[tuple[float, float]] = []
        self.is_window = False
        self.text, self.size = PLAIN, 0.0
        self.font: Font | None = None

    def read(self, content: Object) -> None:
        for instruction in pikepdf.parse_content_stream(content):
            acts = ACTS.get(str(instruction.operator))
            if acts is not None:
                acts(self, instruction.operands)

    def keep(self, _operands: Any) -> None:
        self.kept.append(self.state)

    def bring_back(self, _operands: Any) -> None:
        self.state = self.kept.pop()

    def move(self, operands: Any) -> None:
        self.state = replace(self.state, matrix=_times(_numbers(operands), self.state.matrix))

    def colour_fills(self, operands: Any) -> None:
        self.state = replace(self.state, fill=tuple(map(float, operands)))

    def colour_lines(self, operands: Any) -> None:
        self.state = replace(self.state, stroke=tuple(map(float, operands)))

    def widen(self, operands: Any) -> None:
        self.state = replace(self.state, width=float(operands[0]))

    def begin_marked(self, operands: Any) -> None:
        self.marked.append(_number(operands, self.marked[-1]))

    def end_marked(self, _operands: Any) -> None:
        self.marked.pop()

    def draw(self, operands: Any) -> None:
        numbers = [float(each) for each in operands]
        spots = zip(numbers[::2], numbers[1::2], strict=True)
        self.way += [_moved(spot, self.state.matrix) for spot in spots]

    def draw_box(self, operands: Any) -> None:
        x, y, wide, high = (float(each) for each in operands)
        corners = ((x, y), (x + wide, y), (x, y + high), (x + wide, y + high))
        self.way += [_moved(corner, self.state.matrix) for corner in corners]

    def cut_later(self, _operands: Any) -> None:
        self.is_window = True

    def stroke(self, _operands: Any) -> None:
        if self.way:
            half = self.state.width * _scale(self.state.matrix) / 2
            self._paint(_round(self.way).shrunk(-half), self.state.stroke)
        self.end_way(_operands)

    def fill(self, _operands: Any) -> None:
        if self.way:
            self._paint(_round(self.way), self.state.fill)
        self.end_way(_operands)

    def end_way(self, _operands: Any) -> None:
        if self.way and self.is_window:
            self.state = replace(self.state, window=self.state.window.cut_by(_round(self.way)))
        self.way, self.is_window = [], False

    def _paint(self, box: Box, colour: tuple[float, ...]) -> None:
        self.found.append(Painted(box, self.state.window, self.marked[-1], colour=colour))

    def lay_form(self, operands: Any) -> None:
        form = self.resources.XObject[str(operands[0])]
        if form.get(Name.Subtype) != Name.Form:
            return
        matrix = _times(_numbers(form.get(Name.Matrix, PLAIN)), self.state.matrix)
        left, bottom, right, top = (float(side) for side in form.BBox)
        corners = [_moved(at, matrix) for at in ((left, bottom), (right, bottom), (left, top), (right, top))]
        state = replace(self.state, matrix=matrix, window=self.state.window.cut_by(_round(corners)))
        held = form.get(Name.Resources, self.resources)
        Stream(held, self.fonts, self.found, state, self.marked[-1]).read(form)

    def begin_text(self, _operands: Any) -> None:
        self.text = PLAIN

    def place_text(self, operands: Any) -> None:
        self.text = _numbers(operands)

    def choose_font(self, operands: Any) -> None:
        font = self.resources.Font[str(operands[0])]
        if font.objgen not in self.fonts:
            self.fonts[font.objgen] = Font(font)
        self.font, self.size = self.fonts[font.objgen], float(operands[1])

    def show(self, operands: Any) -> None:
        self.show_parts([operands])

    def show_parts(self, operands: Any) -> None:
        """Paint a text of parts: glyph numbers of two bytes, and thousandths to go back between them."""
        if self.font is None:
            return
        words, far = [], 0.0
        for part in operands[0]:
            if not isinstance(part, pikepdf.String):
                far -= float(part) * self.size / 1000
                continue
            pairs = bytes(part)
            for glyph in (pairs[at] * 256 + pairs[at + 1] for at in range(0, len(pairs) - 1, 2)):
                words.append(self.font.words.get(glyph, "\ufffd"))
                far += self.font.width(glyph) * self.size / 1000
        whole = _times(self.text, self.state.matrix)
        corners = [_moved((x, y), whole) for x in (0, far) for y in (-UNDER * self.size, OVER * self.size)]
        high = self.size * hypot(whole[2], whole[3])
        self.found.append(
            Painted(
                _round(corners), self.state.window, self.marked[-1], "".join(words), high, self.state.fill
            )
        )
        self.text = _times((1, 0, 0, 1, far, 0), self.text)


# What the operators of a content stream do (ISO 32000, annex A). Those that are not here move no ink.
ACTS = {
    "q": Stream.keep,
    "Q": Stream.bring_back,
    "cm": Stream.move,
    **dict.fromkeys(("rg", "g", "k"), Stream.colour_fills),
    **dict.fromkeys(("RG", "G", "K"), Stream.colour_lines),
    "w": Stream.widen,
    **dict.fromkeys(("BMC", "BDC"), Stream.begin_marked),
    "EMC": Stream.end_marked,
    **dict.fromkeys(("m", "l", "c", "v", "y"), Stream.draw),
    "re": Stream.draw_box,
    **dict.fromkeys(("W", "W*"), Stream.cut_later),
    "n": Stream.end_way,
    **dict.fromkeys(("S", "s"), Stream.stroke),
    **dict.fromkeys(("f", "F", "f*", "B", "B*", "b", "b*"), Stream.fill),
    "Do": Stream.lay_form,
    "BT": Stream.begin_text,
    "Tm": Stream.place_text,
    "Tf": Stream.choose_font,
    "Tj": Stream.show,
    "TJ": Stream.show_parts,
}


def _number(operands: Any, around: int | None) -> int | None:
    """Which marked content begins; None: an artifact."""
    if str(operands[0]) == "/Artifact":
        return None
    if len(operands) > 1 and isinstance(operands[1], pikepdf.Dictionary) and Name.MCID in operands[1]:
        return int(operands[1].MCID)
    return around


def _round(spots: Sequence[tuple[float, float]]) -> Box:
    across, up = [x for x, _ in spots], [y for _, y in spots]
    return Box(min(across), min(up), max(across), max(up))


def _scale(matrix: Matrix) -> float:
    return hypot(matrix[0], matrix[1])


def _numbers(operands: Any) -> Matrix:
    a, b, c, d, e, f = (float(each) for each in operands)
    return a, b, c, d, e, f


def _times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m


def _moved(place: tuple[float, float], by: Matrix) -> tuple[float, float]:
    x, y = place
    a, b, c, d, e, f = by
    return a * x + c * y + e, b * x + d * y + f
