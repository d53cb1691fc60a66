"""The steps of every starter can be worked through in their order, with every option."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs
from tests.patterns.starters.order_of_work import faults_in_order
from tests.slips import Options, every_combination
from tests.starters import sized_at


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("slug", slugs())
def test_steps_can_be_worked_through(slug: str, units: Units) -> None:
    recipe = read_starter(slug)
    faults = {
        f"{fault} With {', '.join(options.values())}."
        for options in every_combination(recipe)
        for fault in faults_in_order(recipe, sized_at(recipe, units, {}, options))
    }
    assert sorted(faults) == []


def faults_of(recipe: Recipe, options: Options | None = None) -> list[str]:
    return faults_in_order(recipe, sized_at(recipe, Units.INCHES, {}, options or {}))


def place_of(recipe: Recipe, title: str) -> int:
    return next(place for place, step in enumerate(recipe.steps) if step.title == title)


def with_step_moved(recipe: Recipe, title: str, to: int) -> Recipe:
    steps = list(recipe.steps)
    steps.insert(to, steps.pop(place_of(recipe, title)))
    return replace(recipe, steps=tuple(steps))


def without_step(recipe: Recipe, title: str) -> Recipe:
    return replace(recipe, steps=tuple(step for step in recipe.steps if step.title != title))


def without_material(recipe: Recipe, name: str) -> Recipe:
    return replace(recipe, materials=tuple(each for each in recipe.materials if each.name != name))


def without_cautions(recipe: Recipe, title: str) -> Recipe:
    place = place_of(recipe, title)
    steps = list(recipe.steps)
    steps[place] = replace(steps[place], cautions=())
    return replace(recipe, steps=tuple(steps))


@pytest.mark.parametrize(
    ("slug", "spoil", "fault"),
    [
        (
            "fold-flat-basket",
            lambda recipe: with_step_moved(recipe, "Sew the front top seam", 0),
            "Step 1 uses the exterior panel, which step 3 cuts.",
        ),
        (
            "fold-flat-basket",
            lambda recipe: with_step_moved(recipe, "Draw the pleat lines", len(recipe.steps)),
            "Step 10 speaks of the pleat line, which step 24 marks.",
        ),
        (
            "window-pouch",
            lambda recipe: with_step_moved(recipe, "Cut the window", len(recipe.steps)),
            "Step 19 uses the window, which step 29 cuts.",
        ),
        (
            "window-pouch",
            lambda recipe: without_step(recipe, "Bind the side seams"),
            "The binding is cut and never used.",
        ),
        (
            "drawstring-bag",
            lambda recipe: without_step(recipe, "Mark the gaps"),
            "The gap is never marked.",
        ),
        (
            "round-bucket",
            lambda recipe: without_step(recipe, "Cut the bases"),
            "The exterior base is never cut.",
        ),
        (
            "zip-pouch",
            lambda recipe: without_material(recipe, "zip foot"),
            "Step 13 needs zip foot, which is not listed.",
        ),
        (
            "gift-bag",
            lambda recipe: without_material(recipe, "fabric glue"),
            "Step 24 needs fabric glue, which is not listed.",
        ),
        (
            "drawstring-bag",
            lambda recipe: without_step(recipe, "Draw in the cords"),
            "The bodkin is listed and never used.",
        ),
        (
            "packable-tote",
            lambda recipe: without_cautions(recipe, "Press the creases"),
            "Step 11, “Press the creases”, is without the caution “iron”.",
        ),
    ],
)
def test_what_cannot_be_worked_through_is_found(
    slug: str, spoil: Callable[[Recipe], Recipe], fault: str
) -> None:
    right = read_starter(slug)
    assert faults_of(right) == []
    assert fault in faults_of(spoil(right))


def test_what_these_options_do_not_have_is_found() -> None:
    """The step for both fabrics without an upright way, read by someone whose exterior is in halves."""
    recipe = read_starter("fold-flat-basket")
    place = place_of(recipe, "Back the exterior with light interfacing")
    steps = list(recipe.steps)
    steps[place] = replace(steps[place], when=replace(steps[place].when, options=()))
    faults = faults_of(replace(recipe, steps=tuple(steps)), {"interfacing": "none"})
    assert "Step 4 speaks of the light interfacing, which these options do not have." in faults
