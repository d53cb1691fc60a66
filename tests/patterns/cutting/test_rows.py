from random import Random

from patterns.cutting.boxes import kinds_of
from patterns.cutting.effort import Effort
from patterns.cutting.regrouping import regrouped
from patterns.cutting.rows import in_rows
from patterns.cutting.sheets import Sheet

from .layouts import assert_is_layout
from .playing import cut_at_random


def test_rows_stay_a_layout_and_never_grow():
    for seed in range(10):
        pieces = cut_at_random(60, 90, 20, Random(seed))
        kinds = kinds_of(pieces)
        rows = in_rows(kinds.kinds, kinds.whole(60), Effort(10**7), Random(seed))
        for _ in range(20):
            before = rows.length
            rows.lay_anew()
            assert rows.length <= before
        assert_is_layout(kinds.layout(rows.spots), pieces, [Sheet(60, rows.length * kinds.part)])


def test_groups_stay_a_layout_and_never_grow():
    for seed in range(10):
        pieces = cut_at_random(60, 90, 20, Random(seed), turns=seed % 2 == 0)
        kinds = kinds_of(pieces)
        rows = in_rows(kinds.kinds, kinds.whole(60), Effort(10**7), Random(seed))
        spots, length = rows.spots, rows.length
        for _ in range(10):
            anew = regrouped(spots, kinds.kinds, kinds.whole(60), Effort(10**6), Random(seed))
            spots = anew or spots
            assert_is_layout(kinds.layout(spots), pieces, [Sheet(60, length * kinds.part)])
            length = max(spot.y + spot.height for spot in spots)


def test_no_effort_is_no_row():
    kinds = kinds_of(cut_at_random(60, 90, 20, Random(1)))
    assert in_rows(kinds.kinds, 60, Effort(0), Random(1)) is None
