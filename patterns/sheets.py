"""The free sheets of a pattern, as anybody may download them: its size chart and its worksheet.

Each is made from a recipe alone, so there are only a few of a pattern: one of each kind for each unit system
and paper, with the default choices. It is made when it is first asked for, and kept.
"""

import hashlib
import json
import threading
from collections.abc import Callable, Mapping
from typing import NamedTuple

from patterns import kept as files
from patterns.documents import chart, worksheet
from patterns.documents.paper import PaperName
from patterns.documents.versions import renderer_key
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.models import Revision

FOLDER = "sheets"
MAKERS: Mapping[str, Callable[[Recipe, Units, PaperName], bytes]] = {
    "chart": chart.body,
    "worksheet": worksheet.body,
}
PAPER_WORDS: Mapping[PaperName, str] = {"a4": "A4", "letter": "US Letter"}
# Two visitors who want the same new sheet at once wait for one that makes it.
_making = threading.Lock()


class Sheet(NamedTuple):
    """Which sheet: in an address `worksheet-in-a4`."""

    kind: str
    units: Units
    paper: PaperName

    @property
    def paper_words(self) -> str:
        return PAPER_WORDS[self.paper]


class SheetConverter:
    """A sheet in an address; what is none has no page."""

    regex = f"(?:{'|'.join(MAKERS)})-(?:{'|'.join(Units)})-(?:{'|'.join(PAPER_WORDS)})"

    def to_python(self, text: str) -> Sheet:
        kind, units, paper = text.split("-")
        return Sheet(kind, Units(units), next(each for each in PAPER_WORDS if each == paper))

    def to_url(self, sheet: Sheet) -> str:
        return "-".join(sheet)


def sheets(kind: str, units: Units) -> tuple[Sheet, ...]:
    """Return the sheets of one kind, for every paper."""
    return tuple(Sheet(kind, units, paper) for paper in PAPER_WORDS)


def made(revision: Revision, sheet: Sheet) -> bytes:
    """Return a sheet of a revision as a PDF, made if need be. Raises NoDocumentError: it has none."""
    address = _address(revision, sheet)
    content = files.kept(FOLDER, address)
    if content is not None:
        return content
    with _making:
        content = files.kept(FOLDER, address)
        if content is None:
            content = MAKERS[sheet.kind](revision.recipe, sheet.units, sheet.paper)
            files.keep(FOLDER, address, content)
    return content


def _address(revision: Revision, sheet: Sheet) -> str:
    """All that the bytes hang on."""
    parts = [revision.checksum, *sheet, renderer_key()]
    return hashlib.sha256(json.dumps(parts).encode()).hexdigest()
