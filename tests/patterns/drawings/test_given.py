from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

import pytest

from patterns.drafting.formulas.values import Value
from patterns.drafting.sized import SizedPattern
from patterns.drawings.given import given

Maker = Callable[..., SizedPattern]


def with_value(sized: SizedPattern, value: Value, power: int = 1) -> SizedPattern:
    return replace(
        sized,
        values=MappingProxyType({"handle length": value}),
        powers=MappingProxyType({"handle length": power}),
    )


def test_length_that_the_recipe_names(make_basket: Maker) -> None:
    assert given(with_value(make_basket(), Fraction(610)), "handle length") == 610


@pytest.mark.parametrize("value", [None, Fraction(0), Fraction(-3), Decimal("3.1")])
def test_nothing_that_could_not_be_drawn(make_basket: Maker, value: Value) -> None:
    assert given(with_value(make_basket(), value), "handle length") is None


def test_a_bare_number_is_no_length(make_basket: Maker) -> None:
    assert given(with_value(make_basket(), Fraction(3), power=0), "handle length") is None


def test_none_where_the_recipe_does_not_name_it(make_basket: Maker) -> None:
    assert given(make_basket(), "handle length") is None
