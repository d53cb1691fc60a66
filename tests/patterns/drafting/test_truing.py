from collections.abc import Sequence
from fractions import Fraction

import pytest

from patterns.drafting import truing as truing_module
from patterns.drafting.recipe import Amount, Constant, Option, OptionChoice, Piece, Truing, When
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sizing import all_values
from patterns.drafting.truing import prove
from patterns.starters import read_starter, slugs, text_of
from tests.recipes import CM, IN, count, formula, make_recipe

ONE_WAY, NO_DIRECTION = When((("print", ("one way",)),)), When((("print", ("no direction",)),))
PRINT = Option("print", "Its way.", (OptionChoice("no direction"), OptionChoice("one way")), "no direction")


def true(one: str, other: str, when: When | None = None) -> Truing:
    return Truing("across", formula(one), formula(other), when or When())


def piece(name: str, width: str, when: When | None = None) -> Piece:
    return Piece(name, "cloth", formula("1"), formula(width), formula("height"), when=when or When())


def constant(name: str, inches: str, centimetres: str) -> Constant:
    return Constant(name, 1, {IN: Fraction(inches) * IN.mm, CM: Fraction(centimetres) * CM.mm})


def proof(one: str, other: str, **changes):
    [found] = prove(make_recipe(truings=(true(one, other),), **changes))
    return found


def spoiled(slug: str, *spoilings: Sequence[str]):
    """The proofs that fail when formulas of a starter are spoiled: (what stands there, what is to)."""
    text = text_of(slug)
    for there, instead in spoilings:
        assert there in text
        text = text.replace(there, instead)
    return [proof for proof in prove(read_recipe(text)) if proof.result != "proved"]


@pytest.mark.parametrize("slug", slugs())
def test_every_truing_of_the_starters_is_proved(slug):
    proofs = prove(read_starter(slug))
    assert len({proof.truing.says for proof in proofs}) >= 3
    assert {proof.result for proof in proofs} == {"proved"}


def test_a_forgotten_seam_allowance_is_spelled_out():
    failed = spoiled(
        "fold-flat-basket", ["2 × height + depth + 2 × seam allowance", "2 × height + depth + seam allowance"]
    )
    first = failed[0]
    assert (first.result, str(first.difference)) == ("false", "−seam allowance")
    assert first.example is not None
    assert first.example.units is IN
    assert {name: value / IN.mm for name, value in first.example.measures.items()} == {
        "width": 9,
        "height": 6,
        "depth": 5,
        "seam allowance": Fraction(1, 2),
    }
    assert (first.example.one / IN.mm, first.example.other / IN.mm) == (Fraction(33, 2), 17)
    assert first.example.power == 1


def test_depth_for_half_the_depth_is_spelled_out():
    failed = spoiled(
        "fold-flat-basket", ["height + depth ÷ 2 + 2 × seam allowance", "height + depth + 2 × seam allowance"]
    )
    assert {proof.result for proof in failed} == {"false"}
    assert "depth" in {str(proof.difference) for proof in failed}
    assert {proof.options["exterior print"] for proof in failed if "exterior print" in proof.options} >= {
        "one way"
    }


def test_a_forgotten_half_reveal_is_spelled_out():
    failed = spoiled("zip-pouch", ["height + depth ÷ 2 − reveal ÷ 2 +", "height + depth ÷ 2 − reveal +"])
    assert {proof.result for proof in failed} == {"false"}
    assert "2 × zip seam allowance − zip tape width" in {str(proof.difference) for proof in failed}


def test_both_sides_come_to_what_sizing_makes_of_them():
    for found in spoiled("zip-pouch", ["height + depth ÷ 2 − reveal ÷ 2 +", "height + depth ÷ 2 +"]):
        example = found.example
        assert example is not None
        recipe = read_starter("zip-pouch")
        spoilt = read_recipe(
            text_of("zip-pouch").replace("height + depth ÷ 2 − reveal ÷ 2 +", "height + depth ÷ 2 +")
        )
        values = all_values(spoilt, example.units, example.measures, example.options)
        assert found.truing.one.value(values) == example.one
        assert found.truing.other.value(values) == example.other
        assert {measure.name for measure in recipe.measures} == set(example.measures)


def test_a_truing_is_proved_through_amounts():
    amounts = (
        Amount("twice", 1, formula("2 × mat width")),
        Amount("inside", 1, formula("twice − 4 × seam allowance")),
    )
    assert proof("inside", "2 × width", amounts=amounts).result == "proved"


def test_every_combination_in_which_the_pieces_exist():
    pieces = (
        piece("whole", "width", NO_DIRECTION),
        piece("half", "width ÷ 2", ONE_WAY),
        piece("lining", "width"),
    )
    recipe = make_recipe(
        options=(PRINT,),
        pieces=pieces,
        amounts=(Amount("both halves", 1, formula("2 × half width")),),
        constants=(),
        checks=(),
        tells=(),
        steps=(),
        truings=(
            true("whole width", "width"),
            true("both halves", "lining width"),
            true("lining width", "width"),
        ),
    )
    assert [(found.result, found.options) for found in prove(recipe)] == [
        ("proved", {"print": "no direction"}),
        ("proved", {"print": "one way"}),
        ("proved", {}),
    ]


def test_its_own_when_limits_it():
    found = prove(make_recipe(options=(PRINT,), amounts=(), truings=(true("mat width", "width", ONE_WAY),)))
    assert [(each.result, each.options) for each in found] == [("false", {"print": "one way"})]
    assert found[0].example is not None
    assert found[0].example.options == {"print": "one way"}


def test_what_never_exists_is_not_proved():
    pieces = (piece("whole", "width", NO_DIRECTION), piece("half", "width ÷ 2", ONE_WAY))
    truings = (true("whole width", "2 × half width"),)
    [found] = prove(make_recipe(options=(PRINT,), amounts=(), pieces=pieces, truings=truings))
    assert (found.result, found.options, found.difference) == ("undecided", {}, None)


def test_an_edge_read_by_another_piece_need_not_be_cut():
    pieces = (piece("whole", "width", NO_DIRECTION), piece("stiffener", "whole width", ONE_WAY))
    truings = (true("stiffener width", "width"),)
    [found] = prove(make_recipe(options=(PRINT,), amounts=(), pieces=pieces, truings=truings))
    assert (found.result, found.options) == ("proved", {"print": "one way"})


def test_a_difference_in_a_corner_of_the_range_is_found():
    found = proof("smaller of (width, edge)", "width", constants=(constant("edge", "19", "49"),))
    assert found.result == "false"
    assert str(found.difference) == "−width + smaller of (width, edge)"
    assert found.example is not None
    assert found.example.measures["width"] == 20 * IN.mm


def test_what_is_equal_in_the_whole_range_is_proved():
    assert (
        proof("smaller of (width, edge)", "width", constants=(constant("edge", "20", "51"),)).result
        == "proved"
    )
    assert proof("√(width²)", "width").result == "proved"


def test_constants_are_compared_in_each_unit_system():
    matching = (constant("gap", "1/4", "0.6"), constant("both gaps", "1/2", "1.2"))
    assert proof("2 × gap", "both gaps", constants=matching).result == "proved"
    found = proof("2 × gap", "both gaps", constants=(matching[0], constant("both gaps", "1/2", "1.3")))
    assert (found.result, str(found.difference)) == ("false", "2 × gap − both gaps")
    assert found.example is not None
    assert (found.example.units, found.example.one, found.example.other) == (CM, 12, 13)


def test_a_choice_that_sets_a_value_makes_its_own_case():
    recipe = make_recipe(truings=(true("layers × width", "2 × width"),))
    assert [(found.result, found.options) for found in prove(recipe)] == [
        ("proved", {"stiffening": "none"}),
        ("false", {"stiffening": "fleece"}),
    ]


def test_a_choice_that_does_not_matter_makes_no_case():
    [found] = prove(
        make_recipe(truings=(true("layers × (width + height)", "layers × width + layers × height"),))
    )
    assert (found.result, found.options) == ("proved", {})


def test_undecided_where_no_size_differs_and_no_proof_is_found():
    [found] = prove(
        make_recipe(
            measures=(*make_recipe().measures, count("turns", 2, 5, 3)),
            truings=(true("√(folds × turns)", "√(folds) × √(turns)"),),
        )
    )
    assert (found.result, found.example) == ("undecided", None)
    assert str(found.difference) == "√(folds × turns) − √(folds) × √(turns)"


def test_a_side_without_a_value_is_no_example():
    found = proof("√(seam allowance² − width²)", "√(seam allowance² − width²) + 0 × width")
    assert found.result == "proved"
    found = proof("√(seam allowance² − width²)", "width")
    assert (found.result, found.example) == ("undecided", None)


def test_areas_are_proved_too():
    found = proof("mat width × mat height", "width × height")
    assert (
        str(found.difference)
        == "2 × width × seam allowance + 2 × height × seam allowance + 4 × seam allowance²"
    )
    assert found.example is not None
    assert found.example.power == 2


def test_too_many_combinations_are_undecided(monkeypatch):
    monkeypatch.setattr(truing_module, "MOST_COMBINATIONS", 1)
    truings = (true("mat width", "mat width", When((("stiffening", ("none", "fleece")),))),)
    [found] = prove(make_recipe(truings=truings))
    assert (found.result, found.options) == ("undecided", {})


def test_not_too_many_sizes_are_tried(monkeypatch):
    tried = []
    counted = truing_module.given_values
    monkeypatch.setattr(truing_module, "given_values", lambda *all: tried.append(all) or counted(*all))
    proof("√(seam allowance² − width²)", "width")
    assert len(tried) == truing_module.MOST_SIZES_TRIED


def test_sizes_tried_lie_on_the_steps_of_the_ranges():
    recipe = make_recipe()
    sizes = [size for size, _ in zip(truing_module._sizes(recipe.measures), range(200), strict=False)]
    assert sizes[0] == (IN, {})
    assert sizes[1] == (CM, {})
    for units, moved in sizes:
        for name, value in moved.items():
            scale = recipe.measure(name).scales[units]
            assert scale.least <= value <= scale.most
            assert (value - scale.least) % scale.step == 0 or value == scale.most
    assert len({tuple(moved.items()) for _, moved in sizes}) > 150


def test_no_float_on_the_way(no_floats):
    assert proof("√(mat width²) − 2 × seam allowance", "width").result == "proved"
    assert proof("√(mat width² + height²)", "width").result == "false"


def test_proofs_are_the_same_every_time():
    recipe = make_recipe(truings=(true("layers × width", "diagonal"), true("mat height", "width")))
    assert prove(recipe) == prove(recipe)
