"""Layouts that straight cuts take apart, edge to edge: the shortest strip, and the fewest sheets."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import cycle
from math import ceil
from random import Random

from .answers import Cut, rounded_up
from .boxes import Kinds, kinds_of, spots_of
from .cuts import cuts_of
from .edge_to_edge_exact import MOST_SUMMED, lowest, sums_of_sides, ways_to_part
from .edge_to_edge_search import Strip, length_of, stacked
from .edge_to_edge_sheets import fewest_by_cuts
from .effort import Effort
from .errors import NoWayError, TooLittleClothError
from .sheets import Layout, Length, Rectangle, Sheet

# So many ways to part the pieces in two, and every box is looked at.
MOST_WAYS = 4_000_000
# What one way of parting them costs at the most, in units of effort; mostly far less.
_UNITS_A_WAY = 4
_FIRST_SEARCH = 100_000
# For each of the searches in turn.
_WORK_A_TURN = (10_000, 50_000, 60_000)


def shortest_by_cuts(
    pieces: Sequence[Rectangle],
    width: Length,
    effort: Effort,
    bound: Length,
    step: Length | None = None,
) -> tuple[Layout, tuple[Cut, ...], Length]:
    """Return the shortest edge-to-edge layout found on cloth of a width, its cuts, and a bound for such ones.

    bound: no layout of any form is shorter. step: what the shop cuts; then only the purchase counts, and the
    search ends where it is the least.
    Raises NoWayError: a piece that is wider than the cloth, however it lies.
    """
    if not pieces:
        return (), (), bound
    kinds = kinds_of(pieces)
    _require_that_all_fit(pieces, [Sheet(width, max(max(each.width, each.height) for each in pieces))])
    search = _Shortest(kinds, width, bound, step, effort)
    search.run()
    layout = kinds.layout(search.strip.best)
    length = search.strip.length * kinds.part
    cuts = cuts_of(layout, width, length)
    assert cuts is not None, "it was put together edge to edge"
    proved = search.bound * kinds.part if _are_full(pieces) else bound
    return layout, cuts, min(proved, length)


class _Shortest:
    """The search for the shortest layout, in whole numbers.

    bound: no edge-to-edge layout is shorter.
    """

    def __init__(
        self, kinds: Kinds, width: Length, bound: Length, step: Length | None, effort: Effort
    ) -> None:
        self.kinds, self.step, self.effort = kinds, step, effort
        self.width = kinds.whole(width)
        self.bound = ceil(Fraction(bound) / kinds.part)
        start = stacked(kinds.kinds, self.width)
        most = length_of(start)
        self.sums = sums_of_sides(kinds.kinds, most, 1) if most <= MOST_SUMMED else None
        self.raise_bound(self.bound)
        lot = Random(effort.seed)  # noqa: S311
        self.strip = Strip(kinds.kinds, self.width, self.aim, effort, lot, start)

    @property
    def aim(self) -> int:
        """The longest length that is as good as the bound."""
        return self.as_good_as(self.bound)

    def as_good_as(self, length: int) -> int:
        """Return the longest length for which no more is bought."""
        return self.kinds.whole(rounded_up(length * self.kinds.part, self.step))

    def raise_bound(self, least: int) -> None:
        """Take note that no layout is shorter; every length is a sum of heights."""
        if self.sums is not None:
            beyond = self.sums >> least
            least += (beyond & -beyond).bit_length() - 1 if beyond else 0
        self.bound = max(self.bound, least)

    def run(self) -> None:
        """Try quick ways, then every box; where there are too many, or the effort ends, search on."""
        self.strip.try_first_ways()
        ways = ways_to_part(self.kinds.kinds)
        if self.strip.is_done:
            return
        if ways > 20_000:
            self.search(min(_FIRST_SEARCH, self.effort.work // 4))
        if ways <= min(MOST_WAYS, self.effort.work * _UNITS_A_WAY):
            self.try_every_box()
        self.search(self.effort.work)

    def try_every_box(self) -> None:
        """Ask for ever longer lengths whether there is a layout: what there is none for, raises the bound."""
        while not self.strip.is_done:
            box, is_sure = lowest(self.kinds.kinds, self.width, self._next_to_ask(), self.effort)
            if not is_sure:
                return
            if box is not None:
                self.strip.best = list(spots_of(box))
                self.bound = max(self.bound, box.height)
            else:
                self.raise_bound(self._next_to_ask() + 1)
            self.strip.aim = self.aim

    def _next_to_ask(self) -> int:
        """Return the bound, or what is as good; once it is near the best, all that is better than that."""
        aim, length = self.aim, self.strip.length
        if self.step is None:
            return min(length - 1, max(aim, self.bound + (length - 1 - self.bound) // 4))
        return min(length - 1, aim)

    def search(self, work: int) -> None:
        """Search in turns: in orders of the pieces, in rows, and in groups of the best."""
        until = self.effort.work - work
        strip = self.strip
        turns = (strip.search_orders, strip.search_rows, strip.regroup)
        for turn, most in cycle(zip(turns, _WORK_A_TURN, strict=True)):
            if self.strip.is_done or self.effort.work <= until:
                return
            turn(min(most, self.effort.work - until))


def on_sheets_by_cuts(
    pieces: Sequence[Rectangle], sheets: Sequence[Sheet], effort: Effort, bound: int
) -> tuple[int, int, Layout, tuple[Cut, ...]]:
    """Return on how few sheets an edge-to-edge layout was found, a bound for such ones, it and its cuts.

    bound: no layout of any form needs fewer.
    Raises NoWayError: a piece that fits no sheet. TooLittleClothError: no layout was found on all of them.
    """
    if not pieces:
        return 0, 0, (), ()
    _require_that_all_fit(pieces, sheets)
    kinds = kinds_of(pieces)
    places = [(kinds.whole(sheet.width), kinds.whole(sheet.height)) for sheet in sheets]
    least = max(bound, 1)
    spots, proved = fewest_by_cuts(kinds.kinds, places, effort, least)
    proved = proved if _are_full(pieces) else least
    if spots is None:
        raise TooLittleClothError(proved, len(sheets))
    layout = kinds.layout(spots)
    cuts = cuts_of(layout, 0, 0, sheets)
    assert cuts is not None, "it was put together edge to edge"
    used = len({spot.sheet for spot in spots})
    return used, min(proved, used), layout, cuts


def _are_full(pieces: Sequence[Rectangle]) -> bool:
    """Whether a proof for their rectangles is one for the pieces."""
    return all(piece.is_full for piece in pieces)


def _require_that_all_fit(pieces: Sequence[Rectangle], sheets: Sequence[Sheet]) -> None:
    for number, piece in enumerate(pieces):
        if not any(sheet.takes(*sides) for sheet in sheets for sides in piece.sides):
            raise NoWayError(number)
