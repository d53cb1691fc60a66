from fractions import Fraction

from patterns.drawings.geometry import Box, Point, Spot, around, between, quarter_circle

BOX = Box(0, 0, 10, 20)


def test_boxes_that_share_an_edge_do_not_overlap() -> None:
    assert not BOX.overlaps(Box(10, 0, 20, 20))
    assert BOX.overlaps(Box(9, 19, 20, 40))


def test_box_holds_itself_and_nothing_larger() -> None:
    assert BOX.holds(BOX)
    assert not BOX.holds(BOX.grown(1))
    assert BOX.moved(5, -5) == Box(5, -5, 15, 15)
    assert (BOX.width, BOX.height, BOX.middle) == (10, 20, Spot(5, 10))


def test_around_is_the_smallest_box() -> None:
    assert around([BOX, Box(-1, 5, 3, 30)]) == Box(-1, 0, 10, 30)


def test_between_is_exact() -> None:
    zero, one = Point(Fraction(0), Fraction(0)), Point(Fraction(1), Fraction(2))
    assert between(zero, one, Fraction(1, 3)) == (Fraction(1, 3), Fraction(2, 3))


def test_quarter_circle_keeps_to_the_circle_exactly() -> None:
    points = quarter_circle(16)
    assert (points[0], points[-1]) == ((1, 0), (0, 1))
    assert len(points) == 17
    assert all(x**2 + y**2 == 1 for x, y in points)
    assert [x for x, _ in points] == sorted((x for x, _ in points), reverse=True)


def test_a_line_meets_a_box_that_it_runs_through_and_none_that_it_passes() -> None:
    assert BOX.meets(Spot(-5, -5), Spot(15, 25))
    assert BOX.meets(Spot(5, 5), Spot(5, 5 + 1))
    assert not BOX.meets(Spot(-5, 0), Spot(15, 0))
    assert not BOX.meets(Spot(-10, 5), Spot(5, -10))
