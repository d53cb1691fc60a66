from collections.abc import Callable
from fractions import Fraction
from typing import get_args

import pytest

from patterns.drafting.errors import FormulaError
from patterns.drafting.formulas.blanks import blanks
from patterns.drafting.formulas.dimensions import kind_of
from patterns.drafting.formulas.evaluate import evaluate
from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.identity import identity
from patterns.drafting.formulas.literals import literals
from patterns.drafting.formulas.names import names
from patterns.drafting.formulas.put_in import put_in
from patterns.drafting.formulas.spell import spell
from patterns.drafting.formulas.tree import (
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
from patterns.drafting.formulas.trend import trend
from patterns.drafting.formulas.working import working
from patterns.drafting.units import Units

A, B = Name("width"), Name("height")
ONE_OF_EACH = {
    Number: Number(Fraction(3, 2), "in"),
    Pi: Pi(),
    Name: A,
    Negative: Negative(A),
    Sum: Sum(A, B),
    Difference: Difference(A, B),
    Product: Product(A, B),
    Quotient: Quotient(A, B),
    Power: Power(A, 2),
    Root: Root(Product(A, B)),
    Choice: Choice("smaller", (A, B)),
    Rounding: Rounding("up", A, B),
    Comparison: Comparison("<", A, B),
    Both: Both(Comparison("<", A, B), Comparison("=", A, B)),
    Either: Either(Comparison("<", A, B), Comparison("=", A, B)),
}
VALUES = {"width": Fraction(5), "height": Fraction(2)}
POWERS = {"width": 1, "height": 1}


def compared(node: Node) -> str:
    try:
        return identity(node, node, {}).result
    except FormulaError as error:
        return str(error)


READERS: dict[str, Callable[[Node], object]] = {
    "names": names,
    "literals": literals,
    "spell": spell,
    "text": lambda node: read(spell(node)),
    "evaluate": lambda node: evaluate(node, VALUES),
    "dimensions": lambda node: kind_of(node, POWERS),
    "working": lambda node: working(node, VALUES, POWERS, Units.INCHES, 1),
    "identity": compared,
    "put in": lambda node: put_in(node, Name),
    "blanks": lambda node: blanks(node, {}),
    "trend": lambda node: trend(node, {}),
}


def test_there_is_one_of_each_kind():
    assert set(ONE_OF_EACH) == set(get_args(Node))


@pytest.mark.parametrize("kind", get_args(Node), ids=lambda kind: kind.__name__)
@pytest.mark.parametrize("reader", READERS)
def test_every_reader_knows_every_kind(reader, kind):
    assert READERS[reader](ONE_OF_EACH[kind]) is not None


@pytest.mark.parametrize(
    "reader", ["names", "literals", "spell", "evaluate", "dimensions", "identity", "put in", "trend"]
)
def test_a_new_kind_is_never_guessed_at(reader):
    with pytest.raises((AssertionError, TypeError, AttributeError)):
        READERS[reader]("no node")  # type: ignore[arg-type]
