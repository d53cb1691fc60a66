from patterns.drawings.dimension import dimension
from patterns.drawings.geometry import Spot
from tests.drawn import lines_of


def test_line_is_moved_away_and_tied_to_its_edge() -> None:
    parts = dimension(Spot(0, 0), Spot(10_000, 0), Spot(0, -4000))
    svg = f'<svg xmlns="http://www.w3.org/2000/svg">{"".join(parts)}</svg>'
    assert lines_of(svg) == [
        [(0, -0.7), (0, -4.9)],
        [(10, -0.7), (10, -4.9)],
        [(0, -4), (10, -4)],
    ]
    assert svg.count("<circle") == 2
