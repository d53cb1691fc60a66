from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.sized import Quantity, SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings import tokens
from patterns.drawings.errors import DrawingError
from patterns.drawings.finished import NARROW, USUAL_REVEAL, finished_svg, reveal_of
from patterns.starters import read_starter, slugs
from tests.drawn import assert_reads_well, lines_of, root_of, words_crossed, words_of
from tests.starters import corners, sized_at

Maker = Callable[..., SizedPattern]
CM = Units.CENTIMETRES


def texts(svg: str) -> list[str]:
    return [words.text for words in words_of(svg)]


def test_basket_shows_its_measures_as_they_were_chosen_and_a_hand(make_basket: Maker) -> None:
    assert texts(finished_svg(make_basket())) == [
        *("width", "8½ in", "height", "6 in", "depth", "4¾ in"),
        *("a hand", "about 7 in"),
    ]


def test_measures_off_the_cutting_precision_are_shown_whole(make_basket: Maker) -> None:
    assert "8¹³⁄₁₆ in" in texts(finished_svg(make_basket("141/16")))


def test_centimetres_stand_beside_a_sheet_of_a5(make_pouch: Maker) -> None:
    assert texts(finished_svg(make_pouch("20", "13", "8", CM))) == [
        *("width", "20 cm", "height", "13 cm", "along the slope", "depth", "8 cm"),
        *("sheet of A5", "148 × 210 mm"),
    ]


def test_title_and_description_say_the_same(make_basket: Maker, make_pouch: Maker) -> None:
    root = root_of(finished_svg(make_basket()))
    assert root[0].text == "Fold-flat basket, 8 1⁄2 in wide, 6 in high, 4 3⁄4 in deep"
    assert root[1].text == (
        "The finished item to scale, standing open, seen from the front and a little from above and from the "
        "right, with the lining inside. Beside it, at the same scale: a hand, about 7 in."
    )
    assert "its triangle outside on the short side" in (root_of(finished_svg(make_pouch()))[1].text or "")


def test_new_forms_say_what_is_to_be_seen_of_them() -> None:
    seen = {
        "packable-tote": "and both handles up.",
        "gift-bag": "and the ribbon tied round, its bow at the side.",
        "window-pouch": "a clear window across its front between two bands.",
        "drawstring-bag": "and a cord’s two ends hanging out of its side.",
    }
    for slug, words in seen.items():
        svg = finished_svg(sized_at(read_starter(slug), Units.INCHES, {}, {}))
        assert words in (root_of(svg)[1].text or "")


def test_item_and_sheet_have_one_scale(make_basket: Maker) -> None:
    svg = finished_svg(make_basket("23", "15", "12", CM))
    (sheet,) = lines_of(svg, stroke_width="0.28", stroke="#54636a", fill="none")
    (front,) = lines_of(svg, fill=tokens.EXTERIOR)
    sheet_width, front_width = sheet[1][0] - sheet[0][0], front[1][0] - front[0][0]
    assert sheet_width / 148 == pytest.approx(front_width / 230, rel=0.002)


def test_same_input_same_bytes(make_basket: Maker) -> None:
    assert finished_svg(make_basket()) == finished_svg(make_basket())


def test_no_float_is_used(make_pouch: Maker, no_floats: None) -> None:
    assert_reads_well(finished_svg(make_pouch()))


@pytest.mark.parametrize(
    "sizes",
    [
        ("3", "2", "2"),
        ("20", "20", "12"),
        ("20", "2", "2"),
        ("3", "20", "12"),
        ("3", "2", "12"),
        ("20", "20", "2"),
    ],
)
def test_basket_reads_well_at_its_extremes(make_basket: Maker, sizes: tuple[str, ...]) -> None:
    for svg in (finished_svg(make_basket(*sizes)), finished_svg(make_basket(*sizes, CM))):
        assert_reads_well(svg)
        assert not words_crossed(svg, stroke_width="0.16")
        assert not words_crossed(svg, stroke_width="0.3")


@pytest.mark.parametrize(
    "sizes", [("4", "5/2", "1"), ("16", "12", "8"), ("16", "5/2", "1"), ("4", "12", "8"), ("4", "5", "8")]
)
def test_pouch_reads_well_at_its_extremes(make_pouch: Maker, sizes: tuple[str, ...]) -> None:
    for svg in (finished_svg(make_pouch(*sizes)), finished_svg(make_pouch(*sizes, CM))):
        assert_reads_well(svg)
        assert not words_crossed(svg, stroke_width="0.16")


@pytest.mark.parametrize("slug", slugs())
@pytest.mark.parametrize("units", list(Units))
def test_starters_read_well_at_every_corner_of_their_range(slug: str, units: Units) -> None:
    recipe = read_starter(slug)
    names = {measure.name for measure in recipe.measures}
    shown = [name for name in ("width", "height", "depth", "handle length") if name in names]
    sizes = {tuple(measures[name] for name in shown) for measures in corners(recipe, units)}
    for measures in sorted(sizes):
        sized = sized_at(recipe, units, dict(zip(shown, measures, strict=True)), {})
        if not sized.is_refused:
            assert_reads_well(finished_svg(sized))
            assert_reads_well(finished_svg(sized, room=NARROW))


@settings(max_examples=60, deadline=None)
@given(st.tuples(*[st.fractions(Fraction(1), Fraction(30), max_denominator=64)] * 3))
def test_any_basket_reads_well(sizes: tuple[Fraction, Fraction, Fraction]) -> None:
    names = ("width", "height", "depth")
    mm = {name: each * Units.INCHES.mm for name, each in zip(names, sizes, strict=True)}
    sized = size(read_starter("fold-flat-basket"), "basket", Units.INCHES, mm)
    assert_reads_well(finished_svg(sized))
    assert_reads_well(finished_svg(sized, room=NARROW))


def test_title_of_a_recipe_is_only_text(make_basket: Maker) -> None:
    sized = replace(make_basket(), title='<script>alert("x")</script>')
    assert (root_of(finished_svg(sized))[0].text or "").startswith("<script>")
    assert "<script" not in finished_svg(sized)


def test_measure_without_an_end_is_marked(make_basket: Maker) -> None:
    sized = make_basket()
    rounded = Quantity(Decimal("120.7106781186547524400844362"), 1, Formula.read("width × √(2)"))
    svg = finished_svg(replace(sized, finished=(rounded, *sized.finished[1:])))
    assert "≈ 4¾ in" in texts(svg)
    assert_reads_well(svg)


def test_no_measure_no_drawing(make_basket: Maker) -> None:
    sized = make_basket()
    none = Quantity(None, 1, Formula.read("width ÷ 0"))
    with pytest.raises(DrawingError, match="width ÷ 0 has no value at this size"):
        finished_svg(replace(sized, finished=(none, *sized.finished[1:])))


def test_reveal_is_what_the_seams_leave_of_the_tape(make_pouch: Maker) -> None:
    sized = make_pouch()
    assert reveal_of(sized) == Fraction(127, 10)
    assert reveal_of(replace(sized, values=MappingProxyType({}))) == USUAL_REVEAL
