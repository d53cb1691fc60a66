"""What the tests of the starters share: every combination, sizes over the range, words, spoiled formulas."""

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import islice, product

from patterns.drafting.lengths import written
from patterns.drafting.recipe import Measure, Recipe
from patterns.drafting.sized import SizedPattern, SizedText
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from tests.reading import faults_of

Size = Mapping[str, Fraction]
"""Measures in the units, not mm: what the independent formulas of the tests reckon in."""
Options = Mapping[str, str]

INTERFACING = ("none", "light", "heavy")
PRINTS = ("no direction", "one way")


def combined(interfacing: Sequence[str]) -> tuple[Options, ...]:
    """Every combination of these interfacings and of the two prints."""
    return tuple(
        {"interfacing": stiffener, "exterior print": exterior, "lining print": lining}
        for stiffener, exterior, lining in product(interfacing, PRINTS, PRINTS)
    )


COMBINATIONS = combined(INTERFACING)
# Of what is packed or tied: it is never stiff.
SOFT_COMBINATIONS = combined(INTERFACING[:2])


def combinations_of(recipe: Recipe) -> tuple[Options, ...]:
    """The combinations that a recipe offers, other options at their defaults."""
    return combined([choice.name for choice in recipe.option("interfacing").choices])


def combination_id(options: Options) -> str:
    return ", ".join(options.values())


def sized_at(recipe: Recipe, units: Units, measures: Size, options: Options) -> SizedPattern:
    inside = {name: value * unit_of(recipe.measure(name), units) for name, value in measures.items()}
    return size(recipe, "starter", units, inside, options)


def unit_of(measure: Measure, units: Units) -> Fraction:
    """What one of the measure is: a unit in mm, or 1 of a bare number."""
    return units.mm if measure.power else Fraction(1)


def corners(recipe: Recipe, units: Units) -> Iterator[Size]:
    """Every measure at its least, its default and its most, in every combination."""
    ends = [
        [
            (measure.name, end / unit_of(measure, units))
            for end in dict.fromkeys((scale.least, scale.default, scale.most))
        ]
        for measure in recipe.measures
        for scale in [measure.scales[units]]
    ]
    for chosen in product(*ends):
        yield dict(chosen)


def some_corners(recipe: Recipe, units: Units, about: int) -> Iterator[Size]:
    """About so many of the corners, spread over all of them: every end of every measure is met."""
    everywhere = len(list(corners(recipe, units)))
    # A step that 2 and 3 do not divide goes through all ends in turn.
    step = max(everywhere // about, 1) // 6 * 6 + 1
    yield from islice(corners(recipe, units), 0, None, step)


def walks(recipe: Recipe, units: Units) -> Iterator[Size]:
    """Each measure in turn from its least to its most by its step, the others at their defaults."""
    for moved in recipe.measures:
        scale = moved.scales[units]
        steps = (scale.most - scale.least) // scale.step
        for step in range(steps + 1):
            at = {
                measure.name: measure.scales[units].default / unit_of(measure, units)
                for measure in recipe.measures
            }
            yield at | {moved.name: (scale.least + step * scale.step) / unit_of(moved, units)}


def pieces_of(sized: SizedPattern) -> dict[str, tuple[int, Fraction, Fraction]]:
    """Name → how many, width and height in the units."""
    return {
        piece.name: (piece.cut, *(side.value / sized.units.mm for side in (piece.width, piece.height)))
        for piece in sized.pieces
    }


def marks_of(sized: SizedPattern) -> dict[str, dict[str, tuple[Fraction | None, ...]]]:
    """Piece → mark → down from the top, in from the left, start and end, in the units."""
    return {
        piece.name: {
            mark.name: tuple(
                None if far is None else far.value / sized.units.mm
                for far in (mark.down_from_top, mark.in_from_left, mark.start, mark.end)
            )
            for mark in piece.marks
        }
        for piece in sized.pieces
        if piece.marks
    }


def holds(sized: SizedPattern) -> dict[str, bool | None]:
    """What each check of the recipe says, without the ranges."""
    return {check.says: check.holds for check in sized.checks if check.measure is None}


def said(sized: SizedPattern, text: SizedText) -> str:
    """A text as a customer reads it. Fails where a number in it has no value."""
    words = []
    for part in text:
        if isinstance(part, str):
            words.append(part)
        else:
            assert part.value is not None, f"{part.formula} has no value"
            words.append(written(part.value, part.power, sized.units).text)
    return "".join(words)


def step_words(sized: SizedPattern) -> list[str]:
    """Title and text of each step, as they are read."""
    return [f"{step.title}. {said(sized, step.does)}" for step in sized.steps]


def all_words(sized: SizedPattern) -> str:
    """Everything a customer reads about one size, a line for each text."""
    lines = [sized.title, sized.summary, sized.skill, sized.time, *step_words(sized)]
    lines += [said(sized, tell) for tell in sized.tells]
    lines += [f"{material.name}: {said(sized, material.says)}" for material in sized.materials]
    lines += [f"{piece.name}: {piece.says}" for piece in sized.pieces]
    lines += [f"{mark.name}: {mark.says}" for piece in sized.pieces for mark in piece.marks]
    lines += [f"{check.says} {said(sized, check.otherwise)}" for check in sized.checks]
    lines += [f"{caution.name}: {caution.says}" for caution in sized.cautions]
    return "\n".join(lines)


def first_step(words: Sequence[str], pattern: str) -> int | None:
    """The place of the first step that says it."""
    found = re.compile(pattern, re.IGNORECASE)
    return next((place for place, text in enumerate(words) if found.search(text)), None)


def assert_read_well(sized: SizedPattern) -> None:
    """Nothing that a customer reads about the size has a fault that `tests.reading` knows."""
    assert [fault for line in all_words(sized).splitlines() for fault in faults_of(line)] == []
