import re
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.laying import lay
from patterns.cutting.sheets import Rectangle, Sheet
from patterns.drafting.lengths import sides_words
from patterns.drafting.outlines import Corner
from patterns.drafting.units import Units
from patterns.drawings import tokens
from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import Spot
from patterns.drawings.laid_cloth import Cut, LaidCloth, LaidPiece
from patterns.drawings.layout import layout_svg
from patterns.drawings.layout_labels import Numbered, label_of
from patterns.drawings.page import Placing
from tests.drawn import assert_reads_well, lines_of, page_of, root_of, words_crossed, words_of

IN, CM = Units.INCHES, Units.CENTIMETRES
INCH = IN.mm


def inches(number):
    return Fraction(number) * INCH


def piece(width, height, x=0, y=0, name="exterior panel", tint="exterior", turned=False, corners=()):
    return LaidPiece(name, tint, *map(inches, (width, height, x, y)), turned, corners)


def cloth(*pieces, width=42, length=24, **more):
    return LaidCloth("Exterior fabric", inches(width), inches(length), pieces, **more)


PANELS = (piece(14, 17), piece(14, 17, 14, name="lining panel", tint="lining"))
STRAPS = tuple(piece(2, 20, 28 + 2 * each, name="strap") for each in range(3))
TABS = tuple(piece(1, Fraction(3, 2), 34 + each, name="tab") for each in range(4))
BINDING = piece(Fraction(1, 2), 30, 0, 17, name="binding", turned=True)


def texts(svg):
    return [each.text for each in words_of(svg)]


def descriptions(svg):
    root = root_of(svg)
    return root[0].text, root[1].text


def test_pieces_bear_name_and_size_and_how_they_lie():
    svg = layout_svg(cloth(piece(Fraction(71, 4), 21, turned=True), width=21, length=18), IN)
    assert_reads_well(svg)
    assert {"exterior panel", "17¾ × 21 in", "turned", "21 in", "18 in", "Exterior fabric"} <= set(texts(svg))


def test_is_to_scale():
    """A cloth of 42 × 24 in: the panel of 14 × 17 is a third of it wide, 17/24 of it high."""
    svg = layout_svg(cloth(*PANELS), IN)
    ground = next(node.attrib for node in root_of(svg).iter() if node.attrib.get("fill") == tokens.SHEET)
    panel = next(
        node.attrib["d"] for node in root_of(svg).iter() if node.attrib.get("fill") == tokens.EXTERIOR
    )
    xs, ys = zip(*(map(float, pair) for pair in re.findall(r"(-?[0-9.]+) (-?[0-9.]+)", panel)), strict=True)
    assert (max(xs) - min(xs)) * 3 == pytest.approx(float(ground["width"]), abs=0.1)
    assert (max(ys) - min(ys)) * 24 / 17 == pytest.approx(float(ground["height"]), abs=0.1)


def test_too_small_pieces_have_numbers_with_a_key():
    svg = layout_svg(cloth(*PANELS, *STRAPS, *TABS, BINDING), IN, width=92_000)
    assert_reads_well(svg)
    found = texts(svg)
    assert "1: strap, 2 × 20 in, 3 of them" in found
    assert "2: tab, 1 × 1½ in, 4 of them" in found
    assert "3: binding, ½ × 30 in, turned" in found
    assert found.count("1") == 3


def test_narrow_pieces_are_written_along():
    svg = layout_svg(cloth(*STRAPS), IN)
    assert texts(svg).count("strap, 2 × 20 in") == 3
    assert_reads_well(svg)


def test_edges_are_named_and_told():
    svg = layout_svg(cloth(*PANELS, left="fold", right="selvedge"), IN)
    assert {"fold", "selvedge"} <= set(texts(svg))
    assert "Its left edge is a fold. Its right edge is a selvedge." in descriptions(svg)[1]
    both = layout_svg(cloth(*PANELS, left="selvedge", right="selvedge"), IN)
    assert "Both its left and its right edge are a selvedge." in descriptions(both)[1]
    upright = [start[0] for way in lines_of(both) for start, end in pairwise(way) if start[0] == end[0]]
    names = [each for each in words_of(both) if each.text == "selvedge"]
    assert len(names) == 2
    assert all(min(abs(x - at) for x in upright for at in (name.left, name.right)) > 0.3 for name in names)


def test_cloth_whose_edges_are_not_known_shows_its_grain():
    assert any("lengthwise grain" in text for text in texts(layout_svg(cloth(*PANELS), IN)))


def test_a_low_cloth_tells_its_edges_below():
    svg = layout_svg(cloth(piece(3, 2), length=3, left="selvedge"), IN)
    assert "Its left edge is a selvedge." in texts(svg)
    assert_reads_well(svg)


def test_the_largest_piece_left_over_is_named_with_its_size():
    svg = layout_svg(cloth(*PANELS), IN)
    assert {"left over", "14 × 24 in"} <= set(texts(svg))
    assert "Largest piece left over: 14 × 24 in." in descriptions(svg)[1]
    narrow = layout_svg(cloth(piece(40, 24), width=Fraction(83, 2)), IN)
    assert "Largest piece left over: 1½ × 24 in" in texts(narrow)
    full = layout_svg(cloth(piece(42, 24)), IN)
    assert "left over" not in full


def test_numbered_cuts_are_drawn_and_told_in_their_order():
    cuts = (Cut("x", inches(17), inches(0), inches(42)), Cut("y", inches(14), inches(0), inches(17)))
    svg = layout_svg(cloth(*PANELS, cuts=cuts), IN)
    assert_reads_well(svg)
    assert {"1", "2"} <= set(texts(svg))
    assert (
        "Cuts in their order: 1, across, 17 in from the top, from 0 in to 42 in; 2, along, 14 in"
        in descriptions(svg)[1]
    )


def test_title_and_description_for_who_does_not_see_it():
    svg = layout_svg(cloth(*PANELS), IN)
    title, told = descriptions(svg)
    assert title == "Exterior fabric, 42 × 24 in: 2 pieces"
    assert "lining panel, 14 × 17 in, 14 in from the left and at the top" in told
    assert descriptions(layout_svg(cloth(PANELS[0]), IN))[0].endswith(": 1 piece")
    assert descriptions(layout_svg(cloth(), IN))[0].endswith(": nothing is cut from it")


def test_a_round_piece_is_drawn_round_and_turned_with_its_outline():
    """A half round one, its flat edge on the left; turned by a quarter to the right that is on top."""
    four, zero = inches(4), Fraction(0)
    corners = (
        Corner(zero, zero),
        Corner(four, four, "right"),
        Corner(zero, 2 * four, "right"),
    )
    upright = layout_svg(cloth(piece(4, 8, corners=corners), width=9, length=9), IN)
    assert "A" in next(
        n.attrib["d"] for n in root_of(upright).iter() if n.attrib.get("fill") == tokens.EXTERIOR
    )
    turned = piece(4, 8, corners=corners, turned=True)
    assert_reads_well(layout_svg(cloth(turned, width=9, length=9), IN))
    assert turned.sides == (inches(8), inches(4))


@pytest.mark.parametrize("across", range(4, 40, 3))
def test_what_stands_on_a_circle_keeps_off_its_edge(across):
    half, zero = inches(across) / 2, Fraction(0)
    round_about = ((half, zero), (2 * half, half), (half, 2 * half), (zero, half))
    corners = tuple(Corner(*place, "right") for place in round_about)
    base = piece(across, across, corners=corners, name="heavy interfacing base")
    outline = base.outline(Placing(Fraction(40), Spot(0, 0)))
    label = label_of(base, outline, Numbered(IN), [], IN)
    middle, box = outline.box.middle, label.placed.box
    far = max(abs(x - middle.x) for x in (box.left, box.right))
    high = max(abs(y - middle.y) for y in (box.top, box.bottom))
    least = 300 if not label.number else 0
    assert far**2 + high**2 <= (outline.box.width // 2 - least) ** 2


def test_clear_vinyl_has_no_grain():
    told = texts(layout_svg(cloth(piece(14, 6, tint="clear"), width=54, length=9), IN))
    assert not any("grain" in text for text in told)


def test_a_circle_is_told_by_how_far_it_is_across():
    four, zero = inches(4), Fraction(0)
    round_about = ((four, zero), (2 * four, four), (four, 2 * four), (zero, four))
    corners = tuple(Corner(*place, "right") for place in round_about)
    svg = layout_svg(cloth(piece(8, 8, corners=corners, name="base"), width=12, length=9), IN)
    assert {"base", "8 in across"} <= set(texts(svg))
    assert_reads_well(svg)


@pytest.mark.parametrize(
    "lies", [piece(5, 5, 40, 0), piece(5, 5, 0, 20), piece(5, 5, -1, 0), piece(30, 2, turned=True)]
)
def test_a_piece_off_the_cloth_is_an_error(lies):
    with pytest.raises(DrawingError, match="does not lie on the cloth"):
        layout_svg(cloth(lies), IN)


def test_no_cloth_is_an_error():
    with pytest.raises(DrawingError):
        layout_svg(cloth(width=0), IN)


def test_words_in_a_name_are_only_words():
    svg = layout_svg(cloth(piece(14, 17, name="<b>&amp;")), IN)
    assert "<b>" not in svg
    assert_reads_well(svg)


def test_lengths_are_in_the_units():
    assert sides_words(Fraction(355), Fraction(450), CM) == "35.5 × 45 cm"
    assert sides_words(inches(14), inches(17), CM) == "≈ 35.6 × 43.2 cm"
    assert "≈ 106.7 cm" in texts(layout_svg(cloth(*PANELS), CM))


sides = st.builds(Fraction, st.integers(1, 60), st.just(2))
names = st.sampled_from(["panel", "side of the handle facing", "strap", "T" * 40])


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.tuples(names, sides, sides), max_size=14),
    st.sampled_from([80_000, 92_000, 120_000]),
    st.integers(10, 60),
    st.integers(2, 100),
    st.booleans(),
)
def test_no_label_lies_on_another(pieces, width, across, along, is_headed):
    """Whatever lies on whatever cloth: words in the page, 7 pt or more, none on another, none crossed."""
    sheet = Sheet(inches(across), inches(along))
    laid = lay([Rectangle(inches(wide), inches(high)) for _, wide, high in pieces], [sheet], most_ways=3)
    drawn = [
        LaidPiece(name, "lining", inches(wide), inches(high), each.x, each.y, each.turned)
        for (name, wide, high), each in zip(pieces, laid or (), strict=False)
    ]
    of = LaidCloth("Lining fabric", sheet.width, sheet.height, drawn, "selvedge")
    svg = layout_svg(of, IN, width=width, is_headed=is_headed)
    assert_reads_well(svg)
    assert page_of(svg)[0] == width / 1000
    assert not words_crossed(svg, stroke_width="0.16")
