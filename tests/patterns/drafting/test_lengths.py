from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.drafting.lengths import (
    LengthError,
    Written,
    as_chosen,
    exact,
    read_length,
    read_number,
    typed,
    typeset,
    written,
)
from patterns.drafting.units import MILLIMETRES, Units

IN, CM = Units.INCHES, Units.CENTIMETRES


def test_units_are_exact():
    """Source: international yard and pound agreement, 1959; NIST SP 811 App. B (table line from memory)."""
    assert MILLIMETRES["in"] == Fraction("25.4")
    assert MILLIMETRES["yd"] == Fraction("914.4")


@pytest.mark.parametrize(("stitches", "mm"), [(15, "1.7"), (12, "2.1"), (10, "2.5"), (8, "3.2"), (6, "4.2")])
def test_stitches_an_inch(stitches, mm):
    """Source: 25.4 ÷ n, as printed in machine conversion charts."""
    length = MILLIMETRES["in"] / stitches
    assert abs(length - Fraction(mm)) <= Fraction(1, 20)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("7 1/2", "190.5"),
        ("7½", "190.5"),
        ("7.5", "190.5"),
        ('7 1/2"', "190.5"),
        ("7½ in", "190.5"),
        ("7½″", "190.5"),
        ("19 cm", "190"),
        ("19,5 cm", "195"),
        ("190 mm", "190"),
        ("1 yd", "914.4"),
        ("21/2", "266.7"),
        ("  8  ", "203.2"),
        ("7,5", "190.5"),
    ],
)
def test_reads_lengths_in_inches(text, mm, no_floats):
    value = read_length(text, IN)
    assert value == Fraction(mm)
    assert type(value) is Fraction


def test_a_bare_number_is_in_the_chosen_units():
    assert read_length("19.5", CM) == 195
    assert read_length("1/2 in", CM) == Fraction("12.7")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("seven", "“seven” is not a length. Write it like 7, 7.5, 7½ or 7 1/2."),
        ("", "There is no length here. Write one, like 7 1/2."),
        ("-3", "“-3” is not a length. A size is never less than nothing. Write it without the minus."),
        ("1/0", "“1/0” divides by 0. Write another number under the stroke."),
        ("9e9", "“9e9” is not a length. Write the number out."),
        ("7" * 400, "400 characters are too long for a length. Write one, like 7 1/2."),
        ("7 1/3x", "“7 1/3x” is not a length: “x” is not a unit. Write in, cm or mm."),
        ("1,125", "“1,125” could mean two numbers. Write 1.125 or 1125."),
        ("8\x00", "“8�” is not a length. Write it like 7, 7.5, 7½ or 7 1/2."),
        ("0x10", "“0x10” is not a length. Write it like 7, 7.5, 7½ or 7 1/2."),
    ],
)
def test_refuses_with_the_mend(text, says):
    with pytest.raises(LengthError) as error:
        read_length(text, IN)
    assert str(error.value) == says


def test_a_number_takes_no_unit():
    assert read_number("3") == 3
    with pytest.raises(LengthError) as error:
        read_number("3 cm")
    assert str(error.value) == "“3 cm” has a unit, but a number is wanted here. Write it without “cm”."


@pytest.mark.parametrize(
    ("mm", "power", "units", "text"),
    [
        ("190.5", 1, IN, "7 1⁄2 in"),
        ("190.5", 1, CM, "≈ 19.1 cm"),
        ("195", 1, CM, "19.5 cm"),
        ("190", 1, CM, "19 cm"),
        ("12.7", 1, IN, "1⁄2 in"),
        ("58.7375", 1, IN, "≈ 2 3⁄8 in"),
        ("3", 0, IN, "3"),
        ("64516", 2, IN, "100 in²"),
        ("1000000", 3, CM, "1 l"),
        ("999400", 3, CM, "≈ 999 cm³"),
        ("999600", 3, CM, "≈ 1 l"),
        ("4140000", 3, CM, "4.14 l"),
        ("12345000", 3, CM, "≈ 12.3 l"),
        ("50000000", 3, CM, "50 l"),
        ("123456000", 3, CM, "≈ 123 l"),
        ("12345", 3, CM, "≈ 12.3 cm³"),
    ],
)
def test_writes_results_to_the_cutting_precision(mm, power, units, text, no_floats):
    assert written(Fraction(mm), power, units) == Written(text, text.startswith("≈"))


def test_halves_go_up():
    assert written(Fraction(127, 5) / 16, 1, IN).text == "≈ 1⁄8 in"
    assert written(Fraction(1, 2), 1, CM).text == "≈ 0.1 cm"


def test_an_irrational_length_is_rounded_and_says_so():
    assert written(Decimal("678.269853910036360"), 1, IN) == Written("≈ 26 3⁄4 in", True)
    assert exact(Decimal("678.269853910036360"), 1, IN) == "26.703538"


def test_a_rounded_half_counts_as_a_half():
    """Within 10⁻²⁰ mm of the half, as formulas.md decides."""
    just_under = Decimal("0.5") - Decimal(10) ** -30
    assert written(just_under, 1, CM).text == "≈ 0.1 cm"


def test_a_measure_is_shown_as_chosen():
    assert as_chosen(Fraction(127, 5) * Fraction(69, 16), 1, IN) == "4 5⁄16 in"
    assert as_chosen(Fraction("190.5"), 1, CM) == "19.05 cm"


@given(st.fractions(min_value=0, max_value=1000, max_denominator=64))
def test_inches_typed_read_back(inches):
    assert read_length(typed(inches * IN.mm, 1, IN), IN) == inches * IN.mm


@given(st.integers(0, 10**7))
def test_centimetres_typed_read_back(micrometres):
    mm = Fraction(micrometres, 1000)
    assert read_length(typed(mm, 1, CM), CM) == mm


def test_exact_is_in_lowest_terms():
    assert exact(Fraction("190.5"), 1, IN) == "15/2"
    assert exact(Fraction(-3, 8) * IN.mm, 1, IN) == "-3/8"


def test_fractions_are_set_with_a_fraction_stroke():
    assert typeset("8 1/2 + 2 × 13/16 = 14 1/4") == "8 1⁄2 + 2 × 13⁄16 = 14 1⁄4"
