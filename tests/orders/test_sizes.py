from fractions import Fraction

import pytest

from orders.sizes import in_words, millionths, nanometres


def test_a_64th_of_an_inch_is_396875_nanometres() -> None:
    """Source: 1 in = 25.4 mm exactly (international yard and pound agreement, 1959)."""
    assert nanometres(Fraction(127, 5) / 64) == 396_875


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (Fraction(0), 0),
        (Fraction(381, 2), 190_500_000),
        (Fraction(1, 2_000_000), 1),  # half a nanometre goes up
        (Fraction(1, 2_000_001), 0),
        (Fraction(127, 15), 8_466_667),  # 1/3 in
    ],
)
def test_nanometres(value: Fraction, expected: int, no_floats: None) -> None:
    assert nanometres(value) == expected


def test_bare_numbers_are_kept_as_millionths(no_floats: None) -> None:
    assert [millionths(number) for number in (Fraction(3), Fraction(5, 2), Fraction(1, 3))] == [
        3_000_000,
        2_500_000,
        333_333,
    ]


@pytest.mark.parametrize(
    ("number", "units", "words"),
    [
        ("17/2", "in", "8 1⁄2"),
        ("39/2", "cm", "19.5"),
        ("3", "", "3"),
        ("1/2", "in", "1⁄2"),
        ("1/2", "", "1⁄2"),
    ],
)
def test_in_words(number: str, units: str, words: str) -> None:
    assert in_words(Fraction(number), units) == words
