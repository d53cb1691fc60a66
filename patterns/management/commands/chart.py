"""`manage.py chart`: the size chart of one recipe, as a PDF."""

from collections.abc import Mapping

from patterns.documents import chart
from patterns.documents.paper import PaperName
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.management.sheet_command import SheetCommand


class Command(SheetCommand):
    help = "Writes a recipe's size chart as a PDF of one sheet. May run twice: it gives the same file."
    what = "size chart"

    def make(self, recipe: Recipe, units: Units, paper: PaperName, options: Mapping[str, str]) -> bytes:
        return chart.body(recipe, units, paper, options)
