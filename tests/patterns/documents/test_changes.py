"""What changed for a size, in the words of its letter."""

from fractions import Fraction

import pytest

from patterns.documents.changes import changes
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from tests.orders.conftest import RECIPE

MARKED = (
    RECIPE
    + """
[pieces.panel.marks."fold line"]
kind = "fold"
down = "height"
from = "width ÷ 9"
"""
)
UNTRUED = RECIPE[: RECIPE.index("[[truings]]")] + RECIPE[RECIPE.index("[[checks]]") :]
STEP = """
[[steps]]
title = "{title}"
does = "{does}"
shows = ["panel"]
"""


def between(before: str, after: str, units: Units = Units.INCHES) -> tuple[str, ...]:
    return changes(*(size(read_recipe(text), "tray", units) for text in (before, after)))


def test_nothing_changed() -> None:
    assert between(RECIPE, RECIPE.replace("A tray of one panel.", "A tray.")) == ()


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        (
            'width = "width + depth"\nheight',
            'width = "width + 2 × depth"\nheight',
            ("Panel: cut 19 × 17 in, was 14 × 17 in.", "Step 1, Cut: 19 in, was 14 in."),
        ),
        ('cut = "1"', 'cut = "2"', ("Panel: cut 2 of it, was 1.",)),
        ("Any firm cloth.", "Canvas.", ("Cloth: it now says “Canvas”.",)),
        (
            "Cut the panel {panel width} wide.",
            "Cut out the panel.",
            ("Step 1, Cut: it now says “Cut out the panel”.",),
        ),
    ],
)
def test_what_changed_is_said_in_numbers(was: str, now: str, told: tuple[str, ...]) -> None:
    assert between(UNTRUED, UNTRUED.replace(was, now)) == told


def test_in_the_units_of_the_size() -> None:
    more = UNTRUED.replace('width = "width + depth"', 'width = "width + 2 × depth"')
    assert between(UNTRUED, more, Units.CENTIMETRES)[0] == "Panel: cut 49 × 43 cm, was 36 × 43 cm."


def test_below_the_rounding_is_no_change() -> None:
    """A hundredth of a millimetre is cut by nobody."""
    less = UNTRUED.replace('"2 × height + depth"', '"2 × height + depth − width ÷ 90000"')
    assert between(less, less.replace("90000", "80000")) == ()


def test_marks() -> None:
    assert between(RECIPE, MARKED) == (
        "Panel: the mark “fold line” is new: 6 in from the top edge, begins 1 in from the left edge.",
    )
    assert between(MARKED, MARKED.replace('down = "height"', 'down = "height + depth ÷ 10"')) == (
        "Panel: the mark “fold line” lies 6 1⁄2 in from the top edge, was 6 in.",
    )
    assert between(MARKED, MARKED.replace("÷ 9", "÷ 9 × 2")) == (
        "Panel: the mark “fold line” begins 2 in from the left edge, was 1 in.",
    )
    assert between(MARKED, RECIPE) == ("Panel: the mark “fold line” is left out.",)


def test_steps_keep_their_place_when_one_comes_between() -> None:
    press = STEP.format(title="Press", does="Press it.")
    fold = STEP.format(title="Fold", does="Fold it.")
    assert between(RECIPE + fold, RECIPE + press + fold) == ("Step 2 is new: Press. Press it.",)
    assert between(RECIPE + press + fold, RECIPE + fold) == ("The step “Press” is left out here.",)


def test_pieces_and_materials_come_and_go() -> None:
    more = RECIPE + (
        '[materials.tape]\nkind = "notion"\nsays = "For the edge."\namount = "2 × width"\n'
        '[pieces.pocket]\nfrom = "cloth"\ncut = "2"\nwidth = "width"\nheight = "4 × width ÷ 9"\n'
    )
    assert between(RECIPE, more) == (
        "Pocket: new. Cut 2 from cloth, 9 × 4 in.",
        "Tape is needed as well: 18 in. For the edge.",
    )
    assert between(more, RECIPE) == ("Pocket: no longer cut.", "Tape is no longer needed.")


def test_a_caution_that_is_new_is_told_and_one_that_is_gone_is_not() -> None:
    careful = RECIPE + '[cautions.iron]\nsays = "The iron is hot."\n'
    assert between(RECIPE, careful) == ("Take care: The iron is hot.",)
    assert between(careful, RECIPE) == ()


def test_exact(no_floats: None) -> None:
    sized = size(read_recipe(RECIPE), "tray", Units.INCHES, {"width": Fraction(254)})
    assert changes(sized, sized) == ()
