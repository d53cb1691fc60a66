"""Which way a formula goes while one measure rises, told from its tree alone, so that it is true everywhere.

A search that knows it need not try every size. What cannot be told is simply not known.
"""

from collections.abc import Mapping
from enum import IntEnum
from typing import NamedTuple, assert_never

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
from .values import Value


class Sign(IntEnum):
    """What is known of a value's sign."""

    UNKNOWN = 0
    NOT_BELOW_0 = 1
    ABOVE_0 = 2


class Trend(NamedTuple):
    """rises: it never falls. falls: it never rises. Both: it stands still. Neither: not known.

    Where either is said, the formula has a value everywhere.
    """

    rises: bool
    falls: bool
    sign: Sign

    @property
    def stands_still(self) -> bool:
        return self.rises and self.falls


NOT_KNOWN = Trend(False, False, Sign.UNKNOWN)


def trend(node: Node, of: Mapping[str, Trend]) -> Trend:
    """Return which way a formula goes. of: the trend of each name; one that is missing is not known.

    >>> from .grammar import read
    >>> of = {"height": Trend(True, True, Sign.ABOVE_0), "depth": Trend(True, False, Sign.ABOVE_0)}
    >>> trend(read("height − depth ÷ 2"), of)
    Trend(rises=False, falls=True, sign=<Sign.UNKNOWN: 0>)
    """
    match node:
        case Number(value):
            return Trend(True, True, sign_of(value))
        case Pi():
            return Trend(True, True, Sign.ABOVE_0)
        case Name(text):
            return of.get(text, NOT_KNOWN)
        case Negative(inner):
            return _turned(trend(inner, of))
        case Sum(left, right):
            return _sum(trend(left, of), trend(right, of))
        case Difference(left, right):
            return _sum(trend(left, of), _turned(trend(right, of)))
        case Product(left, right):
            return _product(trend(left, of), trend(right, of))
        case Quotient(left, right):
            return _quotient(trend(left, of), trend(right, of))
        case Power(inner) | Root(inner):
            base = trend(inner, of)
            return base if base.sign else NOT_KNOWN  # of less than nothing: a square turns, a root is none
        case Choice(which, among):
            parts = [trend(part, of) for part in among]
            rises, falls = all(part.rises for part in parts), all(part.falls for part in parts)
            signs = [part.sign for part in parts]
            return Trend(rises, falls, min(signs) if which == "smaller" else max(signs))
        case Rounding(way, inner, step):
            rounded, steps = trend(inner, of), trend(step, of)
            if not (steps.stands_still and steps.sign is Sign.ABOVE_0):
                return NOT_KNOWN
            sign = rounded.sign if way == "up" else min(rounded.sign, Sign.NOT_BELOW_0)
            return Trend(rounded.rises, rounded.falls, sign)
        case Comparison() | Both() | Either():
            return NOT_KNOWN
        case _:
            assert_never(node)


def sign_of(value: Value) -> Sign:
    """Return the sign of a number that is known; of none, or of yes or no, it is not known."""
    if value is None or isinstance(value, bool) or value < 0:
        return Sign.UNKNOWN
    return Sign.ABOVE_0 if value else Sign.NOT_BELOW_0


def _turned(one: Trend) -> Trend:
    return Trend(one.falls, one.rises, Sign.UNKNOWN)


def _sum(left: Trend, right: Trend) -> Trend:
    sign = max(left.sign, right.sign) if left.sign and right.sign else Sign.UNKNOWN
    return Trend(left.rises and right.rises, left.falls and right.falls, sign)


def _product(left: Trend, right: Trend) -> Trend:
    if left.sign and right.sign:
        return Trend(left.rises and right.rises, left.falls and right.falls, min(left.sign, right.sign))
    for fixed, other in ((left, right), (right, left)):
        if fixed.stands_still and fixed.sign:
            return Trend(other.rises, other.falls, Sign.UNKNOWN)
    return NOT_KNOWN


def _quotient(left: Trend, right: Trend) -> Trend:
    if right.sign is not Sign.ABOVE_0:
        return NOT_KNOWN
    if left.sign:
        return Trend(left.rises and right.falls, left.falls and right.rises, left.sign)
    return Trend(left.rises, left.falls, Sign.UNKNOWN) if right.stands_still else NOT_KNOWN
