from collections.abc import Iterator
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from patterns.drawings.geometry import Spot
from patterns.drawings.regions import Lattice, hatch, outlines, rows, seams

GRID = Lattice(tuple(range(0, 70, 10)), tuple(range(60, -10, -10)))
masks = st.integers(1, 6).flatmap(
    lambda width: st.lists(st.lists(st.booleans(), min_size=width, max_size=width), min_size=1, max_size=6)
)


def mask(*lines: str) -> list[list[bool]]:
    """Cells as they look, the upper row first."""
    return [[sign == "#" for sign in line] for line in reversed(lines)]


def opposite(cells: list[list[bool]]) -> list[list[bool]]:
    return [[not cell for cell in row] for row in cells]


def twice_the_area(loops) -> int:
    """Source: the shoelace formula (Meister, 1769); anticlockwise loops count against clockwise ones."""
    return sum(
        after.x * here.y - here.x * after.y
        for loop in loops
        for here, after in zip(loop, [*loop[1:], loop[0]], strict=True)
    )


def edges(ways) -> Iterator[frozenset[tuple[int, int]]]:
    """Every side of a cell that the ways run along."""
    for way in ways:
        for start, end in pairwise(way):
            far = abs(end.x - start.x) + abs(end.y - start.y)
            right, down = (end.x - start.x) * 10 // far, (end.y - start.y) * 10 // far
            for step in range(far // 10):
                here = start.x + right * step, start.y + down * step
                yield frozenset([here, (here[0] + right, here[1] + down)])


def test_one_cell_has_four_corners() -> None:
    assert outlines(mask("#"), GRID) == [(Spot(0, 60), Spot(10, 60), Spot(10, 50), Spot(0, 50))]


def test_corners_stand_only_where_a_way_turns() -> None:
    loops = outlines(mask("###", "###"), GRID)
    assert [len(loop) for loop in loops] == [4]


def test_hole_has_an_outline_of_its_own() -> None:
    loops = outlines(mask("###", "#.#", "###"), GRID)
    assert sorted(len(loop) for loop in loops) == [4, 4]
    assert twice_the_area(loops) == 2 * 8 * 100


@given(masks)
def test_outlines_hold_just_the_cells(cells: list[list[bool]]) -> None:
    assert twice_the_area(outlines(cells, GRID)) == 2 * 100 * sum(map(sum, cells))


def test_seam_is_only_where_the_region_meets_what_is_beyond() -> None:
    cells = mask("..", "##")
    assert seams(cells, opposite(cells), GRID) == [(Spot(20, 50), Spot(0, 50))]


def test_seam_round_an_island_closes() -> None:
    cells = mask("...", ".#.", "...")
    (way,) = seams(cells, opposite(cells), GRID)
    assert way[0] == way[-1]
    assert len(way) == 5


def test_no_seam_with_cells_that_are_not_asked_about() -> None:
    assert seams(mask("#.."), mask("..#"), GRID) == []


@given(masks)
def test_seams_run_once_along_each_side_between_two_kinds(cells: list[list[bool]]) -> None:
    found = list(edges(seams(cells, opposite(cells), GRID)))
    upright = sum(row[x] != row[x + 1] for row in cells for x in range(len(row) - 1))
    level = sum(cells[y][x] != cells[y + 1][x] for y in range(len(cells) - 1) for x in range(len(cells[0])))
    assert len(found) == len(set(found)) == upright + level


@given(masks, st.sampled_from([1, -1]), st.integers(3, 17))
def test_hatch_lies_inside(cells: list[list[bool]], slope: int, gap: int) -> None:
    for start, end in hatch(outlines(cells, GRID), gap, slope):
        assert end.y - start.y == -slope * (end.x - start.x)
        assert (start.x + slope * start.y) % gap == 0
        assert_inside(cells, (start.x + end.x) / 2, (start.y + end.y) / 2)


@given(masks, st.integers(3, 17))
def test_rows_lie_inside(cells: list[list[bool]], gap: int) -> None:
    found = rows(outlines(cells, GRID), gap)
    for start, end in found:
        assert start.y == end.y
        assert start.y % gap == 0
        assert_inside(cells, (start.x + end.x) / 2, start.y)


def assert_inside(cells: list[list[bool]], x: float, y: float) -> None:
    """A middle on a side counts for either cell."""
    near = {(int((x + dx) // 10), int((60 - y + dy) // 10)) for dx in (-0.01, 0.01) for dy in (-0.01, 0.01)}
    assert any(
        0 <= row < len(cells) and 0 <= column < len(cells[0]) and cells[row][column] for column, row in near
    )


def test_hatch_passes_over_a_hole() -> None:
    loops = outlines(mask("###", "#.#", "###"), GRID)
    level = [(start, end) for start, end in rows(loops, 45)]
    assert level == [(Spot(0, 45), Spot(10, 45)), (Spot(20, 45), Spot(30, 45))]
