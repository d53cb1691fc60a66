"""`manage.py book`: the instruction book of one recipe at one size, as a PDF."""

from typing import Any, get_args

from django.core.management.base import CommandParser

from patterns.documents.book import body
from patterns.documents.kinds import BookKind
from patterns.documents.names import trial_line
from patterns.documents.stamp import stamp
from patterns.drafting.sized import SizedPattern
from patterns.management.printing import Json
from patterns.management.sized_command import SizedCommand
from patterns.management.writing import write_document


class Command(SizedCommand):
    help = "Writes the instruction book of one size as a PDF. May run twice: it gives the same file."

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument(
            "--kind",
            choices=get_args(BookKind),
            default="book",
            help="In full, in short on two pages, or in black ink alone.",
        )

    def write(self, sized: SizedPattern, options: dict[str, Any]) -> Json:
        paper, kind = options["paper"], options["kind"]
        line = trial_line(options["name"])
        return write_document(
            "book", lambda: stamp(body(sized, paper, kind=kind), line), paper, options["to"]
        )
