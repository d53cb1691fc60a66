"""Ink and quiet ink on every ground that they stand on. Source of the sum: WCAG 2.2, relative luminance."""

import pytest

from patterns.drawings import tokens


def luminance(colour: str) -> float:
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


GROUNDS = [
    tokens.SHEET,
    tokens.PAPER,
    tokens.EXTERIOR,
    tokens.EXTERIOR_SIDE,
    tokens.EXTERIOR_PALE,
    tokens.LINING,
    tokens.LINING_DEEP,
    tokens.LINING_PALE,
    tokens.INTERFACING,
    tokens.INTERFACING_PALE,
    tokens.REFUSED,
    tokens.ADVISED,
    tokens.WELL,
]


@pytest.mark.parametrize("ground", GROUNDS)
def test_ink_is_read_on_every_ground(ground: str) -> None:
    assert contrast(tokens.INK, ground) >= 7


@pytest.mark.parametrize("ground", [ground for ground in GROUNDS if ground != tokens.EXTERIOR_SIDE])
def test_quiet_ink_is_read_where_words_stand(ground: str) -> None:
    assert contrast(tokens.QUIET_INK, ground) >= 4.5
