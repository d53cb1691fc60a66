"""What an order keeps of its cloth is read back equal, and draws the same."""

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.cutting.answers import Cut
from patterns.cutting.book_list import book_list
from patterns.cutting.forms import ClothForm
from patterns.cutting.listing import Line, ShoppingList
from patterns.cutting.listing_json import from_json, to_json
from patterns.cutting.on_cloth import ClothPiece, OnCloth
from patterns.cutting.on_length import Way
from patterns.cutting.sheets import Placement, Rectangle
from patterns.cutting.shrinkage import Shrinkage
from patterns.drafting.sized_json import FormatError
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs

texts = st.text(max_size=12)
lengths = st.fractions(min_value=0, max_value=9000, max_denominator=1000)
above = st.fractions(min_value=Fraction(1, 1000), max_value=9000, max_denominator=1000)
numbers = st.integers(min_value=0, max_value=30)
per_cent = st.fractions(min_value=0, max_value=50, max_denominator=10)
forms = st.builds(
    ClothForm,
    texts,
    above,
    st.just(Fraction(0)),
    st.none() | above,
    st.none() | above,
    st.none() | st.integers(min_value=1, max_value=24),
)
ways = st.builds(
    Way,
    st.booleans(),
    st.none() | above,
    st.booleans(),
    st.booleans(),
    st.builds(Shrinkage, per_cent, per_cent),
)
pieces = st.builds(ClothPiece, texts, st.builds(Rectangle, above, above, st.booleans(), st.booleans()))
places = st.builds(Placement, numbers, numbers, lengths, lengths, above, above, st.booleans())
cuts = st.builds(Cut, st.none() | numbers, st.sampled_from(["x", "y"]), lengths, lengths, lengths)


def several(of):
    return st.lists(of, max_size=3).map(tuple)


cloths = st.builds(
    OnCloth,
    forms,
    ways,
    several(pieces),
    lengths,
    lengths,
    above,
    st.none() | lengths,
    several(places),
    several(cuts),
    st.none() | lengths,
    several(numbers),
    several(numbers),
)
lines = st.builds(
    Line,
    texts,
    st.sampled_from(["fabric", "vinyl", "interfacing", "zip", "notion", "tool"]),
    texts,
    texts,
    texts,
    st.none() | lengths,
    st.none() | lengths,
    st.none() | cloths,
)
lists = st.builds(
    ShoppingList, st.sampled_from(Units), st.integers(min_value=1, max_value=100), several(lines)
)


@given(lists)
def test_a_list_is_read_back_equal(shopping):
    kept = json.loads(json.dumps(to_json(shopping)))
    assert from_json(kept) == shopping
    assert to_json(from_json(kept)) == kept


@pytest.mark.parametrize("slug", slugs())
def test_what_a_starter_needs_is_read_back_exact(slug):
    shopping = book_list(size(read_starter(slug), slug, Units.INCHES))
    read = from_json(json.loads(json.dumps(to_json(shopping))))
    assert read == shopping
    for line in read.lines:
        for place in line.cloth.layout if line.cloth else ():
            assert {type(side) for side in (place.x, place.y, place.width, place.height)} == {Fraction}


def test_another_format_is_refused():
    with pytest.raises(FormatError, match="A kept shopping list has the format 2, which is not known"):
        from_json({"format": 2})
