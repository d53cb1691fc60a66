"""Labels outside a piece, each by a leader: in a column beside it for level lines, in rows under it.

Leaders never cross: the column keeps the order of its lines, and a row's labels stand right of their leaders.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from .geometry import Box, Spot, around
from .labels import Block, Placed, spread
from .lines import Line, line

# Page: between two labels, from the piece to the column, the level ends of a leader, between leader and text.
APART = 1300
TO_COLUMN = 7000
STUB = 1400
TO_TEXT = 700
TO_ROWS = 2600


@dataclass(frozen=True, slots=True)
class Led:
    """A label with its leader."""

    label: Placed
    leader: tuple[Spot, ...]

    def drawn(self) -> list[str]:
        return [line(Line.LEADER, *self.leader), *self.label.drawn()]


def column(
    entries: Sequence[tuple[Spot, Block]], left: int, top: int, to_column: int = TO_COLUMN
) -> list[Led]:
    """Return labels in a column whose left edge is `left`, as near the level of their lines as they can be.

    entries: where each line ends on the right, and its label. top: nothing stands above it.
    to_column: how far the column stands from the piece.
    """
    ordered = sorted(entries, key=lambda entry: entry[0].y)
    tops = spread([spot.y for spot, _ in ordered], [block.height for _, block in ordered], APART, top)
    led = []
    for (spot, block), label_top in zip(ordered, tops, strict=True):
        label = block.at(left, label_top)
        middle = label.box.middle.y
        edge = left - to_column
        stub = min(STUB, to_column // 4)
        way = (
            spot,
            Spot(edge + stub, spot.y),
            Spot(left - stub - TO_TEXT, middle),
            Spot(left - TO_TEXT, middle),
        )
        led.append(Led(label, way))
    return led


def rows(entries: Sequence[tuple[Spot, Block]], top: int, right: int, column: Sequence[Led]) -> list[Led]:
    """Return labels in rows under a piece, each right of its leader, or left of it where there is no room.

    entries: where each line ends at the bottom, and its label. top: of the first row. right: the page's end.
    column: what stands beside the piece already.
    """
    ordered = sorted(entries, key=lambda entry: -entry[0].x)
    led: list[Led] = []
    for spot, block in ordered:
        found = _in_a_row(spot, block, top, right, [*column, *led])
        if found is None:
            return _stairs(ordered, max([top, *(other.label.box.bottom + APART for other in column)]))
        led.append(found)
    return led


def _in_a_row(spot: Spot, block: Block, top: int, right: int, placed: Sequence[Led]) -> Led | None:
    """Return the label in the first row where neither it nor its leader meets another, else None."""
    tops = sorted(
        {other.label.box.bottom + APART for other in placed if other.label.box.bottom + APART > top}
    )
    for row_top in (top, *tops):
        for label in (block.at(spot.x + TO_TEXT, row_top), block.at(spot.x - TO_TEXT, row_top, "end")):
            led = _led(spot, label)
            fits = label.box.left >= 0 and label.box.right <= right
            if fits and not any(_meet(led, other) for other in placed):
                return led
    return None


def _stairs(ordered: Sequence[tuple[Spot, Block]], top: int) -> list[Led]:
    """Return each label in a row of its own, right of its leader, the rightmost line's first.

    No leader can meet a label: all rows above it hold labels of lines further right.
    """
    led = []
    for spot, block in ordered:
        led.append(_led(spot, block.at(spot.x + TO_TEXT, top)))
        top += block.height + APART
    return led


def _led(spot: Spot, label: Placed) -> Led:
    return Led(label, (spot, Spot(spot.x, label.box.bottom - label.block.lines[-1].size // 5)))


def _meet(one: Led, other: Led) -> bool:
    """Whether a row's label or leader meets another label, or that one's leader."""
    label, beside = one.label.box.grown(APART // 2), other.label.box.grown(APART // 2)
    return (
        label.overlaps(beside)
        or any(stem.overlaps(beside) for stem in _stems(one))
        or any(stem.overlaps(label) for stem in _stems(other))
    )


def _stems(led: Led) -> list[Box]:
    """Return boxes that hold a leader, one for each of its straight parts."""
    return [around([Box(*start, *start), Box(*end, *end)]).grown(1) for start, end in pairwise(led.leader)]
