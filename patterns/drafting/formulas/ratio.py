"""Fractions of polynomials: every formula without roundings, roots and choices is exactly one."""

from dataclasses import dataclass
from fractions import Fraction

from .polynomial import ONE, ZERO, Coefficient, Polynomial, constant

# Long division of longer ones costs more than the shorter spelling is worth; nothing depends on it.
MOST_TERMS_DIVIDED = 40


@dataclass(frozen=True, slots=True)
class Ratio:
    """numerator ÷ denominator. Not always in lowest terms: compare two by `difference`.

    denominator: not 0; whole coefficients without a common factor, the leading one above 0; so 1 if a number.
    """

    numerator: Polynomial
    denominator: Polynomial = ONE

    def __add__(self, other: "Ratio") -> "Ratio":
        if self.denominator == other.denominator:
            total = self.numerator + other.numerator
            return Ratio(total) if self.denominator == ONE else ratio(total, self.denominator)
        mine, theirs = _completed(self.denominator, other.denominator)
        return ratio(self.numerator * mine + other.numerator * theirs, self.denominator * mine)

    def __neg__(self) -> "Ratio":
        return Ratio(-self.numerator, self.denominator)

    def __sub__(self, other: "Ratio") -> "Ratio":
        return self + -other

    def __mul__(self, other: "Ratio") -> "Ratio":
        product = self.numerator * other.numerator
        if self.denominator == ONE == other.denominator:
            return Ratio(product)
        return ratio(product, self.denominator * other.denominator)

    def __truediv__(self, other: "Ratio") -> "Ratio":
        """Raises ZeroDivisionError if other is 0."""
        return ratio(self.numerator * other.denominator, self.denominator * other.numerator)

    @property
    def lengths(self) -> tuple[int, int]:
        """How many terms stand over and under the line."""
        return len(self.numerator.terms), len(self.denominator.terms)

    @property
    def number(self) -> Coefficient | None:
        """Its value if it is a plain number, else None."""
        return self.numerator.number if self.denominator == ONE else None


def ratio(numerator: Polynomial, denominator: Polynomial) -> Ratio:
    """Return numerator ÷ denominator, with what is easily seen cancelled.

    Raises ZeroDivisionError.
    """
    number = denominator.number
    if number is not None:
        return Ratio(numerator.scaled(Fraction(1) / number))
    if not numerator:
        return Ratio(ZERO)
    numerator, denominator = _without_common_monomial(numerator, denominator)
    if len(numerator.terms) + len(denominator.terms) <= MOST_TERMS_DIVIDED:
        numerator, denominator = _divided(numerator, denominator)
    content = denominator.content()
    if denominator.terms[denominator.leading()] < 0:
        content = -content
    return Ratio(numerator.scaled(1 / content), denominator.scaled(1 / content))


def number_ratio(number: Coefficient) -> Ratio:
    return Ratio(constant(number))


def _without_common_monomial(one: Polynomial, other: Polynomial) -> tuple[Polynomial, Polynomial]:
    shared = dict(other.common_monomial())
    if not shared:
        return one, other
    common = tuple(
        (index, min(exponent, shared[index])) for index, exponent in one.common_monomial() if index in shared
    )
    return one.over(common), other.over(common)


def _divided(numerator: Polynomial, denominator: Polynomial) -> tuple[Polynomial, Polynomial]:
    """Divide one by the other where that leaves nothing over."""
    quotient = numerator.divided(denominator)
    if quotient is not None:
        return quotient, ONE
    inverse = denominator.divided(numerator)
    return (numerator, denominator) if inverse is None else (ONE, inverse)


def _completed(one: Polynomial, other: Polynomial) -> tuple[Polynomial, Polynomial]:
    """Return what each must be multiplied by to give the same polynomial."""
    if one == ONE:
        return other, ONE
    if other == ONE:
        return ONE, one
    if len(one.terms) + len(other.terms) <= MOST_TERMS_DIVIDED:
        if (quotient := one.divided(other)) is not None:
            return ONE, quotient
        if (quotient := other.divided(one)) is not None:
            return quotient, ONE
    return other, one
