from fractions import Fraction
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.left_over import Taken, left_over

SIDE = 6
boxes = st.builds(
    lambda x, y, width, height: Taken(*map(Fraction, (x, y, min(width, SIDE - x), min(height, SIDE - y)))),
    *[st.integers(0, SIDE - 1)] * 2,
    *[st.integers(1, SIDE)] * 2,
)


def test_of_an_empty_sheet_is_all_of_it():
    assert left_over(Fraction(5), Fraction(7, 3), []) == Taken(*map(Fraction, (0, 0, 5)), Fraction(7, 3))


def test_of_a_full_sheet_is_nothing():
    assert left_over(Fraction(5), Fraction(4), [Taken(*map(Fraction, (0, 0, 5, 4)))]) is None


def test_of_equal_ones_the_uppermost():
    taken = [Taken(Fraction(0), Fraction(2), Fraction(4), Fraction(1))]
    assert left_over(Fraction(4), Fraction(5), taken) == Taken(*map(Fraction, (0, 0, 4, 2)))


@given(st.lists(boxes, max_size=5))
def test_is_as_large_as_the_largest_of_all(taken):
    """By trying every rectangle of whole numbers."""
    free = [
        (x, y)
        for x, y in product(range(SIDE), repeat=2)
        if not any(a <= x < a + width and b <= y < b + height for a, b, width, height in taken)
    ]
    best = max(
        (
            (right - left) * (bottom - top)
            for left, right, top, bottom in product(range(SIDE + 1), repeat=4)
            if left < right
            and top < bottom
            and all((x, y) in free for x in range(left, right) for y in range(top, bottom))
        ),
        default=0,
    )
    found = left_over(Fraction(SIDE), Fraction(SIDE), taken)
    assert (found.width * found.height if found else 0) == best
    if found:
        assert all(
            (x, y) in free
            for x in range(int(found.x), int(found.x + found.width))
            for y in range(int(found.y), int(found.y + found.height))
        )
