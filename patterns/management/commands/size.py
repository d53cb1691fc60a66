"""`manage.py size`: one recipe at one size, for people or for scripts."""

from decimal import Decimal
from typing import Any

from django.core.management.base import CommandParser

from patterns.drafting.lengths import as_chosen, typeset, written
from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import (
    Quantity,
    SizedCheck,
    SizedCorner,
    SizedMark,
    SizedPattern,
    SizedPiece,
)
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.management.arguments import read_measures, read_options
from patterns.management.printing import Json, printed, printed_values
from patterns.management.script import ScriptCommand, add_size_arguments, read_recipe_named

# The command, like the button, may move two measures to find a size that works.
MOST_MOVED = 2
_SHAPES = {"circle": "a circle", "outline": "cut to an outline within"}


class Command(ScriptCommand):
    help = "Works out one size of a recipe: cut pieces, marks, checks. Changes nothing."

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        add_size_arguments(parser)

    def answer(self, **options: Any) -> bool:
        slug, recipe = read_recipe_named(options["recipe"])
        units = Units(options["units"])
        sized = size(
            recipe,
            slug,
            units,
            read_measures(recipe, options["measures"], units),
            read_options(recipe, options["option"]),
        )
        nearest = _nearest(recipe, sized)
        if options["json"]:
            self.write_json(as_json(sized, nearest))
        else:
            self.stdout.write("\n".join(_lines(sized, nearest)))
        return not sized.is_refused


def _nearest(recipe: Recipe, sized: SizedPattern) -> SizedPattern | None:
    if not sized.is_refused:
        return None
    measures = {each.name: each.value for each in sized.measures}
    found = nearest_size(recipe, sized.units, measures, sized.options, MOST_MOVED)
    return None if found is None else size(recipe, sized.recipe, sized.units, found, sized.options)


def as_json(sized: SizedPattern, nearest: SizedPattern | None) -> Json:
    """Return what the command prints, as commands.md lays it down."""
    return {
        "recipe": sized.recipe,
        "units": sized.units.value,
        "measures": _measures(sized),
        "options": dict(sized.options),
        "amounts": printed_values(
            {each.name: (each.quantity.value, each.quantity.power) for each in sized.amounts}, sized.units
        ),
        "pieces": [_piece(sized, piece) for piece in sized.pieces],
        "materials": [
            {"name": each.name, "kind": each.kind}
            | printed_values({"amount": (each.amount.value, 1)} if each.amount else {}, sized.units)
            for each in sized.materials
        ],
        "checks": [{"level": each.level, "says": each.says, "holds": each.holds} for each in sized.checks],
        "nearest": None if nearest is None else _measures(nearest),
    }


def _measures(sized: SizedPattern) -> Json:
    return printed_values({each.name: (each.value, each.power) for each in sized.measures}, sized.units)


def _piece(sized: SizedPattern, piece: SizedPiece) -> Json:
    edges = {"width": piece.width, "height": piece.height}
    return {
        "name": piece.name,
        "from": piece.material,
        "cut": piece.cut,
        "shape": piece.shape,
        **_outline(sized, piece),
        **printed_values({name: (edge.value, 1) for name, edge in edges.items()}, sized.units),
        "turns": piece.turns,
        "marks": [_mark(sized, mark) for mark in piece.marks],
        "working": {name: sized.working(edge) for name, edge in edges.items()},
    }


def _outline(sized: SizedPattern, piece: SizedPiece) -> Json:
    """The corners of a shape that has no name of its own, as places from its left and its top."""
    if piece.shape != "outline":
        return {}
    return {"outline": [_corner(sized, corner) for corner in piece.outline]}


def _corner(sized: SizedPattern, corner: SizedCorner) -> Json:
    places = corner.across.value, corner.down.value
    rounded = {"rounded": ["to"]} if any(isinstance(place, Decimal) for place in places) else {}
    return {"to": [printed(place, 1, sized.units) for place in places], "arc": corner.arc, **rounded}


def _mark(sized: SizedPattern, mark: SizedMark) -> Json:
    places = {
        "down": mark.down_from_top,
        "across": mark.in_from_left,
        "from": mark.start,
        "to": mark.end,
        "inside": mark.inside,
    }
    lengths = {name: (place.value, 1) for name, place in places.items() if place is not None}
    return {"name": mark.name, "kind": mark.kind, **printed_values(lengths, sized.units)}


def _lines(sized: SizedPattern, nearest: SizedPattern | None) -> list[str]:
    lines = [f"{sized.title}: {_chosen(sized)}", ""]
    for piece in sized.pieces:
        shape = "" if piece.shape == "rectangle" else f", {_SHAPES[piece.shape]}"
        lines.append(f"{piece.name}, {piece.cut} from {piece.material}{shape}")
        for edge, quantity in (("width", piece.width), ("height", piece.height)):
            lines.append(
                f"  {edge:6} {_shown(quantity, sized.units):>12}   {typeset(sized.working(quantity))}"
            )
    lines += ["", *(_verdict(check, sized) for check in sized.failed)]
    if nearest is not None:
        lines.append(f"Nearest size that works: {_chosen(nearest)}")
    elif sized.is_refused:
        lines.append("No size near it works.")
    return lines


def _chosen(sized: SizedPattern) -> str:
    return ", ".join(
        f"{each.name} {as_chosen(each.value, each.power, sized.units)}" for each in sized.measures
    )


def _shown(quantity: Quantity, units: Units) -> str:
    return "no value" if quantity.value is None else written(quantity.value, quantity.power, units).text


def _verdict(check: SizedCheck, sized: SizedPattern) -> str:
    said = "".join(part if isinstance(part, str) else _shown(part, sized.units) for part in check.otherwise)
    return f"{'Refused' if check.level == 'refuse' else 'Advice'}: {said}"
