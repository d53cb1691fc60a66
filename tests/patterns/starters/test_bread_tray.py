"""A construction that is no starter, by a text alone: a strip sewn round a base whose corners are round."""

from decimal import Decimal
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import get_args

import pytest

from patterns.cutting.from_cloth import from_cloth
from patterns.cutting.ladder import PROPORTIONS
from patterns.cutting.sharing import Cloth
from patterns.documents import chart
from patterns.documents.book import body
from patterns.drafting.formulas.values import PI
from patterns.drafting.holding import sizes_that_hold
from patterns.drafting.recipe import MarkKind
from patterns.drafting.recipe_text import read_recipe, write_recipe
from patterns.drafting.sized_json import from_json, to_json
from patterns.drafting.things import Solid, Things
from patterns.drafting.truing import prove
from patterns.drafting.units import Units
from tests.slips import Spoiler
from tests.starters import assert_read_well, corners, sized_at, some_corners

IN, CM = Units.INCHES, Units.CENTIMETRES
INCH = IN.mm
TEXT = (Path(__file__).parent / "bread_tray.toml").read_text(encoding="utf-8")
CHOICES = [
    {"interfacing": interfacing, "cover": cover}
    for interfacing, cover in product(("none", "fleece"), ("none", "clear"))
]


@pytest.fixture(scope="module")
def recipe():
    return read_recipe(TEXT)


def test_text_has_something_of_everything(recipe):
    """But a zip: there is none in it."""
    assert {mark.kind for piece in recipe.pieces for mark in piece.marks} == set(get_args(MarkKind))
    assert {material.kind for material in recipe.materials} == {
        *("fabric", "interfacing", "vinyl", "notion", "tool")
    }
    assert {measure.role for measure in recipe.measures} == {"size", "making"}
    assert {measure.power for measure in recipe.measures} == {0, 1}
    assert {check.level for check in recipe.checks} == {"refuse", "advise"}
    assert {corner.arc for piece in recipe.pieces for corner in piece.outline} == {None, "right"}
    assert any(choice.sets for option in recipe.options for choice in option.choices)
    for kind in (recipe.pieces, recipe.truings, recipe.materials, recipe.tells, recipe.steps):
        assert {bool(each.when.options) for each in kind} == {True, False}
    assert recipe.holds
    assert recipe.note
    assert len(recipe.sizes) == 2


def test_text_is_in_the_one_spelling(recipe):
    assert write_recipe(recipe) == TEXT


def test_every_truing_is_proved_and_every_slip_is_caught(recipe):
    assert {proof.result for proof in prove(recipe)} == {"proved"}
    missed = Spoiler.of(recipe).missed()
    assert [slip for slip in missed if not slip.startswith(("number of ", "length of "))] == []


@pytest.mark.parametrize("options", CHOICES, ids=lambda options: ", ".join(options.values()))
def test_pieces_of_the_default_size(recipe, options):
    """12 × 3 × 8 in, corners of 2 in, 3/8 in seams; round it goes 2 × 8 + 2 × 4 + 4 π in."""
    sized = sized_at(recipe, IN, {}, options)
    cut = {piece.name: (piece.width.value, piece.height.value) for piece in sized.pieces}
    for strip in ("exterior strip", "lining strip"):
        width, height = cut.pop(strip)
        assert abs(width / Decimal("25.4") - (24 + 4 * PI + Decimal("0.75"))) < Decimal("1e-20")
        assert height == Fraction("3.75") * INCH
    wanted = dict.fromkeys(("exterior base", "lining base"), ("12.75", "8.75"))
    if options["interfacing"] == "fleece":
        wanted["fleece base"] = ("12", "8")
    if options["cover"] == "clear":
        wanted["clear sheet"] = {"none": ("12", "8"), "fleece": ("11.75", "7.75")}[options["interfacing"]]
    assert cut == {name: tuple(Fraction(side) * INCH for side in sides) for name, sides in wanted.items()}


def test_corners_too_round_are_refused_and_high_walls_advised_against(recipe):
    sized = sized_at(recipe, IN, {"depth": Fraction(5), "radius": Fraction(9, 4)}, {})
    assert [check.says for check in sized.failed] == ["The base has a straight stretch on every side."]
    sized = sized_at(recipe, CM, {"height": Fraction(20), "depth": Fraction(19)}, {})
    assert [check.level for check in sized.failed] == ["advise"]


@pytest.mark.parametrize("units", Units)
def test_everything_that_is_read_reads_well(recipe, units):
    for at in (*some_corners(recipe, units, 60), next(corners(recipe, units))):
        for options in CHOICES:
            sized = sized_at(recipe, units, at, options)
            if not sized.is_refused:
                assert_read_well(sized)


def test_it_goes_the_whole_road(recipe):
    """Kept and read again, held, cut from cloth, charted and made a book of."""
    sized = sized_at(recipe, CM, {}, {"cover": "clear"})
    assert from_json(to_json(sized)) == sized
    assert body(sized, "a4").startswith(b"%PDF-")
    assert chart.body(recipe, CM, "a4").startswith(b"%PDF-")
    loaf = Things(Solid(Fraction(300), Fraction(90), Fraction(110)))
    assert sizes_that_hold(recipe, CM, loaf, 1)
    assert from_cloth(recipe, CM, [Cloth(Fraction(1100), Fraction(500))] * 2, PROPORTIONS).measures
