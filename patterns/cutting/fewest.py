"""The fewest sheets found for some pieces, with the number that is never enough."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations, islice

from .answers import OnSheets
from .bounds import excluded
from .effort import Effort
from .errors import CuttingError, NoWayError, TooLittleClothError
from .inside import shadows
from .laying import Work
from .length_bound import is_excluded
from .settling import MOST_SETTLED, Verdict, every_layout
from .sheet_search import SheetSearch
from .sheets import MOST_PIECES, MOST_SHEETS, Layout, Placement, Rectangle, Sheet
from .strip import MOST_LAID, Strip, as_strip, check

# More sheets than a stall's day takes.
MOST_SHEETS_LAID = 200
# Of sheets that differ, so many choices of some of them are looked at.
_MOST_CHOICES = 60
# More pieces than this are not asked of the solver.
_MOST_SOLVED = 30
# Work for one try of the exhaustive search, and of the orders changed by lot, for one number of sheets.
_A_SETTLING, _A_SEARCH = 100_000, 150_000


def fewest(
    pieces: Sequence[Rectangle], sheets: Sequence[Sheet], effort: Effort, edge_to_edge: bool = False
) -> OnSheets:
    """Return a layout on the fewest sheets found, of those given; where some serve alike, on the first.

    edge_to_edge: the layout can be cut by straight cuts, each right through the part that it cuts.
    Raises CuttingError: pieces or sheets of nothing, or too many. NoWayError: a piece that fits no sheet.
    TooLittleClothError: no layout was found on all the sheets together.
    """
    check(pieces)
    _check_sheets(pieces, sheets)
    question = _Question(pieces, sheets, effort)
    if edge_to_edge:
        return _by_cuts(pieces, sheets, effort, question.least())
    return question.answer()


def _check_sheets(pieces: Sequence[Rectangle], sheets: Sequence[Sheet]) -> None:
    if not sheets:
        raise CuttingError("There are no sheets to cut from. Give one or more.")
    if len(sheets) > MOST_SHEETS_LAID:
        raise CuttingError(
            f"{len(sheets):,} sheets are too many. A layout is made on at most {MOST_SHEETS_LAID}."
        )
    if any(sheet.width <= 0 or sheet.height <= 0 for sheet in sheets):
        raise CuttingError("A sheet has a side of nothing or less. Give sides above 0.")
    kinds = set(sheets)
    for number, piece in enumerate(pieces):
        if not any(sheet.takes(*sides) for sheet in kinds for sides in piece.sides):
            raise NoWayError(number)


def _by_cuts(pieces: Sequence[Rectangle], sheets: Sequence[Sheet], effort: Effort, bound: int) -> OnSheets:
    from .edge_to_edge import on_sheets_by_cuts

    found = on_sheets_by_cuts(pieces, sheets, effort, bound)
    if found is None:
        raise TooLittleClothError(bound, len(sheets))
    used, proved, layout, cuts = found
    return OnSheets(used, max(bound, proved), layout, cuts)


class _Question:
    """Pieces and sheets, and what may still be done."""

    def __init__(self, pieces: Sequence[Rectangle], sheets: Sequence[Sheet], effort: Effort) -> None:
        self.pieces, self.sheets, self.effort = pieces, tuple(sheets), effort
        self.search = SheetSearch(pieces, self.sheets, effort)
        self.equal: Strip | None = None
        self.shadows: tuple[Strip, ...] = ()
        self.length = 0
        if len(set(self.sheets)) == 1:
            self.equal = as_strip(pieces, self.sheets[0].width)
            self.length = int(self.sheets[0].height // self.equal.along)
            found = (shadow for shadow in shadows(pieces) if 0 < len(shadow) <= MOST_LAID)
            self.shadows = tuple(as_strip(shadow, self.sheets[0].width) for shadow in found)

    def least(self) -> int:
        """Return the least number of sheets that is not excluded; one more than there are, if all are."""
        numbers = range(1, len(self.sheets) + 1)
        return next((number for number in numbers if not self._excluded(number)), len(self.sheets) + 1)

    def answer(self) -> OnSheets:
        bound = self.least()
        found: tuple[int, Layout] | None = None
        for number in range(bound, len(self.sheets) + 1):
            layout = self._laid(number, 0)
            if layout is not None:
                found = number, layout
                break
        if found is None and bound <= len(self.sheets):
            layout = self._laid(len(self.sheets), _A_SEARCH)
            found = None if layout is None else (len(self.sheets), layout)
        if found is None:
            raise TooLittleClothError(bound, len(self.sheets))
        used, layout = found
        while used > bound and not self.effort.is_done:
            fewer, is_impossible = self._fewer(used - 1)
            if fewer is not None:
                used, layout = used - 1, fewer
            else:
                bound = used if is_impossible else bound
                break
        return OnSheets(used, bound, layout)

    def _choices(self, number: int) -> Iterator[tuple[int, ...]]:
        """Yield so many of the sheets, in their order, once for each choice that differs."""
        seen = set()
        for chosen in combinations(range(len(self.sheets)), number):
            kinds = tuple(sorted((self.sheets[n].width, self.sheets[n].height) for n in chosen))
            if kinds not in seen:
                seen.add(kinds)
                yield chosen

    def _some_choices(self, number: int) -> tuple[list[tuple[int, ...]], bool]:
        """Return choices of sheets, and whether these are all."""
        if self.equal is not None:
            return [tuple(range(number))], True
        if len(self.sheets) > MOST_SHEETS:
            return [tuple(range(number))], False
        choices = list(islice(self._choices(number), _MOST_CHOICES + 1))
        return choices[:_MOST_CHOICES], len(choices) <= _MOST_CHOICES

    def _excluded(self, number: int) -> bool:
        """Whether no choice of so many sheets can serve."""
        area = sum((Fraction(each.certain_area) for each in self.pieces), Fraction(0))
        largest = sorted((Fraction(each.width) * each.height for each in self.sheets), reverse=True)
        if area > sum(largest[:number]):
            return True
        if self.equal is not None:
            return any(_is_excluded(strip, self.sheets[0], number) for strip in (self.equal, *self.shadows))
        if len(self.pieces) > MOST_PIECES:
            return False
        choices, are_all = self._some_choices(number)
        return are_all and all(excluded(self.pieces, self._sheets(chosen)) for chosen in choices)

    def _sheets(self, chosen: Sequence[int]) -> list[Sheet]:
        return [self.sheets[number] for number in chosen]

    def _laid(self, number: int, work: int) -> Layout | None:
        choices, _ = self._some_choices(number)
        for chosen in choices:
            layout = self.search.laid(chosen, work // len(choices))
            if layout is not None:
                return layout
        return None

    def _fewer(self, number: int) -> tuple[Layout | None, bool]:
        """Return a layout on so many sheets, or whether there certainly is none."""
        layout = self._laid(number, _A_SEARCH)
        if layout is not None:
            return layout, False
        if len(self.pieces) <= MOST_SETTLED and number <= MOST_SHEETS:
            layout, is_impossible = self._settled(number)
            if layout is not None or is_impossible:
                return layout, is_impossible
        if self.effort.may_solve and self.equal is not None and len(self.pieces) <= _MOST_SOLVED:
            layout, is_impossible = self._solved(self.equal, number)
            if layout is not None or is_impossible:
                return layout, is_impossible
        return self._laid(number, self.effort.work), False

    def _settled(self, number: int) -> tuple[Layout | None, bool]:
        choices, are_all = self._some_choices(number)
        for chosen in choices:
            work = Work(min(_A_SETTLING, self.effort.work))
            answer = every_layout(self.pieces, self._sheets(chosen), work)
            self.effort.work -= _A_SETTLING - work.left
            if answer is Verdict.OPEN or self.effort.is_done:
                return None, False
            if not isinstance(answer, Verdict):
                return tuple(_on(each, chosen[each.sheet]) for each in answer), False
        return None, are_all

    def _solved(self, strip: Strip, number: int) -> tuple[Layout | None, bool]:
        """Ask the solver, the sheets laid end to end."""
        from .solver import Solver

        solver = Solver(strip, self.effort, self.length)
        answer = solver.solved(number * self.length, self.effort.work // 2)
        if not answer.placed:
            return None, answer.is_impossible
        end_to_end = strip.in_mm(answer.placed)
        high = self.length * strip.along
        return tuple(
            _on(each, int(each.y // high), Fraction(each.y) - each.y // high * high) for each in end_to_end
        ), False


def _is_excluded(strip: Strip, sheet: Sheet, number: int) -> bool:
    """Whether what is full of a strip certainly does not fit on so many sheets of its width."""
    full = [kind for kind in strip.kinds if kind.is_full]
    width, length = int(sheet.width // strip.across), int(sheet.height // strip.along)
    return bool(full) and is_excluded(full, width, length, number)


def _on(placed: Placement, sheet: int, y: Fraction | None = None) -> Placement:
    return Placement(
        placed.piece,
        sheet,
        placed.x,
        placed.y if y is None else y,
        placed.width,
        placed.height,
        placed.turned,
    )
