from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.judging import BOUNDED, Cut, Judge, Rule
from patterns.drafting.recipe import Amount, Check, Material, Piece, Recipe, When
from patterns.drafting.sizing import SizingError, size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs
from tests.recipes import make_recipe

IN = Units.INCHES
INCH = IN.mm
STARTERS = {slug: read_starter(slug) for slug in slugs()}


def judge(recipe: Recipe, **measures: str) -> Judge:
    """Ask about one size, in inches."""
    return Judge(recipe, IN, {name: Fraction(text) * INCH for name, text in measures.items()}, {}, {})


def failed(recipe: Recipe, **measures: str) -> list[str]:
    asked = judge(recipe, **measures)
    return [asked.rules[rank].says for rank in asked(()).failed]


def test_default_of_the_basket_is_good() -> None:
    judged = judge(STARTERS["fold-flat-basket"])(())
    assert (judged.verdict, judged.failed) == ("good", ())
    side = 15 * INCH, 18 * INCH
    assert judged.cuts == (
        Cut("exterior fabric", 1, *side, turns=True),
        Cut("lining fabric", 1, *side, turns=True),
    )


def test_refusal_comes_before_advice_and_nothing_is_cut() -> None:
    asked = judge(STARTERS["fold-flat-basket"], height="2", depth="12")
    judged = asked(())
    assert judged.verdict == "refused"
    assert [asked.rules[rank] for rank in judged.failed] == [
        Rule("refuse", "The triangle leaves room under the top edge."),
        Rule("advise", "The basket is at least as high as it is deep."),
    ]
    assert judged.cuts == ()


def test_advice_alone_is_advised_and_cut() -> None:
    judged = judge(STARTERS["fold-flat-basket"], height="6", depth="7")(())
    assert judged.verdict == "advised"
    assert len(judged.cuts) == 2


def test_measure_out_of_its_range_is_refused() -> None:
    assert failed(STARTERS["fold-flat-basket"], width="21") == ["The width is between 3 in and 20 in."]


def test_upright_pieces_may_not_be_turned() -> None:
    asked = Judge(STARTERS["fold-flat-basket"], IN, {}, {"exterior print": "one way"}, {})
    assert [(cut.material, cut.count, cut.turns) for cut in asked(()).cuts] == [
        ("exterior fabric", 2, False),
        ("lining fabric", 1, True),
    ]


def test_what_cannot_be_cut_is_refused() -> None:
    half = Piece("strip", "cloth", Formula.read("folds ÷ 2"), Formula.read("width"), Formula.read("height"))
    gone = Piece(
        "scrap", "cloth", Formula.read("1"), Formula.read("width − height × folds"), Formula.read("width")
    )
    recipe = make_recipe(pieces=(half, gone), checks=(), truings=(), steps=(), materials=())
    assert failed(recipe) == [
        "The strip is cut a whole number of times.",
        "The scrap has a width and a height.",
    ]


def test_check_without_a_value_does_not_hold() -> None:
    check = Check("advise", "It has a root.", Formula.read("√(height − width) > √(width − height)"), ())
    assert failed(make_recipe(checks=(check,))) == ["It has a root."]


def test_check_of_a_choice_that_is_not_made_is_not_asked() -> None:
    check = Check(
        "refuse", "Never.", Formula.read("width < height"), (), When((("stiffening", ("fleece",)),))
    )
    assert failed(make_recipe(checks=(check,))) == []


def test_numbers_out_of_bounds_are_refused() -> None:
    powers = (Amount("a1", 0, Formula.read("(width ÷ height)³ × 7 ÷ 11")),)
    powers += tuple(Amount(f"a{k}", 0, Formula.read(f"a{k - 1}³")) for k in range(2, 8))
    check = Check("advise", "It is small.", Formula.read("a7 > 1"), ())
    recipe = make_recipe(amounts=powers, checks=(check,), pieces=(), truings=(), steps=(), tells=())
    assert failed(recipe) == [BOUNDED.says]


def test_unknown_names_are_errors() -> None:
    recipe = STARTERS["fold-flat-basket"]
    with pytest.raises(SizingError, match="no measure “girth”"):
        Judge(recipe, IN, {"girth": INCH}, {}, {})
    with pytest.raises(SizingError, match="no measure “girth”"):
        Judge(recipe, IN, {}, {}, {"girth": [INCH]})
    with pytest.raises(SizingError, match="no option “colour”"):
        Judge(recipe, IN, {}, {"colour": "red"}, {})


def test_interfacing_is_no_cloth() -> None:
    materials = (
        Material("cloth", "fabric"),
        Material("fleece", "interfacing"),
    )
    one = Formula.read("1")
    pieces = tuple(
        Piece(name, material, one, Formula.read("width"), Formula.read("height"))
        for name, material in (("panel", "cloth"), ("stiff panel", "fleece"))
    )
    recipe = make_recipe(pieces=pieces, materials=materials, truings=(), steps=(), checks=())
    assert [cut.material for cut in judge(recipe)(()).cuts] == ["cloth"]


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_every_size_is_judged_as_it_is_sized(data: st.DataObject) -> None:
    """Two roads: the rules asked on a grid, and one size made with its words."""
    slug = data.draw(st.sampled_from(sorted(STARTERS)))
    units = data.draw(st.sampled_from(Units))
    recipe = STARTERS[slug]
    options = {
        option.name: data.draw(st.sampled_from([choice.name for choice in option.choices]))
        for option in recipe.options
    }
    values = {
        measure.name: data.draw(st.lists(_on_scale(measure.scales[units]), min_size=3, max_size=3))
        for measure in recipe.measures
    }
    axes = dict(list(values.items())[:2])
    others = {name: steps[0] for name, steps in list(values.items())[2:]}
    asked = Judge(recipe, units, others, options, axes)
    for place in data.draw(st.permutations([(x, y) for x in range(3) for y in range(3)])):
        here = {name: steps[step] for (name, steps), step in zip(axes.items(), place, strict=True)}
        sized = size(recipe, slug, units, {**others, **here}, options)
        judged = asked(place)
        assert [(asked.rules[rank].level, asked.rules[rank].says) for rank in judged.failed] == [
            (check.level, check.says) for check in sized.checks if check.holds is not True
        ]
        expected = "refused" if sized.is_refused else "advised" if sized.failed else "good"
        assert judged.verdict == expected
        if not sized.is_refused:
            assert [(cut.count, cut.width, cut.height, cut.turns) for cut in judged.cuts] == [
                (piece.cut, piece.width.value, piece.height.value, piece.turns)
                for piece in sized.pieces
                if sized.materials_by_name[piece.material].kind == "fabric"
            ]


def _on_scale(scale) -> st.SearchStrategy[Fraction]:
    """Steps, and one step beyond either end."""
    steps = (scale.most - scale.least) // scale.step
    return st.integers(-1, steps + 1).map(lambda k: scale.least + k * scale.step)
