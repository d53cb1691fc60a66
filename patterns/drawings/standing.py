"""A standing item, projected: faces and lines as they are painted, and the edges that are measured."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from .fills import Fabric, fill
from .geometry import Point
from .lines import Line, line
from .page import Placing

Part = Literal["front", "side", "triangle", "inside back", "inside left", "inside base", "shade"]


@dataclass(frozen=True, slots=True)
class Face:
    """A part of the picture, filled with a fabric and edged with a line.

    part: which of the item it is, where a customer's own cloth can be shown on it; `shade` lies over another.
    """

    outline: tuple[Point, ...]
    fabric: Fabric
    edge: Line | None = Line.EDGE
    part: Part | None = None


@dataclass(frozen=True, slots=True)
class Stroke:
    kind: Line
    way: tuple[Point, ...]
    is_closed: bool = False


Shape = Face | Stroke


def painted(shape: Shape, placing: Placing) -> list[str]:
    """Return a shape as it looks on the page."""
    if isinstance(shape, Face):
        outline = placing.spots(shape.outline)
        edge = [line(shape.edge, *outline, is_closed=True)] if shape.edge else []
        return [*fill(shape.fabric, outline), *edge]
    return [line(shape.kind, *placing.spots(shape.way), is_closed=shape.is_closed)]


Edge = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Standing:
    """An item as it stands, its front to the viewer: mm, (0, 0) where the front left corner meets the table.

    shapes: painted in this order. width, height, depth: the edges that the measures belong to.
    No depth: what is round is as deep as it is wide. seen_as: the view in words. height_note: what the height
    is measured along, where that is not plain. width_name: what its width is called.
    """

    shapes: tuple[Shape, ...]
    width: Edge
    height: Edge
    depth: Edge | None
    seen_as: str
    height_note: str = ""
    width_name: str = "width"

    def points(self) -> Iterator[Point]:
        for shape in self.shapes:
            yield from shape.outline if isinstance(shape, Face) else shape.way


@dataclass(frozen=True, slots=True)
class Oblique:
    """A parallel projection that shows the front true: depth runs off to the right and up.

    across, up: where a mm of depth lands. As parts of 3-4-5 or 5-12-13 they keep the projection exact.
    """

    across: Fraction
    up: Fraction

    def point(self, x: Fraction, y: Fraction, z: Fraction = Fraction(0)) -> Point:
        """x to the right, y up, z away from the viewer."""
        return Point(x + z * self.across, y + z * self.up)
