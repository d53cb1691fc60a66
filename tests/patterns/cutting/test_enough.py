from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.enough import Strip, enough, rounded_up

INCH = Fraction(127, 5)
MM = Fraction(1)


def test_one_panel_needs_its_own_size():
    assert enough([(1, 13 * INCH, 16 * INCH)], INCH / 8) == Strip(13 * INCH, 16 * INCH, 1)


def test_pieces_lie_one_below_the_other():
    half = (2, Fraction(57, 4) * INCH, Fraction(71, 4) * INCH)
    assert enough([half], INCH / 8) == Strip(Fraction(57, 4) * INCH, Fraction(71, 2) * INCH, 2)


def test_the_widest_piece_decides_the_width():
    assert enough([(1, Fraction(300), Fraction(100)), (2, Fraction(400), Fraction(50))], MM) == Strip(
        Fraction(400), Fraction(200), 3
    )


def test_each_side_is_rounded_up_before_it_is_added():
    third = Fraction(301, 3)
    assert enough([(3, third, third)], MM) == Strip(Fraction(101), Fraction(303), 3)


@pytest.mark.parametrize("cuts", [[], [(0, Fraction(10), Fraction(10))]])
def test_nothing_to_cut_needs_nothing(cuts):
    assert enough(cuts, MM) is None


def test_an_irrational_side_is_rounded_up():
    assert rounded_up(Decimal("628.3185307179586"), MM) == Fraction(629)
    assert isinstance(rounded_up(Decimal("628.3"), MM), Fraction)


def test_whole_steps_stay_as_they_are():
    assert rounded_up(Fraction(25), Fraction(5)) == 25


@pytest.mark.usefixtures("no_floats")
def test_no_float_is_made():
    assert enough([(2, Fraction(1001, 7), Fraction(355, 113))], INCH / 8) is not None


sides = st.fractions(min_value=Fraction(1), max_value=Fraction(2000), max_denominator=1000)


@given(
    st.lists(st.tuples(st.integers(1, 4), sides, sides), min_size=1, max_size=6),
    st.sampled_from([MM, INCH / 8]),
)
def test_every_piece_lies_inside_and_none_on_another(cuts, step):
    strip = enough(cuts, step)
    assert strip is not None
    used = Fraction(0)
    for count, width, height in cuts:
        assert width <= strip.width
        used += count * height
    assert used <= strip.length < used + step * strip.pieces
    assert strip.width % step == strip.length % step == 0
