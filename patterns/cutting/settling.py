"""Whether a few pieces can be cut from sheets at all: every layout is tried, or a proof found without.

Every layout can be pushed to the left and down, and taken apart piece by piece from the upper right; put
together again in that order, each piece lies in a corner of the staircase that those before it make. So it
is enough to try the corners.
Source: S. Martello, D. Pisinger and D. Vigo, “The three-dimensional bin packing problem”, 2000, for two
dimensions; that the order exists in two, E. den Boef and others, “Erratum”, 2005.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum

from .bounds import excluded
from .laying import Work, lay
from .sheets import Layout, Placement, Rectangle, Sheet, in_whole_numbers

# From here on there are too many orders for all of them.
MOST_SETTLED = 9
# States that are looked at for one question.
MOST_STATES = 6_000


class Verdict(Enum):
    """What is known where there is no layout."""

    IMPOSSIBLE = "impossible"
    OPEN = "open"


def settled(
    pieces: Sequence[Rectangle],
    sheets: Sequence[Sheet],
    work: Work | None = None,
    most_states: int = MOST_STATES,
) -> Layout | Verdict:
    """Return a layout, or that none is possible, or that this is not known.

    Raises CuttingError: more pieces or sheets than a layout is looked for at once.
    """
    work = work or Work()
    if excluded(pieces, sheets, work.watch):
        return Verdict.IMPOSSIBLE
    found = lay(pieces, sheets, work)
    if found is not None:
        return found
    return every_layout(pieces, sheets, work, most_states)


def every_layout(
    pieces: Sequence[Rectangle],
    sheets: Sequence[Sheet],
    work: Work | None = None,
    most_states: int = MOST_STATES,
) -> Layout | Verdict:
    """Try every layout of a few pieces. Outlines prove nothing: they might lie in each other's corners."""
    whole = in_whole_numbers(pieces, sheets)
    if len(whole.pieces) > MOST_SETTLED:
        return Verdict.OPEN
    search = _Search(whole.pieces, whole.sheets, work or Work(), most_states)
    found = search.layout()
    if found is not None:
        return whole.in_mm(found)
    is_proof = search.is_complete and all(piece.is_full for piece in whole.pieces)
    return Verdict.IMPOSSIBLE if is_proof else Verdict.OPEN


# The outer corners of what is taken of a sheet, from the left: x rises, y falls.
_Stairs = tuple[tuple[int, int], ...]


@dataclass(slots=True)
class _Search:
    """is_complete: whether nothing was left out when the search ended without a layout."""

    pieces: tuple[Rectangle, ...]
    sheets: tuple[Sheet, ...]
    work: Work
    states: int
    is_complete: bool = True
    seen: set[tuple[tuple[int, ...], tuple[_Stairs, ...]]] = field(default_factory=set)
    lying: list[Placement] = field(default_factory=list)

    def layout(self) -> Layout | None:
        order = sorted(
            range(len(self.pieces)), key=lambda n: (-self.pieces[n].width * self.pieces[n].height, n)
        )
        if self._lies(tuple(order), ((),) * len(self.sheets)):
            return tuple(sorted(self.lying, key=lambda placement: placement.piece))
        return None

    def _lies(self, left: tuple[int, ...], taken: tuple[_Stairs, ...]) -> bool:
        """Whether the pieces that are left can lie beyond what is taken; then they are among the lying."""
        if not left:
            return True
        if self.states <= 0 or self.work.is_done:
            self.is_complete = False
            return False
        self.work.watch()
        self.states -= 1
        self.work.left -= 10
        room = sum(int(sheet.width * sheet.height) for sheet in self.sheets) - sum(map(_area, taken))
        if sum(int(self.pieces[number].width * self.pieces[number].height) for number in left) > room:
            return False
        for placement in self._placements(left, taken):
            rest = tuple(number for number in left if number != placement.piece)
            rank = placement.sheet
            then = (*taken[:rank], _with(taken[rank], placement), *taken[rank + 1 :])
            state = (self._kinds(rest), then)
            if state in self.seen:
                continue
            self.seen.add(state)
            self.lying.append(placement)
            if self._lies(rest, then):
                return True
            self.lying.pop()
        return False

    def _kinds(self, numbers: tuple[int, ...]) -> tuple[int, ...]:
        """The pieces, equal ones under one number: which of them lies where makes no difference."""
        return tuple(self.pieces.index(self.pieces[number]) for number in numbers)

    def _placements(self, left: tuple[int, ...], taken: tuple[_Stairs, ...]) -> Iterator[Placement]:
        """Yield each piece in each corner, largest first; of equal pieces and empty sheets one."""
        kinds = {self.pieces[number]: number for number in reversed(left)}
        empty = set[Sheet]()
        for number in sorted(kinds.values(), key=left.index):
            empty.clear()
            for rank, sheet in enumerate(self.sheets):
                if not taken[rank]:
                    if sheet in empty:
                        continue
                    empty.add(sheet)
                for turn, (width, height) in enumerate(self.pieces[number].sides):
                    for x, y in _corners(taken[rank]):
                        if x + width <= sheet.width and y + height <= sheet.height:
                            yield Placement(number, rank, x, y, width, height, turn == 1)


def _corners(stairs: _Stairs) -> Iterator[tuple[int, int]]:
    """Yield the inner corners, where a piece can lie.

    >>> list(_corners(((2, 5), (4, 3))))
    [(0, 5), (2, 3), (4, 0)]
    """
    x = 0
    for right, top in stairs:
        yield x, top
        x = right
    yield x, 0


def _with(stairs: _Stairs, placement: Placement) -> _Stairs:
    """Return the stairs with a piece laid on them.

    >>> _with(((2, 5), (4, 3)), Placement(0, 0, 2, 3, 1, 4, False))
    ((3, 7), (4, 3))
    """
    right, top = int(placement.x + placement.width), int(placement.y + placement.height)
    kept = [(x, y) for x, y in stairs if x > right or y > top]
    return tuple(sorted([*kept, (right, top)]))


def _area(stairs: _Stairs) -> int:
    """What lies below and to the left of the stairs, where no further piece comes.

    >>> _area(((2, 5), (4, 3)))
    16
    """
    x = area = 0
    for right, top in stairs:
        area += (right - x) * top
        x = right
    return area
