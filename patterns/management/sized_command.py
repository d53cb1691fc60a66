"""What the commands have in common that write a document of one recipe at one size: a book, templates."""

from typing import Any

from django.core.management.base import CommandParser

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
from patterns.management.writing import add_paper_arguments


class SizedCommand(ScriptCommand):
    """A command that writes a document of one size. A subclass writes it; a refused size it never sees."""

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        add_size_arguments(parser)
        add_paper_arguments(parser)
        parser.add_argument("--for", dest="name", default="", help="The name at the foot of every page.")

    def write(self, sized: SizedPattern, options: dict[str, Any]) -> Json:
        """Write the document; return what is printed of it. Raises NoDocumentError: there is none."""
        raise NotImplementedError

    def answer(self, **options: Any) -> bool:
        slug, recipe = read_recipe_named(options["recipe"])
        units = Units(options["units"])
        measures = read_measures(recipe, options["measures"], units)
        sized = size(recipe, slug, units, measures, read_options(recipe, options["option"]))
        if sized.is_refused:
            self._refuse_size(recipe, sized, options["json"])
            return False
        answer = self.write(sized, options)
        if options["json"]:
            self.write_json({**head(sized), **answer})
        else:
            self.stdout.write(f"{sized.title}, {answer['paper']}: {options['to']}")
        return True

    def _refuse_size(self, recipe: Recipe, sized: SizedPattern, is_json: bool) -> None:
        words = Words(sized)
        refused = [words.text(check.otherwise) for check in sized.failed if check.level == "refuse"]
        nearest = _nearest(recipe, sized)
        if is_json:
            printed = None if nearest is None else _measures(nearest)
            self.write_json({**head(sized), "refused": refused, "nearest": printed})
        else:
            self.stderr.write(one_line(" ".join([*refused, _proposal(nearest)])))


def head(sized: SizedPattern) -> Json:
    """Return what begins every answer about a size."""
    return {"recipe": sized.recipe, "units": sized.units.value, "measures": _measures(sized)}


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


def _measures(sized: SizedPattern) -> Json:
    return printed_values({each.name: (each.value, each.power) for each in sized.measures}, sized.units)
