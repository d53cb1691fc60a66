from collections.abc import Callable
from fractions import Fraction

import pytest

from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units
from patterns.drawings.flat import flat_svg
from patterns.drawings.lines import Line
from patterns.drawings.shut import shut_svg
from patterns.drawings.tokens import SHEET
from patterns.starters import read_starter, slugs
from tests.drawn import SVG, assert_reads_well, lines_of, page_of, root_of, words_crossed, words_of
from tests.starters import corners, sized_at

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


def test_tote_shows_its_handles_over_the_top_edge() -> None:
    """60 cm in an arc over 16.5 cm rise 27.35 cm (half an ellipse, after Ramanujan), half of 2.5 cm more."""
    svg = flat_svg(sized_at(read_starter("packable-tote"), Units.CENTIMETRES, {}, {}))
    bag = lines_of(svg, stroke_width="0.45")[0]
    ((_, top), _, (_, bottom), _) = bag
    highest = min(y for way in lines_of(svg, stroke_width="0.28") for _, y in way)
    assert (top - highest) / (bottom - top) == pytest.approx((27.35 + 1.25) / 35, abs=0.01)
    assert highest >= 0
    assert "its handles stand up over the top edge" in (root_of(svg)[1].text or "")


def test_tied_bag_shows_its_ribbon_a_third_below_the_edge() -> None:
    svg = flat_svg(sized_at(read_starter("gift-bag"), Units.INCHES, {}, {}))
    ((_, top), _, (_, bottom), _) = lines_of(svg, stroke_width="0.45")[0]
    (ribbon,) = [node for node in root_of(svg).iter(f"{SVG}rect") if node.attrib["fill"] == SHEET]
    middle = float(ribbon.attrib["y"]) + float(ribbon.attrib["height"]) / 2
    assert (middle - top) / (bottom - top) == pytest.approx(1 / 3, abs=0.003)
    assert "its ribbon is laid across" in (root_of(svg)[1].text or "")


@pytest.mark.parametrize("slug", ["boxed-tote", "drawstring-bag", "round-bucket"])
def test_what_is_sewn_to_stand_is_not_drawn_flat(slug: str) -> None:
    assert flat_svg(sized_at(read_starter(slug), Units.INCHES, {}, {})) is None


@pytest.mark.parametrize("slug", ["drawstring-bag", "round-bucket"])
@pytest.mark.parametrize("units", list(Units))
def test_only_what_has_cords_is_drawn_shut(slug: str, units: Units) -> None:
    recipe = read_starter(slug)
    for measures in corners(recipe, units):
        sized = sized_at(recipe, units, measures, {})
        svg = None if sized.is_refused else shut_svg(sized)
        assert svg is None or slug == "drawstring-bag"
        if svg is not None:
            assert_reads_well(svg)
            assert page_of(svg)[1] <= 58


def test_window_lies_between_band_and_border() -> None:
    """7 in high: the band takes 1 1/2 in of it, the border 3/4 in."""
    svg = flat_svg(sized_at(read_starter("window-pouch"), Units.INCHES, {}, {}))
    ((_, top), _, (_, bottom), _) = lines_of(svg, stroke_width="0.45")[0]
    window = max(
        (node for node in root_of(svg).iter(f"{SVG}rect") if node.attrib["fill"] == SHEET),
        key=lambda node: float(node.attrib["height"]),
    )
    begins, height = (float(window.attrib[side]) for side in ("y", "height"))
    assert (begins - top) / (bottom - top) == pytest.approx(1.5 / 7, abs=0.003)
    assert height / (bottom - top) == pytest.approx(4.75 / 7, abs=0.003)
    assert "its window runs across between the zip and the base" in (root_of(svg)[1].text or "")


@pytest.mark.parametrize("slug", slugs())
@pytest.mark.parametrize("units", list(Units))
def test_starters_read_well_at_every_corner_of_their_range(slug: str, units: Units) -> None:
    recipe = read_starter(slug)
    names = {measure.name for measure in recipe.measures}
    shown = [name for name in ("width", "height", "depth", "handle length") if name in names]
    sizes = {tuple(measures[name] for name in shown) for measures in corners(recipe, units)}
    for measures in sorted(sizes):
        sized = sized_at(recipe, units, dict(zip(shown, measures, strict=True)), {})
        svg = None if sized.is_refused else flat_svg(sized)
        if svg is not None:
            assert_reads_well(svg)
            assert page_of(svg)[1] <= 60


def test_base_higher_than_the_item_is_left_out(make_basket: Maker) -> None:
    assert not lines_of(flat_svg(make_basket("9", "2", "5")), **HIDDEN)


@pytest.mark.parametrize("sizes", [("3", "2", "2"), ("20", "20", "12"), ("20", "2", "2"), ("3", "20", "2")])
def test_reads_well_at_its_extremes(make_basket: Maker, sizes: tuple[str, ...]) -> None:
    for svg in (flat_svg(make_basket(*sizes)), flat_svg(make_basket(*sizes, Units.CENTIMETRES))):
        assert_reads_well(svg)
        assert not words_crossed(svg, stroke_width="0.16")


def test_same_bytes_and_no_float(make_pouch: Maker, no_floats: None) -> None:
    assert flat_svg(make_pouch()) == flat_svg(make_pouch())


def test_the_name_of_the_base_keeps_off_the_edge_of_a_window() -> None:
    """The base reaches into a window by little more than a line of letters."""
    inches = {"width": 10, "height": 9, "depth": 4, "top band": 2, "lower border": Fraction(5, 4)}
    measures = {name: Fraction(length) for name, length in inches.items()}
    sized = sized_at(read_starter("window-pouch"), Units.INCHES, measures, {})
    svg = flat_svg(sized)
    name = next(each for each in words_of(svg) if each.text == "base, folded in")
    levels = [way[0][1] for way in lines_of(svg, stroke_width="0.28") if way[0][1] == way[1][1]]
    assert levels
    assert all(min(abs(level - name.top), abs(level - name.bottom)) > 0.5 for level in levels)
