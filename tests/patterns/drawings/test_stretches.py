from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from patterns.drafting.units import Units
from patterns.drawings.laid_cloth import Cut, LaidCloth, LaidPiece
from patterns.drawings.stretches import in_stretches

CM = Units.CENTIMETRES


def piece(x, y, width, height):
    return LaidPiece("panel", "exterior", *map(Fraction, (width, height, x, y)))


def cloth(length, *pieces, cuts=()):
    return LaidCloth("lining fabric", Fraction(500), Fraction(length), pieces, "selvedge", "selvedge", cuts)


def test_pieces_in_a_row_are_parted_between_them():
    stacked = [piece(0, at, 400, 300) for at in (0, 300, 600, 900)]
    found = in_stretches(cloth(1250, *stacked), Fraction(700), CM)
    assert [(each.length, len(each.pieces)) for each in found] == [(600, 2), (650, 2)]
    assert [each.name for each in found] == [
        "lining fabric, part 1 of 2",
        "lining fabric, part 2 of 2, from 60 cm on",
    ]
    assert [each.y for each in found[1].pieces] == [0, 300]


def test_cloth_with_a_piece_across_every_line_stays_whole():
    strap = cloth(1250, piece(0, 0, 100, 1200), piece(100, 0, 100, 600), piece(100, 600, 100, 600))
    assert in_stretches(strap, Fraction(500), CM) == (strap,)


def test_short_cloth_and_cloth_with_numbered_cuts_stay_whole():
    short = cloth(600, piece(0, 0, 400, 300), piece(0, 300, 400, 300))
    assert in_stretches(short, Fraction(700), CM) == (short,)
    planned = cloth(
        1200,
        *short.pieces,
        piece(0, 600, 400, 600),
        cuts=(Cut("x", Fraction(600), Fraction(0), Fraction(500)),),
    )
    assert in_stretches(planned, Fraction(500), CM) == (planned,)


@given(st.lists(st.tuples(st.integers(0, 1500), st.integers(1, 600)), min_size=1, max_size=8), st.data())
def test_nothing_is_lost_and_nothing_lies_across_an_end(spans, data):
    pieces = [piece(0, at, 100, high) for at, high in spans]
    least = max(at + high for at, high in spans)
    whole = cloth(least + data.draw(st.integers(0, 200)), *pieces)
    found = in_stretches(whole, Fraction(data.draw(st.integers(200, 900))), CM)
    assert sum(each.length for each in found) == whole.length
    starts = [sum(each.length for each in found[:at]) for at in range(len(found))]
    back = [
        (start + one.y, one.height) for start, each in zip(starts, found, strict=True) for one in each.pieces
    ]
    assert sorted(back) == sorted(spans)
    assert all(each.pieces for each in found)
    for each in found:
        assert all(one.y + one.height <= each.length for one in each.pieces)
    assert all(one < other for one, other in pairwise(starts))
