from decimal import Decimal
from fractions import Fraction

import pytest

from patterns.drafting.outline_faults import fault
from patterns.drafting.outlines import Corner


def corners(*places: tuple[object, ...]) -> tuple[Corner, ...]:
    return tuple(Corner(Fraction(str(x)), Fraction(str(y)), *turn) for x, y, *turn in places)


def said(outline: tuple[Corner, ...], width: int, height: int) -> tuple[int, str] | None:
    found = fault(outline, Fraction(width), Fraction(height))
    return None if found is None else (found.corner, found.says)


@pytest.mark.parametrize(
    ("outline", "wrong"),
    [
        (corners((4, 0), (4, 3), (0, 3), (0, 0)), None),
        (corners((4, 0), (4, 0), (4, 3), (0, 3), (0, 0)), (1, "has an edge of no length")),
        (
            corners((4, 0), (4, 3), (0, 3), (0, 1), (2, 0, "right")),
            (4, "has a curve that is no quarter circle"),
        ),
        (corners((4, 0), (4, 3), (0, 3), (0, 1), (1, 0, "right")), None),
        (corners((4, 0), (4, 2), (0, 2), (0, 0)), (0, "does not fill the width and the height of the piece")),
        (corners((4, 1), (4, 3), (1, 3), (1, 1)), (0, "does not fill the width and the height of the piece")),
        (corners((4, 0), (0, 3), (4, 3), (0, 0)), (3, "crosses itself")),
        # A corner that touches the edge across from it leaves two pieces that hang by a thread.
        (corners((4, 0), (4, 3), (2, 0), (0, 3), (0, 0)), (2, "crosses itself")),
        # An edge that runs back on itself.
        (corners((4, 0), (2, 0), (4, 3), (0, 3), (0, 0)), (1, "crosses itself")),
        # Two cut-outs that overlap.
        (
            corners((4, 0), (4, 1), (1, 1), (1, 3), (3, 3), (3, 1), (0, 1), (0, 0)),
            (5, "crosses itself"),
        ),
    ],
)
def test_what_cannot_be_cut_is_told(outline: tuple[Corner, ...], wrong: tuple[int, str] | None) -> None:
    assert said(outline, 4, 3) == wrong


def test_quarter_of_a_circle_on_two_straight_edges_is_no_fault() -> None:
    assert said(corners((4, 0), (4, 4), (0, 0, "right")), 4, 4) is None


def test_every_fault_has_a_mend() -> None:
    for outline in (
        corners((4, 0), (4, 0), (0, 3)),
        corners((4, 0), (4, 2), (0, 0)),
        corners((9, 0), (4, 2), (0, 0)),
    ):
        found = fault(outline, Fraction(4), Fraction(3))
        assert found is not None
        assert found.mend.endswith(".")


def test_sides_that_were_rounded_are_compared_within_a_trace() -> None:
    trace = Decimal("1e-40")
    outline = (*corners((3, 0)), Corner(Decimal(3) + trace, Decimal(2)), *corners((0, 2), (0, 0)))
    assert fault(outline, Decimal(3), Fraction(2)) is None
