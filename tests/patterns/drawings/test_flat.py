from collections.abc import Callable

import pytest

from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units
from patterns.drawings.flat import flat_svg
from patterns.drawings.lines import Line
from tests.drawn import assert_reads_well, lines_of, root_of, words_crossed, words_of

Maker = Callable[..., SizedPattern]
HIDDEN = {"stroke": Line.HIDDEN_FOLD.value.colour, "stroke_width": "0.22"}


def test_shows_width_and_depth_together_by_the_height(make_basket: Maker) -> None:
    svg = flat_svg(make_basket())
    assert [words.text for words in words_of(svg)] == [
        "base, folded in",
        *("width + depth", "13¼ in", "height", "6 in"),
    ]
    assert root_of(svg)[0].text == "Fold-flat basket folded flat, 13 1⁄4 in by 6 in"


def test_is_in_proportion_with_the_base_half_the_depth_up(make_basket: Maker) -> None:
    svg = flat_svg(make_basket("9", "6", "5"))
    ((left, top), (right, _), (_, bottom), _) = lines_of(svg, stroke_width="0.45")[0]
    assert (right - left) / (bottom - top) == pytest.approx(14 / 6, rel=0.002)
    ((_, up), _) = lines_of(svg, **HIDDEN)[0]
    assert (bottom - up) / (bottom - top) == pytest.approx(2.5 / 6, abs=0.002)


def test_pouch_shows_its_zip(make_pouch: Maker) -> None:
    svg = flat_svg(make_pouch())
    assert lines_of(svg, stroke_width="0.9")
    assert_reads_well(svg)


def test_base_higher_than_the_item_is_left_out(make_basket: Maker) -> None:
    assert not lines_of(flat_svg(make_basket("9", "2", "5")), **HIDDEN)


@pytest.mark.parametrize("sizes", [("3", "2", "2"), ("20", "20", "12"), ("20", "2", "2"), ("3", "20", "2")])
def test_reads_well_at_its_extremes(make_basket: Maker, sizes: tuple[str, ...]) -> None:
    for svg in (flat_svg(make_basket(*sizes)), flat_svg(make_basket(*sizes, Units.CENTIMETRES))):
        assert_reads_well(svg)
        assert not words_crossed(svg, stroke_width="0.16")


def test_same_bytes_and_no_float(make_pouch: Maker, no_floats: None) -> None:
    assert flat_svg(make_pouch()) == flat_svg(make_pouch())
