import pytest
from hypothesis import given, settings

from patterns.cutting.bounds import excluded
from patterns.cutting.laying import lay
from patterns.cutting.settling import every_layout
from patterns.cutting.sheets import Rectangle, Sheet

from .layouts import sheets, some_rectangles


@settings(deadline=None)
@given(some_rectangles(10), sheets)
def test_what_is_laid_is_never_excluded(pieces, on):
    """As many of the pieces as can be laid."""
    while pieces and lay(pieces, on) is None:
        pieces.pop()
    assert excluded(pieces, on) is None


@settings(deadline=None)
@given(some_rectangles(4), sheets)
def test_what_has_a_layout_at_all_is_not_excluded(pieces, on):
    if isinstance(every_layout(pieces, on, most_states=100_000), tuple):
        assert excluded(pieces, on) is None


@pytest.mark.parametrize(
    ("pieces", "reason"),
    [
        ([Rectangle(10, 1)], "too large"),
        ([Rectangle(9, 7, turns=False)], "too large"),
        ([Rectangle(7, 5), Rectangle(8, 4)], "area"),
        # Each is longer than half the sheet both ways: one on top of the other, they are too much.
        ([Rectangle(5, 5), Rectangle(5, 5)], "stretched"),
        ([Rectangle(7, 9)], None),
        ([Rectangle(7, 4), Rectangle(7, 5)], None),
    ],
)
def test_reasons(pieces, reason):
    """On a sheet of 7 × 9."""
    on = [Sheet(7, 9)]
    assert excluded(pieces, on) == reason


def test_an_outline_proves_nothing_by_its_area():
    """Two boxes of 5 × 5 with their corners cut out may lie in each other's corners."""
    full, cut_out = Rectangle(5, 5), Rectangle(5, 5, is_full=False)
    assert excluded([full] * 3, [Sheet(7, 9)]) == "area"
    assert excluded([cut_out] * 3, [Sheet(7, 9)]) is None
    assert excluded([Rectangle(10, 5, is_full=False)], [Sheet(7, 9)]) == "too large"
