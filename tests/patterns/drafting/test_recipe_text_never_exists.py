"""The reader of texts and the prover ask in two ways whether a truing can exist; they must agree."""

from dataclasses import replace

from patterns.drafting.recipe import When
from patterns.drafting.recipe_text import read_recipe, write_recipe
from patterns.drafting.truing import prove
from tests.recipe_texts import TEXT, mistakes
from tests.recipes import formula

NO_FILLING = When((("stiffening", ("none",)),))
REFUSAL = (
    "truings[2]: No choice of “stiffening” lets this truing exist: it reads “filling”. "
    "Write one for pieces that are cut together."
)


def both(one: str, **changes):
    """What the reader says of a truing of `one` where no filling is cut, and what the prover proves of it."""
    recipe = replace(read_recipe(TEXT), **changes)
    first, second = recipe.truings
    recipe = replace(recipe, truings=(first, replace(second, one=formula(one), when=NO_FILLING)))
    said = [line.partition(", ")[2] for line in mistakes(write_recipe(recipe))]
    return said, [proof.options for proof in prove(recipe) if proof.truing is recipe.truings[1]]


def test_a_truing_of_a_piece_that_is_not_cut():
    assert both("filling width") == ([REFUSAL], [{}])


def test_pieces_count_also_through_amounts():
    amounts = read_recipe(TEXT).amounts
    edge = replace(amounts[0], name="filling edge", power=1, formula=formula("filling width × 1"))
    assert both("filling edge", amounts=(*amounts, edge)) == ([REFUSAL], [{}])


def test_pieces_do_not_count_through_the_edges_of_others():
    mat, filling = read_recipe(TEXT).pieces
    mat = replace(mat, width=formula("filling width + 2 × seam allowance"))
    said, options = both("mat width − 2 × seam allowance", pieces=(mat, filling))
    assert said == []
    assert options == [{"stiffening": "none"}]
