"""What the tests of layouts share: small questions, and what every layout must be."""

from collections.abc import Sequence
from itertools import combinations

from hypothesis import strategies as st

from patterns.cutting.sheets import Layout, Rectangle, Sheet

sides = st.integers(1, 8)
rectangles = st.builds(Rectangle, sides, sides, st.booleans())
sheets = st.lists(st.builds(Sheet, st.integers(2, 9), st.integers(2, 9)), min_size=1, max_size=3)


def some_rectangles(most: int) -> st.SearchStrategy[list[Rectangle]]:
    return st.lists(rectangles, min_size=1, max_size=most)


def assert_is_layout(layout: Layout, pieces: Sequence[Rectangle], on: Sequence[Sheet]) -> None:
    """Every piece lies once, within its sheet, turned only if it may be, and no two overlap."""
    assert [each.piece for each in layout] == list(range(len(pieces)))
    for each, piece in zip(layout, pieces, strict=True):
        upright = (piece.width, piece.height)
        assert (each.width, each.height) == (upright[::-1] if each.turned else upright)
        assert piece.turns or not each.turned
        assert each.x >= 0
        assert each.y >= 0
        assert each.x + each.width <= on[each.sheet].width
        assert each.y + each.height <= on[each.sheet].height
    for one, other in combinations(layout, 2):
        assert (
            one.sheet != other.sheet
            or one.x + one.width <= other.x
            or other.x + other.width <= one.x
            or one.y + one.height <= other.y
            or other.y + other.height <= one.y
        )
