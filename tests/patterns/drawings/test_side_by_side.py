from collections.abc import Callable
from itertools import pairwise

import pytest

from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units
from patterns.drawings.side_by_side import EDGE, Row, side_by_side
from tests.drawn import lines_of, page_of, root_of, words_of

Maker = Callable[..., SizedPattern]
IN, CM = Units.INCHES, Units.CENTIMETRES
WIDTH, HEIGHT = 46_000, 30_000


def row(*sizes: tuple[str, SizedPattern], units: Units = IN) -> Row:
    return side_by_side(sizes, units, WIDTH, HEIGHT)


def front_width(svg: str) -> float:
    """How wide the basket's front is drawn: its one outline with all edges level or upright."""
    outlines = lines_of(svg, stroke_width="0.45")
    (front,) = [way for way in outlines if len({x for x, _ in way}) == len({y for _, y in way}) == 2]
    return max(x for x, _ in front) - min(x for x, _ in front)


def points(svg: str) -> list[tuple[float, float]]:
    return [point for way in lines_of(svg) for point in way]


def test_all_are_drawn_to_one_scale(make_basket: Maker) -> None:
    drawn = row(("small", make_basket("5", "3", "3")), ("large", make_basket("15", "3", "3")))
    small, large = (front_width(svg or "") for svg in drawn.items)
    assert large == pytest.approx(3 * small, abs=0.05)


def test_every_drawing_keeps_inside_its_page(make_basket: Maker, make_pouch: Maker) -> None:
    sizes = [("wide", make_basket("20", "2", "2")), ("high", make_basket("3", "20", "12"))]
    for drawn in (row(*sizes), row(("pouch", make_pouch("16", "12", "8")))):
        for svg in (*drawn.items, drawn.thing):
            assert svg is not None
            assert page_of(svg) == (WIDTH / 1000, HEIGHT / 1000)
            for x, y in points(svg):
                assert 0 <= x <= WIDTH / 1000
                assert 0 <= y <= HEIGHT / 1000


def test_the_largest_fills_its_page_one_way(make_basket: Maker) -> None:
    drawn = row(("only", make_basket("20", "20", "12")))
    ys = [y for _, y in points(drawn.items[0] or "")]
    assert min(ys) == pytest.approx(EDGE / 1000, abs=0.05)


def test_titles_name_the_size_and_its_measures(make_basket: Maker) -> None:
    drawn = row(("For yarn", make_basket("17/2", "6", "19/4")))
    root = root_of(drawn.items[0] or "")
    assert root[0].text == "For yarn: 8 1⁄2 in wide, 6 in high, 4 3⁄4 in deep"
    assert root[1].text == "The finished item, to the same scale as the other sizes."
    assert root_of(drawn.thing)[0].text == "A hand"


def test_no_words_stand_in_them(make_basket: Maker) -> None:
    drawn = row(("one", make_basket()))
    assert not words_of(drawn.items[0] or "")
    assert not words_of(drawn.thing)


def test_the_familiar_thing_is_that_of_the_units(make_basket: Maker) -> None:
    assert row(("one", make_basket())).thing_words == "a hand, about 7 in"
    metric = row(("one", make_basket("20", "15", "12", CM)), units=CM)
    assert metric.thing_words == "sheet of A5, 148 × 210 mm"


def test_a_size_that_could_not_stand_has_none(make_pouch: Maker) -> None:
    drawn = row(("well", make_pouch()), ("flat", make_pouch("8", "2", "8")))
    assert [item is None for item in drawn.items] == [False, True]


def test_drawings_are_the_same_each_time(make_basket: Maker) -> None:
    sizes = [(name, make_basket(width, "5", "4")) for name, width in (("a", "6"), ("b", "9"), ("c", "12"))]
    assert all(one == other for one, other in pairwise([row(*sizes), row(*sizes)]))
