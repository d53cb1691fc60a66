"""Rows for a spreadsheet, in which nothing that a customer typed can become a formula."""

import csv
from collections.abc import Iterable, Iterator, Sequence

from django.http import StreamingHttpResponse

# What makes a spreadsheet run a cell, in ASCII and as full-width letters.
RUNS = tuple("=+-@\t\r\n＝＋－＠")
# Without it, spreadsheets read UTF-8 as something else.
BYTE_ORDER_MARK = "\ufeff"

Cell = str | int


def cell(value: Cell) -> Cell:
    """Return a text with an apostrophe before it where a spreadsheet would run it; a number as it is.

    >>> cell("=1+1"), cell("  @sum"), cell("8 1/2"), cell(-3)
    ("'=1+1", "'  @sum", '8 1/2', -3)
    """
    if isinstance(value, int) or not value.lstrip(" \u00a0").startswith(RUNS):
        return value
    return f"'{value}"


class _Echo:
    """A file that hands back what is written to it."""

    def write(self, text: str) -> str:
        return text


def csv_lines(head: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Iterator[str]:
    writer = csv.writer(_Echo(), quoting=csv.QUOTE_NONNUMERIC)
    yield BYTE_ORDER_MARK + writer.writerow(head)
    for row in rows:
        yield writer.writerow([cell(value) for value in row])


def csv_response(
    file_name: str, head: Sequence[str], rows: Iterable[Sequence[Cell]]
) -> StreamingHttpResponse:
    return StreamingHttpResponse(
        csv_lines(head, rows),
        content_type="text/csv; charset=utf-8",
        headers={
            "Content-Disposition": f'attachment; filename="{file_name}"',
            "Cache-Control": "no-store",
        },
    )
