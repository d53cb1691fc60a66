from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.drafting.numerals import NumeralError, decimal_text, mixed, read_numeral


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("7", Fraction(7)),
        ("7.5", Fraction(15, 2)),
        ("½", Fraction(1, 2)),
        ("7½", Fraction(15, 2)),
        ("7 ½", Fraction(15, 2)),
        ("1/2", Fraction(1, 2)),
        ("1⁄2", Fraction(1, 2)),
        ("7 1/2", Fraction(15, 2)),
        ("7 \t 1⁄2", Fraction(15, 2)),
        ("21/2", Fraction(21, 2)),
        ("0.000001", Fraction(1, 10**6)),
        ("999999999", Fraction(999999999)),
        ("12⅞", Fraction(103, 8)),
    ],
)
def test_reads_exactly(text, value, no_floats):
    read = read_numeral(text)
    assert read == value
    assert type(read) is Fraction


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1/0", "“1/0” divides by 0. Write another number under the stroke."),
        (
            "7 3/2",
            "“7 3/2” has a fraction of 1 or more beside the 7. Write 7 + 3/2, or a fraction smaller than 1.",
        ),
        ("1234567890", "“1234567890” is too long. Write at most 9 digits in a row."),
        ("1/1234567890", "“1/1234567890” is too long. Write at most 9 digits in a row."),
        ("0.1234567", "“0.1234567” is too fine. Write at most 6 digits after the point."),
        ("9" * 3000, f"“{'9' * 19}…” is too long. Write at most 9 digits in a row."),
        ("1e5", "“1e5” is not a number. Write it like 7, 7.5, 7½ or 7 1/2."),
        ("1_000", "“1_000” is not a number. Write it like 7, 7.5, 7½ or 7 1/2."),
        ("٣", "“٣” is not a number. Write it like 7, 7.5, 7½ or 7 1/2."),
    ],
)
def test_refuses_with_the_mend(text, says):
    with pytest.raises(NumeralError) as error:
        read_numeral(text)
    assert str(error.value) == says


@given(st.fractions(min_value=0, max_value=10**6, max_denominator=999))
def test_mixed_reads_back(value):
    assert read_numeral(mixed(value)) == value


@given(st.integers(0, 10**9))
def test_decimal_text_reads_back(thousandths):
    value = Fraction(thousandths, 1000)
    assert read_numeral(decimal_text(value) or "") == value


def test_a_third_has_no_decimal_text():
    assert decimal_text(Fraction(1, 3)) is None
