"""The presets against the published sizes, written down here a second time."""

from fractions import Fraction

import pytest

from patterns.drafting.known_things import KNOWN_THINGS

BY_NAME = {thing.name: thing for thing in KNOWN_THINGS}
# Long side, short side in mm.
PUBLISHED = {
    "A4 sheets": (297, 210, "ISO 216"),
    "A5 sheets": (210, 148, "ISO 216"),
    "A6 sheets": (148, 105, "ISO 216"),
    "C5 envelopes": (229, 162, "ISO 269"),
    "C6 envelopes": (162, 114, "ISO 269"),
    "DL envelopes": (220, 110, "ISO 269"),
    "ID-1 cards": (Fraction("85.60"), Fraction("53.98"), "ISO/IEC 7810"),
    "ID-3 passports": (125, 88, "ISO/IEC 7810"),
}


def test_every_preset_is_checked():
    assert BY_NAME.keys() == PUBLISHED.keys()


@pytest.mark.parametrize("name", PUBLISHED)
def test_preset_has_its_published_size(name):
    """ISO 216 (A sizes), ISO 269 (envelopes), ISO/IEC 7810 (ID-1 card, ID-3 passport)."""
    thing = BY_NAME[name]
    long, short, source = PUBLISHED[name]
    assert (max(thing.width, thing.height), min(thing.width, thing.height)) == (long, short)
    assert thing.source == source
    assert isinstance(thing.width, Fraction)


def test_only_the_card_has_a_published_thickness():
    """ISO/IEC 7810: 0.76 mm for ID-1; nobody lays down how thick a sheet, an envelope or a booklet is."""
    assert {thing.name: thing.depth for thing in KNOWN_THINGS if thing.depth} == {
        "ID-1 cards": Fraction(76, 100)
    }


def test_each_sheet_of_iso_216_is_half_the_next():
    """ISO 216: cut across the middle, to the whole millimetre below."""
    for large, small in (("A4 sheets", "A5 sheets"), ("A5 sheets", "A6 sheets")):
        assert BY_NAME[small].height == BY_NAME[large].width
        assert BY_NAME[small].width == BY_NAME[large].height // 2


def test_a_sheet_goes_into_the_envelope_of_its_number():
    """ISO 269: C5 is for an A5 sheet unfolded, C6 for A6, DL for A4 folded in three."""
    for sheet, envelope in (("A5 sheets", "C5 envelopes"), ("A6 sheets", "C6 envelopes")):
        assert BY_NAME[sheet].width < BY_NAME[envelope].width
        assert BY_NAME[sheet].height < BY_NAME[envelope].height
    assert BY_NAME["A4 sheets"].height / 3 < BY_NAME["DL envelopes"].width
