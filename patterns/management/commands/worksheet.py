"""`manage.py worksheet`: the worksheet of one recipe, as a PDF."""

from collections.abc import Mapping

from patterns.documents import worksheet
from patterns.documents.paper import PaperName
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.management.sheet_command import SheetCommand


class Command(SheetCommand):
    help = "Writes a worksheet for sizes by hand as a PDF. May run twice: it gives the same file."
    what = "worksheet"

    def make(self, recipe: Recipe, units: Units, paper: PaperName, options: Mapping[str, str]) -> bytes:
        return worksheet.body(recipe, units, paper, options)
