"""What comes with a line of an order: rows that say it is wanted, for the worker to make come true."""

from collections.abc import Iterator

from orders.models import IssuedDocument, OrderLine
from patterns.documents.names import licence_line
from patterns.drafting.sized import SizedPattern
from patterns.drawings.template import has_templates


def promise(line: OrderLine, sized: SizedPattern) -> None:
    """Promise a line's documents, in the transaction that keeps the line."""
    at_the_foot = licence_line(str(line.order.number), line.order.name)
    IssuedDocument.objects.bulk_create(
        IssuedDocument(line=line, kind=kind, paper=paper, licence_line=at_the_foot)
        for kind, paper in _promised(sized)
    )


def _promised(sized: SizedPattern) -> Iterator[tuple[IssuedDocument.Kind, IssuedDocument.Paper]]:
    """Yield what comes with a pattern: its book, and templates of pieces that a ruler does not serve for."""
    kinds, papers = IssuedDocument.Kind, IssuedDocument.Paper
    yield from ((kinds.BOOK, paper) for paper in (papers.A4, papers.LETTER))
    if has_templates(sized):
        yield from ((kinds.TEMPLATES, paper) for paper in papers)
