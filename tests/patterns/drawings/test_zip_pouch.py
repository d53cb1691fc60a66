from fractions import Fraction

import pytest

from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import Point
from patterns.drawings.lines import Line
from patterns.drawings.standing import Face, Standing, Stroke
from patterns.drawings.zip_pouch import VIEW, standing_height, zip_pouch

WIDTH, HEIGHT, DEPTH, REVEAL = Fraction(200), Fraction(130), Fraction(100), Fraction(10)


def pouch() -> Standing:
    return zip_pouch(WIDTH, HEIGHT, DEPTH, REVEAL)


def faces(item: Standing) -> list[Face]:
    return [shape for shape in item.shapes if isinstance(shape, Face)]


def test_standing_height_of_a_5_12_13_triangle() -> None:
    assert standing_height(HEIGHT, DEPTH) == 120


def test_standing_height_without_an_end_is_a_millionth_of_a_mm_true() -> None:
    stands = standing_height(Fraction(127), Fraction(381, 5))
    assert stands**2 <= Fraction(127) ** 2 - Fraction(381, 10) ** 2 < (stands + Fraction(1, 10**6)) ** 2


@pytest.mark.parametrize("depth", [260, 300])
def test_pouch_that_cannot_stand_is_not_drawn(depth: int) -> None:
    with pytest.raises(DrawingError, match="no higher than half its depth cannot stand"):
        zip_pouch(WIDTH, HEIGHT, Fraction(depth), REVEAL)


def test_top_is_width_and_depth_long_and_stands_over_the_middle_of_the_base() -> None:
    (top,) = [shape.way for shape in pouch().shapes if isinstance(shape, Stroke) and shape.kind is Line.TEETH]
    left, right = (
        VIEW.point(Fraction(-50), Fraction(120), Fraction(50)),
        VIEW.point(Fraction(250), Fraction(120), Fraction(50)),
    )
    # The zip's ends tuck under: half the reveal is gone at each.
    assert top == (Point(left.x + 5, left.y), Point(right.x - 5, right.y))


def test_front_ends_half_the_reveal_below_the_top() -> None:
    front = next(face for face in faces(pouch()) if face.outline[0] == (0, 0))
    share = 1 - Fraction(5, 130)
    assert front.outline[1] == (200, 0)
    assert front.outline[2] == VIEW.point(200 + 50 * share, 120 * share, 50 * share)


def test_triangle_lies_on_the_short_side_half_the_depth_up_its_slope() -> None:
    triangle = next(face for face in faces(pouch()) if face.fabric.is_pale)
    share = Fraction(50, 130)
    assert triangle.outline[:2] == (VIEW.point(WIDTH, Fraction(0)), VIEW.point(WIDTH, Fraction(0), DEPTH))
    assert triangle.outline[2] == VIEW.point(200 + 50 * share, 120 * share, Fraction(50))


def test_measured_edges() -> None:
    item = pouch()
    assert item.width == ((0, 0), (200, 0))
    assert item.depth == ((200, 0), (260, 25))
    assert item.height == ((-50, 0), VIEW.point(Fraction(-50), Fraction(120), Fraction(50)))
    assert item.height_note == "along the slope"
