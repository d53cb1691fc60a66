"""Can some inequalities hold together? Shown by Fourier and Motzkin's elimination, exactly."""

from collections.abc import Iterable
from dataclasses import dataclass

from .polynomial import Monomial, Polynomial, TooLongError

# Elimination can square its rows at every step. A truing asks with ten or twenty; beyond this the
# answer is “not shown”, which leaves a proof undecided and never makes it wrong.
MOST_ROWS = 200
# One proof in all: about 0.1 s. A truing with a smaller-of takes 50 or so, one with three of them 600.
MOST_EFFORT = 3_000


@dataclass(frozen=True, slots=True)
class Inequality:
    """polynomial < 0 where strict, else polynomial ≤ 0."""

    polynomial: Polynomial
    strict: bool = False


class Effort:
    """Counts down what one proof may do; looking at one inequality is 1."""

    def __init__(self) -> None:
        self.left = MOST_EFFORT

    def spend(self, effort: int) -> None:
        """Raises TooLongError: more than the proof may."""
        self.left -= effort
        if self.left < 0:
            raise TooLongError


def contradict(rows: Iterable[Inequality], effort: Effort | None = None) -> bool:
    """Return whether no values of the unknowns can fulfil all rows; False also where that is not shown.

    effort: what one proof may spend in all.
    Raises TooLongError: it is spent.
    Every monomial counts as an unknown of its own. That forgets how x² follows from x, so it can miss a
    contradiction, but what contradicts itself even so does so the more with x² bound to x.

    >>> x, one = Polynomial({((0, 1),): 1}), Polynomial({(): 1})
    >>> contradict([Inequality(one - x), Inequality(x - one, strict=True)])
    True
    """
    effort = effort or Effort()
    left = _distinct(rows)
    while True:
        effort.spend(len(left))
        if any(_is_false(row) for row in left):
            return True
        left = [row for row in left if row.polynomial.number is None]
        if not left:
            return False
        monomial, growth = _cheapest(left)
        if len(left) + growth > MOST_ROWS:
            return False
        left = _distinct(_without(monomial, left))


def _is_false(row: Inequality) -> bool:
    number = row.polynomial.number
    return number is not None and (number > 0 or (row.strict and number == 0))


def _distinct(rows: Iterable[Inequality]) -> list[Inequality]:
    seen = {}
    for row in rows:
        scaled = row.polynomial.scaled(1 / row.polynomial.content()) if row.polynomial else row.polynomial
        seen[frozenset(scaled.terms.items()), row.strict] = Inequality(scaled, row.strict)
    return list(seen.values())


def _cheapest(rows: list[Inequality]) -> tuple[Monomial, int]:
    """Return the monomial whose elimination leaves the fewest rows, and how many more than now these are."""
    above: dict[Monomial, int] = {}
    below: dict[Monomial, int] = {}
    for row in rows:
        for monomial, coefficient in row.polynomial.terms.items():
            side = above if coefficient > 0 else below
            side[monomial] = side.get(monomial, 0) + 1
    growth = {
        monomial: above.get(monomial, 0) * below.get(monomial, 0)
        - above.get(monomial, 0)
        - below.get(monomial, 0)
        for monomial in {**above, **below}
        if monomial
    }
    monomial = min(growth, key=growth.__getitem__)
    return monomial, growth[monomial]


def _without(monomial: Monomial, rows: list[Inequality]) -> Iterable[Inequality]:
    """Yield rows without the monomial that can be fulfilled if, and only if, all rows can."""
    above = [row for row in rows if row.polynomial.terms.get(monomial, 0) > 0]
    below = [row for row in rows if row.polynomial.terms.get(monomial, 0) < 0]
    yield from (row for row in rows if monomial not in row.polynomial.terms)
    for upper in above:
        for lower in below:
            up, down = upper.polynomial.terms[monomial], -lower.polynomial.terms[monomial]
            combined = upper.polynomial.scaled(down) + lower.polynomial.scaled(up)
            yield Inequality(combined, upper.strict or lower.strict)
