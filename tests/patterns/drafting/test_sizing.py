from decimal import Decimal
from fractions import Fraction

import pytest

from patterns.drafting.lengths import written
from patterns.drafting.sizing import SizingError, size
from tests.recipes import CM, IN, formula, make_disc, make_recipe

FLEECE = {"stiffening": "fleece"}


def test_defaults_are_those_of_the_units(no_floats):
    sized = size(make_recipe(), "folding-mat", IN)
    assert {each.name: each.value for each in sized.measures} == {
        "width": 9 * IN.mm,
        "height": 6 * IN.mm,
        "folds": 3,
        "seam allowance": IN.mm / 2,
    }
    assert size(make_recipe(), "folding-mat", CM).values["width"] == 230


def test_every_number_is_exact_and_typed(no_floats):
    sized = size(make_recipe(), "folding-mat", IN, {"width": Fraction(17, 2) * IN.mm})
    mat = sized.pieces[0]
    assert mat.width.value == Fraction(19, 2) * IN.mm
    assert type(mat.width.value) is Fraction
    assert sized.working(mat.width) == "8 1/2 + 2 × 1/2 = 9 1/2"
    assert type(sized.values["diagonal"]) is Decimal


def test_amounts_may_read_one_another_in_any_order():
    sized = size(make_recipe(), "folding-mat", IN)
    assert sized.values["packed height"] == 4 * IN.mm
    assert [amount.name for amount in sized.amounts] == ["packed height", "fold height", "diagonal"]


def test_options_decide_what_exists_and_set_values():
    bare, stiff = size(make_recipe(), "m", IN), size(make_recipe(), "m", IN, options=FLEECE)
    assert [piece.name for piece in bare.pieces] == ["mat"]
    assert [piece.name for piece in stiff.pieces] == ["mat", "filling"]
    assert [material.name for material in stiff.materials] == ["cloth", "fleece"]
    assert (bare.values["layers"], stiff.values["layers"]) == (2, 3)
    assert (stiff.pieces[0].turns, stiff.pieces[1].turns) == (True, False)


def test_marks_and_texts_are_worked_out():
    sized = size(make_recipe(), "m", IN)
    down = sized.pieces[0].marks[0].down_from_top
    assert down is not None
    assert down.value == Fraction(5, 2) * IN.mm
    words, blank, end = sized.steps[0].does
    assert (words, written(blank.value, blank.power, IN).text, end) == ("Fold at ", "2 in", ".")


def test_checks_hold_or_do_not():
    sized = size(make_recipe(), "m", IN, {"height": 3 * IN.mm, "width": 3 * IN.mm})
    assert sized.is_refused
    assert [check.says for check in sized.failed] == ["A fold is worth making."]


def test_a_value_out_of_range_is_refused_like_a_failed_check():
    sized = size(make_recipe(), "m", IN, {"width": 25 * IN.mm})
    assert sized.is_refused
    (check,) = sized.failed
    assert check.measure == "width"
    assert check.says == "The width is between 3 in and 20 in."


def test_any_value_in_range_is_taken():
    assert not size(make_recipe(), "m", IN, {"width": Fraction(31, 7) * IN.mm}).is_refused


def test_a_check_that_reads_no_value_fails():
    recipe = make_recipe()
    amounts = tuple(each for each in recipe.amounts if each.name != "fold height")
    fold = recipe.amounts[1]
    hollow = type(fold)("fold height", 1, formula("√(height² − width²)"))
    sized = size(make_recipe(amounts=(*amounts, hollow)), "m", IN)
    (check,) = [each for each in sized.checks if each.says == "A fold is worth making."]
    assert check.holds is None
    assert sized.is_refused


def test_a_piece_of_nothing_is_refused_whatever_the_recipe_checks():
    recipe = make_recipe()
    mat = recipe.pieces[0]
    lost = type(mat)("mat", "cloth", formula("1"), formula("width − height × folds"), mat.height)
    sized = size(make_recipe(pieces=(lost,)), "m", IN)
    assert sized.failed[0].otherwise == ("Nothing would be left of the mat at this size.",)


def test_half_a_piece_is_refused():
    mat = make_recipe().pieces[0]
    halves = type(mat)("mat", "cloth", formula("folds ÷ 2"), mat.width, mat.height)
    sized = size(make_recipe(pieces=(halves,)), "m", IN)
    assert sized.is_refused
    before, cut, after = sized.failed[0].otherwise
    assert (before, cut.value, after) == ("The mat would be cut ", Fraction(3, 2), " times.")
    assert not size(make_recipe(pieces=(halves,)), "m", IN, {"folds": Fraction(2)}).is_refused


@pytest.mark.parametrize(
    ("measures", "options", "says"),
    [
        (
            {"weight": Fraction(1)},
            {},
            "There is no measure “weight”. There are: folds, height, seam allowance, width.",
        ),
        ({}, {"colour": "red"}, "There is no option “colour”. There are: stiffening."),
        ({}, {"stiffening": "steel"}, "There is no choice of “stiffening” “steel”. There are: fleece, none."),
    ],
)
def test_what_the_recipe_does_not_have_is_named(measures, options, says):
    with pytest.raises(SizingError) as error:
        size(make_recipe(), "m", IN, measures, options)
    assert str(error.value) == says


def test_a_circle_is_one_at_every_size(no_floats):
    for width in (3, 9, Fraction(61, 7)):
        (disc,) = size(make_recipe(pieces=(make_disc(),)), "m", IN, {"width": width * IN.mm}).pieces
        assert disc.shape == "circle"
        assert [corner.arc for corner in disc.corners] == ["right"] * 4
        assert disc.corners[0].across == width * IN.mm / 2


@pytest.mark.parametrize(
    ("last", "wrong"),
    [
        (("0", "height"), "has a curve that is no quarter circle"),
        (("√(height² − width²)", "disc width ÷ 2"), "has a corner without a place"),
    ],
)
def test_an_outline_that_cannot_be_cut_is_refused(last, wrong):
    sized = size(make_recipe(pieces=(make_disc(*last),), checks=()), "m", IN, {"width": 8 * IN.mm})
    assert sized.is_refused
    (check,) = sized.failed
    assert check.says == "The outline of the disc can be cut."
    assert check.otherwise == (f"The disc cannot be cut at this size: its outline {wrong}.",)


def test_an_outline_that_closes_at_one_size_only_is_cut_at_that_size():
    recipe = make_recipe(pieces=(make_disc("0", "height ÷ 2"),), checks=())
    assert not size(recipe, "m", IN, {"width": 6 * IN.mm}).is_refused
    assert size(recipe, "m", IN, {"width": 7 * IN.mm}).is_refused
