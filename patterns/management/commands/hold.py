"""`manage.py hold`: the sizes of a recipe that hold so many of a thing, or what one size holds."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, get_args

from django.core.management.base import CommandParser

from patterns.drafting.holding import (
    MOST_THINGS,
    Held,
    Holding,
    held,
    sizes_that_hold,
)
from patterns.drafting.holding_words import arranged_words, size_words, spare_words
from patterns.drafting.lengths import LengthError, as_chosen, exact, read_length, written
from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import SizedCheck, SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.things import Arrangement, Solid, Space, Things, Turning
from patterns.drafting.units import Units
from patterns.management.arguments import ArgumentError, read_measures, read_options, whole_number
from patterns.management.extents import read_extent
from patterns.management.printing import Json, printed_values
from patterns.management.script import Once, ScriptCommand, add_size_arguments, read_recipe_named

MOST_SIZES, USUAL_SIZES = 100, "5"


class Command(ScriptCommand):
    help = (
        "Finds the sizes of a recipe that hold so many of a thing, or what one size holds. Changes nothing."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        add_size_arguments(parser)
        parser.add_argument(
            "--thing", action=Once, metavar="AxBxC", required=True, help="Its width, height and depth."
        )
        parser.add_argument(
            "--count", action=Once, metavar="N", help=f"How many go in, up to {MOST_THINGS:,}."
        )
        parser.add_argument(
            "--loose", action=Once, metavar="L", default="0", help="What is left over in each direction."
        )
        parser.add_argument(
            "--turn",
            action=Once,
            choices=get_args(Turning),
            default="upright",
            help="On every side; turned round but not laid over (so it is without this option); as it is.",
        )
        parser.add_argument(
            "--limit",
            action=Once,
            metavar="N",
            default=USUAL_SIZES,
            help=f"How many sizes are given, up to {MOST_SIZES}; without it, {USUAL_SIZES}.",
        )

    def answer(self, **options: Any) -> bool:
        slug, recipe = read_recipe_named(options["recipe"])
        units = Units(options["units"])
        things = Things(
            Solid(*read_extent(options["thing"], 3, units)), _loose(options["loose"], units), options["turn"]
        )
        measures = read_measures(recipe, options["measures"], units)
        choices = read_options(recipe, options["option"])
        if options["count"] is not None:
            count = whole_number("--count", options["count"], MOST_THINGS)
            limit = whole_number("--limit", options["limit"], MOST_SIZES)
            sizes = sizes_that_hold(recipe, units, things, count, choices, measures, limit)
            if options["json"]:
                self.write_json(
                    _asked(slug, units, things)
                    | {"count": count, "sizes": [_size_json(recipe, each, units) for each in sizes]}
                    | _how(units, things)
                )
            else:
                self.stdout.write("\n".join(_size_lines(recipe, sizes, units)))
            return bool(sizes)
        if not measures:
            raise ArgumentError(
                "Say how many go in, like --count 12, or give a size, like width=9, to hear what it holds."
            )
        sized = size(recipe, slug, units, measures, choices)
        answer = held(recipe, units, things, choices, measures)
        if options["json"]:
            self.write_json(_asked(slug, units, things) | _held_json(sized, answer) | _how(units, things))
        else:
            self.stdout.write("\n".join(_held_lines(sized, answer)))
        return bool(answer.count) and not sized.is_refused


def _loose(text: str, units: Units) -> Fraction:
    try:
        return read_length(text, units)
    except LengthError as error:
        raise ArgumentError(f"--loose: {error}") from None


def _asked(slug: str, units: Units, things: Things) -> Json:
    """Return what both answers begin with, as commands.md lays it down."""
    return {
        "recipe": slug,
        "units": units.value,
        "thing": [exact(side, 1, units) for side in things.solid],
    }


def _how(units: Units, things: Things) -> Json:
    """Return what both answers end with: keys that the contract does not ask for come last."""
    return {"loose": exact(things.loose, 1, units), "turn": things.turning}


def _size_json(recipe: Recipe, holding: Holding, units: Units) -> Json:
    return {
        "measures": _measures_json(recipe, holding.measures, units),
        **printed_values({"area": (holding.area, 2)}, units),
        "arrangement": _arrangement_json(holding.arrangement, units),
        "spare": _sides_json(holding.spare, units),
    }


def _held_json(sized: SizedPattern, answer: Held) -> Json:
    holds: Json | None = None
    if not sized.is_refused:
        arrangement, spare, units = answer.arrangement, answer.spare, sized.units
        holds = {
            "count": answer.count,
            "arrangement": None if arrangement is None else _arrangement_json(arrangement, units),
            "spare": None if spare is None else _sides_json(spare, units),
        }
    measures = {each.name: (each.value, each.power) for each in sized.measures}
    return {
        "measures": printed_values(measures, sized.units),
        "options": dict(sized.options),
        "holds": holds,
        "refused": [check.says for check in _refusals(sized)],
    }


def _measures_json(recipe: Recipe, measures: Mapping[str, Fraction], units: Units) -> Json:
    return printed_values({name: (value, recipe.powers[name]) for name, value in measures.items()}, units)


def _arrangement_json(arrangement: Arrangement, units: Units) -> Json:
    return {
        "across": arrangement.across,
        "deep": arrangement.deep,
        "high": arrangement.high,
        "thing": _sides_json(arrangement.thing, units),
    }


def _sides_json(sides: Solid | Space, units: Units) -> Json:
    return printed_values({name: (side, 1) for name, side in sides._asdict().items()}, units)


def _refusals(sized: SizedPattern) -> list[SizedCheck]:
    return [check for check in sized.failed if check.level == "refuse"]


def _size_lines(recipe: Recipe, sizes: tuple[Holding, ...], units: Units) -> list[str]:
    lines = [recipe.title]
    for each in sizes:
        measures = (
            f"{name} {as_chosen(value, recipe.powers[name], units)}" for name, value in each.measures.items()
        )
        lines += [
            f"  {', '.join(measures)}",
            f"    {_arranged(each.arrangement, units)}",
            f"    {spare_words(each.spare, each.room, units)} "
            f"Fabric to cut: {written(each.area, 2, units).text}.",
        ]
    return lines if sizes else [*lines, "  No size of it holds them."]


def _arranged(arrangement: Arrangement, units: Units) -> str:
    return f"{arranged_words(arrangement)}; each lies as {size_words(arrangement.thing, units)}."


def _held_lines(sized: SizedPattern, answer: Held) -> list[str]:
    measures = (f"{each.name} {as_chosen(each.value, each.power, sized.units)}" for each in sized.measures)
    lines = [f"{sized.title}: {', '.join(measures)}"]
    if sized.is_refused:
        return [*lines, *(f"  Refused: {check.says}" for check in _refusals(sized))]
    if answer.room is None or answer.arrangement is None or answer.spare is None:
        return [*lines, "  Not even one goes in."]
    return [
        *lines,
        f"  {answer.count:,} go in." if answer.count > 1 else "  One goes in.",
        f"    {_arranged(answer.arrangement, sized.units)}",
        f"    {spare_words(answer.spare, answer.room, sized.units)}",
    ]
