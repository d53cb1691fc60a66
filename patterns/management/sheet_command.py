"""What the commands have in common that write a sheet made from a recipe alone: a chart, a worksheet."""

from collections.abc import Mapping
from typing import Any, cast

from django.core.management.base import CommandParser

from patterns.documents.errors import NoDocumentError
from patterns.documents.paper import PaperName
from patterns.drafting.recipe import Recipe
from patterns.drafting.sizing import choose
from patterns.drafting.units import Units
from patterns.management.arguments import read_options
from patterns.management.printing import Json
from patterns.management.script import ScriptCommand, add_choice_arguments, one_line, read_recipe_named
from patterns.management.writing import add_paper_arguments, write_document


class SheetCommand(ScriptCommand):
    """A command that writes one sheet. A subclass says what it is called, and makes it."""

    what = "sheet"

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        add_choice_arguments(parser)
        add_paper_arguments(parser)

    def make(self, recipe: Recipe, units: Units, paper: PaperName, options: Mapping[str, str]) -> bytes:
        """Return the sheet as a PDF. Raises NoDocumentError: there is nothing that it could show."""
        raise NotImplementedError

    def answer(self, **options: Any) -> bool:
        slug, recipe = read_recipe_named(options["recipe"])
        units, paper = Units(options["units"]), cast(PaperName, options["paper"])
        chosen = choose(recipe, read_options(recipe, options["option"]))
        head: Json = {"recipe": slug, "units": units.value, "options": dict(chosen)}
        try:
            written = write_document(
                self.what, lambda: self.make(recipe, units, paper, chosen), paper, options["to"]
            )
        except NoDocumentError as error:
            self._say_no({**head, "file": None, "why": str(error)}, is_json=options["json"])
            return False
        if options["json"]:
            self.write_json({**head, **written})
        else:
            self.stdout.write(f"{recipe.title}, {self.what}, {paper}: {options['to']}")
        return True

    def _say_no(self, answer: Json, *, is_json: bool) -> None:
        if is_json:
            self.write_json(answer)
        else:
            self.stderr.write(one_line(answer["why"]))
