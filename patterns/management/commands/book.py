"""`manage.py book`: the instruction book of one recipe at one size, as a PDF."""

from typing import Any

from patterns.documents.book import body
from patterns.documents.names import trial_line
from patterns.documents.stamp import stamp
from patterns.drafting.sized import SizedPattern
from patterns.management.printing import Json
from patterns.management.sized_command import SizedCommand
from patterns.management.writing import write_document


class Command(SizedCommand):
    help = "Writes the instruction book of one size as a PDF. May run twice: it gives the same file."

    def write(self, sized: SizedPattern, options: dict[str, Any]) -> Json:
        paper = options["paper"]
        line = trial_line(options["name"])
        return write_document("book", lambda: stamp(body(sized, paper), line), paper, options["to"])
