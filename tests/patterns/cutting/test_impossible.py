from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.impossible import Impossible, are_no_smaller

sides = st.tuples(*[st.tuples(st.integers(1, 4), st.integers(1, 4))] * 2)


def test_what_needs_no_less_room():
    assert are_no_smaller(((3, 4), (5, 5)), ((3, 4), (5, 4)))
    assert not are_no_smaller(((3, 4), (5, 5)), ((3, 5), (1, 1)))


@given(st.lists(sides), st.lists(sides))
def test_it_knows_of_all_that_are_no_smaller_than_one_that_was_added(added, asked):
    """Also after those that are larger than a later one were let go, and in whichever order it is asked."""
    impossible = Impossible()
    for each in added:
        impossible.add(each)
    for each in asked:
        assert impossible.is_no_larger_than(each) == any(are_no_smaller(each, one) for one in added)
