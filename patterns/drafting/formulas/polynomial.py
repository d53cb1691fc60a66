"""Polynomials in several unknowns over exact numbers, and fractions of them: the arithmetic of proofs.

An unknown is only its number here; what it stands for is the subject of `atoms`. Nothing in this
module knows a formula.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, isqrt, lcm
from operator import itemgetter

Coefficient = int | Fraction
"""Whole numbers are kept as int, which Python adds and multiplies some ten times faster."""

Monomial = tuple[tuple[int, int], ...]
"""Unknowns with their exponents, by rising unknown: x₁²x₄ is ((1, 2), (4, 1)); () is 1."""

# A truing of the starters has under 10 terms, the worst honest one seen 40; this many take about 0.1 s.
MOST_TERMS = 10_000
# One product of two long sums may not take much longer than that before its terms are counted.
MOST_PRODUCTS = 40_000
# A value is never above length³; bare numbers of packed formulas stay far below. Keeps spelling bounded.
MOST_EXPONENT = 60
# Values are bounded by 512 bits; coefficients of their products on the way may be some times longer.
MOST_BITS = 4096


class TooLongError(ArithmeticError):
    """A polynomial has outgrown a bound; the proof must do without it."""


@dataclass(frozen=True, slots=True)
class Polynomial:
    """A sum of terms. terms: no coefficient is 0, so that equal polynomials have equal terms."""

    terms: Mapping[Monomial, Coefficient]

    def __bool__(self) -> bool:
        return bool(self.terms)

    def __add__(self, other: "Polynomial") -> "Polynomial":
        terms = dict(self.terms)
        for monomial, coefficient in other.terms.items():
            total = terms.get(monomial, 0) + coefficient
            if total:
                terms[monomial] = total
            else:
                del terms[monomial]
        if len(terms) > MOST_TERMS:
            raise TooLongError
        return Polynomial(terms)

    def __neg__(self) -> "Polynomial":
        return Polynomial({monomial: -coefficient for monomial, coefficient in self.terms.items()})

    def __sub__(self, other: "Polynomial") -> "Polynomial":
        return self + -other

    def __mul__(self, other: "Polynomial") -> "Polynomial":
        if len(self.terms) * len(other.terms) > MOST_PRODUCTS:
            raise TooLongError
        terms: dict[Monomial, Coefficient] = {}
        for left, this in self.terms.items():
            for right, that in other.terms.items():
                monomial = _times(left, right)
                terms[monomial] = terms.get(monomial, 0) + this * that
        return _bounded(terms)

    def __pow__(self, exponent: int) -> "Polynomial":
        power = ONE
        for _ in range(exponent):
            power *= self
        return power

    def scaled(self, by: Coefficient) -> "Polynomial":
        """Return the polynomial times a number that is not 0."""
        if by == 1:
            return self
        return _bounded({monomial: whole(coefficient * by) for monomial, coefficient in self.terms.items()})

    @property
    def number(self) -> Coefficient | None:
        """Its value if it is a plain number, else None."""
        if not self.terms:
            return 0
        return self.terms.get(()) if len(self.terms) == 1 else None

    @property
    def unknowns(self) -> frozenset[int]:
        return frozenset(unknown for monomial in self.terms for unknown, _ in monomial)

    def content(self) -> Fraction:
        """Return the positive number that leaves whole coefficients without a common factor; not for 0.

        >>> Polynomial({((0, 1),): Fraction(3, 2), (): -6}).content()
        Fraction(3, 2)
        """
        numbers = self.terms.values()
        return Fraction(gcd(*(c.numerator for c in numbers)), lcm(*(c.denominator for c in numbers)))

    def common_monomial(self) -> Monomial:
        """Return the highest monomial that divides every term; not for 0."""
        first, *others = (dict(monomial) for monomial in self.terms)
        shared = {unknown: min([e, *(o.get(unknown, 0) for o in others)]) for unknown, e in first.items()}
        return tuple((unknown, exponent) for unknown, exponent in shared.items() if exponent)

    def over(self, monomial: Monomial) -> "Polynomial":
        """Return the polynomial divided by a monomial that divides every term."""
        if not monomial:
            return self
        return Polynomial({_without(own, monomial): number for own, number in self.terms.items()})

    def split(self, by: Monomial) -> dict[Monomial, Coefficient]:
        """Return the terms that a monomial divides, divided by it."""
        quotients = ((_quotient(monomial, by), number) for monomial, number in self.terms.items())
        return {quotient: number for quotient, number in quotients if quotient is not None}

    def leading(self) -> Monomial:
        """Return the highest monomial: by whole degree first, then by the unknowns; not for 0."""
        return max(self.terms, key=_rank)

    def last(self) -> Monomial:
        """Return the lowest monomial; not for 0."""
        return min(self.terms, key=_rank)

    def divided(self, by: "Polynomial") -> "Polynomial | None":
        """Return self ÷ by where that leaves no remainder, else None; by is not 0.

        Long division by leading terms: if by divides self, the leading term of by divides that
        of every remainder, so the first one that it does not divide ends the search.
        """
        first = by.leading()
        quotient, rest = ZERO, self
        while rest:
            highest = rest.leading()
            step = _quotient(highest, first)
            if step is None:
                return None
            part = Polynomial({step: whole(Fraction(rest.terms[highest]) / by.terms[first])})
            quotient, rest = quotient + part, rest - part * by
        return quotient

    def square_root(self) -> "Polynomial | None":
        """Return the polynomial whose square this is (of the two, the one that leads with +), else None.

        Written out by leading terms, as a root is by hand: each next term of the root is half the
        remainder's leading term over the root's.
        """
        if not self:
            return ZERO
        first = _root_of_term(self)
        if first is None:
            return None
        root, rest = first, self - first * first
        lead = first.leading()
        while rest:
            highest = rest.leading()
            step = _quotient(highest, lead)
            if step is None or _rank(step) >= _rank(root.last()):
                return None
            part = Polynomial({step: whole(Fraction(rest.terms[highest]) / (2 * first.terms[lead]))})
            root, rest = root + part, rest - part * (root + root + part)
        return root


def whole(number: Coefficient) -> Coefficient:
    """Return a whole number as int, for speed; any other as it is."""
    return number.numerator if number.denominator == 1 else number


def constant(number: Coefficient) -> Polynomial:
    return Polynomial({(): whole(number)} if number else {})


def unknown(index: int) -> Polynomial:
    return Polynomial({((index, 1),): 1})


def squared_part(number: int) -> tuple[int, tuple[int, ...]]:
    """Return (k, rest) with number = k² × the product of rest: primes below 1,000, and perhaps one more.

    number: above 0. The one more may hide a square of large primes. Then a root is not recognised: an
    equality may go unproved, and nothing worse.
    """
    outside, inside = 1, []
    for prime in SMALL_PRIMES:
        while number % (prime * prime) == 0:
            number //= prime * prime
            outside *= prime
        if number % prime == 0:
            number //= prime
            inside.append(prime)
    root = isqrt(number)
    if root * root == number:
        return outside * root, tuple(inside)
    return outside, (*inside, number)


ZERO = Polynomial({})
ONE = Polynomial({(): 1})
SMALL_PRIMES = [n for n in range(2, 1000) if all(n % d for d in range(2, isqrt(n) + 1))]


def _bounded(terms: dict[Monomial, Coefficient]) -> Polynomial:
    kept = {monomial: number for monomial, number in terms.items() if number}
    if len(kept) > MOST_TERMS:
        raise TooLongError
    for number in kept.values():
        if number.numerator.bit_length() > MOST_BITS or number.denominator.bit_length() > MOST_BITS:
            raise TooLongError
    return Polynomial(kept)


def _times(left: Monomial, right: Monomial) -> Monomial:
    if not left:
        return right
    if not right:
        return left
    exponents = dict(left)
    for index, exponent in right:
        exponents[index] = exponents.get(index, 0) + exponent
        if exponents[index] > MOST_EXPONENT:
            raise TooLongError
    return tuple(sorted(exponents.items()))


def _without(monomial: Monomial, part: Monomial) -> Monomial:
    taken = dict(part)
    left = ((index, exponent - taken.get(index, 0)) for index, exponent in monomial)
    return tuple((index, exponent) for index, exponent in left if exponent)


def _quotient(monomial: Monomial, by: Monomial) -> Monomial | None:
    own = dict(monomial)
    if any(own.get(index, 0) < exponent for index, exponent in by):
        return None
    return _without(monomial, by)


def _rank(monomial: Monomial) -> tuple[int, tuple[tuple[int, int], ...]]:
    """Graded order: it keeps to products, so leading terms multiply to leading terms."""
    return sum(map(itemgetter(1), monomial)), tuple((-index, exponent) for index, exponent in monomial)


def _root_of_term(polynomial: Polynomial) -> Polynomial | None:
    monomial = polynomial.leading()
    number = Fraction(polynomial.terms[monomial])
    if number < 0 or any(exponent % 2 for _, exponent in monomial):
        return None
    over, under = isqrt(number.numerator), isqrt(number.denominator)
    if over * over != number.numerator or under * under != number.denominator:
        return None
    return Polynomial({tuple((i, e // 2) for i, e in monomial): whole(Fraction(over, under))})
