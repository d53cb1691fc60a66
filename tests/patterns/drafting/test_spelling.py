import pytest

from patterns.drafting.spelling import LONGEST, nearest_spelling

KNOWN = ["width", "height", "depth", "seam allowance", "zip seam allowance", "folds", "a"]


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("widht", "width"),
        ("hieght", "height"),
        ("dept", "depth"),
        ("seam allowence", "seam allowance"),
        ("seamallowance", "seam allowance"),
        ("fold", "folds"),
        ("a", "a"),
    ],
)
def test_a_slip_is_met(typed, meant):
    assert nearest_spelling(typed, KNOWN) == meant


@pytest.mark.parametrize("typed", ["b", "reveal", "length", "pocket drop", "", "width" * LONGEST])
def test_another_word_is_left_alone(typed):
    assert nearest_spelling(typed, KNOWN) is None


def test_of_two_alike_the_first_is_taken():
    assert nearest_spelling("one wey", ["one way", "one wax"]) == "one way"


def test_nothing_is_known():
    assert nearest_spelling("width", []) is None
