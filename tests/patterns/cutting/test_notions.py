from fractions import Fraction

import pytest

from patterns.cutting.notions import ZIP_LENGTHS, next_zip, stitched_length, thread, thread_for
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs

IN = Units.INCHES


@pytest.mark.parametrize(("stitch", "ratio"), [("301", Fraction(5, 2)), ("304", Fraction(7))])
def test_thread_ratios(stitch, ratio):
    """Source: industry consumption tables, stitch types of ISO 4915; 304 from memory. 15 % are for ends."""
    assert thread_for(1000, stitch) == 1000 * ratio * Fraction(115, 100)


def test_thread_comes_on_whole_spools():
    assert thread(Fraction(34_782)).spools == 1
    assert thread(Fraction(34_783)).spools == 2
    assert thread(Fraction(0)).spools == 1


def test_the_next_standard_zip():
    assert next_zip(13 * IN.mm, ZIP_LENGTHS[IN]) == 14 * IN.mm
    assert next_zip(14 * IN.mm, ZIP_LENGTHS[IN]) == 14 * IN.mm
    assert next_zip(37 * IN.mm, ZIP_LENGTHS[IN]) is None


def test_the_stitching_of_a_basket():
    """By hand: two panels of 15 × 18 in, on each two top and two side lines from edge to edge."""
    slug = "fold-flat-basket"
    basket = size(read_starter(slug), slug, IN)
    lines = [len([m for m in piece.marks if m.kind == "stitch"]) for piece in basket.pieces]
    assert lines[:2] == [4, 4]
    assert stitched_length(basket) == 2 * (2 * 15 + 2 * 18) * IN.mm


@pytest.mark.parametrize("slug", slugs())
@pytest.mark.parametrize("units", Units)
def test_every_starter_is_stitched(slug, units):
    assert stitched_length(size(read_starter(slug), slug, units)) > 0
