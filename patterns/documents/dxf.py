"""A template as DXF, for cutting machines: layers for cut, fold, stitch and mark lines, and for text.

Millimetres, x to the right and y up, the lower left corner of the piece's box at (0, 0). Quarter circles are
true arcs. The version is that of 2000 (AC1015), which old machines read.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from fractions import Fraction
from importlib import import_module
from io import StringIO
from math import sqrt
from typing import Any

from patterns.drafting.outlines import Turn
from patterns.drawings.geometry import Spot
from patterns.drawings.outline import corners_of
from patterns.drawings.page import exact
from patterns.drawings.template import Template
from patterns.drawings.template_labels import Worded

VERSION = "R2000"
# In the file's head, $INSUNITS.
MILLIMETRES = 4
# Name, colour by its number, and line type of each layer.
LAYERS = (
    ("cut", 7, "CONTINUOUS"),
    ("fold", 5, "DASHDOT"),
    ("stitch", 3, "DASHED"),
    ("mark", 6, "CONTINUOUS"),
    ("text", 8, "CONTINUOUS"),
)
LAYER_OF = {"fold": "fold", "stitch": "stitch"}
# The tangent of a quarter of an arc's angle, of a quarter circle tan 22.5°; above nothing it bends left.
BULGE = sqrt(2) - 1
LETTERS, NAME_LETTERS = 4.0, 7.0
# Half a cross, and the line that a place without length is at an edge.
CROSS = 2000

Vertex = tuple[float, float, float]
"""x, y, and the bulge of the edge that begins there."""


def dxf(template: Template) -> bytes:
    """Return a template as DXF; the same bytes for the same template."""
    library: Any = import_module("ezdxf")  # a fifth of a second, so it waits until it is wanted
    with _without_clock(library.options):
        drawing = library.new(VERSION, setup=["linetypes"], units=MILLIMETRES)
        for name, colour, line_type in LAYERS:
            drawing.layers.add(name, color=colour, linetype=line_type)
        _Writer(drawing.modelspace(), template).write()
        target = StringIO()
        drawing.write(target)
        return bytes(drawing.encode(target.getvalue()))


@contextmanager
def _without_clock(options: Any) -> Iterator[None]:
    """Keep the time and a random name, which the library writes into each file, at fixed values."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


class _Writer:
    def __init__(self, space: Any, template: Template) -> None:
        self.space = space
        self.template = template
        self.height = template.outline.box.height

    def write(self) -> None:
        corners = corners_of(self.template.pieces[0])
        places = [(exact(corner.across), exact(corner.down)) for corner in corners]
        high = max(down for _, down in places)
        self._closed(
            "cut", [(float(x), float(high - y)) for x, y in places], [corner.arc for corner in corners]
        )
        for each in self.template.marks:
            self._mark(each)
        self._names()

    def _at(self, spot: Spot) -> tuple[float, float]:
        return float(Fraction(spot.x, 1000)), float(Fraction(self.height - spot.y, 1000))

    def _closed(
        self, layer: str, places: Sequence[tuple[float, float]], turns: Sequence[Turn | None]
    ) -> None:
        """Add a closed line. turns: of the edge that ends at each place."""
        leaving = (*turns[1:], turns[0])
        vertices: list[Vertex] = [
            (x, y, 0.0 if turn is None else BULGE if turn == "left" else -BULGE)
            for (x, y), turn in zip(places, leaving, strict=True)
        ]
        self.space.add_lwpolyline(vertices, format="xyb", close=True, dxfattribs={"layer": layer})

    def _line(self, layer: str, start: Spot, end: Spot) -> None:
        self.space.add_line(self._at(start), self._at(end), dxfattribs={"layer": layer})

    def _mark(self, worded: Worded) -> None:
        mark = worded.mark
        layer = LAYER_OF.get(mark.kind, "mark")
        if mark.line is not None:
            places = [self._at(spot) for spot, _ in mark.line.corners]
            self._closed(layer, places, [turn for _, turn in mark.line.corners])
        elif mark.way == "point":
            x, y = mark.start
            self._line(layer, Spot(x - CROSS, y), Spot(x + CROSS, y))
            self._line(layer, Spot(x, y - CROSS), Spot(x, y + CROSS))
        else:
            self._line(layer, mark.start, mark.end)
        turn = 90.0 if mark.way == "upright" else 0.0
        at = mark.start if mark.way != "upright" else mark.end
        self._text(worded.text, at, LETTERS, turn)

    def _names(self) -> None:
        middle = self.template.outline.box.middle
        down = 0
        for piece in self.template.pieces:
            self._text(piece.name, Spot(middle.x, middle.y + down), NAME_LETTERS)
            told = f"cut {piece.cut} from {piece.material}"
            self._text(told, Spot(middle.x, middle.y + down + 8000), LETTERS)
            down += 18_000

    def _text(self, text: str, at: Spot, size: float, turn: float = 0.0) -> None:
        attributes = {"layer": "text", "insert": self._at(at), "height": size, "rotation": turn}
        self.space.add_text(text, dxfattribs=attributes)
