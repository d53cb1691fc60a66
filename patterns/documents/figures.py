"""The drawings of a document: each has an address in it, a printed size, and a text in its place."""

import re
from dataclasses import dataclass
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
# The printed size that a drawing tells in its first tag.
_PRINTED = re.compile(r' width="[^"]*mm" height="[^"]*mm"')


@dataclass(frozen=True, slots=True)
class Box:
    """Room on the paper, mm."""

    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing in its place. address: `mem:3.svg`. alt: what it shows. Its size on the paper is in mm."""

    address: str
    alt: str
    width_mm: float
    height_mm: float


class Figures:
    """Collects the drawings of one document; the same drawing at two places, as large, is kept once.

    Each is kept as large as it is printed, so that its place need not say how large it is.
    """

    def __init__(self) -> None:
        self._addresses: dict[str, str] = {}

    def add(self, svg: str, room: Box, may_grow: bool = False) -> Figure:
        """Give a drawing its address and the size at which it fits the room: its own, unless it may grow."""
        root = ElementTree.fromstring(svg)  # noqa: S314 - our own drawing, made a moment ago
        _, _, width, height = (float(number) for number in root.attrib["viewBox"].split())
        fitting = min(room.width / width, room.height / height)
        scale = fitting if may_grow else min(fitting, 1)
        size = (width * scale, height * scale)
        if scale != 1:
            svg = _PRINTED.sub(' width="{:.2f}mm" height="{:.2f}mm"'.format(*size), svg, count=1)
        address = self._addresses.setdefault(svg, f"mem:{len(self._addresses) + 1}.svg")
        return Figure(address, _alt(root), *size)

    def by_address(self) -> dict[str, str]:
        return {address: svg for svg, address in self._addresses.items()}


def _alt(root: ElementTree.Element) -> str:
    """What the drawing says of itself: its title and its description."""
    parts = [(root.findtext(SVG + tag) or "").strip() for tag in ("title", "desc")]
    return " ".join(part if part.endswith(".") else f"{part}." for part in parts if part)
