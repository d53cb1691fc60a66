from fractions import Fraction
from itertools import permutations

import pytest

from patterns.drafting.errors import HoldingError
from patterns.drafting.things import Solid, Things


def things(*sides, loose="0", turning="upright"):
    return Things(Solid(*map(Fraction, sides)), Fraction(loose), turning)


def test_a_thing_has_a_size_and_is_no_looser_than_nothing():
    with pytest.raises(HoldingError, match="each above 0"):
        things("1", "0", "1")
    with pytest.raises(HoldingError, match="Write 0 or more"):
        things("1", "1", "1", loose="-1")


def test_a_thing_with_equal_edges_is_turned_no_more_often_than_it_shows():
    assert things("2", "2", "2", turning="any").turns == ((0, 1, 2),)
    assert len(things("2", "3", "2", turning="any").turns) == 3
    assert things("2", "3", "4", turning="any").turns[0] == (0, 1, 2)


def test_what_is_upright_is_turned_round_but_not_laid_over():
    what = things("2", "3", "4")
    assert [what.turned(turn) for turn in what.turns] == [(2, 3, 4), (4, 3, 2)]
    assert things("2", "3", "4", turning="none").turns == ((0, 1, 2),)
    anyhow = things("2", "3", "4", turning="any")
    assert {anyhow.turned(turn) for turn in anyhow.turns} == set(permutations((2, 3, 4)))
