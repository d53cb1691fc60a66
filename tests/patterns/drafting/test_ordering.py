import pytest

from patterns.drafting.ordering import CircleError, in_order
from tests.recipes import formula


def test_each_comes_after_those_it_reads():
    formulas = {"c": formula("a + b"), "b": formula("a + width"), "a": formula("width")}
    assert [name for name, _ in in_order(formulas)] == ["a", "b", "c"]


def test_a_circle_is_spelled_out():
    formulas = {"a": formula("b + 1"), "b": formula("c"), "c": formula("a")}
    with pytest.raises(CircleError) as error:
        in_order(formulas)
    assert str(error.value) == (
        "“a” → “b” → “c” → “a” go round in a circle. Work one of them out from measures alone."
    )


def test_a_formula_that_reads_itself_is_a_circle():
    with pytest.raises(CircleError, match="“a” → “a” go round"):
        in_order({"a": formula("a + width")})
