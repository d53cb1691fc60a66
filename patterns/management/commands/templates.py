"""`manage.py templates`: the full-size templates of one size as a PDF, or one of them as SVG or DXF."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser

from patterns.documents.dxf import dxf
from patterns.documents.errors import NoDocumentError
from patterns.documents.names import trial_line
from patterns.documents.stamp import stamp
from patterns.documents.templates import SheetName, body, one_template, svg
from patterns.drafting.sized import SizedPattern
from patterns.management.printing import Json
from patterns.management.script import one_line
from patterns.management.sized_command import SizedCommand
from patterns.management.writing import write_document

# Files of one template, for a cutting machine or a drawing program.
ONE: dict[str, Callable[..., bytes]] = {".svg": svg, ".dxf": dxf}


class Command(SizedCommand):
    help = (
        "Writes pieces at full size as a PDF, or one piece as .svg or .dxf, by the end of the file's name. "
        "May run twice: it gives the same file."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument(
            "--piece",
            dest="pieces",
            metavar="NAME",
            action="append",
            default=[],
            help="A piece that is wanted, once for each; without it, all that a ruler does not serve for.",
        )
        parser.add_argument("--large", action="store_true", help="All on one large sheet.")

    def answer(self, **options: Any) -> bool:
        try:
            return super().answer(**options)
        except NoDocumentError as error:
            if options["json"]:
                self.write_json({"recipe": options["recipe"], "file": None, "why": str(error)})
            else:
                self.stderr.write(one_line(str(error)))
            return False

    def write(self, sized: SizedPattern, options: dict[str, Any]) -> Json:
        paper: SheetName = "large" if options["large"] else options["paper"]
        kind = Path(options["to"]).suffix.lower()

        def make() -> bytes:
            if kind in ONE:
                return ONE[kind](one_template(sized, options["pieces"]))
            return stamp(body(sized, paper, options["pieces"]), trial_line(options["name"]))

        return write_document("template", make, kind.strip(".") if kind in ONE else paper, options["to"])
