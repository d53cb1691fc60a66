"""The normal form of a formula: a fraction of polynomials in `atoms`."""

from collections.abc import Sequence
from fractions import Fraction
from functools import reduce
from math import ceil, floor
from typing import Literal, assert_never

from patterns.drafting.errors import FormulaError, Mistake
from patterns.drafting.units import MILLIMETRES

from .atoms import MM, PI, Atoms
from .inequalities import Inequality, contradict
from .polynomial import ONE, ZERO, Polynomial, constant, squared_part, unknown
from .ratio import Ratio, number_ratio
from .tree import (
    Both,
    Choice,
    Comparison,
    Difference,
    Either,
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

# Adding or multiplying this many terms takes about as long as looking at one inequality.
TERMS_FOR_EFFORT = 20

Assumed = tuple[tuple[Polynomial, bool], ...]
"""Polynomials, and whether each is taken to be above 0 (else it is at most 0)."""


class NoValueError(ArithmeticError):
    """The formula has no value at any size: ÷ 0, a root of less than 0, rounding to a step of 0 or less."""


class Fork(Exception):  # noqa: N818 (no error: a question that is to be asked both ways)
    """The proof depends on whether a polynomial is above 0."""

    def __init__(self, polynomial: Polynomial) -> None:
        self.polynomial = polynomial


class Signs:
    """Says which polynomials are above 0, from what is known and what is assumed.

    may_fork: raise Fork where neither can be shown; else the answer is None, and `was_unsure` is set.
    """

    def __init__(self, atoms: Atoms, assumed: Assumed = (), *, may_fork: bool = False) -> None:
        self.atoms = atoms
        self.assumed = assumed
        self.may_fork = may_fork
        self.was_unsure = False

    def is_at_least_zero(self, polynomial: Polynomial) -> bool | None:
        """Return True only of what is ≥ 0, False only of what is ≤ 0; of 0 it is the one or the other.

        p and −p are one question: else the cases would part at 0, where p and −p look unlike.
        """
        polynomial = self.atoms.reduced(polynomial)
        number = polynomial.number
        if number is not None:
            return number >= 0
        if polynomial.terms[polynomial.leading()] < 0:
            opposite = self._is_at_least_zero(-polynomial)
            return None if opposite is None else not opposite
        return self._is_at_least_zero(polynomial)

    def _is_at_least_zero(self, polynomial: Polynomial) -> bool | None:
        if self.excludes(Inequality(polynomial, strict=True)):
            return True
        if self.excludes(Inequality(-polynomial, strict=True)):
            return False
        self.was_unsure = True
        if self.may_fork:
            raise Fork(polynomial)
        return None

    def excludes(self, row: Inequality) -> bool:
        """Whether the inequality contradicts what is known and assumed."""
        rows = [row, *(_as_row(*assumption) for assumption in self.assumed)]
        rows += [Inequality(self._without_positive_factors(each.polynomial), each.strict) for each in rows]
        return contradict([*rows, *self.atoms.facts([row.polynomial for row in rows])], self.atoms.effort)

    def is_zero(self, polynomial: Polynomial) -> bool:
        """Whether it is 0 in itself, or can be neither above nor below 0 by what is known and assumed."""
        polynomial = self.atoms.reduced(polynomial)
        if not polynomial:
            return True
        above, below = Inequality(-polynomial, strict=True), Inequality(polynomial, strict=True)
        return self.excludes(above) and self.excludes(below)

    def _without_positive_factors(self, polynomial: Polynomial) -> Polynomial:
        """Keep the sign: so π × width > 0, another monomial, says that width > 0, and the other way about."""
        if not polynomial:
            return polynomial
        common = polynomial.common_monomial()
        return polynomial.over(tuple(pair for pair in common if self.atoms.is_above_zero(pair[0])))


def _as_row(polynomial: Polynomial, is_above_zero: bool) -> Inequality:
    return Inequality(-polynomial, strict=True) if is_above_zero else Inequality(polynomial)


class Normal:
    """Reads trees into normal form.

    known: the normal forms of the names that have a definition.
    unit: the first unit that was read.
    """

    def __init__(self, signs: Signs) -> None:
        self.signs = signs
        self.atoms = signs.atoms
        self.known: dict[str, Ratio] = {}
        self.unit: str | None = None

    def form(self, node: Node) -> Ratio:
        """Return the formula as a fraction of polynomials.

        Raises NoValueError, TooLongError; Fork, if the signs may. FormulaError: it is yes or no.
        """
        match node:
            case Number(value, unit):
                return number_ratio(value) if unit is None else self._length(value, unit)
            case Pi():
                return Ratio(unknown(PI))
            case Name(text):
                return self.known.get(text) or self.atoms.name(text)
            case Negative(of):
                return -self.form(of)
            case Sum(left, right):
                return self._sum(self.form(left), self.form(right))
            case Difference(left, right):
                return self._sum(self.form(left), -self.form(right))
            case Product(left, right):
                return self._product(self.form(left), self.form(right))
            case Quotient(left, right):
                return self._quotient(self.form(left), self.form(right))
            case Power(base, exponent):
                return reduce(self._product, [self.form(base)] * exponent)
            case Root(of):
                return self._root(self.form(of))
            case Choice(which, among):
                return self._choice(which, [self.form(part) for part in among])
            case Rounding(way, of, step):
                return self._rounding(way, self.form(of), self.form(step))
            case Comparison() | Both() | Either():
                raise FormulaError(
                    (Mistake("This is yes or no. Only measurements can be proved equal.", node.at),)
                )
            case _:
                assert_never(node)

    def _length(self, value: Fraction, unit: str) -> Ratio:
        self.unit = self.unit or unit
        return number_ratio(value * MILLIMETRES[unit]) * Ratio(unknown(MM))

    def _sum(self, left: Ratio, right: Ratio) -> Ratio:
        over, under = left.lengths
        others_over, others_under = right.lengths
        terms = over * others_under + others_over * under + under * others_under
        self.atoms.effort.spend(terms // TERMS_FOR_EFFORT)
        return left + right

    def _product(self, left: Ratio, right: Ratio) -> Ratio:
        over, under = left.lengths
        others_over, others_under = right.lengths
        self.atoms.effort.spend((over * others_over + under * others_under) // TERMS_FOR_EFFORT)
        return left * right

    def _quotient(self, left: Ratio, right: Ratio) -> Ratio:
        if not self.atoms.reduced(right.numerator):
            raise NoValueError
        return self._product(left, Ratio(ONE) / right)

    def _choice(self, which: Literal["smaller", "larger"], forms: Sequence[Ratio]) -> Ratio:
        """Keep those that may be the chosen one; of two equal ones the first."""
        left = forms[:1]
        for form in forms[1:]:
            wins = [self._is_chosen(which, other, form) for other in left]
            if True not in wins:
                left = [*(other for other, win in zip(left, wins, strict=True) if win is None), form]
        return left[0] if len(left) == 1 else self.atoms.chosen(which, tuple(left))

    def _is_chosen(self, which: Literal["smaller", "larger"], one: Ratio, other: Ratio) -> bool | None:
        """Whether it may be the first of two, or (False) the second; None where that is open."""
        lead = one - other if which == "larger" else other - one
        return self.signs.is_at_least_zero(_of_same_sign(lead))

    def _rounding(self, way: Literal["up", "down"], form: Ratio, step: Ratio) -> Ratio:
        """Take whole steps out before rounding: round up (a + 3 b, to b) is round up (a, to b) + 3 b."""
        if self.signs.excludes(Inequality(-_of_same_sign(step), strict=True)):
            raise NoValueError
        count = self._quotient(form, step)
        steps = self._whole_part(count)
        rest = count - steps
        number = rest.number
        if number is not None:
            return (steps + number_ratio(ceil(number) if way == "up" else floor(number))) * step
        return (steps + self.atoms.steps(way, rest, step)) * step

    def _whole_part(self, count: Ratio) -> Ratio:
        """Return what is a whole number in itself: whole numbers, and whole multiples of numbers of steps."""
        if len(count.denominator.terms) > 1:
            return Ratio(ZERO)
        parts = count.numerator.split(count.denominator.leading())
        return Ratio(
            Polynomial({m: floor(c) for m, c in parts.items() if self.atoms.is_whole(m) and floor(c)})
        )

    def _root(self, form: Ratio) -> Ratio:
        """√(n ÷ d) is √(n × d) ÷ |d|."""
        under = self.atoms.reduced(_of_same_sign(form))
        if not under:
            return Ratio(ZERO)
        root = self._root_of(under)
        return root if form.denominator == ONE else root / self._size(form.denominator)

    def _root_of(self, under: Polynomial) -> Ratio:
        """Take square factors out: √(8 a² b) is 2 × √2 × |a| × √b."""
        content = under.content()
        square, primes = squared_part(content.numerator * content.denominator)
        outside = Fraction(square, content.denominator)
        primitive = under.scaled(1 / content)
        half = tuple(
            (index, exponent // 2) for index, exponent in primitive.common_monomial() if exponent > 1
        )
        rest = primitive.over(tuple((index, 2 * exponent) for index, exponent in half))
        factors = [
            number_ratio(outside),
            self._size(Polynomial({half: 1})),
            self._root_of_rest(rest, outside, not primes),
        ]
        return reduce(
            Ratio.__mul__, [*factors, *(self.atoms.root(constant(prime), Fraction(1)) for prime in primes)]
        )

    def _root_of_rest(self, rest: Polynomial, outside: Fraction, is_alone: bool) -> Ratio:
        number = rest.number
        if number is not None and number < 0:
            raise NoValueError
        square = rest.square_root()
        if square is not None:
            return self._size(square)
        return self.atoms.root(rest, outside if is_alone else Fraction(1))

    def _size(self, polynomial: Polynomial) -> Ratio:
        """Return |polynomial|."""
        is_at_least_zero = self.signs.is_at_least_zero(polynomial)
        if is_at_least_zero is None:
            return self.atoms.chosen("larger", (Ratio(polynomial), Ratio(-polynomial)))
        return Ratio(polynomial if is_at_least_zero else -polynomial)


def _of_same_sign(form: Ratio) -> Polynomial:
    return form.numerator if form.denominator == ONE else form.numerator * form.denominator
