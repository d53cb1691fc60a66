"""A construction that is no starter, by a text alone: a strip sewn round a base whose corners are round."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
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
from patterns.drafting.formulas.tree import Choice, Node, Power, Rounding
from patterns.drafting.formulas.values import PI
from patterns.drafting.holding import sizes_that_hold
from patterns.drafting.recipe import MarkKind, MaterialKind
from patterns.drafting.recipe_text import read_recipe, write_recipe
from patterns.drafting.recipe_text.table import Table
from patterns.drafting.sized_json import from_json, to_json
from patterns.drafting.things import Solid, Things
from patterns.drafting.truing import prove
from patterns.drafting.units import Units
from patterns.drawings.folding.follow import follow
from patterns.drawings.folding.proving import sizes_to_follow
from tests.slips import Spoiler
from tests.starters import assert_read_well, corners, sized_at, some_corners

IN, CM = Units.INCHES, Units.CENTIMETRES
INCH = IN.mm
TEXT = (Path(__file__).parent / "bread_tray.toml").read_text(encoding="utf-8")
CHOICES = [
    {"interfacing": interfacing, "cover": cover}
    for interfacing, cover in product(("none", "fleece"), ("none", "clear"))
]


def parts(node: Node) -> Iterator[Node]:
    """A formula and all formulas in it."""
    yield node
    for value in (getattr(node, field.name) for field in fields(node)):
        for inner in value if isinstance(value, tuple) else (value,):
            if is_dataclass(inner):
                yield from parts(inner)


@pytest.fixture(scope="module")
def recipe():
    return read_recipe(TEXT)


def test_text_has_every_key_that_a_recipe_may_have(monkeypatch):
    """Of each kind of table, and of the acts that it has: the keys that none of them gives."""
    given: dict[frozenset[str], set[str]] = {}
    only = Table.only

    def noted(table, needed, optional=()):
        given.setdefault(frozenset([*needed, *optional]), set()).update(table.data)
        return only(table, needed, optional)

    monkeypatch.setattr(Table, "only", noted)
    read_recipe(TEXT)
    assert [left for keys, found in given.items() if (left := keys - found)] == []


def test_text_has_everything_that_a_formula_may_have(recipe):
    formulas = [*recipe.definitions.values(), *(check.holds for check in recipe.checks)]
    formulas += [side for truing in recipe.truings for side in (truing.one, truing.other)]
    nodes = [node for formula in formulas for node in parts(formula.tree)]
    assert {type(node) for node in nodes} == set(get_args(Node))
    assert {node.which for node in nodes if isinstance(node, Choice)} == {"smaller", "larger"}
    assert {node.way for node in nodes if isinstance(node, Rounding)} == {"up", "down"}
    assert {node.exponent for node in nodes if isinstance(node, Power)} == {2, 3}


def test_text_has_something_of_everything(recipe):
    assert {mark.kind for piece in recipe.pieces for mark in piece.marks} == set(get_args(MarkKind))
    assert {material.kind for material in recipe.materials} == set(get_args(MaterialKind))
    assert {measure.role for measure in recipe.measures} == {"size", "making"}
    assert {measure.power for measure in recipe.measures} == {0, 1}
    assert {check.level for check in recipe.checks} == {"refuse", "advise"}
    assert {corner.arc for piece in recipe.pieces for corner in piece.outline} == {None, "left", "right"}
    assert any(choice.sets for option in recipe.options for choice in option.choices)
    marks = [mark for piece in recipe.pieces for mark in piece.marks]
    conditional = (recipe.pieces, marks, recipe.truings, recipe.checks, recipe.materials, recipe.tells)
    for kind in (*conditional, recipe.steps, recipe.cautions):
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


def test_its_steps_can_be_followed(recipe):
    """As far as they say what they do: rings round a base with round corners are words of no act."""
    assert all(follow(sized) for sized in sizes_to_follow(recipe))


def test_it_goes_the_whole_road(recipe):
    """Kept and read again, held, cut from cloth, charted and made a book of."""
    sized = sized_at(recipe, CM, {}, {"cover": "clear"})
    assert from_json(to_json(sized)) == sized
    assert body(sized, "a4").startswith(b"%PDF-")
    assert chart.body(recipe, CM, "a4").startswith(b"%PDF-")
    loaf = Things(Solid(Fraction(300), Fraction(90), Fraction(110)))
    assert sizes_that_hold(recipe, CM, loaf, 1)
    assert from_cloth(recipe, CM, [Cloth(Fraction(1100), Fraction(500))] * 2, PROPORTIONS).measures
