"""The marks of a piece in rows: what each is called, and how far from which edge it is measured."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from patterns.drafting.sized import Quantity, SizedMark, SizedPiece
from patterns.drawings.marks import from_nearer

from .words import Words

MARK_KINDS = {
    "fold": "fold line",
    "stitch": "stitching line",
    "opening": "opening",
    "clip": "clip",
    "place": "placement",
}


@dataclass(frozen=True, slots=True)
class Distance:
    """One thing to measure for a mark. what: empty, or `starts`, `ends`."""

    what: str
    edge: str
    far: str
    working: str


@dataclass(frozen=True, slots=True)
class MarkRow:
    name: str
    kind: str
    says: str
    distances: tuple[Distance, ...]

    @property
    def span(self) -> str:
        """The rows it takes in a table."""
        return str(len(self.distances))


def mark_row(mark: SizedMark, piece: SizedPiece, words: Words) -> MarkRow:
    """Return the row of a mark, each of its distances measured from the nearer edge, as its drawing says."""
    distances = tuple(_distance(each, words) for each in _measured(mark, piece) if each.far)
    return MarkRow(mark.name, MARK_KINDS[mark.kind], mark.says, distances)


class _Measured(NamedTuple):
    """What is measured. far: from the first edge. extent: from edge to edge, if there are two to choose."""

    what: str
    edges: tuple[str, str]
    far: Quantity | None
    extent: Quantity | None


def _measured(mark: SizedMark, piece: SizedPiece) -> Iterator[_Measured]:
    """What to measure for a mark, the line's place first, then its ends, measured the other way."""
    down = ("top edge", "bottom edge"), piece.height
    across = ("left edge", "right edge"), piece.width
    yield _Measured("", down[0], mark.down_from_top, down[1])
    yield _Measured("", across[0], mark.in_from_left, across[1])
    yield _Measured("", ("raw edge, all round", ""), mark.inside, None)
    ends = across if mark.down_from_top else down
    yield _Measured("begins", ends[0], mark.start, ends[1])
    yield _Measured("ends", ends[0], mark.end, ends[1])


def _distance(each: _Measured, words: Words) -> Distance:
    assert each.far is not None
    working = words.working(each.edges[0], each.far).numbers
    if each.extent is not None:
        extent = words.value(each.extent)
        near, is_first = from_nearer(words.value(each.far), extent)
        if not is_first:
            taken = words.taken_off(extent, words.value(each.far), near)
            return Distance(each.what, each.edges[1], words.length(near), f"{working}; {taken}")
    return Distance(each.what, each.edges[0], words.number(each.far), working)
