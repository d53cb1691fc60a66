from collections import Counter
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.drafting.things import Arrangement, RoundSpace, Solid, Space
from patterns.drafting.units import Units
from patterns.drawings import tokens
from patterns.drawings.arrangement import arrangement_svg
from patterns.drawings.errors import DrawingError
from tests.drawn import assert_reads_well, lines_of, root_of, words_crossed, words_of

CM, IN = Units.CENTIMETRES, Units.INCHES
SHEETS = Arrangement(1, 1, 12, Solid(Fraction(148), Fraction(210), Fraction(4)))
ROOM = Space(Fraction(150), Fraction(210), Fraction(50))


def cubes(across, high, deep, edge=20):
    return Arrangement(across, high, deep, Solid(*[Fraction(edge)] * 3))


def room_of(arrangement, more=0):
    counts = (arrangement.across, arrangement.high, arrangement.deep)
    return Space(*(n * edge + more for n, edge in zip(counts, arrangement.thing, strict=True)))


def drawn(arrangement, count, more=0, units=CM):
    return arrangement_svg("Basket", room_of(arrangement, more), arrangement, count, units)


def fronts(svg):
    """Width and height on the page of every front of a block."""
    boxes = []
    for way in lines_of(svg, fill=tokens.SHEET):
        (left, bottom), (right, _), (_, top), _ = way
        boxes.append((right - left, bottom - top))
    return boxes


def test_says_what_is_inside():
    svg = arrangement_svg("Fold-flat basket", ROOM, SHEETS, 12, CM)
    assert [words.text for words in words_of(svg)] == [
        *("inside", "width", "15 cm", "inside", "height", "21 cm", "inside", "depth", "5 cm"),
        *("12 things, each 14.8 × 21 × 0.4 cm", "1 across, 12 deep, 1 high"),
    ]
    root = root_of(svg)
    assert root[0].text == "Fold-flat basket, 12 things inside: 1 across, 12 deep, 1 high"
    assert root[1].text == (
        "The room inside, 15 cm × 21 cm × 5 cm, to scale, seen from the front and a little from above and "
        "from the right, its front and right walls left open. Each thing lies as 14.8 × 21 × 0.4 cm."
    )


def test_one_thing_is_one():
    assert "1 thing, each 2 × 2 × 2 cm" in [words.text for words in words_of(drawn(cubes(1, 1, 1), 1))]


def test_things_and_room_have_one_scale():
    svg = arrangement_svg("Basket", ROOM, SHEETS, 12, CM)
    ((wide, high),) = fronts(svg)
    outline = lines_of(svg, stroke_width="0.45")[0]
    assert wide / 148 == pytest.approx((outline[1][0] - outline[0][0]) / 150, rel=0.002)
    assert high / 210 == pytest.approx(wide / 148, rel=0.002)


def test_full_layers_are_one_block_with_an_edge_between_every_two():
    svg = drawn(cubes(4, 3, 2), 24)
    assert len(fronts(svg)) == 1
    seen = Counter(len(way) for way in lines_of(svg, stroke_width="0.18"))
    # Front 3 + 2, top 3 + 1, right 2 + 1.
    assert seen == {2: 12}


@pytest.mark.parametrize(
    ("count", "blocks"),
    [
        (24, [(4, 3)]),
        (20, [(4, 2), (4, 1)]),
        (18, [(4, 2), (2, 1)]),
        (23, [(4, 2), (4, 1), (3, 1)]),
    ],
)
def test_top_layer_is_filled_from_the_back(count, blocks):
    found = fronts(drawn(cubes(4, 3, 2), count))
    edge = min(high for _, high in found) if count < 24 else found[0][1] / 3
    assert [(round(wide / edge), round(high / edge)) for wide, high in found] == blocks


def test_things_stand_in_the_middle_of_the_floor():
    svg = drawn(cubes(1, 1, 1), 1, more=20)
    front = lines_of(svg, fill=tokens.SHEET)[0]
    room = lines_of(svg, stroke_width="0.45")[0]
    scale = (room[1][0] - room[0][0]) / 40
    # 10 mm of spare to the left, and 10 mm further back: half of that to the right, three eighths up.
    assert (front[0][0] - room[0][0]) / scale == pytest.approx(15, abs=0.1)
    assert (room[0][1] - front[0][1]) / scale == pytest.approx(3.75, abs=0.1)


def test_edges_that_would_run_together_are_left_out_and_it_is_said():
    stack = Arrangement(1, 1000, 1, Solid(Fraction(90), Fraction(1, 5), Fraction(60)))
    svg = drawn(stack, 1000)
    assert "edges too close to draw are left out" in [words.text for words in words_of(svg)]
    levels = sorted({way[0][1] for way in lines_of(svg, stroke_width="0.18")})
    assert min(lower - upper for upper, lower in pairwise(levels)) > 0.4
    assert len(svg) < 40_000


def test_odd_inches_are_told_in_millimetres():
    svg = arrangement_svg("Basket", Space(*[10 * IN.mm] * 3), SHEETS, 12, IN)
    assert "12 things, each 148 × 210 × 4 mm" in [words.text for words in words_of(svg)]


def test_fractions_are_drawn_as_such():
    thing = Solid(*(Fraction(number) * IN.mm for number in ("1/2", "4", "3")))
    svg = arrangement_svg("Pouch", Space(*[5 * IN.mm] * 3), Arrangement(3, 1, 1, thing), 3, IN)
    assert "3 things, each ½ × 4 × 3 in" in [words.text for words in words_of(svg)]


def test_a_room_without_an_end_is_marked():
    room = Space(Decimal("141.42135623730950488"), Fraction(50), Fraction(50))
    svg = arrangement_svg("Bucket", room, cubes(7, 1, 1), 7, CM)
    assert "≈ 14.1 cm" in [words.text for words in words_of(svg)]


def test_what_does_not_fit_is_not_drawn():
    with pytest.raises(DrawingError, match="do not go into the room"):
        arrangement_svg("Basket", ROOM, cubes(8, 1, 1), 8, CM)
    for count in (0, 13):
        with pytest.raises(DrawingError, match="nothing to draw"):
            arrangement_svg("Basket", ROOM, SHEETS, count, CM)


def test_same_input_same_bytes_and_no_float(no_floats):
    assert drawn(cubes(3, 3, 3), 25) == drawn(cubes(3, 3, 3), 25)


@settings(max_examples=80, deadline=None)
@given(
    st.tuples(*[st.integers(1, 12)] * 3),
    st.tuples(*[st.fractions(Fraction(1), Fraction(80), max_denominator=64)] * 3),
    st.tuples(*[st.fractions(Fraction(0), Fraction(90), max_denominator=8)] * 3),
    st.data(),
)
def test_any_arrangement_reads_well(grid, edges, spare, data):
    arrangement = Arrangement(*grid, Solid(*edges))
    across, high, deep = grid
    count = data.draw(st.integers(across * deep * (high - 1) + 1, across * high * deep))
    room = Space(*(n * edge + more for n, edge, more in zip(grid, edges, spare, strict=True)))
    svg = arrangement_svg("Basket", room, arrangement, count, data.draw(st.sampled_from(Units)))
    assert_reads_well(svg)
    assert not words_crossed(svg, stroke_width="0.16")
    assert not words_crossed(svg, stroke_width="0.45")


def test_a_room_that_no_tape_shows_is_rounded_and_says_so():
    """Two thirds of 7 in, below a bag's ribbon."""
    room = Space(10 * IN.mm, 7 * IN.mm * 2 / 3, 5 * IN.mm)
    svg = arrangement_svg("Gift bag", room, cubes(1, 1, 1, 100), 1, IN)
    assert "≈ 4⅝ in" in svg
    assert "⅔" not in svg


class TestARoundFloor:
    """4 × 3 cubes of 2 cm touch the circle of 10 cm with their corners."""

    ROOM = RoundSpace(Fraction(100), Fraction(70))

    def drawn(self, arrangement=None, count=24, room=ROOM):
        return arrangement_svg("Bucket", room, arrangement or cubes(4, 2, 3), count, CM)

    def test_says_what_is_inside(self):
        svg = self.drawn()
        assert [each.text for each in words_of(svg)] == [
            *("inside", "diameter", "10 cm", "inside", "height", "7 cm"),
            *("24 things, each 2 × 2 × 2 cm", "4 across, 3 deep, 2 high"),
        ]
        assert root_of(svg)[1].text == (
            "The round room inside, 10 cm across and 7 cm high, to scale, seen from the front and a little "
            "from above, the near half of its wall left open. Each thing lies as 2 × 2 × 2 cm."
        )

    def test_corners_of_the_things_stand_on_the_edge_of_the_floor(self):
        """In a circle of 1 the near corners lie at (± 0.8, −0.6): on the page a tenth and a fifteenth in."""
        svg = self.drawn()
        (front,) = lines_of(svg, fill=tokens.SHEET)
        outline = lines_of(svg, stroke_width="0.45")[0]
        left, right, lowest = (
            min(x for x, _ in outline),
            max(x for x, _ in outline),
            max(y for _, y in outline),
        )
        scale = (right - left) / 100
        (near_left, bottom), (near_right, _), (_, top), _ = front
        assert (near_left - left) / scale == pytest.approx(10, abs=0.1)
        assert (right - near_right) / scale == pytest.approx(10, abs=0.1)
        assert (lowest - bottom) / scale == pytest.approx(20 / 3, abs=0.1)
        assert (bottom - top) / scale == pytest.approx(40, abs=0.1)

    def test_front_and_top_are_seen_and_no_right_side(self):
        svg = self.drawn()
        assert len(lines_of(svg, fill=tokens.SHEET)) == len(lines_of(svg, fill=tokens.PAPER)) == 1
        assert lines_of(svg, fill=tokens.RULE) == []

    def test_what_does_not_fit_is_not_drawn(self):
        for arrangement in (cubes(4, 2, 4), cubes(4, 4, 3), cubes(5, 1, 1)):
            with pytest.raises(DrawingError, match="do not go into the room"):
                self.drawn(arrangement, 1)
        with pytest.raises(DrawingError, match="nothing to draw"):
            self.drawn(room=RoundSpace(Fraction(0), Fraction(70)))

    def test_a_diameter_without_an_end_is_marked(self):
        svg = self.drawn(room=RoundSpace(Decimal("101.42135623730950488"), Fraction(70)))
        assert "≈ 10.1 cm" in [each.text for each in words_of(svg)]

    @settings(max_examples=60, deadline=None)
    @given(
        st.tuples(*[st.integers(1, 12)] * 3),
        st.tuples(*[st.fractions(Fraction(1), Fraction(80), max_denominator=64)] * 3),
        st.tuples(*[st.fractions(Fraction(0), Fraction(90), max_denominator=8)] * 2),
        st.data(),
    )
    def test_any_arrangement_reads_well(self, grid, edges, spare, data):
        wide, high, deep = (n * edge for n, edge in zip(grid, edges, strict=True))
        # No less than the diagonal, which is no longer than both sides together.
        shortest = max(wide, deep) + min(wide, deep) / 2
        room = RoundSpace(shortest + spare[0], high + spare[1])
        count = data.draw(st.integers(grid[0] * grid[2] * (grid[1] - 1) + 1, grid[0] * grid[1] * grid[2]))
        svg = arrangement_svg(
            "Bucket", room, Arrangement(*grid, Solid(*edges)), count, data.draw(st.sampled_from(Units))
        )
        assert_reads_well(svg)
        assert not words_crossed(svg, stroke_width="0.16")
        assert not words_crossed(svg, stroke_width="0.45")
