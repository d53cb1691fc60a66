from fractions import Fraction
from itertools import pairwise
from math import hypot, pi

import pytest

from patterns.drawings.arc import arc, rise_of
from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import Point


def long(points: tuple[Point, ...]) -> float:
    """A second road: in floats."""
    steps = ((end.x - start.x, end.y - start.y) for start, end in pairwise(points))
    return sum(hypot(float(x), float(y)) for x, y in steps)


def test_arc_begins_and_ends_level_and_has_its_top_in_the_middle() -> None:
    points = arc(Fraction(120), Fraction(200))
    assert points[0] == (-60, 0)
    assert points[-1] == (60, 0)
    assert points[len(points) // 2] == (0, 200)
    assert all(isinstance(number, Fraction) for point in points for number in point)


def test_arc_lies_on_its_ellipse() -> None:
    for x, y in arc(Fraction(120), Fraction(200)):
        assert (x / 60) ** 2 + (y / 200) ** 2 == 1


def test_arc_is_the_same_from_both_ends() -> None:
    points = arc(Fraction(120), Fraction(200))
    assert tuple(Point(-x, y) for x, y in reversed(points)) == points


def test_half_a_circle_rises_as_far_as_its_ends_stand_from_its_middle() -> None:
    assert float(rise_of(Fraction(200), Fraction(100 * pi))) == pytest.approx(100, rel=0.002)


@pytest.mark.parametrize(("apart", "length"), [(165, 610), (102, 914), (254, 305), (254, 914), (100, 105)])
def test_arc_is_as_long_as_the_strap(apart: int, length: int) -> None:
    rise = rise_of(Fraction(apart), Fraction(length))
    assert long(arc(Fraction(apart), rise)) == pytest.approx(length, abs=0.1)


@pytest.mark.parametrize(("apart", "length"), [(165, 610), (102, 914), (254, 305)])
def test_arc_is_half_an_ellipse_as_long_as_the_strap(apart: int, length: int) -> None:
    """Source: Ramanujan, Modular equations and approximations to π, 1914 (memory): an ellipse's length."""
    a, b = apart / 2, float(rise_of(Fraction(apart), Fraction(length)))
    half = pi / 2 * (3 * (a + b) - ((3 * a + b) * (a + 3 * b)) ** 0.5)
    assert half == pytest.approx(length, rel=0.004)


def test_no_arc_is_higher_than_the_strap_drawn_to_a_point() -> None:
    """Source: Pythagoras: half the strap over half the way between the ends."""
    rise = rise_of(Fraction(165), Fraction(610))
    assert rise**2 < Fraction(305) ** 2 - Fraction(165, 2) ** 2


@pytest.mark.parametrize("length", [50, 100, 101])
def test_strap_that_hardly_reaches_does_not_stand(length: int) -> None:
    with pytest.raises(DrawingError, match="hardly reaches from end to end"):
        rise_of(Fraction(100), Fraction(length))


def test_no_float_is_used(no_floats: None) -> None:
    assert rise_of(Fraction(165), Fraction(610)) > 0
