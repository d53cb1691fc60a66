"""The marks of a piece in rows: what each is called, and how far from which edge it is measured."""

from collections.abc import Iterator
from dataclasses import dataclass

from patterns.drafting.sized import Quantity, SizedMark

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


def mark_row(mark: SizedMark, words: Words) -> MarkRow:
    distances = tuple(_distance(what, edge, far, words) for what, edge, far in _measured(mark) if far)
    return MarkRow(mark.name, MARK_KINDS[mark.kind], mark.says, distances)


def _measured(mark: SizedMark) -> Iterator[tuple[str, str, Quantity | None]]:
    """What to measure for a mark, the line's place first, then its ends, measured the other way."""
    yield "", "top edge", mark.down_from_top
    yield "", "left edge", mark.in_from_left
    yield "", "raw edge, all round", mark.inside
    ends = "left edge" if mark.down_from_top else "top edge"
    yield "begins", ends, mark.start
    yield "ends", ends, mark.end


def _distance(what: str, edge: str, far: Quantity, words: Words) -> Distance:
    return Distance(what, edge, words.number(far), words.working(edge, far).numbers)
