from fractions import Fraction

import pytest

from patterns.drafting.bites import bite_words, bites
from patterns.drafting.formulas.formula import Formula
from patterns.drafting.ranges import range_grid
from patterns.drafting.recipe import Check, Recipe
from patterns.drafting.units import Units
from patterns.starters import read_starter
from tests.recipes import make_recipe

IN, CM = Units.INCHES, Units.CENTIMETRES
INCH = IN.mm
BASKET = read_starter("fold-flat-basket")


def told(recipe: Recipe, across: str, up: str, units: Units = IN, **measures: Fraction) -> dict[str, str]:
    """What is said of each rule that bites."""
    grid = range_grid(recipe, units, across, up, measures, {}, lambda cuts: None)
    return {bite.rule.says: bite_words(bite, units) for bite in bites(grid)}


def words_of(holds: str, level: str = "refuse", across: str = "width", up: str = "height") -> str:
    """What is said of one check of the folding mat, 3 to 20 in wide and 2 to 20 in high."""
    recipe = make_recipe(checks=(Check(level, "It works.", Formula.read(holds), ()),))
    return told(recipe, across, up)["It works."]


def test_check_of_one_measure_is_told_along_it() -> None:
    assert list(told(BASKET, "width", "depth").items()) == [
        ("The triangle leaves room under the top edge.", "Refused from depth 11 1⁄4 in up, at every width."),
        (
            "The basket is at least as high as it is deep.",
            "Advised against from depth 6 1⁄4 in up, at every width.",
        ),
    ]


def test_check_of_the_level_measure_is_told_along_that() -> None:
    assert list(told(BASKET, "depth", "width").values()) == [
        "Refused from depth 11 1⁄4 in up, at every width.",
        "Advised against from depth 6 1⁄4 in up, at every width.",
    ]


def test_check_of_both_is_told_at_the_ends_and_the_default() -> None:
    assert told(BASKET, "height", "depth")["The triangle leaves room under the top edge."] == (
        "Refused from depth 3 1⁄4 in up, at height 2 in; from depth 11 1⁄4 in up, at height 6 in; "
        "nowhere at height 20 in."
    )


def test_steps_that_the_picture_leaves_out_are_told_exactly() -> None:
    """Of the height every second step is drawn; 11.5 cm lies between two of them."""
    assert told(BASKET, "width", "height", CM)["The basket is at least as high as it is deep."] == (
        "Advised against up to height 11.5 cm, at every width."
    )


def test_same_words_share_their_places() -> None:
    said = told(read_starter("zip-pouch"), "height", "depth")["The triangle leaves room under the zip."]
    assert said == "Refused from depth 3 1⁄4 in up, at height 2 1⁄2 in; nowhere at height 5 in or 12 in."


@pytest.mark.parametrize(
    ("holds", "expected"),
    [
        ("width < width", "Refused at every size here."),
        ("width ≠ seam allowance × 12", "Refused at width 6 in, at every height."),
        ("width > seam allowance × 6", "Refused at width 3 in, at every height."),
        ("width > seam allowance × 8", "Refused up to width 4 in, at every height."),
        (
            "width < seam allowance × 12 or width > seam allowance × 16",
            "Refused from width 6 in to 8 in, at every height.",
        ),
        (
            "width ≠ seam allowance × 12 and width < seam allowance × 38",
            "Refused at width 6 in and from width 19 in up, at every height.",
        ),
    ],
)
def test_runs_in_words(holds: str, expected: str) -> None:
    assert words_of(holds) == expected


def test_what_bites_between_the_lines_is_counted() -> None:
    corner = "width ≠ seam allowance × 10 or height ≠ seam allowance × 10"
    assert words_of(corner) == "Refused at 1 size, none of them at width 3 in, 9 in or 20 in."


def test_bare_numbers_have_no_unit() -> None:
    assert words_of("folds < seam allowance ÷ seam allowance × 4", "advise", "width", "folds") == (
        "Advised against from folds 4 up, at every width."
    )


def test_nothing_is_said_where_nothing_bites() -> None:
    assert told(BASKET, "width", "depth", height=12 * INCH) == {}


def test_sizes_of_the_picture_are_counted() -> None:
    grid = range_grid(BASKET, IN, "width", "depth", {}, {}, lambda cuts: None)
    assert [(bite.place, bite.failed) for bite in bites(grid)] == list(grid.failures.items())
