from fractions import Fraction
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.certain import certain_area
from patterns.cutting.choices import Making
from patterns.cutting.effort import Effort
from patterns.cutting.fewest import fewest
from patterns.cutting.inside import inside, shadows
from patterns.cutting.sheets import Part, Rectangle, Sheet
from patterns.cutting.shopping import shopping_list
from patterns.cutting.shortest import shortest
from patterns.drafting.outlines import Corner
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter

ONE = Fraction(1)


def corners(*places):
    return tuple(Corner(Fraction(x), Fraction(y), *arc) for x, y, *arc in places)


def circle(radius):
    middle, end = radius, 2 * radius
    return corners((end, middle, "right"), (middle, end, "right"), (0, middle, "right"), (middle, 0, "right"))


def tee(width, height, square):
    low = height - square
    return corners(
        (0, 0),
        (width, 0),
        (width, low),
        (width - square, low),
        (width - square, height),
        (square, height),
        (square, low),
        (0, low),
    )


def apart(one, other):
    return (
        one.x + one.width <= other.x
        or other.x + other.width <= one.x
        or one.y + one.height <= other.y
        or other.y + other.height <= one.y
    )


def test_cut_out_corners_leave_rows_or_columns():
    rows, columns = inside(tee(20, 16, 3), ONE)
    assert rows == (Part(0, 0, 20, 13), Part(3, 13, 14, 3))
    assert set(columns) == {Part(0, 0, 3, 13), Part(3, 0, 14, 16), Part(17, 0, 3, 13)}


@given(st.integers(2, 400), st.fractions(Fraction(1, 3), 5))
def test_parts_of_a_circle_lie_in_it_and_not_on_each_other(radius, step):
    for parts in inside(circle(radius), step):
        for number, part in enumerate(parts):
            places = [(x, y) for x in (part.x, part.x + part.width) for y in (part.y, part.y + part.height)]
            assert all(hypot(float(x - radius), float(y - radius)) <= radius for x, y in places)
            assert all(apart(part, other) for other in parts[:number])


@given(st.integers(0, 20), st.integers(1, 20), st.integers(1, 20), st.integers(0, 20), st.fractions(0.1, 3))
def test_parts_of_a_slanted_piece_lie_in_it(inset, wide, high, beyond, step):
    outline = corners((inset, 0), (inset + wide, 0), (inset + wide + beyond, high), (0, high))
    for parts in inside(outline, step):
        assert sum(part.width * part.height for part in parts) <= certain_area(outline, 1000) / 10**6 + 1
        for part in parts:
            for y in (part.y, part.y + part.height):
                assert part.x >= inset - Fraction(inset) * y / high - Fraction(1, 1000)
                assert part.x + part.width <= inset + wide + Fraction(beyond) * y / high + Fraction(1, 1000)


def test_an_outline_is_measured_from_its_own_left_and_top():
    moved = tuple(Corner(each.across + 7, each.down - 2, each.arc) for each in tee(20, 16, 3))
    assert inside(moved, ONE) == inside(tee(20, 16, 3), ONE)


def test_most_of_a_circle_is_found():
    parts = max(inside(circle(100), ONE), key=lambda parts: sum(each.width * each.height for each in parts))
    assert sum(each.width * each.height for each in parts) > 0.8 * 31416


def outlined(outline, turns=True):
    width, height = (max(each[way] for each in outline) for way in (0, 1))
    area = Fraction(certain_area(outline, 1))
    return Rectangle(width, height, turns, is_full=False, area=area, parts=inside(outline, ONE))


def test_a_shadow_holds_what_is_a_rectangle_as_it_is():
    pieces = [Rectangle(4, 5, turns=False), outlined(tee(20, 16, 3), turns=False), Rectangle(2, 2)]
    shadow, _ = shadows(pieces)
    assert shadow == (
        Rectangle(4, 5, turns=False),
        Rectangle(20, 13, turns=False),
        Rectangle(14, 3, turns=False),
        Rectangle(2, 2),
    )
    assert list(shadows([Rectangle(4, 5)])) == []


def test_two_panels_with_cut_out_corners_that_cannot_lie_side_by_side():
    """On a width of 30 the rows of 20 × 13 lie one above the other."""
    answer = shortest([outlined(tee(20, 16, 3), turns=False)] * 2, 30, Effort(work=1_000))
    assert (answer.length, answer.bound) == (32, 29)
    assert answer.proved(Fraction(8))


def test_two_circles_do_not_lie_on_a_sheet_that_holds_one():
    answer = fewest([outlined(circle(10))] * 2, [Sheet(20, 20)] * 3, Effort(work=1_000))
    assert answer.proved
    assert answer.sheets_used == 2


@pytest.mark.parametrize("units", Units)
def test_interfacing_of_a_boxed_tote_is_within_a_step_or_so_of_the_least(units):
    sized = size(read_starter("boxed-tote"), "boxed-tote", units)
    bought = shopping_list([Making(sized)]).lines
    cloth = next(each.cloth for each in bought if each.material == "light interfacing")
    assert cloth.least > cloth.buy * Fraction(9, 10)
