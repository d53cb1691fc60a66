import pytest

from patterns.drafting.ordering import CircleError, in_order, sorted_out
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


@pytest.mark.parametrize(
    ("reads", "order", "circles"),
    [
        ({}, (), ()),
        ({"a": ["b", "width"], "b": ["c"], "c": []}, ("c", "b", "a"), ()),
        ({"a": ["a"]}, ("a",), (("a",),)),
        ({"a": ["b"], "b": ["c"], "c": ["b"]}, ("c", "b", "a"), (("b", "c"),)),
        ({"a": ["b"], "b": ["a"], "c": ["d"], "d": ["c"]}, ("b", "a", "d", "c"), (("a", "b"), ("c", "d"))),
        # One circle behind another shows when that is mended.
        ({"a": ["b"], "b": ["a", "c"], "c": ["b"]}, ("c", "b", "a"), (("a", "b"),)),
    ],
)
def test_all_circles_are_found_and_the_others_are_in_order(reads, order, circles):
    assert sorted_out(reads) == (order, circles)


def test_a_chain_of_any_length_has_an_order():
    reads = {str(number): [str(number + 1)] for number in range(5_000)}
    assert sorted_out(reads)[0] == tuple(map(str, reversed(range(5_000))))
