"""Which label a mark has and where it stands: on the piece beside the mark, or outside with a leader."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from .geometry import Box, Spot
from .labels import Block, Placed, TextLine, corners_near, first_free, wrapped
from .lines import Line, line
from .marks import Laid, room, rooms, upper_edge
from .svg import plate
from .tokens import QUIET_INK
from .words import label as label_of

# Page, micrometres. 2,900 is 8.2 pt. A name wider than MOST_NAME is broken between words.
SMALL = 2900
MOST_NAME = 36_000
# Labels on the piece: how far from its edge, how far from their mark, in up to how many rings of that.
INSET = 700
RING = 1100
RINGS = 6
# Between two labels side by side, so that they are not read as one.
BETWEEN = 2000
# How near another label may stand beside a point, and how far down the label of the top edge may stand.
FROM_POINT = 2400
NEAR_TOP = 12_000
# A line that reaches so far across the piece, in hundredths, is named at its end, outside.
REACHES = 70

Ended = tuple[Spot, Block]


@dataclass(frozen=True, slots=True)
class Inside:
    """A label on the piece itself; with a leader where it does not stand right beside its mark."""

    label: Placed
    leader: tuple[Spot, Spot] | None


def names_drawn(names: Sequence[Inside], ground: str) -> list[str]:
    """Return labels that stand on a piece: all leaders first, then words on plates of the piece's ground."""
    parts = [line(Line.LEADER, *name.leader) for name in names if name.leader]
    for name in names:
        parts += [plate(name.label.box, ground), *name.label.drawn()]
    return parts


def name_of(mark: Laid) -> Block:
    """Return a mark's label: its name, and under it where it lies or how long it is."""
    name = wrapped(mark.name, SMALL, MOST_NAME)
    places = (wrapped(label_of(distance), SMALL, MOST_NAME, QUIET_INK) for distance in mark.distances)
    return Block((*name, *chain.from_iterable(places)))


def named(
    marks: Sequence[Laid], piece: Box, turns: bool, outside: Sequence[Box] = (), *, has_top: bool = True
) -> tuple[list[Inside], list[Ended], list[Ended]]:
    """Return the labels on the piece, then those for the column beside it and for the rows under it.

    turns: whether a layout may turn the piece; if not, the label of its top edge says so.
    outside: what of the piece's box is not cloth. has_top: whether it matters which edge is its top.
    """
    beside = [mark for mark in marks if _ends_beside(mark, piece)]
    under = [mark for mark in marks if _ends_under(mark, piece)]
    rest = [mark for mark in marks if mark not in beside and mark not in under]
    openings = [_near(mark, marks, piece) for mark in rest if mark.kind == "opening"]
    others = [_near(mark, marks, piece) for mark in rest if mark.kind != "opening"]
    top = [_of_the_top(marks, piece, turns)] if has_top else []
    # Whoever is placed first has its choice; of a few orders the one with the fewest blemishes is taken.
    orders = ([*openings, *top, *others], [*others, *openings, *top], [*others, *top, *openings])
    inside, led = min((_settled(order, piece, outside) for order in orders), key=_blemishes)
    led += [(mark.end, name_of(mark)) for mark in beside]
    return inside, led, [(mark.end, name_of(mark)) for mark in under]


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A label that looks for a place on the piece: the first of its corners where it meets nothing.

    thing: what it is the label of. marked: the room of the marks that it may not stand on or seem to name.
    """

    block: Block
    thing: Box
    corners: tuple[Spot, ...]
    marked: tuple[Box, ...]
    has_leader: bool = True


def _near(mark: Laid, marks: Sequence[Laid], piece: Box) -> _Wanted:
    block, thing = name_of(mark), room(mark, piece)
    corners = tuple(corners_near(block, thing, RING, RINGS))
    return _Wanted(block, thing, corners, (thing, *_marked(marks, piece, mark)))


def _of_the_top(marks: Sequence[Laid], piece: Box, turns: bool) -> _Wanted:
    way_up = () if turns else (TextLine("one way up", SMALL, QUIET_INK),)
    block = Block((TextLine(f"↑ {upper_edge(mark.name for mark in marks)}", SMALL), *way_up))
    edge = Box(piece.right, piece.top, piece.right, piece.top)
    return _Wanted(
        block, edge, tuple(_top_corners(block, piece)), tuple(_marked(marks, piece)), has_leader=False
    )


def _marked(marks: Sequence[Laid], piece: Box, but: Laid | None = None) -> Iterator[Box]:
    """Return the room of all marks but one; more beside a point, which a label there would seem to name."""
    for mark in marks:
        if mark is not but:
            beside = FROM_POINT if mark.way == "point" else 0
            for box in rooms(mark, piece):
                yield Box(box.left - beside, box.top, box.right + beside, box.bottom)


def _settled(
    order: Sequence[_Wanted], piece: Box, outside: Sequence[Box]
) -> tuple[list[Inside], list[Ended]]:
    """Return the labels that found a place on the piece, and those that did not, with where they belong."""
    taken: list[Box] = [*outside]
    inside: list[Inside] = []
    led: list[Ended] = []
    for wanted in order:
        corners = (corner for corner in wanted.corners if not _crosses_a_mark(wanted, corner))
        placed = first_free(wanted.block, corners, [*wanted.marked, *taken], piece.grown(-INSET))
        if placed is None:
            start = Spot(wanted.thing.right, wanted.thing.middle.y)
            led.append((start, wanted.block))
            taken.append(Box(start.x, start.y, piece.right, start.y).grown(INSET // 2))
        else:
            inside.append(Inside(placed, _leader(wanted.thing, placed.box) if wanted.has_leader else None))
            box = placed.box
            taken.append(
                Box(box.left - BETWEEN, box.top - RING // 4, box.right + BETWEEN, box.bottom + RING // 4)
            )
    return inside, led


def _crosses_a_mark(wanted: _Wanted, corner: Spot) -> bool:
    """Whether a label there would have a leader that runs over another mark than its own."""
    leader = _leader(wanted.thing, wanted.block.at(*corner).box) if wanted.has_leader else None
    return leader is not None and any(
        box.meets(*leader) for box in wanted.marked if not box.overlaps(wanted.thing)
    )


def _blemishes(settled: tuple[list[Inside], list[Ended]]) -> tuple[int, int]:
    """Return how many labels a leader to the column runs under, then how many labels are in the column."""
    inside, outside = settled
    crossed = [
        name
        for name in inside
        for start, _ in outside
        if start.x < name.label.box.right and name.label.box.top < start.y < name.label.box.bottom
    ]
    return len(crossed), len(outside)


def _top_corners(block: Block, piece: Box) -> Iterator[Spot]:
    """Return places under the top edge: first in the middle, then to its sides, then further down."""
    for down in range(INSET, min(piece.height // 2, NEAR_TOP), RING // 2):
        for share in (50, 25, 75):
            yield Spot(piece.left + piece.width * share // 100 - block.width // 2, piece.top + down)


def _ends_beside(mark: Laid, piece: Box) -> bool:
    reached = (mark.end.x - piece.left) * 100 >= piece.width * REACHES
    return mark.way == "round" or (mark.way == "level" and mark.kind != "opening" and reached)


def _ends_under(mark: Laid, piece: Box) -> bool:
    reached = (mark.end.y - piece.top) * 100 >= piece.height * REACHES
    return mark.way == "upright" and mark.kind != "opening" and reached


def _leader(thing: Box, label: Box) -> tuple[Spot, Spot] | None:
    """Return a line from a mark to its label, None where the label stands right beside it."""
    if thing.grown(RING + 1).overlaps(label):
        return None
    x = min(max(thing.middle.x, label.left), label.right)
    y = min(max(thing.middle.y, label.top), label.bottom)
    return thing.middle, Spot(x, y)
