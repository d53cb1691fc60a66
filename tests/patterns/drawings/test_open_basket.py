from fractions import Fraction

from patterns.drawings.geometry import Point
from patterns.drawings.lines import Line
from patterns.drawings.open_basket import open_basket
from patterns.drawings.standing import Face, Standing, Stroke

WIDTH, HEIGHT, DEPTH = Fraction(240), Fraction(160), Fraction(120)


def basket(height: Fraction = HEIGHT) -> Standing:
    return open_basket(WIDTH, height, DEPTH)


def ways(item: Standing, kind: Line) -> list[tuple[Point, ...]]:
    return [shape.way for shape in item.shapes if isinstance(shape, Stroke) and shape.kind is kind]


def test_front_is_true_to_scale_and_depth_runs_off_exactly() -> None:
    item = basket()
    assert item.width == ((0, 0), (240, 0))
    assert item.height == ((0, 0), (0, 160))
    assert item.depth == ((240, 0), (300, 45))
    assert all(isinstance(number, Fraction) for point in item.points() for number in point)


def test_depth_keeps_the_slope_of_a_3_4_5_triangle() -> None:
    start, end = basket().depth
    across, up = end.x - start.x, end.y - start.y
    assert across**2 + up**2 == (DEPTH * Fraction(5, 8)) ** 2


def test_lining_is_painted_before_the_exterior() -> None:
    tints = [shape.fabric.tint for shape in basket().shapes if isinstance(shape, Face)]
    assert tints == ["lining"] * 3 + ["exterior"] * 2


def test_what_the_outside_leaves_to_be_seen_is_the_mouth() -> None:
    faces = [shape.outline for shape in basket().shapes if isinstance(shape, Face)]
    corners = {point for outline in faces[:3] for point in outline}
    covered = {point for outline in faces[3:] for point in outline}
    assert corners - covered == {Point(Fraction(60), Fraction(45)), Point(Fraction(60), Fraction(205))}


def test_triangle_stands_half_the_depth_up_in_the_middle_of_the_side() -> None:
    (triangle,) = ways(basket(), Line.HIDDEN_FOLD)
    foot = Fraction(45) / 2
    assert triangle == ((240, 0), (270, 60 + foot), (300, 45))


def test_triangle_never_leaves_a_side_that_is_too_low_for_it() -> None:
    (triangle,) = ways(basket(height=Fraction(50)), Line.HIDDEN_FOLD)
    assert triangle[1].y == 50 + Fraction(45, 2)


def test_topstitching_runs_under_the_edge_inside_and_outside() -> None:
    inside, outside = ways(basket(), Line.TOPSTITCH)
    assert outside[0] == inside[0] == (0, 152)
    assert ways(basket(height=Fraction(4)), Line.TOPSTITCH)[1][0].y > 0
