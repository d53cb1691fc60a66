from fractions import Fraction

import pytest

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.drawstring_bag import (
    USUAL_CHANNEL,
    USUAL_DROP,
    USUAL_SPARE,
    USUAL_THICKNESS,
    Drawstring,
    drawstring_bag,
    drawstring_of,
)
from patterns.drawings.geometry import Point
from patterns.drawings.lines import Line
from patterns.drawings.open_basket import VIEW, open_basket
from patterns.drawings.standing import Face, Standing, Stroke
from patterns.starters import read_starter

WIDTH, HEIGHT, DEPTH = Fraction(180), Fraction(230), Fraction(100)
CORDS = Drawstring(channel=Fraction(20), drop=Fraction(50), thickness=Fraction(6), spare=Fraction(250))


def bag(height: Fraction = HEIGHT, cords: Drawstring = CORDS) -> Standing:
    return drawstring_bag(WIDTH, height, DEPTH, cords)


def cords_of(item: Standing) -> list[tuple[Point, ...]]:
    """The two ends and the knot."""
    return [shape.outline for shape in item.shapes if isinstance(shape, Face) and shape.fabric.tint is None]


def test_bag_is_a_boxed_open_bag_with_its_channel_on_it() -> None:
    plain, item = open_basket(WIDTH, HEIGHT, DEPTH, is_pleated=False), bag()
    assert item.shapes[: len(plain.shapes)] == plain.shapes
    assert (item.width, item.height, item.depth) == (plain.width, plain.height, plain.depth)
    assert item.seen_as.endswith("and a cord’s two ends hanging out of its side")


def test_channel_runs_round_front_and_side_at_its_drop() -> None:
    rows = [
        shape.way for shape in bag().shapes if isinstance(shape, Stroke) and shape.kind is Line.TOPSTITCH
    ][-2:]
    for row, up in zip(rows, (Fraction(180), Fraction(160)), strict=True):
        assert row == (Point(Fraction(0), up), Point(WIDTH, up), VIEW.point(WIDTH, up, DEPTH))


def test_gap_lies_in_the_side_seam_between_the_rows() -> None:
    (gap,) = [
        shape.outline
        for shape in bag().shapes[8:]
        if isinstance(shape, Face) and shape.fabric.tint == "lining"
    ]
    assert gap[0] == VIEW.point(WIDTH, Fraction(160), DEPTH / 2)
    assert gap[2] == VIEW.point(WIDTH, Fraction(180), DEPTH / 2)


def test_ends_come_out_of_the_gap_and_hang_by_half_of_what_is_to_spare() -> None:
    """From 170 mm up, the middle of the gap, 125 down: to 45 above the table."""
    middle = VIEW.point(WIDTH, Fraction(170), DEPTH / 2)
    for strand in cords_of(bag())[:2]:
        top = [point for point in strand if point.y == max(each.y for each in strand)]
        assert sum(point.x for point in top) / len(top) == middle.x
        assert max(point.y for point in strand) == middle.y
    seam_foot = VIEW.point(WIDTH, Fraction(0), DEPTH / 2)
    lowest = min(point.y - (point.x - seam_foot.x) * VIEW.up / VIEW.across for point in cords_of(bag())[0])
    assert lowest - seam_foot.y == pytest.approx(45, abs=3)


def test_knot_ties_both_ends_together_near_their_tips() -> None:
    """Four fifths of 125 mm under the middle of the gap."""
    knot = cords_of(bag())[-1]
    assert sum(point.y for point in knot) / 8 == VIEW.point(WIDTH, Fraction(70), DEPTH / 2).y


@pytest.mark.parametrize("height", [60, 100, 150, 400])
def test_nothing_hangs_below_the_table(height: int) -> None:
    cords = Drawstring(Fraction(height, 10), Fraction(height, 4), Fraction(6), Fraction(250))
    for part in cords_of(bag(Fraction(height), cords)):
        assert min(point.y - (point.x - WIDTH) * VIEW.up / VIEW.across for point in part) >= 0


def test_thin_cord_of_a_large_bag_is_still_seen() -> None:
    thin = bag(cords=Drawstring(Fraction(20), Fraction(50), Fraction(1), Fraction(250)))
    knot = cords_of(thin)[-1]
    assert max(point.x for point in knot) - min(point.x for point in knot) == 2 * (WIDTH + HEIGHT) / 80


def test_the_starter_names_what_is_drawn() -> None:
    sized = size(read_starter("drawstring-bag"), "bag", Units.CENTIMETRES)
    cords = drawstring_of(sized, Fraction(180), Fraction(230), Fraction(100))
    assert cords == Drawstring(Fraction(20), Fraction(50), Fraction(5), Fraction(250))


def test_what_no_recipe_names_is_usual() -> None:
    sized = size(read_starter("gift-bag"), "bag", Units.CENTIMETRES)
    usual = Drawstring(USUAL_CHANNEL, USUAL_DROP, USUAL_THICKNESS, USUAL_SPARE)
    assert drawstring_of(sized, WIDTH, HEIGHT, DEPTH) == usual


def test_channel_that_a_low_bag_has_no_room_for_lies_near_its_edge() -> None:
    sized = size(read_starter("drawstring-bag"), "bag", Units.CENTIMETRES)
    cords = drawstring_of(sized, WIDTH, Fraction(60), DEPTH)
    assert (cords.channel, cords.drop) == (5, 12)
