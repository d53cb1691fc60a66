from hypothesis import given
from hypothesis import strategies as st

from patterns.drawings.geometry import Box, Spot
from patterns.drawings.labels import Block, TextLine, corners_near, first_free, spread, wrapped
from patterns.drawings.metrics import text_width

BLOCK = Block((TextLine("middle fold", 2900), TextLine("9 in from the top", 2900)))


def test_block_is_as_wide_as_its_widest_line() -> None:
    assert BLOCK.width == text_width("9 in from the top", 2900)
    assert BLOCK.height == 2 * 3422


def test_block_stands_by_its_left_edge_its_middle_or_its_right_edge() -> None:
    width = BLOCK.width
    assert BLOCK.at(50_000, 0).box.left == 50_000
    assert BLOCK.at(50_000, 0, "middle").box.left == 50_000 - width // 2
    assert BLOCK.at(50_000, 0, "end").box.right == 50_000


def test_words_are_wrapped_and_a_long_one_is_cut() -> None:
    lines = [line.text for line in wrapped("front pleat line of aaaaaaaaaaaaaaaaaaaa", 3000, 15_000)]
    assert lines == ["front pleat", "line of", "aaaaaaaaa", "aaaaaaaaa", "aa"]


def test_first_free_passes_over_what_is_taken_or_outside() -> None:
    page = Box(0, 0, 100_000, 100_000)
    corners = [Spot(90_000, 0), Spot(0, 0), Spot(0, 50_000)]
    placed = first_free(BLOCK, corners, [Box(0, 0, 10_000, 10_000)], page)
    assert placed is not None
    assert placed.box[:2] == (0, 50_000)
    assert first_free(BLOCK, corners[:2], [Box(0, 0, 10_000, 10_000)], page) is None


def test_corners_near_keep_off_the_thing() -> None:
    thing = Box(40_000, 40_000, 42_000, 42_000)
    for corner in corners_near(BLOCK, thing, 1000, 3):
        assert not BLOCK.at(*corner).box.overlaps(thing)


def test_spread_leaves_alone_what_does_not_touch() -> None:
    assert spread([10, 50], [6, 6], 2, 0) == [7, 47]


def test_spread_parts_what_touches_round_the_middle() -> None:
    assert spread([50, 50], [10, 10], 2, 0) == [39, 51]


@given(
    st.lists(st.tuples(st.integers(0, 10**5), st.integers(1000, 9000)), max_size=12),
    st.integers(-5000, 5000),
)
def test_spread_labels_never_touch_and_keep_their_order(labels: list[tuple[int, int]], top: int) -> None:
    wanted, heights = [sorted(middle for middle, _ in labels), [height for _, height in labels]]
    tops = spread(wanted, heights, 1300, top)
    assert all(place >= top for place in tops)
    for place, height, following in zip(tops, heights, tops[1:], strict=False):
        assert following >= place + height + 1300
