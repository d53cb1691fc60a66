import pytest

from patterns.drafting.errors import RecipeTextError
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, text_of

IN = Units.INCHES


def test_edges_are_named_after_their_piece() -> None:
    assert read_starter("packable-tote").edges["pocket"] == ("pocket width", "pocket height")


def test_edges_that_share_a_name_with_a_measure_are_called_cut() -> None:
    tote = read_starter("packable-tote")
    assert tote.edges["handle"] == ("cut handle width", "cut handle height")
    assert tote.powers["cut handle width"] == 1
    values = size(tote, "tote", IN).values
    assert values["handle width"] == 1 * IN.mm
    assert values["cut handle width"] == 25 * IN.mm
    assert values["cut handle height"] == 4 * IN.mm


def test_the_name_with_cut_is_taken_then() -> None:
    text = text_of("packable-tote").replace(
        '"whole fold" = "1"', '"whole fold" = "1"\n"cut handle width" = "1"'
    )
    with pytest.raises(RecipeTextError) as caught:
        read_recipe(text)
    assert "pieces.handle: “cut handle width” is used twice" in str(caught.value.mistakes[0])


def test_a_circle_through_such_an_edge_is_found() -> None:
    text = text_of("packable-tote").replace('height = "4 × handle width"', 'height = "4 × cut handle height"')
    with pytest.raises(RecipeTextError) as caught:
        read_recipe(text)
    assert "goes round in a circle: cut handle height → cut handle height" in str(caught.value.mistakes[0])
