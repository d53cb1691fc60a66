from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.drafting.formulas.values import CLOSE, PI, compare
from patterns.drafting.outline_faults import fault
from patterns.drafting.outlines import (
    Corner,
    Measured,
    area,
    box,
    centre,
    edge_length,
    edges,
    rectangle,
    seam_line,
    shape_of,
)

HALF = Fraction(1, 2)
Drawn = tuple[tuple[Corner, ...], Fraction, Fraction, Fraction, list[str]]
"""An outline, its width and height, how much each corner takes, and what each corner is."""


def corners(*places: tuple[object, ...]) -> tuple[Corner, ...]:
    return tuple(Corner(Fraction(str(x)), Fraction(str(y)), *turn) for x, y, *turn in places)


def circle(across: Fraction | int) -> tuple[Corner, ...]:
    half = Fraction(across) / 2
    return corners(
        (half, 0, "right"), (2 * half, half, "right"), (half, 2 * half, "right"), (0, half, "right")
    )


def panel(wide: object, high: object, cut: object) -> tuple[Corner, ...]:
    """A panel with a square out of both lower corners."""
    w, h, c = (Fraction(str(side)) for side in (wide, high, cut))
    return corners((w, 0), (w, h - c), (w - c, h - c), (w - c, h), (c, h), (c, h - c), (0, h - c), (0, 0))


def lengths(outline: Sequence[Corner]) -> list[Measured]:
    return [edge_length(edge) for edge in edges(outline)]


def is_close(one: Measured, other: Measured) -> bool:
    return abs(Fraction(one) - Fraction(other)) < Fraction(1, 10**15)


def test_rectangle_has_its_sides_and_its_area() -> None:
    outline = rectangle(Fraction(19), Fraction(13))
    assert lengths(outline) == [13, 19, 13, 19]
    assert area(outline) == 19 * 13
    assert box(outline) == (0, 0, 19, 13)


def test_panel_of_the_published_tote(no_floats: None) -> None:
    """Source: published home-sewing tutorial: 19 × 13 in, 1/2 in seams, 2 in squares: 14 × 10 × 4 in.

    Between the seam lines the base seam is 14 in, each side seam 10 in, and each square opens into a seam of
    4 in. Its area is 19 × 13 − 2 × 4.
    """
    outline = panel(19, 13, 2)
    seam = seam_line(outline, HALF)
    assert seam is not None
    assert area(outline) == 239
    _, side, lower, right_cut, base, left_cut, left_lower, left_side = lengths(seam)
    assert base == 14
    assert side == left_side == 10
    assert lower + right_cut == left_cut + left_lower == 4
    assert all(type(far) is Fraction for far in lengths(seam))


def test_circle_of_the_published_bolster(no_floats: None) -> None:
    """Source: published home-sewing tutorial: circles of 10 in, 1/2 in seams: a bolster 9 in across."""
    outline = circle(10)
    seam = seam_line(outline, HALF)
    assert seam is not None
    assert shape_of(outline) == shape_of(seam) == "circle"
    assert box(seam) == (HALF, HALF, 10 - HALF, 10 - HALF)
    assert is_close(sum(map(Fraction, lengths(seam))), Fraction(PI) * 9)
    assert is_close(area(outline), Fraction(PI) * 25)


def test_circle_walked_the_other_way_is_the_same() -> None:
    there = circle(10)
    back = corners((0, 5, "left"), (5, 10, "left"), (10, 5, "left"), (5, 0, "left"))
    assert area(back) == area(there)
    assert shape_of(back) == "circle"
    assert {centre(edge) for edge in edges(back)} == {(5, 5)}
    inside = seam_line(back, Fraction(1))
    assert inside is not None
    assert box(inside) == (1, 1, 9, 9)


def test_slanting_edges_are_exact_where_the_root_is() -> None:
    assert lengths(corners((0, 0), (4, 0), (4, 3))) == [5, 4, 3]
    assert [type(far) for far in lengths(corners((0, 0), (1, 0), (1, 1)))] == [Decimal, Fraction, Fraction]


def test_seam_line_of_a_triangle() -> None:
    """3, 4, 5: the seam line 1 in is where the circle inside it, of radius 1, has shrunk to a point: none."""
    triangle = corners((0, 0), (4, 0), (4, 3))
    assert seam_line(triangle, Fraction(1)) is None
    inside = seam_line(triangle, HALF)
    assert inside is not None
    # Halfway to the centre of that circle, every side is half as long.
    assert lengths(inside) == [Fraction(5, 2), 2, Fraction(3, 2)]


def test_curve_that_bends_in_grows_towards_the_seam_line() -> None:
    """A square of 6 with a quarter circle of radius 2 scooped out of a corner."""
    outline = corners((6, 0), (6, 6), (0, 6), (0, 2), (2, 0, "left"))
    # The curve meets its neighbours squarely, so what lies beside it inside is less than a quarter circle.
    assert seam_line(outline, HALF) is None
    assert is_close(area(outline), 36 - Fraction(PI))
    scooped = corners((4, 0), (4, 2), (6, 4, "left"), (8, 4), (8, 8), (0, 8), (0, 0))
    inside = seam_line(scooped, HALF)
    assert inside is not None
    assert edges(inside)[2].way == (Fraction(5, 2), Fraction(5, 2))


def test_bulge_and_hollow_of_one_size_leave_the_area_exact() -> None:
    wave = corners((4, 0), (4, 4), (3, 5, "right"), (2, 6, "left"), (0, 6), (0, 0))
    assert type(area(wave)) is Fraction


@pytest.mark.parametrize("allowance", [Fraction(5), Fraction(6)])
def test_allowance_that_uses_a_piece_up_leaves_no_seam_line(allowance: Fraction) -> None:
    assert seam_line(circle(10), allowance) is None
    assert seam_line(rectangle(Fraction(10), Fraction(30)), allowance) is None


def test_only_round_one_centre_is_a_circle() -> None:
    oval = corners((2, 0, "right"), (4, 2, "right"), (3, 3, "right"), (1, 1, "right"))
    assert shape_of(oval) == "outline"
    assert shape_of(panel(19, 13, 2)) == "outline"
    assert shape_of(corners((1, 0, "left"), (2, 1, "left"), (1, 2, "left"), (0, 1, "left"))) == "outline"


def test_seam_of_a_circle_with_rounded_lengths() -> None:
    across = Fraction(PI) * 10
    rounded = tuple(
        Corner(Decimal(x.numerator) / x.denominator, Decimal(y.numerator) / y.denominator, turn)
        for x, y, turn in circle(across)
    )
    assert shape_of(rounded) == "circle"


# Each corner of a box as in the recipes: straight, rounded, scooped out, cut out.
cuts = st.lists(st.sampled_from(["straight", "rounded", "scooped", "cut out"]), min_size=4, max_size=4)
sides = st.builds(Fraction, st.integers(40, 400), st.sampled_from([1, 2, 3, 8]))


@st.composite
def outlines(draw: st.DrawFn) -> Drawn:
    w, h, kinds = draw(sides), draw(sides), draw(cuts)
    r = min(w, h) / draw(st.integers(3, 9))
    found = []
    for (x, y), (ax, ay), (lx, ly), kind in zip(
        ((0, 0), (w, 0), (w, h), (0, h)),
        ((0, -1), (1, 0), (0, 1), (-1, 0)),
        ((1, 0), (0, 1), (-1, 0), (0, -1)),
        kinds,
        strict=True,
    ):
        before, after = Corner(x - ax * r, y - ay * r), (x + lx * r, y + ly * r)
        middle = Corner(before.across + lx * r, before.down + ly * r)
        turn = {"rounded": "right", "scooped": "left"}.get(kind)
        if kind == "straight":
            found.append(Corner(Fraction(x), Fraction(y)))
        else:
            found += [before, *([middle] if kind == "cut out" else []), Corner(*after, turn)]
    return tuple(found), w, h, r, kinds


@given(outlines())
def test_any_outline_has_the_area_that_its_corners_leave(drawn: Drawn) -> None:
    outline, w, h, r, kinds = drawn
    assert fault(outline, w, h) is None
    lost = {
        "straight": Fraction(0),
        "rounded": (1 - Fraction(PI) / 4) * r * r,
        "scooped": Fraction(PI) / 4 * r * r,
        "cut out": r * r,
    }
    assert is_close(area(outline), w * h - sum(lost[kind] for kind in kinds))
    assert box(outline) == (0, 0, w, h)


@given(outlines())
def test_any_outline_is_the_same_the_other_way_round(drawn: Drawn) -> None:
    outline, *_ = drawn
    swap = {None: None, "left": "right", "right": "left"}
    walked = edges(outline)
    back = tuple(Corner(*edge.start, swap[edge.arc]) for edge in reversed(walked))
    assert compare(area(back), area(outline)) == 0
    assert sorted(lengths(back)) == sorted(lengths(outline))


@given(outlines(), st.fractions(Fraction(1, 64), Fraction(1, 2), max_denominator=64))
def test_seam_line_lies_an_allowance_inside(drawn: Drawn, share: Fraction) -> None:
    """Second road: what lies between edge and seam line is the middle line's length times the allowance.

    Source: Steiner's formula for parallel curves: the lost area is a × (outer + inner length) ÷ 2 where all
    corners are square or smooth.
    """
    outline, _, _, r, kinds = drawn
    allowance = r * share
    seam = seam_line(outline, allowance)
    if "scooped" in kinds:
        assert seam is None  # a scoop meets both its neighbours squarely
        return
    assert seam is not None
    around = sum(Fraction(far) for line in (outline, seam) for far in lengths(line))
    lost = Fraction(area(outline)) - Fraction(area(seam))
    assert is_close(lost, allowance * around / 2)
    assert [edge.arc for edge in edges(seam)] == [edge.arc for edge in edges(outline)]


def test_rounded_values_count_as_equal_within_a_trace() -> None:
    near = CLOSE / 2
    outline = (
        Corner(Decimal(10), Decimal(0)),
        Corner(Decimal(10) + near, Decimal(5)),
        Corner(Decimal(0), Decimal(5)),
        Corner(Decimal(0), Decimal(0)),
    )
    assert fault(outline, Fraction(10), Fraction(5)) is None
