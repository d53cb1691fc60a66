from fractions import Fraction

import pytest

from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import SizedPattern, SizedPiece
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.cut_outs import CutOut, cut_out_labels, cut_outs, cut_outs_told
from patterns.drawings.geometry import Spot
from patterns.drawings.outline import outline_of
from patterns.drawings.page import Placing
from patterns.drawings.pieces import piece_svg
from patterns.starters import read_starter, text_of
from tests.drawn import assert_reads_well, root_of, words_of
from tests.starters import sized_at

IN, CM = Units.INCHES, Units.CENTIMETRES


def tote(units: Units = IN, **measures: str) -> SizedPattern:
    given = {name: Fraction(value) for name, value in measures.items()}
    return sized_at(read_starter("boxed-tote"), units, given, {})


def piece_of(sized: SizedPattern, name: str = "exterior panel") -> SizedPiece:
    return next(piece for piece in sized.pieces if piece.name == name)


def test_squares_out_of_the_lower_corners_are_found() -> None:
    panel = piece_of(tote(depth="5"))
    # Corners 3 and 6 of the outline lie inside the panel's box.
    square = Fraction(5, 2) * IN.mm
    assert [*cut_outs(panel)] == [CutOut(3, square, square), CutOut(6, square, square)]


def test_squares_of_one_size_are_told_together() -> None:
    assert [*cut_outs_told(piece_of(tote(depth="5")), IN)] == ["2 corners, each 2 1⁄2 in × 2 1⁄2 in"]
    assert [*cut_outs_told(piece_of(tote(CM, depth="12")), CM)] == ["2 corners, each 6 cm × 6 cm"]


def test_another_corner_is_told_by_itself() -> None:
    text = text_of("boxed-tote")
    for down in (' − corner square"', '"'):
        right = f'across = "exterior panel width − corner square"\ndown = "exterior panel height{down}'
        assert right in text
        text = text.replace(right, right.replace('square"\n', 'square ÷ 2"\n'))
    panel = piece_of(size(read_recipe(text), "tote", IN))
    assert [*cut_outs_told(panel, IN)] == ["1 corner, 1 1⁄4 in × 2 1⁄2 in", "1 corner, 2 1⁄2 in × 2 1⁄2 in"]


@pytest.mark.parametrize(("slug", "name"), [("round-bucket", "exterior base"), ("boxed-tote", "handle")])
def test_circles_and_rectangles_have_none(slug: str, name: str) -> None:
    sized = sized_at(read_starter(slug), IN, {}, {})
    assert [*cut_outs(piece_of(sized, name))] == []


def test_label_is_led_to_the_level_edge_of_the_left_one() -> None:
    """Both are as low; 20 in by 16 1/2 in, squares of 2 1/2 in, at 1,000 micrometres an inch."""
    panel = piece_of(tote(depth="5"))
    placing = Placing(Fraction(1000) / IN.mm, Spot(0, 0))
    ((spot, block),) = cut_out_labels(panel, outline_of(panel, placing), IN)
    assert spot == Spot(1250, 14_000)
    assert [line.text for line in block.lines] == ["cut out, 2 times", "2½ in × 2½ in"]


@pytest.mark.parametrize("name", ["exterior panel", "lining panel", "light interfacing panel"])
def test_drawing_says_what_is_cut_out(name: str) -> None:
    sized = tote(depth="5")
    svg = piece_svg(sized, piece_of(sized, name))
    assert "cut out, 2 times" in [words.text for words in words_of(svg)]
    assert "Cut out: 2 corners, each 2 1⁄2 in × 2 1⁄2 in." in (root_of(svg)[1].text or "")
    assert_reads_well(svg)
