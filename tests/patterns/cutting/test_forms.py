from fractions import Fraction

import pytest

from patterns.cutting.errors import CuttingError
from patterns.cutting.fat_quarter import SIDES
from patterns.cutting.forms import (
    METRE,
    SHOP_STEPS,
    WIDTH_CHART,
    YARD,
    ClothForm,
    by_length,
    by_the_chart,
    fat_quarter,
    in_rows,
    off_the_roll,
    scrap,
    usual,
    whole_pieces,
)
from patterns.cutting.on_cloth import in_steps
from patterns.drafting.units import Units

IN, CM = Units.INCHES, Units.CENTIMETRES


@pytest.mark.parametrize(
    ("side", "squares"),
    [("2", 99), ("5/2", 56), ("3", 42), ("7/2", 30), ("4", 20), ("5", 12), ("6", 9)],
)
def test_squares_out_of_a_fat_quarter(side, squares):
    """Source: published quilters' tables for 18 × 22 in (three agree), recomputed."""
    quarter = fat_quarter(IN)
    assert (quarter.width, quarter.height) == (22 * IN.mm, 18 * IN.mm)
    assert in_rows(quarter.width, quarter.height, Fraction(side) * IN.mm) == squares


@pytest.mark.parametrize(("metres", "squares"), [("1", 12), ("3/2", 20), ("2", 28), ("5/2", 36), ("3", 44)])
def test_ten_inch_squares_out_of_metres(metres, squares):
    """Source: published metric table, recomputed: four across, and 3 rows out of 1 m, not 4."""
    width = by_length(CM)[0].usable_width
    assert in_rows(width, Fraction(metres) * METRE, 10 * IN.mm) == squares


def test_half_a_yard_gives_more_squares_than_a_published_claim():
    """219 squares of 1½ in out of half a yard is a published value that is wrong: 29 × 12 = 348."""
    assert in_rows(44 * IN.mm, 18 * IN.mm, Fraction(3, 2) * IN.mm) == 348


@pytest.mark.parametrize(
    ("needed", "step", "bought"),
    [
        (148 * IN.mm, SHOP_STEPS[IN][0], Fraction(33, 8) * YARD),
        (148 * IN.mm, SHOP_STEPS[IN][1], Fraction(17, 4) * YARD),
        (Fraction(32, 10) * METRE, SHOP_STEPS[CM][2], Fraction(7, 2) * METRE),
        (3 * METRE, SHOP_STEPS[CM][2], 3 * METRE),
    ],
)
def test_lengths_are_rounded_up_to_the_step_of_the_shop(needed, step, bought):
    """Source: published yardage charts: 148 in → 4 1/8 yd, or 4 1/4; 3.2 m in half metres → 3.5 m."""
    assert in_steps(needed, step) == bought
    assert type(in_steps(needed, step)) is Fraction


def test_the_width_chart_is_looked_up_and_nothing_else():
    """Source: fabric width conversion chart, credited to a US cooperative extension service (from memory)."""
    found = [by_the_chart(Fraction(2), 36, width) for width in (45, 54, 60)]
    assert found == [Fraction(13, 8), Fraction(11, 8), Fraction(5, 4)]
    assert by_the_chart(Fraction(7, 3), 36, 60) is None
    assert by_the_chart(Fraction(2), 36, 48) is None


def test_the_chart_is_not_in_proportion_to_area():
    (line,) = WIDTH_CHART
    assert len({yards * width for width, yards in line.items()}) > 1


def test_usual_widths():
    """Source: US quilting magazine: the usable width of 44–45 in quilting cotton is 42 in."""
    assert [form.width / IN.mm for form in by_length(IN)] == [44, 42, 54, 60]
    assert by_length(IN)[0].usable_width == 42 * IN.mm
    assert [form.width / CM.mm for form in by_length(CM)] == [110, 140, 150]
    assert all(form.step == 100 for form in by_length(CM))


def test_interfacing_and_vinyl_have_rolls_of_their_own():
    assert by_length(IN, "interfacing")[0].width == 20 * IN.mm
    assert by_length(CM, "interfacing")[0].width == 900
    assert by_length(IN, "vinyl")[0].usable_width == 54 * IN.mm


@pytest.mark.parametrize("units", Units)
def test_fat_quarters_are_those_of_the_range_chart(units):
    form = fat_quarter(units)
    assert (form.usable_width, form.height) == SIDES[units]


@pytest.mark.parametrize("units", Units)
def test_whole_pieces_have_a_height_and_names_of_their_own(units):
    forms = whole_pieces(units)
    assert not any(form.is_by_length for form in forms)
    assert len({form.name for form in forms}) == len(forms)


def test_all_usual_forms_by_name():
    assert list(usual(IN))[:2] == ["44 in wide", "42 in wide"]
    assert usual(CM)["fat quarter"] == fat_quarter(CM)
    assert list(usual(CM, "vinyl")) == ["140 cm wide"]


def test_a_measured_width_can_all_be_used():
    form = off_the_roll(Fraction(85, 2) * IN.mm, IN)
    assert form.name == "42 1⁄2 in wide"
    assert form.usable_width == Fraction(85, 2) * IN.mm


def test_a_scrap_is_there_as_often_as_it_is():
    form = scrap(300, 205, CM, how_many=2)
    assert (form.name, form.at_most) == ("scrap 30 cm × 20.5 cm", 2)


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"width": 0}, "cloth: its width is 0 cm. Write a measure above 0 and at most 100 m."),
        ({"width": -5}, "cloth: its width is −0.5 cm. Write a measure above 0 and at most 100 m."),
        ({"height": 0}, "cloth: its height is 0 cm. Write a measure above 0 and at most 100 m."),
        ({"step": 0}, "cloth: its step is 0 cm. Write a measure above 0 and at most 100 m."),
        ({"edges": 100}, "cloth: the edges leave nothing to use. Make them less than its width."),
        ({"at_most": 0}, "cloth: 0 pieces. Write 1 to 24."),
    ],
)
def test_what_is_no_cloth_is_refused(wrong, message):
    with pytest.raises(CuttingError) as error:
        ClothForm(**{"name": "cloth", "width": 100, **wrong})
    assert str(error.value) == message


def test_a_square_of_nothing_is_refused():
    with pytest.raises(CuttingError, match="side of a square"):
        in_rows(10, 10, 0)
    with pytest.raises(CuttingError, match="step"):
        in_steps(10, 0)
