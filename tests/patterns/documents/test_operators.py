"""Drawings read into the operators of PDF: what is plain is painted as it is written, the rest is refused."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.documents.operators import Label, NotPlainError, plain

LENGTHS = st.integers(-9999, 9999).map(lambda hundredths: hundredths / 100)


def drawing(inside, root=""):
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="-1 0 40 30" '
        f'font-family="Workroom Text,sans-serif" fill="#1f2a2e"{root}>{inside}</svg>'
    )


def operators(inside):
    return (
        b"".join(part for part in plain(drawing(inside)).parts if isinstance(part, bytes))
        .decode()
        .split("\n")
    )


def test_lengths_stay_as_they_are_written():
    look = 'fill="none" stroke="#ff0000" stroke-width="0.45" stroke-dasharray="1 0.7"'
    assert operators(f'<path d="M1.25 4L30 4.5Z" {look}/>')[1:] == [
        *("1 0 0 RG", "0.45 w", "[1 0.7] 0 d", "0 J"),
        *("1.25 4 m", "30 4.5 l", " h", "S"),
    ]


def test_what_is_said_already_is_not_said_again():
    box = '<rect x="1" y="2" width="3" height="4"/>'
    assert operators(box + box)[1:] == ["0.1216 0.1647 0.1804 rg", "1 2 3 4 re", "f", "1 2 3 4 re", "f"]


def test_a_turned_part_says_its_own_and_what_follows_goes_on_as_before():
    white, black = (
        f'<rect x="1" y="2" width="3" height="4" fill="{colour}"/>' for colour in ("#ffffff", "#000000")
    )
    said = operators(f'{white}<g transform="rotate(90 5 6)">{black}</g>{white}')
    assert said[4:] == ["q 0 1 -1 0 11 1 cm", "0 0 0 rg", "1 2 3 4 re", "f", "Q", "1 2 3 4 re", "f"]


def test_labels_are_left_as_words():
    read = plain(drawing('<text x="3" y="4" font-size="2.5" text-anchor="middle">7 1⁄2 in</text>'))
    assert read.families == ("Workroom Text", "sans-serif")
    assert read.printed == (40, 30)
    assert [part for part in read.parts if isinstance(part, Label)] == [Label("7 1⁄2 in", 3, 4, 2.5, 0.5)]


def points(lines):
    """Where the curves pass: their ends and, by de Casteljau, their middles."""
    at = None
    for line in lines:
        *numbers, operator = line.split()
        spots = [complex(float(x), float(y)) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        if operator == "c":
            yield (at + 3 * spots[0] + 3 * spots[1] + spots[2]) / 8
        if spots:
            at = spots[-1]
            yield at


@given(LENGTHS, LENGTHS, st.integers(1, 9999).map(lambda hundredths: hundredths / 100))
def test_a_circle_is_round(x, y, radius):
    """Curves for quarters stray from the circle by less than 3 parts in 10,000. Source: common practice."""
    drawn = operators(f'<circle cx="{x}" cy="{y}" r="{radius}"/>')
    for spot in points(line for line in drawn if line.endswith((" m", " c"))):
        assert hypot(spot.real - x, spot.imag - y) == pytest.approx(radius, rel=3e-4, abs=1e-5)


@pytest.mark.parametrize(
    ("flags", "middle"),
    [("0 1", 1 - 0.5j), ("0 0", 1 + 0.5j), ("1 1", 1 - 2j), ("1 0", 1 + 2j)],
)
def test_an_arc_goes_the_way_and_round_the_side_that_is_said(flags, middle):
    """From 0, 0 to 2, 0 on a circle of 1.25, whose centres are 0.75 above and below. Source: SVG 2, 9.3.8."""
    drawn = operators(f'<path d="M0 0A1.25 1.25 0 {flags} 2 0" fill="none" stroke="#000000"/>')
    passed = list(points(line for line in drawn if line.endswith((" m", " c"))))
    assert passed[-1] == pytest.approx(2 + 0j)
    assert min(abs(spot - middle) for spot in passed) < 1e-3


@pytest.mark.parametrize(
    "inside",
    [
        '<pattern id="p"/>',
        '<image href="mem:1.jpg"/>',
        '<use href="#a"/>',
        '<path d="M0 0L1 1" style="fill: red"/>',
        '<path d="M0 0L1 1" fill="url(#p)"/>',
        '<path d="M0 0l1 1"/>',
        '<path d="M0 0L1 1 2 2"/>',
        '<path d="M0 0A1 2 0 0 0 3 3"/>',
        '<path d="M0 0L1 1" transform="scale(2)"/>',
        '<text x="1 2" y="1" font-size="2">ab</text>',
        '<text x="1" y="1" font-size="2">a<tspan>b</tspan></text>',
        '<circle cx="1" cy="1" r="5%"/>',
        '<circle cx="1" cy="1"/>',
        '<rect x="1" y="1" width="3mm" height="4"/>',
    ],
)
def test_what_is_not_plain_is_left_to_the_renderer(inside):
    with pytest.raises(NotPlainError):
        plain(drawing(inside))


@pytest.mark.parametrize("root", [' class="a"', ' transform="rotate(9)"'])
def test_a_drawing_that_says_more_of_itself_is_left_to_the_renderer(root):
    with pytest.raises(NotPlainError):
        plain(drawing("", root))
