"""Our drawings as the operators of PDF.

They are SVG, of a few kinds of elements with plain attributes: each has its operators, and lengths stay as
they are written. Labels are left as words, for only the page knows its fonts.
Source: ISO 32000-2, 8.4 and 8.5, for the operators.
"""

import re
from cmath import phase
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, cos, pi, radians, sin, sqrt, tan
from typing import Final
from xml.etree import ElementTree

SVG: Final = "{http://www.w3.org/2000/svg}"
# How far a Bézier curve's handles reach for a quarter of a circle, of its radius. Source: common practice.
QUARTER: Final = 4 / 3 * (sqrt(2) - 1)

_COLOUR = re.compile(r"#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})")
_SEGMENT = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_TURN = re.compile(r"(rotate|matrix)\(([-\d. ,]+)\)")
_OPERATORS = {"M": "m", "L": "l", "C": "c", "Z": "h"}
_COUNTS = {"M": 2, "L": 2, "C": 6, "Z": 0, "A": 7}
_CAPS = {"butt": 0, "round": 1, "square": 2}
# By whether a shape is filled, and stroked.
_PAINTED = {(True, True): "B", (True, False): "f", (False, True): "S", (False, False): "n"}

_SHARED = frozenset({"fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap"})
# What each element may say of itself. Anything else is for the renderer.
_PLAIN: Final[Mapping[str, frozenset[str]]] = {
    "path": _SHARED | {"d"},
    "circle": _SHARED | {"cx", "cy", "r"},
    "rect": _SHARED | {"x", "y", "width", "height"},
    "text": frozenset({"x", "y", "fill", "font-size", "text-anchor", "transform"}),
    "g": frozenset({"transform"}),
}
_PLAIN_ROOT = frozenset({"role", "width", "height", "viewBox", "font-family", "fill", "stroke-linejoin"})

# How far back of its place a label begins, of its width.
_BACK: Final = {"start": 0.0, "middle": 0.5, "end": 1.0}


class NotPlainError(ValueError):
    """A drawing says something that is the renderer’s to understand."""


@dataclass(frozen=True, slots=True)
class Label:
    """One line of text. x, y: a place on its base line. back: how much of its width lies before it."""

    text: str
    x: float
    y: float
    size: float
    back: float


@dataclass(frozen=True, slots=True)
class Plain:
    """A drawing that was read. parts: what is painted, in order. families: the fonts of its labels.

    left, top, width, height: what of its own plane it shows. printed: how wide and high it is on paper, mm.
    """

    parts: tuple[bytes | Label, ...]
    families: tuple[str, ...]
    left: float
    top: float
    width: float
    height: float
    printed: tuple[float, float]


def plain(svg: str) -> Plain:
    """Read a drawing of ours.

    Raises NotPlainError: it holds what only the renderer understands, or can complain about.
    """
    try:
        return _read(svg)
    except (ElementTree.ParseError, KeyError, ValueError) as slip:
        raise NotPlainError(str(slip)) from None


def _read(svg: str) -> Plain:
    root = ElementTree.fromstring(svg)  # noqa: S314 - our own drawing
    if root.tag != f"{SVG}svg" or not root.attrib.keys() <= _PLAIN_ROOT:
        raise NotPlainError(f"{root.tag} with {sorted(root.attrib)}")
    left, top, width, height = map(float, root.attrib["viewBox"].split())
    reader = _Reader(root.get("fill", "#000000"))
    reader.say("1 j" if root.get("stroke-linejoin") == "round" else "0 j")
    for child in root:
        reader.read(child)
    families = tuple(family.strip("\"' ") for family in root.get("font-family", "sans-serif").split(","))
    printed = _millimetres(root.attrib["width"]), _millimetres(root.attrib["height"])
    return Plain(tuple(reader.parts()), families, left, top, width, height, printed)


def _millimetres(written: str) -> float:
    if not written.endswith("mm"):
        raise NotPlainError(f"a drawing of {written}")
    return float(written[:-2])


class _Reader:
    """Turns elements into operators, and says of line and colour only what changes."""

    def __init__(self, fill: str) -> None:
        self.inherited = fill
        self.said: list[str | Label] = []
        self.state: dict[str, str] = {}

    def parts(self) -> Iterator[bytes | Label]:
        """What was said, operators that follow each other in one piece."""
        lines: list[str] = []
        for said in self.said:
            if isinstance(said, str):
                lines.append(said)
                continue
            if lines:
                yield "\n".join(lines).encode("ascii")
                lines = []
            yield said
        if lines:
            yield "\n".join(lines).encode("ascii")

    def say(self, operators: str) -> None:
        self.said.append(operators)

    def read(self, element: ElementTree.Element) -> None:
        name = element.tag.removeprefix(SVG)
        if name in ("title", "desc"):
            return
        if name not in _PLAIN or not element.attrib.keys() <= _PLAIN[name]:
            raise NotPlainError(f"{name} with {sorted(element.attrib)}")
        turn = element.get("transform")
        if turn is None:
            self._draw(name, element)
            return
        before = self.state.copy()
        self.say(f"q {_matrix(turn)} cm")
        self._draw(name, element)
        self.say("Q")
        self.state = before

    def _draw(self, name: str, element: ElementTree.Element) -> None:
        if name == "g":
            for child in element:
                self.read(child)
        elif len(element):
            raise NotPlainError(f"{name} round other elements")
        elif name == "text":
            self._write(element)
        else:
            self._shape(name, element.attrib)

    def _write(self, element: ElementTree.Element) -> None:
        self._set("rg", _colour(element.get("fill", self.inherited)))
        x, y, size = (float(element.attrib[key]) for key in ("x", "y", "font-size"))
        self.said.append(Label(element.text or "", x, y, size, _BACK[element.get("text-anchor", "start")]))

    def _shape(self, name: str, said: Mapping[str, str]) -> None:
        fill, stroke = said.get("fill", self.inherited), said.get("stroke", "none")
        if fill != "none":
            self._set("rg", _colour(fill))
        if stroke != "none":
            self._set("RG", _colour(stroke))
            self._set("w", _number(said.get("stroke-width", "1")))
            self._set("d", f"[{said.get('stroke-dasharray', '').replace(',', ' ')}] 0")
            self._set("J", str(_CAPS[said.get("stroke-linecap", "butt")]))
        if name == "path":
            self.say(_path(said["d"]))
        elif name == "rect":
            self.say(" ".join(_number(said.get(key, "0")) for key in ("x", "y", "width", "height")) + " re")
        else:
            self.say(_circle(*(float(said[key]) for key in ("cx", "cy", "r"))))
        self.say(_PAINTED[fill != "none", stroke != "none"])

    def _set(self, operator: str, value: str) -> None:
        if self.state.get(operator) != value:
            self.state[operator] = value
            self.say(f"{value} {operator}")


def _number(written: str) -> str:
    float(written)
    return written


def _colour(written: str) -> str:
    found = _COLOUR.fullmatch(written)
    if not found:
        raise NotPlainError(f"the colour {written}")
    return " ".join(f"{int(part, 16) / 255:.4g}" for part in found.groups())


def _matrix(written: str) -> str:
    found = _TURN.fullmatch(written.strip())
    if not found:
        raise NotPlainError(f"the transform {written}")
    numbers = [float(number) for number in re.split(r"[ ,]+", found[2].strip())]
    if found[1] == "matrix":
        return " ".join(_written(number) for number in numbers)
    angle, x, y = numbers if numbers[1:] else (*numbers, 0.0, 0.0)
    c, s = cos(radians(angle)), sin(radians(angle))
    return " ".join(_written(number) for number in (c, s, -s, c, x - c * x + s * y, y - s * x - c * y))


def _written(number: float) -> str:
    """A number as PDF writes it: no exponent."""
    return f"{number:.6f}".rstrip("0").rstrip(".")


def _path(data: str) -> str:
    """Path data as operators."""
    drawn = []
    at = ""
    for letter, said in _SEGMENT.findall(data):
        numbers = said.replace(",", " ").split()
        if len(numbers) != _COUNTS.get(letter):
            raise NotPlainError(f"the path {data}")
        if letter == "A":
            drawn.append(_arc(at, numbers))
        else:
            drawn.append(f"{' '.join(numbers)} {_OPERATORS[letter]}")
        at = " ".join(numbers[-2:])
    return "\n".join(drawn)


def _circle(x: float, y: float, radius: float) -> str:
    reach = radius * QUARTER
    around = ((1, 0), (0, 1), (-1, 0), (0, -1), (1, 0))
    drawn = [f"{_written(x + radius)} {_written(y)} m"]
    for (ax, ay), (bx, by) in pairwise(around):
        places = (
            x + radius * ax + reach * bx,
            y + radius * ay + reach * by,
            x + radius * bx + reach * ax,
            y + radius * by + reach * ay,
            x + radius * bx,
            y + radius * by,
        )
        drawn.append(f"{' '.join(map(_written, places))} c")
    return "\n".join([*drawn, "h"])


def _arc(at: str, numbers: list[str]) -> str:
    """The arc of a circle as curves of a quarter or less. Source: SVG 2, appendix B.2.4, for a circle."""
    across, down, _, is_long, is_clockwise = numbers[:5]
    if across != down:
        raise NotPlainError("an arc of an ellipse")
    start, end = complex(*map(float, at.split())), complex(*map(float, numbers[5:]))
    half = abs(end - start) / 2
    if not half:
        return ""
    away = sqrt(max(float(across) ** 2 - half**2, 0))
    side = 1j if is_long != is_clockwise else -1j
    centre = (start + end) / 2 + side * away * (end - start) / (2 * half)
    angle = phase((end - centre) / (start - centre))
    if is_clockwise == "1" and angle < 0:
        angle += 2 * pi
    elif is_clockwise == "0" and angle > 0:
        angle -= 2 * pi
    count = ceil(abs(angle) / (pi / 2) - 1e-9)
    step = angle / count
    reach = 1j * 4 / 3 * tan(step / 4)
    drawn, spoke = [], start - centre
    for _ in range(count):
        following = spoke * complex(cos(step), sin(step))
        places = (centre + spoke * (1 + reach), centre + following * (1 - reach), centre + following)
        drawn.append(" ".join(f"{_written(spot.real)} {_written(spot.imag)}" for spot in places) + " c")
        spoke = following
    return "\n".join(drawn)
