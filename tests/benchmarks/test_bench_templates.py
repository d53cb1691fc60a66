"""A template of 600 × 900 mm over sheets, beside the whole of it on one page in the same run."""

from dataclasses import replace
from fractions import Fraction

import pytest

from patterns.documents.templates import body, large_sheet
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter


@pytest.fixture(scope="module")
def sized():
    """A packable tote, its exterior panel 600 × 900 mm."""
    made = size(read_starter("packable-tote"), "packable-tote", Units.CENTIMETRES)
    panel = next(piece for piece in made.pieces if piece.name == "exterior panel")
    width = replace(panel.width, value=Fraction(600))
    height = replace(panel.height, value=Fraction(900))
    return replace(made, pieces=(replace(panel, width=width, height=height),))


def test_over_sheets(benchmark, sized):
    assert benchmark(body, sized, "a4", ["exterior panel"]).startswith(b"%PDF")


def test_on_one_large_sheet(benchmark, sized):
    assert benchmark(large_sheet, sized, ["exterior panel"]).startswith(b"%PDF")
