"""What the lines in a book’s drawings mean: a sample of each that is drawn, how it looks, what it says."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from patterns.drawings.geometry import Spot
from patterns.drawings.lines import Line, line, pen
from patterns.drawings.svg import document, element

from .figures import Box, Figure, Figures

# A sample, micrometres: long enough for two dashes of every kind.
LONG, HIGH = 18_000, 3000
ROOM = Box(LONG / 1000, HIGH / 1000)
MEANINGS: Final[tuple[tuple[Line, str, str], ...]] = (
    (Line.CUT, "thick line", "a cut edge, or the outline of what is sewn"),
    (Line.EDGE, "line of middling width", "an edge within a drawing: a fold, a border, a layer"),
    (Line.OPENING, "thickest line", "an opening, a gap, or where to cut"),
    (Line.CLIP, "thick and short", "a snip, a backstitch, or a quarter"),
    (Line.FOLD, "long dashes and dots", "a fold line"),
    (Line.HIDDEN_FOLD, "long dashes and dots, pale", "a fold that lies inside"),
    (Line.STITCH, "short dashes", "a row of stitches, or the line for it"),
    (Line.TOPSTITCH, "short dashes, fine", "topstitching that is seen"),
    (Line.MARK, "thin line", "a mark"),
    (Line.SEAM, "thin line, pale", "a seam that is sewn, or a line marked before"),
    (Line.TEETH, "row of teeth", "a zip"),
    (Line.MEASURE, "thin line with a dot at each end", "what is measured"),
)


@dataclass(frozen=True, slots=True)
class KeyRow:
    sample: Figure
    looks: str
    means: str


def line_key(figures: Figures, drawn: Iterable[str]) -> tuple[KeyRow, ...]:
    """Return a row for each kind of line that is in the drawings."""
    every = "".join(drawn)
    return tuple(
        KeyRow(figures.add(_sample(kind, looks), ROOM), looks, means)
        for kind, looks, means in MEANINGS
        if _pen(kind) in every
    )


def _pen(kind: Line) -> str:
    """What an element drawn with this kind of line has among its attributes."""
    return element("path", pen(kind)).removeprefix("<path").removesuffix("/>")


def _sample(kind: Line, looks: str) -> str:
    middle, short = HIGH // 2, 2500 if kind is Line.CLIP else LONG - 500
    parts = [line(kind, Spot(500, middle), Spot(short, middle))]
    if kind is Line.MEASURE:
        parts += [line(kind, Spot(x, middle - 900), Spot(x, middle + 900)) for x in (500, short)]
    return document(LONG, HIGH, f"Sample: {looks}", "", parts)
