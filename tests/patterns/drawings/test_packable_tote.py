from fractions import Fraction

import pytest

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.arc import rise_of
from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import Point
from patterns.drawings.lines import Line
from patterns.drawings.open_basket import VIEW, open_basket
from patterns.drawings.packable_tote import Handles, Pocket, handles_of, packable_tote, pocket_of
from patterns.drawings.standing import Face, Standing, Stroke
from patterns.starters import read_starter

WIDTH, HEIGHT, DEPTH = Fraction(320), Fraction(350), Fraction(120)
HANDLES = Handles(length=Fraction(600), width=Fraction(25), apart=Fraction(160))
POCKET = Pocket(width=Fraction(180), height=Fraction(150), place=Fraction(100))


def tote(pocket: Pocket | None = POCKET) -> Standing:
    return packable_tote(WIDTH, HEIGHT, DEPTH, HANDLES, pocket)


def bands(item: Standing) -> list[Face]:
    return [shape for shape in item.shapes if isinstance(shape, Face) and shape.edge is None]


def test_bag_is_the_open_basket() -> None:
    plain, item = open_basket(WIDTH, HEIGHT, DEPTH), tote()
    assert (item.width, item.height, item.depth) == (plain.width, plain.height, plain.depth)
    assert set(plain.shapes) <= set(item.shapes)
    assert item.seen_as.endswith("with the lining inside and both handles up")


def test_back_handle_is_painted_behind_the_bag_and_the_front_one_before_it() -> None:
    shapes = tote().shapes
    back, front = bands(tote())
    assert shapes.index(back) == 0
    assert shapes.index(front) > max(
        shapes.index(shape) for shape in open_basket(WIDTH, HEIGHT, DEPTH).shapes
    )


def test_handles_stand_a_quarter_of_the_width_to_each_side_of_the_middle() -> None:
    """Both feet are a handle's width wide, on the top edges of the front and of the back."""
    back, front = bands(tote())
    feet = sorted(point for point in front.outline if point.y == HEIGHT)
    assert [point.x for point in feet] == [
        80 - Fraction(25, 2),
        80 + Fraction(25, 2),
        240 - Fraction(25, 2),
        240 + Fraction(25, 2),
    ]
    off = VIEW.point(Fraction(0), Fraction(0), DEPTH)
    assert back.outline == tuple(Point(x + off.x, y + off.y) for x, y in front.outline)


def test_handles_rise_as_high_as_their_length_lets_them() -> None:
    _, front = bands(tote())
    top = max(point.y for point in front.outline)
    assert top == HEIGHT + HANDLES.rise
    assert HANDLES.rise == rise_of(Fraction(160), Fraction(600)) + Fraction(25, 2)


def test_pocket_lies_in_the_middle_of_the_front_at_its_place() -> None:
    corners = (Point(70, 250), Point(250, 250), Point(250, 100), Point(70, 100))
    assert corners in [shape.outline for shape in tote().shapes if isinstance(shape, Face)]


def test_no_pocket_where_none_is_named() -> None:
    assert len(tote().shapes) - len(tote(None).shapes) == 3


def test_topstitching_stays_on_the_handle() -> None:
    rows = [
        shape.way
        for shape in tote().shapes
        if isinstance(shape, Stroke) and shape.kind is Line.TOPSTITCH and len(shape.way) > 4
    ]
    assert len(rows) == 4
    edge = Fraction(25, 2)
    assert all(80 - edge < row[0].x < 80 + edge for row in rows[2:])


def test_handle_that_hardly_reaches_is_not_drawn() -> None:
    short = Handles(length=Fraction(160), width=Fraction(25), apart=Fraction(160))
    with pytest.raises(DrawingError):
        packable_tote(WIDTH, HEIGHT, DEPTH, short, None)


def test_wide_handle_over_a_narrow_way_closes_up() -> None:
    broad = Handles(length=Fraction(600), width=Fraction(60), apart=Fraction(50))
    item = packable_tote(Fraction(100), HEIGHT, DEPTH, broad, None)
    assert all(Fraction(-5) <= point.x <= 105 for point in bands(item)[1].outline)


def test_the_starter_names_what_is_drawn() -> None:
    sized = size(read_starter("packable-tote"), "tote", Units.CENTIMETRES)
    assert handles_of(sized, Fraction(330)) == Handles(Fraction(600), Fraction(25), Fraction(165))
    assert pocket_of(sized) == Pocket(Fraction(175), Fraction(145), Fraction(100))


def test_what_no_recipe_names_is_usual() -> None:
    sized = size(read_starter("fold-flat-basket"), "basket", Units.CENTIMETRES)
    assert handles_of(sized, Fraction(230)) == Handles(Fraction(460), Fraction(127, 5), Fraction(115))
    assert pocket_of(sized) is None
