from fractions import Fraction

import pytest

from patterns.drafting.outlines import Turn
from patterns.drafting.units import Units
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.outline import Outline, outline_of
from patterns.drawings.page import Placing
from patterns.starters import read_starter
from tests.starters import sized_at

RECTANGLE = Outline(
    ((Spot(8000, 0), None), (Spot(8000, 4000), None), (Spot(0, 4000), None), (Spot(0, 0), None))
)
# A square of 10 mm with a square of 2 mm out of both lower corners.
PANEL = Outline(
    (
        *((Spot(0, 0), None), (Spot(10_000, 0), None), (Spot(10_000, 8000), None), (Spot(8000, 8000), None)),
        *((Spot(8000, 10_000), None), (Spot(2000, 10_000), None), (Spot(2000, 8000), None)),
        (Spot(0, 8000), None),
    )
)


def circle(turn: Turn, *, is_clockwise: bool) -> Outline:
    spots = [Spot(5000, 0), Spot(10_000, 5000), Spot(5000, 10_000), Spot(0, 5000)]
    return Outline(tuple((spot, turn) for spot in (spots if is_clockwise else reversed(spots))))


CIRCLES = [circle("right", is_clockwise=True), circle("left", is_clockwise=False)]


def test_path_has_true_curves() -> None:
    assert CIRCLES[0].path == ("M5 0A5 5 0 0 1 10 5A5 5 0 0 1 5 10A5 5 0 0 1 0 5A5 5 0 0 1 5 0Z")
    assert RECTANGLE.path == "M8 0L8 4L0 4L0 0Z"


@pytest.mark.parametrize("outline", CIRCLES, ids=["right", "left"])
def test_every_spot_of_a_circle_is_as_far_from_its_middle(outline: Outline) -> None:
    assert outline.box == Box(0, 0, 10_000, 10_000)
    assert len(outline.spots) == 4 * 24
    for spot in outline.spots:
        assert abs((spot.x - 5000) ** 2 + (spot.y - 5000) ** 2 - 5000**2) <= 2 * 5000


def test_curve_that_bends_in_stays_in_the_square_of_its_ends() -> None:
    scooped = Outline(((Spot(4000, 0), None), (Spot(0, 4000), "left"), (Spot(0, 0), None)))
    bend = [spot for spot in scooped.spots if spot.x and spot.y]
    # From (4, 0) about (4, 4): the circle's middle lies on the left of whoever walks down and to the left.
    assert all(abs((4000 - x) ** 2 + (4000 - y) ** 2 - 4000**2) <= 2 * 4000 for x, y in bend)


def test_it_is_crossed_between_its_edges() -> None:
    assert PANEL.across(5000) == [(0, 10_000)]
    assert PANEL.across(9000) == [(2000, 8000)]
    assert PANEL.down(1000) == [(0, 8000)]
    assert PANEL.across(0) == [(0, 10_000)]
    assert PANEL.across(11_000) == []
    (begins, ends), *others = CIRCLES[0].across(2000)
    assert (begins, ends) == pytest.approx((1000, 9000), abs=10)
    assert others == []


def test_boxes_cover_what_is_cut_away_and_no_cloth() -> None:
    assert RECTANGLE.outside == ()
    assert {(box.left, box.right) for box in PANEL.outside} == {(0, 2000), (8000, 10_000)}
    assert min(box.top for box in PANEL.outside) == 8000
    corner = Box(100, 100, 900, 900)
    assert any(box.overlaps(corner) for box in CIRCLES[0].outside)
    assert not any(box.overlaps(Box(2000, 2000, 8000, 8000)) for box in CIRCLES[0].outside)


def test_a_piece_without_corners_of_its_own_is_a_rectangle_on_the_page() -> None:
    sized = sized_at(read_starter("round-bucket"), Units.CENTIMETRES, {"diameter": Fraction(20)}, {})
    placing = Placing(Fraction(10), Spot(100, 200))
    side, base = (
        outline_of(next(piece for piece in sized.pieces if piece.name == name), placing)
        for name in ("exterior side", "exterior base")
    )
    assert side.box == Box(100, 200, 100 + 6483, 200 + 2500)
    assert base.box == Box(100, 200, 100 + 2200, 200 + 2200)
    assert "A" in base.path
