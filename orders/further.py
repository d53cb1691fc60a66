"""Other forms of a book that a customer may have on demand: none is made, or kept as wanted, before."""

from dataclasses import dataclass
from itertools import product

from orders.models import IssuedDocument, Order, OrderLine

Kind, Paper = IssuedDocument.Kind, IssuedDocument.Paper

SAYS = {
    Kind.SHORT: "Cut list, layouts and checks on two pages, for someone who has made one before.",
    Kind.PLAIN: "All of the book in black ink, and little of it.",
}
FURTHER = tuple(product(SAYS, (Paper.A4, Paper.LETTER)))


@dataclass(frozen=True, slots=True)
class FurtherFile:
    """A file that may be asked for. document: its row, once it was asked for."""

    kind: IssuedDocument.Kind
    paper: IssuedDocument.Paper
    document: IssuedDocument | None

    @property
    def says(self) -> str:
        return SAYS[self.kind]


def further_files(line: OrderLine) -> list[FurtherFile]:
    """Return what may be asked for besides what was promised. A query, unless its documents were brought."""
    found = {(document.kind, document.paper): document for document in line.documents.all()}
    return [FurtherFile(kind, paper, found.get((kind, paper))) for kind, paper in FURTHER]


def further_document(order: Order, position: int, kind: str, paper: str) -> IssuedDocument | None:
    """Return the row of a further file of a paid order, made if this is the first time.

    It bears the line that the order's other documents bear. None: there is no such file.
    """
    if (kind, paper) not in FURTHER:
        return None
    promised = IssuedDocument.objects.granted().filter(line__order=order, line__position=position).first()
    if promised is None:
        return None
    document, _ = IssuedDocument.objects.get_or_create(
        line=promised.line, kind=kind, paper=paper, defaults={"licence_line": promised.licence_line}
    )
    return document
