"""The table [holds]: what can be filled, as the designer writes it."""

import pytest

from patterns.drafting.recipe import RoundRoom
from patterns.drafting.recipe_text import read_recipe, write_recipe
from patterns.starters import read_starter, slugs
from tests.recipe_texts import TEXT, changed, mistakes
from tests.recipes import formula

BEFORE = "[measures.width]\n"
HOLDS = '[holds]\nwidth = "width"\nheight = "height − fold height"\ndepth = "seam allowance"\n\n'
ROUND = '[holds]\ndiameter = "width"\nheight = "height − fold height"\n\n'


def holding(holds=HOLDS):
    return changed((BEFORE, holds + BEFORE))


def test_it_is_read_and_written_to_the_letter():
    recipe = read_recipe(holding())
    assert recipe.holds == (formula("width"), formula("height − fold height"), formula("seam allowance"))
    assert write_recipe(recipe) == holding()


def test_what_is_round_is_read_and_written_to_the_letter():
    recipe = read_recipe(holding(ROUND))
    assert recipe.holds == RoundRoom(formula("width"), formula("height − fold height"))
    assert type(recipe.holds) is RoundRoom
    assert write_recipe(recipe) == holding(ROUND)


def test_it_may_be_left_out():
    assert read_recipe(TEXT).holds is None


# What stands in its place, and all that is then found wrong.
CASES = {
    "a side missing, another unknown": (
        HOLDS.replace("depth", "deep"),
        ["line 18, holds.deep: The key “deep” is not known here. Did you mean “depth”?"],
    ),
    "a side missing": (
        HOLDS.replace('depth = "seam allowance"\n', ""),
        ['line 15, holds: “depth” is missing here. Write depth = "…".'],
    ),
    "an area for a length": (
        HOLDS.replace('"width"', '"width × height"'),
        [
            "line 16, holds.width: This is an area; a length belongs here. "
            "Look for a missing measure or constant, or for a × or ² too many."
        ],
    ),
    "an unknown name": (
        HOLDS.replace("fold height", "fold hight"),
        ["line 17, holds.height, column 10: There is no “fold hight” here. Did you mean “fold height”?"],
    ),
    "a unit in a formula": (
        HOLDS.replace('"width"', '"width − 1 in"'),
        [
            "line 16, holds.width, column 9: “1 in” has a unit. "
            "Make it a constant with in and cm, and write its name here."
        ],
    ),
    "nothing fits in": (
        HOLDS.replace("height − fold height", "fold height − height"),
        ["line 17, holds.height: Nothing fits in at the default size. Write what can be filled."],
    ),
    "no value": (
        HOLDS.replace("height − fold height", "height ÷ (folds − 3)"),
        ["line 17, holds.height: Nothing fits in at the default size. Write what can be filled."],
    ),
    "a side of what is round": (
        HOLDS.replace("width =", "diameter ="),
        [
            "line 18, holds.depth: What is round has no depth. Take it out, or write width, height and depth "
            "alone."
        ],
    ),
    "a diameter beside the sides": (
        HOLDS.replace("[holds]", '[holds]\ndiameter = "width"'),
        [
            f"line {at}, holds.{side}: What is round has no {side}. Take it out, or write width, height and "
            "depth alone."
            for at, side in ((17, "width"), (19, "depth"))
        ],
    ),
    "a diameter misspelled": (
        ROUND.replace("diameter", "diametre"),
        ["line 16, holds.diametre: The key “diametre” is not known here. Did you mean “diameter”?"],
    ),
    "no height of what is round": (
        ROUND.replace('height = "height − fold height"\n', ""),
        ['line 15, holds: “height” is missing here. Write height = "…".'],
    ),
    "an area for a diameter": (
        ROUND.replace('"width"', '"width²"'),
        [
            "line 16, holds.diameter: This is an area; a length belongs here. "
            "Look for a missing measure or constant, or for a × or ² too many."
        ],
    ),
    "nothing fits into what is round": (
        ROUND.replace('"width"', '"width − width"'),
        ["line 16, holds.diameter: Nothing fits in at the default size. Write what can be filled."],
    ),
    "a list": (
        HOLDS.replace("[holds]", "[[holds]]"),
        ["line 15, holds: A table belongs here; a list stands here."],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_each_mistake_is_named_with_its_place_and_its_mend(case):
    text, expected = CASES[case]
    assert mistakes(holding(text)) == expected


def test_the_starters_say_what_they_hold():
    """constructions.md: a zip pouch W × D × (H − D/2), a tied bag 2H/3 at most; the open ones are boxes."""
    heights = {
        "fold-flat-basket": "height",
        "packable-tote": "height",
        "gift-bag": "tied height",
        "zip-pouch": "height − depth ÷ 2",
    }
    assert {slug: read_starter(slug).holds for slug in heights} == {
        slug: (formula("width"), formula(height), formula("depth")) for slug, height in heights.items()
    }


def test_a_bucket_holds_what_stands_within_its_circle():
    """constructions.md: a footprint whose diagonal is at most Ø."""
    assert read_starter("round-bucket").holds == RoundRoom(formula("diameter"), formula("height"))


@pytest.mark.parametrize("slug", slugs())
def test_every_starter_says_what_it_holds(slug):
    assert read_starter(slug).holds is not None
