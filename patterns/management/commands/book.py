"""`manage.py book`: the instruction book of one recipe at one size, as a PDF."""

from typing import Any

from django.core.management.base import CommandParser

from patterns.documents.book import body
from patterns.documents.names import trial_line
from patterns.documents.stamp import stamp
from patterns.documents.words import Words
from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.management.arguments import read_measures, read_options
from patterns.management.commands.size import MOST_MOVED
from patterns.management.printing import Json, printed_values
from patterns.management.script import ScriptCommand, add_size_arguments, one_line, read_recipe_named
from patterns.management.writing import add_paper_arguments, write_document


class Command(ScriptCommand):
    help = "Writes the instruction book of one size as a PDF. May run twice: it gives the same file."

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        add_size_arguments(parser)
        add_paper_arguments(parser)
        parser.add_argument("--for", dest="name", default="", help="The name at the foot of every page.")

    def answer(self, **options: Any) -> bool:
        slug, recipe = read_recipe_named(options["recipe"])
        units = Units(options["units"])
        measures = read_measures(recipe, options["measures"], units)
        sized = size(recipe, slug, units, measures, read_options(recipe, options["option"]))
        if sized.is_refused:
            self.say_no(recipe, sized, options["json"])
            return False
        paper = options["paper"]
        answer = write_document(
            "book", lambda: stamp(body(sized, paper), trial_line(options["name"])), paper, options["to"]
        )
        if options["json"]:
            self.write_json({**_head(sized), **answer})
        else:
            self.stdout.write(f"{sized.title}, {paper}: {options['to']}")
        return True

    def say_no(self, recipe: Recipe, sized: SizedPattern, is_json: bool) -> None:
        words = Words(sized)
        refused = [words.text(check.otherwise) for check in sized.failed if check.level == "refuse"]
        nearest = _nearest(recipe, sized)
        if is_json:
            printed = None if nearest is None else _measures(nearest)
            self.write_json({**_head(sized), "refused": refused, "nearest": printed})
        else:
            self.stderr.write(one_line(" ".join([*refused, _proposal(nearest)])))


def _nearest(recipe: Recipe, sized: SizedPattern) -> SizedPattern | None:
    chosen = {each.name: each.value for each in sized.measures}
    found = nearest_size(recipe, sized.units, chosen, sized.options, MOST_MOVED)
    return None if found is None else size(recipe, sized.recipe, sized.units, found, sized.options)


def _proposal(nearest: SizedPattern | None) -> str:
    if nearest is None:
        return "No size near it works."
    words = Words(nearest)
    sizes = ", ".join(f"{measure.name} {words.chosen(measure)}" for measure in nearest.measures)
    return f"The nearest size that works: {sizes}."


def _head(sized: SizedPattern) -> Json:
    return {"recipe": sized.recipe, "units": sized.units.value, "measures": _measures(sized)}


def _measures(sized: SizedPattern) -> Json:
    return printed_values({each.name: (each.value, each.power) for each in sized.measures}, sized.units)
