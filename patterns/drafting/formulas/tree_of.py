"""A formula tree for a fraction of polynomials, as a person would write it."""

from collections.abc import Sequence
from fractions import Fraction
from functools import reduce

from patterns.drafting.units import MILLIMETRES

from .atoms import MM, PI, Atoms, Chosen, Rooted, Steps
from .polynomial import ONE, Monomial, Polynomial, TooLongError
from .ratio import Ratio
from .tree import (
    Choice,
    Difference,
    Name,
    Negative,
    Node,
    Number,
    Pi,
    Power,
    Product,
    Quotient,
    Root,
    Rounding,
    Sum,
)

# Nobody reads a longer difference; and a reader of trees goes as deep as a tree does.
MOST_PARTS = 200
# Above the number of any atom, so that width × depth sorts before width.
_END = 10**9


def tree_of(ratio: Ratio, atoms: Atoms, unit: str = "mm") -> Node:
    """Return the formula: terms in the order of the atoms, numbers last, lengths in the unit.

    Raises TooLongError: more parts than anyone would read.
    """
    return _Writer(atoms, unit).ratio(ratio)


class _Writer:
    def __init__(self, atoms: Atoms, unit: str) -> None:
        self.atoms = atoms
        self.unit = unit
        self.parts = 0

    def ratio(self, ratio: Ratio) -> Node:
        numerator = self.polynomial(ratio.numerator)
        if ratio.denominator == ONE:
            return numerator
        return Quotient(numerator, self.polynomial(ratio.denominator))

    def polynomial(self, polynomial: Polynomial) -> Node:
        monomials = sorted(polynomial.terms, key=_reading_order)
        terms = [(polynomial.terms[monomial] < 0, self.term(monomial, polynomial)) for monomial in monomials]
        if not terms:
            return Number(Fraction(0))
        (is_negative, total), *others = terms
        total = _negative(total) if is_negative else total
        for is_negative, term in others:
            total = Difference(total, term) if is_negative else Sum(total, term)
        return total

    def term(self, monomial: Monomial, polynomial: Polynomial) -> Node:
        """Return the term without its sign: 3 × depth ÷ 2."""
        self.parts += 1 + len(monomial)
        if self.parts > MOST_PARTS:
            raise TooLongError
        exponents = dict(monomial)
        size, factors = self.steps(abs(Fraction(polynomial.terms[monomial])), exponents)
        lengths = exponents.pop(MM, 0)
        factors = [
            *(self.factor(index, exponent) for index, exponent in sorted(exponents.items()) if exponent),
            *factors,
        ]
        if lengths:
            size /= MILLIMETRES[self.unit] ** lengths
            numbers = [Number(size, self.unit), *[Number(Fraction(1), self.unit)] * (lengths - 1)]
            return reduce(Product, [*numbers, *factors])
        return _times(size, factors)

    def steps(self, size: Fraction, exponents: dict[int, int]) -> tuple[Fraction, list[Node]]:
        """Write steps × number of steps as the rounding that it came from, and take both out of the term."""
        factors: list[Node] = []
        for index in [index for index in exponents if isinstance(self.atoms.atoms[index], Steps)]:
            atom = self.atoms.atoms[index]
            assert isinstance(atom, Steps)
            rounding = Rounding(atom.way, self.ratio(atom.count * atom.step), self.ratio(atom.step))
            for _ in range(exponents.pop(index)):
                taken = _taken(atom.step, size, exponents)
                if taken is None:
                    factors.append(Quotient(rounding, rounding.step))
                else:
                    size = taken
                    factors.append(rounding)
        return size, factors

    def factor(self, index: int, exponent: int) -> Node:
        base = self.atom(index)
        powers: list[Node] = [Power(base, 3)] * (exponent // 3)
        if exponent % 3:
            powers.append(base if exponent % 3 == 1 else Power(base, 2))
        return reduce(Product, powers)

    def atom(self, index: int) -> Node:
        atom = self.atoms.atoms[index]
        if index == PI:
            return Pi()
        if isinstance(atom, str):
            return Name(atom)
        if isinstance(atom, Rooted):
            return Root(self.polynomial(atom.of))
        assert isinstance(atom, Chosen)
        return Choice(atom.which, tuple(self.ratio(part) for part in atom.among))


def _reading_order(monomial: Monomial) -> tuple[bool, tuple[int, ...]]:
    """By the names; width × depth before width, π × width too; what holds no name last."""
    indexes = [index for index, exponent in monomial for _ in range(exponent) if index not in (MM, PI)]
    return not indexes, (*indexes, _END, -len(monomial))


def _times(size: Fraction, factors: Sequence[Node]) -> Node:
    """Return 3 × depth ÷ 2 for 3/2 and depth."""
    if not factors:
        return Number(size)
    over = [] if size.numerator == 1 else [Number(Fraction(size.numerator))]
    product = reduce(Product, [*over, *factors])
    return product if size.denominator == 1 else Quotient(product, Number(Fraction(size.denominator)))


def _negative(term: Node) -> Node:
    """Put the minus before the first factor, where it needs no bracket."""
    if isinstance(term, Product):
        return Product(_negative(term.left), term.right)
    if isinstance(term, Quotient):
        return Quotient(_negative(term.left), term.right)
    return Negative(term)


def _taken(step: Ratio, size: Fraction, exponents: dict[int, int]) -> Fraction | None:
    """Take one step out of a term, if the step is one term and is in it; return the number that stays."""
    if step.denominator != ONE or len(step.numerator.terms) != 1:
        return None
    [(monomial, number)] = step.numerator.terms.items()
    if any(exponents.get(index, 0) < exponent for index, exponent in monomial):
        return None
    for index, exponent in monomial:
        exponents[index] -= exponent
    return size / number
