"""Sheets shared out among fabrics: one sheet serves one of them. What is known of each share is kept."""

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from itertools import islice, product

from patterns.drafting.gauges import Watch

from .bounds import excluded
from .demand import Demand, Part, Question
from .errors import CuttingError
from .impossible import Impossible, Sides, are_no_smaller
from .laying import Work, lay
from .settling import Verdict, every_layout
from .sheets import Layout, Placement, Sheet

# Ways to share sheets out that are looked at; twelve different ones between two fabrics have 4,096.
MOST_SHARES = 256
# Ways that a layout is tried at first sight.
FIRST_WAYS = 6
# Layouts that smaller pieces are put into.
MOST_REMEMBERED = 16


@dataclass(frozen=True, slots=True)
class Cloth:
    """One piece of cloth: mm. material: the fabric that it is for; None for any of them."""

    width: Fraction
    height: Fraction
    material: str | None = None


# The sheets of each fabric, by their places in the list of cloth.
Share = tuple[tuple[int, ...], ...]


class Sharing:
    """The cloth somebody has, and which questions about it are settled. Raises CuttingError: of no fabric."""

    def __init__(self, demand: Demand, cloth: Sequence[Cloth], work: Work) -> None:
        for each in cloth:
            if each.material is not None and each.material not in demand.fabrics:
                raise CuttingError(
                    f"“{each.material}” is no fabric that is cut here. "
                    f"There are: {', '.join(demand.fabrics) or 'none'}."
                )
        self.work = work
        self._cloth = cloth
        self._fabrics = demand.fabrics
        self._sheets = [demand.sheet(each.width, each.height) for each in cloth]
        # As if each fabric got all that may be used for it: what is impossible then is so in every share.
        self._all = tuple(
            tuple(number for number, each in enumerate(cloth) if each.material in (None, fabric))
            for fabric in demand.fabrics
        )
        shares = list(islice(self._all_shares(), MOST_SHARES + 1))
        self._shares, self._are_all = shares[:MOST_SHARES], len(shares) <= MOST_SHARES
        self._excluded: dict[tuple[Part, ...], bool] = {}
        self._impossible: dict[tuple[int, ...], Impossible] = {}
        self._lots: dict[tuple[int, tuple[int, ...]], _Lot] = {}
        self._lots_of: dict[tuple[int, tuple[Sheet, ...]], _Lot] = {}

    def _all_shares(self) -> Iterator[Share]:
        """Yield every way to share the cloth out; equal pieces of it are taken in their order."""
        groups: dict[Cloth, list[int]] = {}
        for number, each in enumerate(self._cloth):
            groups.setdefault(each, []).append(number)
        splits = [list(self._splits(each.material, numbers)) for each, numbers in groups.items()]
        for combined in product(*splits):
            yield tuple(
                tuple(sorted(number for split in combined for number in split[rank]))
                for rank in range(len(self._fabrics))
            )

    def _splits(self, material: str | None, numbers: list[int]) -> Iterator[Share]:
        if material is not None:
            yield tuple(tuple(numbers) if fabric == material else () for fabric in self._fabrics)
            return
        for counts in _shared_out(len(numbers), len(self._fabrics)):
            ends = [sum(counts[:rank]) for rank in range(len(counts) + 1)]
            yield tuple(tuple(numbers[ends[rank] : ends[rank + 1]]) for rank in range(len(counts)))

    def is_excluded(self, question: Question) -> bool:
        """Whether it is proved that the pieces cannot be cut, or there is one that could never be."""
        if question is None:
            return True
        if question not in self._excluded:
            self._excluded[question] = self._is_proved_against(question)
        return self._excluded[question]

    def _is_proved_against(self, question: tuple[Part, ...]) -> bool:
        kind = tuple([part.kind for part in question])
        sides = tuple([side for part in question for side in part.least])
        impossible = self._impossible.setdefault(kind, Impossible())
        if impossible.is_no_larger_than(sides):
            return True
        shares = self._shares if self._are_all else [self._all]
        is_proved = all(
            any(self._lot(part, own).is_excluded(part) for part, own in zip(question, share, strict=True))
            for share in shares
        )
        if is_proved:
            impossible.add(sides)
        return is_proved

    def is_too_much(self, question: Question, outlined_area: Callable[[Part], int]) -> bool:
        """Whether it is proved that the pieces cannot be cut, also by the area of their outlines.

        outlined_area: how much is certainly cut of a part's outlines.
        """
        if question is None or self.is_excluded(question):
            return True
        if all(all(part.is_full) for part in question):
            return False
        shares = self._shares if self._are_all else [self._all]
        area = cache(lambda part: part.full_area + outlined_area(part))
        return all(
            any(
                self._lot(part, own).is_excluded(part) or self._is_too_large(part, own, area)
                for part, own in zip(question, share, strict=True)
            )
            for share in shares
        )

    def _is_too_large(self, part: Part, own: tuple[int, ...], area: Callable[[Part], int]) -> bool:
        """Whether more is certainly cut than there is: measured only where even the boxes are too much."""
        room = self._lot(part, own).room
        return part.box_area > room and area(part) > room

    def layout(self, question: Question, is_thorough: bool) -> Layout | None:
        """Return a layout of all pieces, fabric after fabric, or None if none was found."""
        if question is None:
            return None
        for share in self._shares:
            layouts = []
            for part, own in zip(question, share, strict=True):
                layout = self._lot(part, own).layout(part, self.work, is_thorough)
                if layout is None:
                    break
                layouts.append([replace(each, sheet=own[each.sheet]) for each in layout])
            else:
                return tuple(each for layout in layouts for each in layout)
        if is_thorough:
            self._excluded[question] = self._is_proved_against(question)  # more may be known now
        return None

    def _lot(self, part: Part, own: tuple[int, ...]) -> "_Lot":
        lot = self._lots.get((part.kind, own))
        if lot is None:
            sheets = tuple(self._sheets[number] for number in own)
            lot = self._lots_of.setdefault((part.kind, sheets), _Lot(sheets, self.work.watch))
            self._lots[part.kind, own] = lot
        return lot


def _shared_out(count: int, among: int) -> Iterator[tuple[int, ...]]:
    """Yield every way to share things out, the first with as few as can be.

    >>> list(_shared_out(2, 2))
    [(0, 2), (1, 1), (2, 0)]
    """
    if among <= 1:
        if among:
            yield (count,)
        return
    for first in range(count + 1):
        for others in _shared_out(count - first, among - 1):
            yield (first, *others)


class _Lot:
    """The sheets that one fabric gets, and what is known of parts of one kind on them."""

    def __init__(self, sheets: tuple[Sheet, ...], watch: Watch) -> None:
        self._sheets, self._watch = sheets, watch
        self.room = sum(int(sheet.width * sheet.height) for sheet in sheets)
        self._impossible = Impossible()
        self._looked_at: dict[Sides, bool] = {}
        self._layouts: dict[Sides, Layout | None] = {}
        self._laid: deque[Sides] = deque(maxlen=MOST_REMEMBERED)
        self._settled: set[Sides] = set()

    def is_excluded(self, part: Part) -> bool:
        if part.full_area > self.room:
            return True
        least = part.least
        is_known = self._looked_at.get(least)
        if is_known is None:
            self._watch()
            is_known = self._impossible.is_no_larger_than(least)
            if not is_known and excluded(part.rectangles(least), self._sheets, self._watch):
                self._impossible.add(least)
                is_known = True
            self._looked_at[least] = is_known
        return is_known

    def layout(self, part: Part, work: Work, is_thorough: bool) -> Layout | None:
        most = part.most
        if self.is_excluded(part):
            return None
        if most not in self._layouts:
            self._layouts[most] = self._at_first_sight(part, work)
        if self._layouts[most] is None and is_thorough and most not in self._settled:
            self._settled.add(most)
            self._layouts[most] = self._settle(part, work)
        if self._layouts[most] is not None and most not in self._laid:
            self._laid.append(most)
        return self._layouts[most]

    def _at_first_sight(self, part: Part, work: Work) -> Layout | None:
        """Return the layout of larger pieces with these in their places, or a quick one."""
        for larger in self._laid:
            layout = self._layouts[larger]
            if layout is not None and are_no_smaller(larger, part.most):
                return tuple(_in_place(each, part.most[each.piece]) for each in layout)
        return lay(part.rectangles(part.most), self._sheets, work, FIRST_WAYS)

    def _settle(self, part: Part, work: Work) -> Layout | None:
        if self._impossible.is_no_larger_than(part.least):
            self._looked_at[part.least] = True
            return None
        pieces = part.rectangles(part.most)
        found = every_layout(pieces, self._sheets, work)
        if isinstance(found, tuple):
            return found
        if found is Verdict.IMPOSSIBLE:
            if part.is_exact:
                self._impossible.add(part.least)
                self._looked_at[part.least] = True
            return None
        return lay(pieces, self._sheets, work)


def _in_place(placement: Placement, sides: tuple[int, int]) -> Placement:
    width, height = sides[::-1] if placement.turned else sides
    return replace(placement, width=width, height=height)
