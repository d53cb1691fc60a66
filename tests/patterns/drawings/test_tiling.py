from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.drawings.geometry import Box, Spot
from patterns.drawings.tiling import (
    AIR,
    GAP,
    OVERLAP,
    Window,
    fits,
    letters,
    meets,
    packed,
    tiled,
)

WINDOW = Window(186_000, 255_000)


def rectangle(width, height, left=0, top=0):
    return (
        Spot(left, top),
        Spot(left + width, top),
        Spot(left + width, top + height),
        Spot(left, top + height),
    )


@pytest.mark.parametrize(
    ("width", "height", "sheets", "is_turned"),
    [
        (150_000, 200_000, 1, False),
        # With half a millimetre of air on either side it just goes in, and just not.
        (185_000, 254_000, 1, False),
        (185_001, 254_000, 2, False),
        (600_000, 900_000, 16, False),
        # Upright 4, a quarter turned 3.
        (700_000, 170_000, 3, True),
    ],
)
def test_fewest_sheets(width, height, sheets, is_turned):
    found = tiled(rectangle(width, height), [WINDOW])
    assert (len(found.tiles), found.is_turned) == (sheets, is_turned)


def test_another_window_is_taken_only_where_it_saves_sheets():
    larger = Window(192_000, 272_000)
    assert tiled(rectangle(150_000, 200_000), [WINDOW, larger]).window == WINDOW
    assert tiled(rectangle(150_000, 260_000), [WINDOW, larger]).window == larger


def test_sheets_of_which_nothing_is_needed_are_left_out():
    """An L of two arms, 170 mm wide each: of 2 × 2 sheets the inner corner's is empty."""
    high = (
        Spot(0, 0),
        Spot(165_000, 0),
        Spot(165_000, 300_000),
        Spot(330_000, 300_000),
        Spot(330_000, 450_000),
    )
    found = tiled((*high, Spot(0, 450_000)), [WINDOW])
    assert len(found.tiles) == 3


@given(st.integers(20_000, 1_500_000), st.integers(20_000, 1_500_000))
def test_sheets_cover_a_rectangle_and_share_the_overlap(width, height):
    found = tiled(rectangle(width, height), [WINDOW])
    assert found.box.holds(Box(0, 0, width, height).grown(AIR))
    rows = {tile.row for tile in found.tiles}
    columns = {tile.column for tile in found.tiles}
    assert len(found.tiles) == len(rows) * len(columns)
    for tile in found.tiles:
        if beside := found.beside(tile, 0, 1):
            assert beside.box.left == tile.box.right - OVERLAP
        if below := found.beside(tile, 1, 0):
            assert below.box.top == tile.box.bottom - OVERLAP
        assert meets(rectangle(width, height), tile.box)


def test_meets_knows_area_from_edge():
    corner = (Spot(0, 0), Spot(10, 0), Spot(10, 4), Spot(4, 4), Spot(4, 10), Spot(0, 10))
    assert meets(corner, Box(2, 2, 6, 6))
    assert not meets(corner, Box(4, 4, 10, 10))
    assert not meets(corner, Box(10, 0, 20, 4))
    assert meets(corner, Box(1, 1, 2, 2))


def test_letters_go_on_after_z():
    assert [letters(row) for row in (0, 1, 25, 26, 27, 52)] == ["A", "B", "Z", "AA", "AB", "BA"]


sides = st.integers(5_000, 180_000)


@given(st.lists(st.builds(Window, sides, sides), max_size=8))
def test_packed_pieces_lie_in_their_rooms_apart(sizes):
    rooms = packed(sizes, WINDOW)
    assert sorted(each.which for room in rooms for each in room) == list(range(len(sizes)))
    for room in rooms:
        boxes = []
        for each in room:
            size = sizes[each.which].turned if each.is_turned else sizes[each.which]
            boxes.append(Box(each.at.x, each.at.y, each.at.x + size.width, each.at.y + size.height))
        assert all(Box(0, 0, *WINDOW).holds(box) for box in boxes)
        assert not any(one.grown(GAP - 1).overlaps(other) for one, other in combinations(boxes, 2))


def test_small_pieces_share_a_room():
    assert len(packed([Window(90_000, 120_000)] * 4, Window(190_000, 250_000))) == 1
    # Standing, neither goes beside the other; lying, one goes over the other.
    assert len(packed([Window(100_000, 180_000)] * 2, WINDOW)) == 1


def test_fits_as_it_stands():
    assert fits(Window(186_000, 255_000), WINDOW)
    assert not fits(Window(255_000, 186_000), WINDOW)
