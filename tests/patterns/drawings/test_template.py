from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.plates import plates, size_of
from patterns.drawings.sheet import sheet_svg, square_svg
from patterns.drawings.sheet_map import map_svg
from patterns.drawings.template import has_templates, needs_template, template, templates
from patterns.drawings.tiling import Window
from patterns.starters import read_starter, slugs
from tests.drawn import assert_words_are_free, root_of, words_of
from tests.patterns.drawings.conftest import piece

WINDOW = Window(186_000, 255_000)


@pytest.fixture(scope="module")
def sized_as():
    return lambda slug, units="in": size(read_starter(slug), slug, Units(units))


def test_which_patterns_have_templates(sized_as):
    with_them = {slug for slug in slugs() if has_templates(sized_as(slug))}
    assert with_them == {"boxed-tote", "drawstring-bag", "round-bucket"}


def test_what_needs_a_template(sized_as):
    """Circles, cut-outs, and a side whose quarters come from π; a handle is cut with a ruler."""
    bucket = {each.name: needs_template(each) for each in sized_as("round-bucket").pieces}
    assert bucket["exterior base"]
    assert bucket["exterior side"]
    assert not bucket["light interfacing side"]
    tote = {each.name: needs_template(each) for each in sized_as("boxed-tote").pieces}
    assert tote["lining panel"]
    assert not tote["handle"]


def test_pieces_of_one_outline_share_a_template(sized_as):
    titles = [each.title for each in templates(sized_as("round-bucket"))]
    assert titles == [
        "exterior side, lining side, light interfacing side",
        "exterior base, lining base, light interfacing base",
    ]


def test_a_piece_is_had_by_name_and_one_that_is_none_is_told(sized_as):
    sized = sized_as("packable-tote")
    assert [each.title for each in templates(sized, ["pocket"])] == ["pocket"]
    with pytest.raises(DrawingError, match="No piece “flag” is cut"):
        templates(sized, ["flag"])


def test_a_mark_of_one_piece_says_whose_it_is(sized_as):
    (made,) = templates(sized_as("boxed-tote"))
    texts = {each.text for each in made.marks}
    assert {"seam line", "turning opening (lining panel only)", "label place (exterior panel only)"} <= texts


def test_it_is_as_large_as_life(sized_as):
    made = templates(sized_as("round-bucket"))[1]
    assert made.outline.box == Box(0, 0, 228_600, 228_600)
    assert made.size == "9 in across"


@pytest.mark.parametrize("slug", slugs())
@pytest.mark.parametrize("units", ["in", "cm"])
def test_all_words_are_written_and_none_on_another(sized_as, slug, units):
    sized = sized_as(slug, units)
    names = [each.name for each in sized.pieces]
    for plate in plates(templates(sized, names), [Window(5_000_000, 5_000_000)]):
        assert len(plate.tiling.tiles) == 1
        for each in plate.laid:
            parts = [text for part in each.template.parts for text in part.drawn]
            svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 5000 5000">{"".join(parts)}</svg>'
            said = " ".join(words.text for words in words_of(svg))
            assert all(mark.text in said for mark in each.template.marks)
            for one, other in combinations(words_of(svg), 2):
                assert not one.overlaps(other), (one, other)


def test_words_of_a_tiny_piece_stand_under_it(make_pattern):
    tiny = piece(12, 8, name="tab")
    sized = make_pattern("Tab", "open basket", (Fraction(1),) * 3, Units.CENTIMETRES, {}, (tiny,))
    made = template(sized, [tiny])
    assert made.box.bottom > made.outline.box.bottom + 5000
    assert any("tab" in text for part in made.parts for text in part.drawn)


def test_one_way_print_stands_upright(make_pattern):
    one_way = piece(200, 200, turns=False)
    sized = make_pattern("Flag", "open basket", (Fraction(1),) * 3, Units.CENTIMETRES, {}, (one_way,))
    said = "".join(text for part in template(sized, [one_way]).parts for text in part.drawn)
    assert "print upright" in said
    turning = "".join(
        text for part in template(sized, [replace(one_way, turns=True)]).parts for text in part.drawn
    )
    assert "straight grain" in turning


def test_only_what_meets_a_window_is_drawn(sized_as):
    (made,) = templates(sized_as("boxed-tote"))
    everything = made.within(made.box)
    assert len(made.within(Box(200_000, 100_000, 210_000, 110_000))) == 0
    assert 0 < len(made.within(Box(0, 0, 50_000, 50_000))) < len(everything)


def test_small_templates_share_a_sheet_and_rows_go_on(make_pattern):
    pieces = (piece(400, 300, name="large"), piece(100, 90, name="one"), piece(80, 90, name="two"))
    sized = make_pattern("Case", "open basket", (Fraction(1),) * 3, Units.CENTIMETRES, {}, pieces)
    found = plates(templates(sized, ["large", "one", "two"]), [WINDOW])
    assert [plate.title for plate in found] == ["large", "one; two"]
    names = [[plate.name_of(tile) for tile in plate.tiling.tiles] for plate in found]
    assert names[1] == [chr(ord(names[0][-1][0]) + 1) + "1"]


def test_a_turned_template_lies_in_its_place(make_pattern):
    long = piece(250, 30, name="strap")
    sized = make_pattern("Case", "open basket", (Fraction(1),) * 3, Units.CENTIMETRES, {}, (long,))
    (plate,) = plates(templates(sized, ["strap"]), [WINDOW])
    (laid,) = plate.laid
    assert laid.is_turned
    box, size = laid.template.box, size_of(laid.template)
    assert laid.box == Box(0, 0, size.height, size.width)
    # Its top left corner comes to lie at the right of the top.
    assert laid.spot(Spot(box.left, box.top)) == Spot(size.height, 0)
    assert laid.seen_through(laid.box) == box


def test_sheets_and_maps_are_whole_drawings(sized_as):
    for plate in plates(templates(sized_as("drawstring-bag")), [WINDOW]):
        root = root_of(map_svg(plate))
        assert root[0].text.startswith("Map of the sheets of exterior panel")
        assert_words_are_free(map_svg(plate), 2.46)
        for tile in plate.tiling.tiles:
            svg = sheet_svg(plate, tile)
            assert root_of(svg).attrib["width"] in ("186mm", "255mm")
            assert plate.name_of(tile) in {words.text for words in words_of(svg)}
            assert root_of(svg)[1].text.startswith("At full size. Joins ")


def test_the_square_is_true():
    ways = [node.attrib["d"] for node in root_of(square_svg()) if "d" in node.attrib]
    assert "M1 1L102.6 1L102.6 102.6L1 102.6Z" in ways
    assert "M1 1L101 1L101 101L1 101Z" in ways
