from fractions import Fraction

import pytest

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.geometry import Point
from patterns.drawings.open_basket import VIEW, open_basket
from patterns.drawings.standing import Face, Standing
from patterns.drawings.tied_bag import USUAL_BOW, USUAL_WIDTH, Ribbon, ribbon_of, tied_bag
from patterns.starters import read_starter

WIDTH, HEIGHT, DEPTH = Fraction(150), Fraction(240), Fraction(80)
RIBBON = Ribbon(width=Fraction(12), place=Fraction(80), bow=Fraction(450))


def bag(height: Fraction = HEIGHT, ribbon: Ribbon = RIBBON) -> Standing:
    return tied_bag(WIDTH, height, DEPTH, ribbon)


def ribbons(item: Standing) -> list[tuple[Point, ...]]:
    """The parts of the ribbon: side, front, tails, loops, knot."""
    return [shape.outline for shape in item.shapes if isinstance(shape, Face) and shape.fabric.tint is None]


def test_bag_is_the_open_basket_with_the_ribbon_over_it() -> None:
    plain, item = open_basket(WIDTH, HEIGHT, DEPTH), bag()
    assert item.shapes[: len(plain.shapes)] == plain.shapes
    assert (item.width, item.height, item.depth) == (plain.width, plain.height, plain.depth)
    assert item.seen_as.endswith("and the ribbon tied round, its bow at the side")


def test_ribbon_runs_round_a_third_of_the_height_below_the_edge() -> None:
    side, front, *_ = ribbons(bag())
    assert front == ((0, 154), (150, 154), (150, 166), (0, 166))
    assert side[:2] == (VIEW.point(WIDTH, Fraction(154)), VIEW.point(WIDTH, Fraction(154), DEPTH))


def test_bow_sits_on_the_seam_of_the_short_side() -> None:
    knot = ribbons(bag())[-1]
    middle = VIEW.point(WIDTH, Fraction(160), DEPTH / 2)
    assert sum(point.x for point in knot) / 4 == middle.x
    assert sum(point.y for point in knot) / 4 == middle.y


def test_a_loop_takes_two_fifths_of_half_the_bow_out_and_back() -> None:
    """225 mm for each half: 90 for the loop, which reaches 45 from the knot along the side."""
    loop = ribbons(bag())[4]
    tip = max(loop, key=lambda point: point.x)
    assert tip.x == VIEW.point(WIDTH, Fraction(0), DEPTH / 2 + 45).x


def test_tails_hang_down_by_their_length() -> None:
    for tail in ribbons(bag())[2:4]:
        lowest = min(point.y - (point.x - WIDTH) * VIEW.up / VIEW.across for point in tail)
        assert lowest == 160 - 90


@pytest.mark.parametrize("height", [30, 60, 100, 400])
def test_nothing_hangs_below_the_table(height: int) -> None:
    item = bag(Fraction(height), Ribbon(Fraction(12), Fraction(height, 3), Fraction(450)))
    for part in ribbons(item):
        assert (
            min(point.y - (point.x - WIDTH) * VIEW.up / VIEW.across for point in part if point.x >= WIDTH)
            >= 0
        )


def test_ribbon_wider_than_its_place_stays_on_the_bag() -> None:
    front = ribbons(bag(Fraction(24), Ribbon(Fraction(40), Fraction(8), Fraction(450))))[1]
    assert max(point.y for point in front) <= 24


def test_the_starter_names_what_is_drawn() -> None:
    sized = size(read_starter("gift-bag"), "bag", Units.CENTIMETRES)
    ribbon = ribbon_of(sized, Fraction(150), Fraction(230), Fraction(80))
    assert ribbon == Ribbon(Fraction(25, 2), Fraction(230, 3), Fraction(450))


def test_what_no_recipe_names_is_usual() -> None:
    sized = size(read_starter("fold-flat-basket"), "basket", Units.CENTIMETRES)
    assert ribbon_of(sized, WIDTH, HEIGHT, DEPTH) == Ribbon(USUAL_WIDTH, Fraction(80), USUAL_BOW)
