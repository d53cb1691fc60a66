from fractions import Fraction

import pytest

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import between
from patterns.drawings.lines import Line
from patterns.drawings.standing import Face, Standing, Stroke
from patterns.drawings.window_pouch import Window, window_of, window_pouch
from patterns.drawings.zip_pouch import VIEW, Pouch, zip_pouch
from patterns.starters import read_starter

# Half the depth, the standing height and the slope are 5, 12 and 13.
WIDTH, HEIGHT, DEPTH, REVEAL = Fraction(200), Fraction(130), Fraction(100), Fraction(10)
WINDOW = Window(band=Fraction(39), border=Fraction(26))


def pouch(window: Window = WINDOW) -> Standing:
    return window_pouch(WIDTH, HEIGHT, DEPTH, REVEAL, window)


def panes(item: Standing) -> list[Face]:
    """The window on the short side, then on the front."""
    return [shape for shape in item.shapes if isinstance(shape, Face) and shape.fabric.tint == "clear"]


def test_measured_as_the_zip_pouch_is() -> None:
    plain, item = zip_pouch(WIDTH, HEIGHT, DEPTH, REVEAL), pouch()
    assert (item.width, item.height, item.depth) == (plain.width, plain.height, plain.depth)
    assert item.height_note == "along the slope"
    assert item.seen_as.endswith("a clear window across its front between two bands")


def test_window_lies_between_band_and_border_on_the_slope() -> None:
    """39 of 130 down, 91 are left: 7/10 of the slope. 26 up: 2/10 of it."""
    _, front = panes(pouch())
    low, high = Fraction(1, 5), Fraction(7, 10)
    assert front.outline == (
        VIEW.point(-50 * low, 120 * low, 50 * low),
        VIEW.point(200 + 50 * low, 120 * low, 50 * low),
        VIEW.point(200 + 50 * high, 120 * high, 50 * high),
        VIEW.point(-50 * high, 120 * high, 50 * high),
    )


def test_window_runs_round_the_edge_to_the_seam_of_the_short_side() -> None:
    side, front = panes(pouch())
    assert side.outline[0] == front.outline[1]
    assert side.outline[3] == front.outline[2]
    plain = Pouch(WIDTH, HEIGHT, DEPTH, REVEAL)
    assert side.outline[1:3] == (plain.seam(Fraction(104)), plain.seam(Fraction(39)))


def test_triangle_lies_over_the_window_of_the_short_side() -> None:
    shapes = pouch().shapes
    triangle = next(
        place for place, shape in enumerate(shapes) if isinstance(shape, Face) and shape.fabric.is_pale
    )
    assert shapes.index(panes(pouch())[0]) < triangle


def test_glints_lie_inside_the_window() -> None:
    item = pouch()
    left, right, top_right, top_left = panes(item)[1].outline
    place = item.shapes.index(panes(item)[1])
    glints = [shape for shape in item.shapes[place:] if isinstance(shape, Stroke) and shape.kind is Line.SEAM]
    assert len(glints) == 2
    for glint in glints:
        for point in glint.way:
            share = (point.y - left.y) / (top_left.y - left.y)
            assert 0 < share < 1
            assert between(left, top_left, share).x < point.x < between(right, top_right, share).x


def test_rows_hold_the_window_from_outside_it() -> None:
    item = pouch()
    (left, _, _, top_left) = panes(item)[1].outline
    levels = {
        shape.way[0].y for shape in item.shapes if isinstance(shape, Stroke) and shape.kind is Line.TOPSTITCH
    }
    assert len(levels) == 3
    assert len([level for level in levels if level < left.y]) == 1
    assert not [level for level in levels if left.y <= level <= top_left.y]


def test_pouch_that_cannot_stand_is_not_drawn() -> None:
    with pytest.raises(DrawingError, match="no higher than half its depth cannot stand"):
        window_pouch(WIDTH, HEIGHT, Fraction(260), REVEAL, WINDOW)


def test_the_starter_names_what_is_drawn() -> None:
    sized = size(read_starter("window-pouch"), "pouch", Units.CENTIMETRES)
    assert window_of(sized, Fraction(180)) == Window(Fraction(40), Fraction(20))


def test_what_no_recipe_names_or_what_cannot_be_is_usual() -> None:
    usual = Window(Fraction(30), Fraction(15))
    assert window_of(size(read_starter("zip-pouch"), "pouch", Units.CENTIMETRES), Fraction(120)) == usual
    sized = size(read_starter("window-pouch"), "pouch", Units.CENTIMETRES, {"top band": Fraction(110)})
    assert window_of(sized, Fraction(120)) == usual
