"""What the unknowns of a proof's polynomials stand for: names, π, roots, whole numbers of steps, choices."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from typing import Literal

from .inequalities import Effort, Inequality
from .polynomial import Coefficient, Monomial, Polynomial, TooLongError, unknown
from .ratio import Ratio

MM, PI = 0, 1
"""The unknowns that are always there: one millimetre, so that 1 mm and 1 are never the same; and π."""

Bounds = tuple[Fraction | None, Fraction | None]
"""The least and the most that something can be; None where there is no end."""

# Roots, roundings and choices of one proof; each new one is compared with all the others.
MOST_ATOMS = 60
_PLACES = 10**9


@dataclass(frozen=True, slots=True)
class Rooted:
    """√( of )"""

    of: Polynomial


@dataclass(frozen=True, slots=True)
class Steps:
    """How often step goes into something, rounded up or down to a whole number; exactly: `count` times."""

    way: Literal["up", "down"]
    count: Ratio
    step: Ratio


@dataclass(frozen=True, slots=True)
class Chosen:
    """The smallest or largest of some, where it was left open which of them that is."""

    which: Literal["smaller", "larger"]
    among: tuple[Ratio, ...]


Atom = str | Rooted | Steps | Chosen
"""What one unknown stands for; a str is a name."""


class Atoms:
    """The unknowns of one proof, numbered by first appearance; the same thing always has the same number.

    order: names to be numbered first, so that differences are written in this order.
    ranges: the least and most value of names, in mm or bare.
    """

    def __init__(self, order: Iterable[str] = (), ranges: Mapping[str, Bounds] | None = None) -> None:
        self.atoms: list[Atom] = ["mm", "π"]
        self.effort = Effort()
        self._others = 0
        self._ranges = ranges or {}
        self._bounds: dict[int, Bounds] = {
            MM: (Fraction(1), Fraction(1)),
            PI: _around(Fraction(31415926535, 10**10)),
        }
        self._names: dict[str, Ratio] = {}
        self._roots: dict[frozenset[tuple[Monomial, Coefficient]], tuple[int, Fraction]] = {}
        for name in order:
            self.name(name)

    def name(self, text: str) -> Ratio:
        if text not in self._names:
            self._names[text] = Ratio(unknown(self._new(text, self._ranges.get(text, (None, None)))))
        return self._names[text]

    def root(self, of: Polynomial, scale: Fraction) -> Ratio:
        """Return √of for a polynomial of whole coefficients without a common factor, or a prime number.

        scale: the root is written as 1 ÷ scale × √(scale² × of), if it is a new one.
        """
        key = frozenset(of.terms.items())
        if key not in self._roots:
            number = of.number
            bounds = (
                (Fraction(0), None)
                if number is None
                else _around(Fraction(isqrt(int(number) * _PLACES**2), _PLACES))
            )
            self._roots[key] = self._new(Rooted(of.scaled(scale * scale)), bounds), scale
        index, written = self._roots[key]
        return Ratio(unknown(index).scaled(1 / written))

    def steps(self, way: Literal["up", "down"], count: Ratio, step: Ratio) -> Ratio:
        """Return a number of steps rounded to a whole number; up is down of the opposite, with a minus."""
        for index, atom in enumerate(self.atoms):
            if isinstance(atom, Steps):
                if atom.way == way and self.are_equal(atom.count, count):
                    return Ratio(unknown(index))
                if atom.way != way and self.are_equal(atom.count, -count):
                    return Ratio(-unknown(index))
        return Ratio(unknown(self._new(Steps(way, count, step), (None, None))))

    def chosen(self, which: Literal["smaller", "larger"], among: tuple[Ratio, ...]) -> Ratio:
        for index, atom in enumerate(self.atoms):
            if isinstance(atom, Chosen) and atom.which == which and self._are_same_set(atom.among, among):
                return Ratio(unknown(index))
        return Ratio(unknown(self._new(Chosen(which, among), (None, None))))

    def are_equal(self, one: Ratio, other: Ratio) -> bool:
        return not self.reduced((one - other).numerator)

    def reduced(self, polynomial: Polynomial) -> Polynomial:
        """Return the polynomial with t² = u put in for every root t of u, as often as it can be.

        It ends: u holds only unknowns that were there before t.
        """
        while squares := [monomial for monomial in polynomial.terms if self._square_in(monomial) is not None]:
            for monomial in squares:
                term = Polynomial({monomial: polynomial.terms[monomial]})
                polynomial = (
                    polynomial - term + self._once_reduced(monomial).scaled(polynomial.terms[monomial])
                )
        return polynomial

    def is_plain(self, polynomial: Polynomial) -> bool:
        """Whether only names and π are in it: then it is 0 for all values only if it has no terms."""
        return all(isinstance(self.atoms[index], str) for index in polynomial.unknowns)

    def is_whole(self, monomial: Monomial) -> bool:
        return all(isinstance(self.atoms[index], Steps) for index, _ in monomial)

    def facts(self, polynomials: Iterable[Polynomial]) -> Iterator[Inequality]:
        """Yield what is known of unknowns in the polynomials: ranges; that rounding moves under a step."""
        rows = [fact for index in _unknowns(polynomials) for fact in self._rounding_facts(index)]
        yield from rows
        monomials = {m for p in [*polynomials, *(row.polynomial for row in rows)] for m in p.terms if m}
        for monomial in sorted(monomials):
            least, most = self._product_bounds(monomial)
            term = Polynomial({monomial: 1})
            if least is not None:
                yield Inequality(Polynomial({(): least}) - term if least else -term)
            if most is not None:
                yield Inequality(term - Polynomial({(): most}) if most else term)

    def is_above_zero(self, index: int) -> bool:
        """Whether an unknown is above 0 by its range."""
        least, _ = self._bounds[index]
        return least is not None and least > 0

    def _new(self, atom: Atom, bounds: Bounds) -> int:
        self._others += not isinstance(atom, str)
        if self._others > MOST_ATOMS:
            raise TooLongError
        self.atoms.append(atom)
        self._bounds[len(self.atoms) - 1] = bounds
        return len(self.atoms) - 1

    def _are_same_set(self, some: tuple[Ratio, ...], others: tuple[Ratio, ...]) -> bool:
        return len(some) == len(others) and all(any(self.are_equal(a, b) for b in others) for a in some)

    def _square_in(self, monomial: Monomial) -> int | None:
        for index, exponent in monomial:
            if exponent > 1 and isinstance(self.atoms[index], Rooted):
                return index
        return None

    def _once_reduced(self, monomial: Monomial) -> Polynomial:
        root = self._square_in(monomial)
        assert root is not None
        atom = self.atoms[root]
        assert isinstance(atom, Rooted)
        exponent = dict(monomial)[root]
        rest = tuple((index, own % 2 if index == root else own) for index, own in monomial)
        return atom.of ** (exponent // 2) * Polynomial({tuple(pair for pair in rest if pair[1]): 1})

    def _rounding_facts(self, index: int) -> Iterator[Inequality]:
        """Rounded up, count ≤ n < count + 1; both times the denominator of count, where that is above 0."""
        atom = self.atoms[index]
        if not isinstance(atom, Steps) or not self._is_above_zero(atom.count.denominator):
            return
        below, above = atom.count.numerator, unknown(index) * atom.count.denominator
        if atom.way == "down":
            below, above = above, below
        yield Inequality(below - above)
        yield Inequality(above - below - atom.count.denominator, strict=True)

    def _is_above_zero(self, polynomial: Polynomial) -> bool:
        return all(
            number > 0 and all(self.is_above_zero(index) for index, _ in monomial)
            for monomial, number in polynomial.terms.items()
        )

    def _product_bounds(self, monomial: Monomial) -> Bounds:
        least: Fraction = Fraction(1)
        most: Fraction | None = Fraction(1)
        for index, exponent in monomial:
            low, high = self._bounds[index]
            if len(monomial) == 1 and exponent == 1:
                return low, high
            if low is None or low < 0:
                return (Fraction(0) if all(e % 2 == 0 for _, e in monomial) else None), None
            least *= low**exponent
            most = None if high is None or most is None else most * high**exponent
        return least, most


def _unknowns(polynomials: Iterable[Polynomial]) -> list[int]:
    return sorted({index for polynomial in polynomials for index in polynomial.unknowns})


def _around(number: Fraction) -> Bounds:
    return number, number + Fraction(1, _PLACES)
