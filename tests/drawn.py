"""Read a drawing as a viewer has it: the boxes of its words, its lines. A second road to what is tested."""

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

from patterns.drawings.metrics import WIDEST, WIDTHS

SVG = "{http://www.w3.org/2000/svg}"
# Of the letter size: how far the tallest letters and accents reach over the base line, the deepest under it.
OVER, UNDER = 0.73, 0.21


@dataclass(frozen=True)
class Words:
    """A text in a drawing, and its box in mm of the page."""

    text: str
    size: float
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Words") -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


def root_of(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)  # noqa: S314 - made by the test


def page_of(svg: str) -> tuple[float, float]:
    """Width and height of the view box."""
    _, _, width, height = root_of(svg).attrib["viewBox"].split()
    return float(width), float(height)


def words_of(svg: str) -> list[Words]:
    return [_words(node) for node in root_of(svg).iter(f"{SVG}text")]


def _words(node: ElementTree.Element) -> Words:
    text, size = node.text or "", float(node.attrib["font-size"])
    x, y = float(node.attrib["x"]), float(node.attrib["y"])
    width = sum(WIDTHS.get(sign, WIDEST) for sign in text) * size / 1000
    if "transform" in node.attrib:
        assert node.attrib["transform"] == f"rotate(-90 {node.attrib['x']} {node.attrib['y']})"
        return Words(text, size, x - OVER * size, y - width, x + UNDER * size, y)
    left = x - {"start": 0, "middle": width / 2, "end": width}[node.attrib.get("text-anchor", "start")]
    return Words(text, size, left, y - OVER * size, left + width, y + UNDER * size)


def lines_of(svg: str, **attributes: str) -> list[list[tuple[float, float]]]:
    """The corners of every line whose element has these attributes (`stroke_width` for `stroke-width`).

    Not of lines with a curve in them.
    """
    wanted = {key.replace("_", "-"): value for key, value in attributes.items()}
    return [
        [(float(x), float(y)) for x, y in re.findall(r"(-?[0-9.]+) (-?[0-9.]+)", way)]
        for node in root_of(svg).iter(f"{SVG}path")
        if wanted.items() <= node.attrib.items() and not set("AC") & set(node.attrib["d"])
        for way in node.attrib["d"].split("M")[1:]
    ]


def numbers_of(svg: str) -> Iterator[str]:
    """Every number among the attributes."""
    for node in root_of(svg).iter():
        for key, value in node.attrib.items():
            if key not in ("fill", "stroke", "font-family", "role", "text-anchor"):
                yield from re.findall(r"[0-9.eE+-]*[0-9][0-9.eE+-]*", value)


def assert_reads_well(svg: str, least: float = 2.46) -> None:
    """A whole, safe drawing: a title, no style, words inside the page, none on another, none under 7 pt."""
    root = root_of(svg)
    assert root.tag == f"{SVG}svg"
    assert root.attrib["role"] == "img"
    assert root.attrib["font-family"].startswith("Workroom Text")
    assert root[0].tag == f"{SVG}title"
    assert root[0].text
    assert root[1].tag == f"{SVG}desc"
    assert root[1].text
    for node in root.iter():
        assert not {"id", "style", "class", "href"} & set(node.attrib), node.tag
        assert "url(" not in "".join(node.attrib.values())
    for number in numbers_of(svg):
        assert re.fullmatch(r"-?[0-9]+(\.[0-9]{1,2})?", number), number
    assert_words_are_free(svg, least)


def assert_words_are_free(svg: str, least: float) -> None:
    width, height = page_of(svg)
    words = words_of(svg)
    for each in words:
        assert each.size >= least, each
        assert each.left >= 0, each
        assert each.right <= width, each
        assert each.top >= 0, each
        assert each.bottom <= height, each
        assert "⁄" not in each.text or re.search(r"[⁰¹²³⁴-⁹]⁄[₀-₉]", each.text), each
    for one, other in combinations(words, 2):
        assert not one.overlaps(other), (one, other)


def words_crossed(svg: str, **attributes: str) -> list[str]:
    """The texts that a line with these attributes runs through."""
    return [
        words.text
        for way in lines_of(svg, **attributes)
        for start, end in pairwise(way)
        for words in words_of(svg)
        if _crosses(start, end, words)
    ]


def _crosses(start: tuple[float, float], end: tuple[float, float], words: Words) -> bool:
    """Whether any of a hundred places along a line lies in the words' box."""
    places = [
        (start[0] + (end[0] - start[0]) * step / 100, start[1] + (end[1] - start[1]) * step / 100)
        for step in range(101)
    ]
    return any(words.left < x < words.right and words.top < y < words.bottom for x, y in places)
