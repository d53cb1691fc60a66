"""The shortest length of cloth found for some pieces, with the length that is never enough."""

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from .answers import OnLength
from .effort import Effort
from .errors import CuttingError
from .inside import shadows
from .length_bound import Lengths, least_length, lifted
from .searching import Search
from .sheets import Length, Rectangle
from .strip import MOST_LAID, Strip, as_strip
from .tight import Tight

if TYPE_CHECKING:
    from .solver import Solver

# So much of a search before the solver is asked, by the number of pieces; more than the last: it is not.
_BEFORE_SOLVING = ((12, 30_000), (24, 60_000), (40, 400_000))
# The work of the first round, which doubles: whether pieces can follow each other, filling tightly, the
# solver; and before it a short try at filling, which often does.
_FOLLOWING, _FILLING, _SOLVING, _SHORT_TRY = 120_000, 600_000, 60_000, 100_000
# What is left over is looked at for as many pieces as take a few milliseconds.
_MOST_TIDIED = 60


def shortest(
    pieces: Sequence[Rectangle],
    width: Length,
    effort: Effort,
    step: Length | None = None,
    edge_to_edge: bool = False,
) -> OnLength:
    """Return the shortest layout found on cloth of a width, and a bound below which there is none.

    step: what the shop cuts; then the purchase is what counts, and where it is proved least, the search ends.
    edge_to_edge: the layout can be cut by straight cuts, each right through the part that it cuts.
    Raises CuttingError: pieces, a width or a step of nothing, too many pieces, one that fits no way.
    """
    if step is not None and step <= 0:
        raise CuttingError("The step that the shop cuts in is nothing. Give one above 0.")
    strip = as_strip(pieces, width)
    question = _Question(strip, Lengths(strip), effort, step, _shadows(pieces, width))
    question.prove(sum(Fraction(piece.certain_area) for piece in pieces) / Fraction(width))
    if edge_to_edge:
        return _by_cuts(pieces, width, question)
    question.answer()
    search = question.search
    return OnLength(width, search.length * strip.along, question.least, strip.in_mm(search.placed))


def _shadows(pieces: Sequence[Rectangle], width: Length) -> tuple[Strip, ...]:
    """Return strips of rectangles alone, none of whose layouts need be longer than one of the pieces."""
    found = (shadow for shadow in shadows(pieces) if 0 < len(shadow) <= MOST_LAID)
    return tuple(as_strip(shadow, width) for shadow in found)


def _by_cuts(pieces: Sequence[Rectangle], width: Length, question: "_Question") -> OnLength:
    from .edge_to_edge import shortest_by_cuts

    question.raise_bound()
    least = question.least
    layout, cuts, bound = shortest_by_cuts(pieces, width, question.effort, least, question.step)
    length = max(each.y + each.height for each in layout)
    return OnLength(width, length, max(least, bound), layout, cuts)


class _Question:
    """A strip, what is known of it so far, and what may still be done.

    bound: in units. shadows: strips whose shortest layouts are no longer.
    """

    def __init__(
        self,
        strip: Strip,
        lengths: Lengths,
        effort: Effort,
        step: Length | None,
        shadows: tuple[Strip, ...] = (),
    ) -> None:
        self.strip, self.lengths, self.effort, self.step = strip, lengths, effort, step
        self._bounded = [(each, Lengths(each)) for each in shadows]
        self._bounded.append((strip, lengths))
        self._bounds = [least_length(*each) for each in self._bounded]
        self._least = Fraction(0)
        self.bound = 0
        self._prove_by_strips()
        self.search = Search(strip, lengths, effort)
        self.tight = Tight(strip, effort)

    @property
    def least(self) -> Length:
        """Return the bound in mm. Outlines may lie in each other's corners: then no sum of sides is sure."""
        return self.bound * self.strip.along if self.strip.is_full else self._least

    def prove(self, least: Fraction) -> None:
        """Take over that no layout is shorter than so many mm."""
        self._least = max(self._least, least)
        self.bound = max(self.bound, self.lengths.up(int(-(-self._least // self.strip.along))))

    def _prove_by_strips(self) -> None:
        for bound, (each, _) in zip(self._bounds, self._bounded, strict=True):
            self.prove(bound * each.along)

    def raise_bound(self) -> None:
        """Prove more, in some milliseconds."""
        for number, (strip, lengths) in enumerate(self._bounded):
            self._bounds[number] = lifted(strip, lengths, self._bounds[number])
        self._prove_by_strips()

    def below(self, length: int) -> int:
        """Return the longest layout that would be worth more than one of this length: shorter, or cheaper."""
        if self.step is None:
            return self.lengths.down(length - 1)
        steps = -(-length * self.strip.along // Fraction(self.step)) - 1
        return int(steps * self.step // self.strip.along)

    @property
    def is_proved(self) -> bool:
        return self.below(self.search.length) < self.bound

    def goal(self) -> int:
        """Return a length that is as good as the bound: no search need go below."""
        return self.as_bought(self.bound)

    def as_bought(self, length: int) -> int:
        """Return the longest layout that is bought like one of this length."""
        if self.step is None:
            return length
        steps = -(-length * self.strip.along // Fraction(self.step))
        return int(steps * self.step // self.strip.along)

    def answer(self) -> None:
        """Search a little, prove more, then ask the solver, then search on."""
        search, effort = self.search, self.effort
        search.begin(self.goal())
        if not self.is_proved and not effort.is_done:
            self.raise_bound()
        work = next((work for most, work in _BEFORE_SOLVING if self.strip.count <= most), 0)
        if effort.may_solve and work:
            self._search_and_solve(work)
        search.better(self.goal, effort.work)
        if self.is_proved and self.strip.count <= _MOST_TIDIED:
            search.tidy(self.as_bought(search.length))

    def _search_and_solve(self, work: int) -> None:
        """Search, fill tightly and ask the solver in turn, for twice as long each time.

        The solver's two questions take turns: what the first proves is proved soon, and a layout is mostly
        found without it.
        """
        from .solver import Solver

        solver, rounds = Solver(self.strip, self.effort), 0
        self.search.better(self.goal, work)
        self._fill_tightly(_SHORT_TRY)
        while not self.is_proved and not self.effort.is_done:
            if rounds % 2 == 0:
                self._raise_by_following(solver, _FOLLOWING << rounds)
            self._fill_tightly(_FILLING << rounds)
            if rounds % 2 == 1:
                self._solve(solver, _SOLVING << rounds)
            self.search.better(self.goal, work << rounds)
            rounds += 1

    def _raise_by_following(self, solver: "Solver", work: int) -> None:
        """Prove more where the pieces cannot even follow each other on what the bound makes one buy."""
        while not self.is_proved and not self.effort.is_done:
            goal = self.goal()
            if not solver.cannot_follow(goal, work):
                return
            self.bound = max(self.bound, self.lengths.up(goal + 1))

    def _fill_tightly(self, work: int) -> None:
        """Look for a layout as good as the bound, where that leaves little to spare."""
        goal = self.goal()
        if self.search.length > goal and self.tight.is_worth_trying(goal):
            found = self.tight.filled(goal, work)
            if found:
                self.search.keep(list(found))

    def _solve(self, solver: "Solver", work: int) -> None:
        """Ask for the next length that is worth more, until there is none or the work is done."""
        end = self.effort.work - work
        while not self.is_proved and not self.effort.is_done and self.effort.work > end:
            length = self.below(self.search.length)
            answer = solver.solved(length, self.effort.work - end, self.search.placed)
            if answer.is_impossible:
                self.bound = max(self.bound, self.lengths.up(length + 1))
            elif answer.placed:
                self.search.keep(list(answer.placed))
            else:
                return
