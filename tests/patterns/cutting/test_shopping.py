from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.choices import Choices, ClothChoice, Making, Offered, Price
from patterns.cutting.errors import CuttingError
from patterns.cutting.forms import METRE, YARD, ClothForm, by_length, fat_quarter, off_the_roll, scrap
from patterns.cutting.on_length import Way
from patterns.cutting.sheets import Sheet
from patterns.cutting.shopping import shopping_list
from patterns.cutting.shrinkage import Shrinkage
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs

from .layouts import assert_is_layout

IN, CM = Units.INCHES, Units.CENTIMETRES
EXTERIOR = "exterior fabric"


def sized(slug="fold-flat-basket", units=IN, options=None, **measures):
    lengths = {name.replace("_", " "): number * units.mm for name, number in measures.items()}
    return size(read_starter(slug), slug, units, lengths, options)


def choose(*offers, **way):
    return Choices({EXTERIOR: ClothChoice(tuple(offers), Way(**way))})


def lines(made, choices=None):
    return {line.material: line for line in shopping_list(made, choices).lines}


def exterior(made, *offers, **way):
    return lines(made, choose(*offers, **way))[EXTERIOR]


@pytest.fixture(autouse=True)
def no_floats(monkeypatch):
    def refuse(self):
        raise AssertionError("a length became a float")

    monkeypatch.setattr(Fraction, "__float__", refuse)


@pytest.mark.parametrize("slug", slugs())
@pytest.mark.parametrize("units", Units)
def test_every_starter_has_a_list(slug, units):
    pattern = sized(slug, units)
    found = shopping_list(pattern)
    cut = {piece.material for piece in pattern.pieces}
    assert {line.material for line in found.lines if line.cloth} == cut & set(pattern.materials_by_name)
    for line in found.lines:
        assert line.says
        if line.cloth is None:
            continue
        cloth = line.cloth
        rectangles = cloth.way.lying([piece.rectangle for piece in cloth.pieces])
        assert_is_layout(cloth.layout, rectangles, [Sheet(cloth.width, cloth.length)])
        assert cloth.length <= cloth.buy
        assert cloth.least <= cloth.buy
        assert (cloth.buy / cloth.form.step).denominator == 1
        assert line.amount
        assert line.reason


def test_panels_side_by_side():
    line = lines(sized("boxed-tote", handle_length=24, options={"handle": "webbing"}))["lining fabric"]
    assert line.amount == "1⁄2 yd, 44 in wide"
    assert line.reason == (
        "2 × lining panel of 20 × 16 1⁄2 in lie side by side on 42 in. Less is not enough."
    )


def test_one_panel_in_both_systems():
    assert lines(sized())[EXTERIOR].amount == "1⁄2 yd, 44 in wide"
    line = lines(sized(units=CM))[EXTERIOR]
    assert line.amount == "40 cm, 110 cm wide"
    assert line.reason == (
        "1 exterior panel of 37 × 44 cm lies within 37 cm of its length, on 107 cm of its width. "
        "Less is not enough."
    )


def test_a_width_that_the_customer_measured():
    line = exterior(sized(), off(IN, 17))
    assert (line.amount, line.cloth.proved) == ("1⁄2 yd, 17 in wide", True)


def off(units, width):
    return Offered(off_the_roll(width * units.mm, units))


def test_fat_quarters_are_bought_whole():
    line = exterior([Making(sized(), 2)], Offered(fat_quarter(IN)))
    assert line.amount == "2 × fat quarter"
    assert line.reason == "2 × exterior panel of 15 × 18 in lie on 2. Less is not enough."
    assert line.bought == 2


def test_shrinkage_is_counted_exactly():
    """Two rows of 18 in take just 1 yd; 36 in ÷ 0.97 are more: one step."""
    panels = [Making(sized(), 4)]
    plain = exterior(panels, off(IN, 30))
    washed = exterior(panels, Offered(off_the_roll(32 * IN.mm, IN)), shrinkage=Shrinkage(3, 3))
    assert plain.bought == YARD
    assert washed.bought == Fraction(9, 8) * YARD
    assert washed.cloth.width == 32 * IN.mm * Fraction(97, 100)
    assert washed.cloth.length <= washed.bought * Fraction(97, 100)
    assert "in the first wash it shrinks 3 % along the cloth and 3 % across it" in washed.reason


def test_twelve_baskets_are_laid_together():
    one, twelve = shopping_list(sized()), shopping_list([Making(sized(), 12)])
    assert twelve.items == 12
    cloth = twelve.lines[0].cloth
    assert len(cloth.layout) == 12
    assert one.lines[0].bought < cloth.buy < 12 * one.lines[0].bought


def test_two_patterns_share_a_material():
    line = lines([Making(sized(), 2), Making(sized("gift-bag"))])[EXTERIOR]
    assert len(line.cloth.pieces) == 3
    assert "Quilting cotton, linen or light canvas. Quilting cotton or another light" in line.says


def test_folded_cloth_tells_what_is_odd():
    line = exterior([Making(sized(), 3)], folded=True)
    assert "cut double, the cloth folded along its length" in line.reason
    assert "1 × exterior panel is cut beyond the fold, from the cloth opened out." in line.reason
    assert len(line.cloth.opened) == 1


def test_one_way_is_said_with_the_proof():
    line = exterior(sized(), one_way=True)
    assert line.amount == "1⁄2 yd, 44 in wide"
    assert line.reason.endswith("Less is not enough with all tops the same way.")


def test_a_repeat_is_said_with_the_proof():
    line = exterior([Making(sized(), 2)], off(IN, 20), repeat=10 * IN.mm)
    assert {place.y for place in line.cloth.layout} == {0, 20 * IN.mm}
    assert "while all pieces begin at the same place in the repeat" in line.reason


def test_bindings_on_the_bias_come_out_of_a_square():
    choices = Choices({"lining fabric": ClothChoice(bias=frozenset({"binding"}))})
    line = lines(sized("window-pouch"), choices)["lining fabric"]
    names = [piece.name for piece in line.cloth.pieces]
    assert "binding" not in names
    assert "square for 16 in of bias strip" in names


def test_zips_in_the_next_standard_length():
    line = lines([Making(sized("zip-pouch"), 3)])["zip"]
    assert (line.amount, line.bought) == ("3 × 14 in", 3)
    assert line.reason == "At least 13 in is needed: the next length that zips are sold in."
    own = lines(sized("zip-pouch"), Choices(zips=(5 * IN.mm, 13 * IN.mm)))["zip"]
    assert own.amount == "1 × 13 in"
    short = lines(sized("zip-pouch"), Choices(zips=(5 * IN.mm,)))["zip"]
    assert short.reason.endswith("longer than zips are sold: cut it from a zip sold by length.")


def test_ribbon_by_length():
    line = lines([Making(sized("gift-bag"), 3)])["ribbon"]
    assert (line.amount, line.reason) == ("3 yd", "3 × 36 in, bought in steps of 1⁄8 yd.")
    assert lines(sized("gift-bag", CM))["ribbon"].reason.endswith("bought in steps of 10 cm.")


def test_thread_by_the_seams():
    line = lines([Making(sized(units=CM), 12)])["sewing thread"]
    assert line.amount == "2 spools of 100 m"
    assert "(stitch type 301, from industry consumption tables), and 15 % for ends." in line.reason
    assert lines(sized())["sewing thread"].amount == "1 spool of 109 yd"


def test_tools_are_at_hand():
    line = lines(sized())["point turner"]
    assert (line.kind, line.amount, line.cost_minor) == ("tool", "", None)


def test_the_cheapest_form_is_taken_when_all_have_prices():
    quarter = Offered(fat_quarter(IN), Price(350))
    roll = Offered(by_length(IN)[0], Price(1200, YARD))
    line = exterior(sized(), roll, quarter)
    assert (line.amount, line.cost_minor) == ("1 × fat quarter", 350)
    many = exterior([Making(sized(), 4)], roll, quarter)
    assert many.cost_minor == 1050
    assert many.amount == "7⁄8 yd, 44 in wide"


def test_without_prices_the_first_that_fits_is_taken():
    small = Offered(ClothForm("napkin", 10 * IN.mm, height=10 * IN.mm))
    assert exterior(sized(), small, Offered(fat_quarter(IN))).amount == "1 × fat quarter"


def test_cost_an_item():
    choices = Choices(
        {EXTERIOR: ClothChoice((Offered(by_length(IN)[0], Price(1001, YARD)),))},
        {"sewing thread": Price(299)},
    )
    found = shopping_list([Making(sized(), 2)], choices)
    assert found.cost_minor == 501 + 299
    assert found.cost_an_item_minor == 400
    assert found.unpriced == ("lining fabric", "light interfacing", "machine needle", "base board")
    assert shopping_list(sized()).cost_minor is None


@settings(deadline=None, max_examples=15)
@given(st.integers(1, 6), st.integers(1, 6), st.integers(16, 60))
def test_never_less_than_the_area_and_more_for_more(fewer, extra, width):
    few, many = (exterior([Making(sized(), n)], off(IN, width)) for n in (fewer, fewer + extra))
    assert few.bought * width * IN.mm >= fewer * 15 * 18 * IN.mm**2
    assert few.cloth.least <= many.cloth.least
    if few.cloth.proved:
        assert few.bought <= many.bought


@settings(deadline=None, max_examples=15)
@given(st.integers(1, 6), st.integers(16, 60))
def test_one_way_never_takes_less_than_free(count, width):
    made = [Making(sized(), count)]
    assert exterior(made, off(IN, width)).bought <= exterior(made, off(IN, width), one_way=True).bought


@pytest.mark.parametrize(
    ("made", "choices", "message"),
    [
        ([], None, "There is nothing to make. Choose a pattern."),
        (
            [Making(sized()), Making(sized(units=CM))],
            None,
            "These sizes are in inches and in centimetres. Choose one for all of them.",
        ),
        (
            sized(height=2, depth=12),
            None,
            "Fold-flat basket: this size is refused. Choose one that passes its checks.",
        ),
        (
            sized(),
            choose(off(IN, 10)),
            "exterior panel: 15 × 18 in does not fit on 10 in wide cloth, of which the 10 in of its width "
            "can be used. Choose a larger form of cloth.",
        ),
        (
            sized(),
            choose(Offered(scrap(18 * IN.mm, 15 * IN.mm, IN)), one_way=True),
            "exterior panel: 15 × 18 in does not fit on scrap 18 in × 15 in cloth, of which 18 × 15 in can "
            "be used, and it may not be turned. Choose a larger form of cloth.",
        ),
        (
            sized(),
            Choices({EXTERIOR: ClothChoice(bias=frozenset({"bow"}))}),
            "exterior fabric: no piece is called “bow”. Leave it out.",
        ),
    ],
)
def test_what_cannot_be_answered_says_why(made, choices, message):
    with pytest.raises(CuttingError) as error:
        shopping_list(made, choices)
    assert str(error.value) == message


def test_an_unknown_material_is_named():
    with pytest.raises(CuttingError, match="No material is called “felt”"):
        shopping_list(sized(), Choices(prices={"felt": Price(1)}))


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        (lambda: Making(sized(), 0), "Fold-flat basket: 0 to make. Write 1 to 100."),
        (lambda: Making(sized(), 10_000), "Fold-flat basket: 10000 to make. Write 1 to 100."),
        (lambda: Price(-1), "A price is less than nothing, or for nothing. Write what the shop asks."),
        (lambda: Price(1, 0), "A price is less than nothing, or for nothing. Write what the shop asks."),
        (
            lambda: Offered(fat_quarter(IN), Price(5, METRE)),
            "fat quarter: cloth sold by length has a price for a length, a whole piece one for each. "
            "Write the other.",
        ),
        (
            lambda: Choices(stitch="999"),
            "“999” is no stitch type with a known thread ratio. Write 301 or 304.",
        ),
        (lambda: Choices(spool=0), "A spool holds no thread. Write a length above 0."),
    ],
)
def test_choices_that_cannot_be(wrong, message):
    with pytest.raises(CuttingError) as error:
        wrong()
    assert str(error.value) == message


def test_more_scraps_than_there_are():
    two = Offered(scrap(20 * IN.mm, 20 * IN.mm, IN, how_many=2))
    assert exterior([Making(sized(), 2)], two).amount == "2 × scrap 20 in × 20 in"
    with pytest.raises(CuttingError):
        exterior([Making(sized(), 3)], two)


def test_a_repeat_on_whole_pieces():
    line = exterior([Making(sized(units=IN), 2)], Offered(fat_quarter(IN)), repeat=6 * IN.mm)
    assert (line.amount, {place.y for place in line.cloth.layout}) == ("2 × fat quarter", {0})
    with pytest.raises(CuttingError, match="higher than the whole repeats on one fat quarter"):
        exterior(sized(), Offered(fat_quarter(IN)), repeat=10 * IN.mm)


def test_too_many_pieces_to_lay_together():
    with pytest.raises(CuttingError) as error:
        shopping_list([Making(sized("boxed-tote"), 100)] * 3)
    assert str(error.value) == (
        "exterior fabric: 1200 pieces are more than the 1000 that are laid together. Make fewer at once."
    )


def test_a_search_that_is_stopped_still_answers():
    line = exterior([Making(sized(), 5)], off(IN, 44))
    choices = Choices({EXTERIOR: ClothChoice((off(IN, 44),))}, watch=lambda: True)
    stopped = lines([Making(sized(), 5)], choices)[EXTERIOR]
    assert stopped.cloth.least <= stopped.bought
    assert line.bought <= stopped.bought


def test_the_same_question_has_the_same_answer():
    made = [Making(sized("packable-tote"), 2), Making(sized())]
    assert shopping_list(made) == shopping_list(made)


def test_whole_pieces_are_laid_open():
    line = exterior([Making(sized(), 2)], Offered(fat_quarter(IN)), folded=True)
    assert line.cloth.folded is None
    assert "double" not in line.reason


def test_vinyl_and_interfacing_in_centimetres():
    found = lines(sized("window-pouch", CM))
    assert found["clear vinyl"].amount == "20 cm, 140 cm wide"
    assert found["light interfacing"].amount.endswith("90 cm wide")


def test_metres_have_a_price():
    line = exterior(sized(units=CM), Offered(by_length(CM)[0], Price(1500, METRE)))
    assert line.cost_minor == 600
