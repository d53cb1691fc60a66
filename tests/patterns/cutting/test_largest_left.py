from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.effort import Effort
from patterns.cutting.largest_left import largest_left
from patterns.cutting.sheets import Rectangle
from patterns.cutting.shortest import shortest

pieces = st.tuples(st.just(0), st.integers(0, 5), st.integers(0, 5), st.integers(1, 3), st.integers(1, 3))


def tried(placed, width, length):
    """Every rectangle of whole numbers."""
    return max(
        (right - left) * (top - low)
        for left, right in product(range(width + 1), repeat=2)
        for low, top in product(range(length + 1), repeat=2)
        if left <= right
        and low <= top
        and not any(
            x < right and left < x + wide and y < top and low < y + high for _, x, y, wide, high in placed
        )
    )


@given(st.lists(pieces, max_size=6))
def test_it_is_the_largest_of_all(placed):
    assert largest_left(placed, 8, 8) == tried(placed, 8, 8)


def test_of_layouts_to_be_bought_alike_the_one_with_the_largest_rest_is_chosen():
    # 3 × 3 three times on a width of 9 and a length of 4 to buy: in one row, a strip is left along them.
    answer = shortest([Rectangle(3, 3)] * 2, 9, Effort(), 4)
    lying = [(0, int(each.x), int(each.y), 3, 3) for each in answer.layout]
    assert largest_left(lying, 9, 4) == 12
