"""The instruction book: one sized pattern, for one paper."""

import hashlib

from patterns.cutting.listing import ShoppingList
from patterns.drafting.sized import SizedPattern

from .book_content import book_content
from .errors import DocumentError
from .mends import mend
from .paper import PAPERS, PaperName
from .render import render
from .typeset import UNKNOWN, markup, style


def body(sized: SizedPattern, paper: PaperName, shopping: ShoppingList | None = None) -> bytes:
    """Return the book as a PDF/UA-1, without the customer's line; the same bytes for the same arguments.

    shopping: what is bought for it, with the layouts; the usual cloth if none is given.
    Raises DocumentError: the size is refused, a number has no value, or a page would not be right.
    """
    book = book_content(sized, PAPERS[paper], shopping)
    html = markup("documents/book.html", {"book": book, "paper": PAPERS[paper]})
    if UNKNOWN in html:
        raise DocumentError("A template of the book names what its content does not hold.")
    sheets = {
        "mem:book.css": style("book.css"),
        "mem:paper.css": style(PAPERS[paper].sheet),
    }
    return mend(render(html, sheets, book.figures, _identifier(html)))


def _identifier(html: str) -> bytes:
    return hashlib.sha256(html.encode()).digest()[:16]
