"""The instruction book: one sized pattern, for one paper."""

import hashlib

from patterns.cutting.listing import ShoppingList
from patterns.drafting.sized import SizedPattern
from patterns.drawings.black_and_white import in_black_and_white

from . import short
from .book_content import Book, book_content
from .cloth_cover import Cover, pictures, prints
from .errors import DocumentError
from .kinds import BookKind
from .layouts import on_one_page
from .mends import mend
from .one_sheet import pages_of
from .paper import PAPERS, PaperName, in_little
from .render import render
from .typeset import UNKNOWN, markup, style


def body(
    sized: SizedPattern,
    paper: PaperName,
    shopping: ShoppingList | None = None,
    kind: BookKind = "book",
    cover: Cover | None = None,
) -> bytes:
    """Return the book as a PDF/UA-1, without the customer's line; the same bytes for the same arguments.

    shopping: what is bought for it, with the layouts; the usual cloth if none is given. kind: in full, in
    short, or plain: in full, in black ink alone. cover: the customer's own cloth, which a book in full shows.
    Raises DocumentError: the size is refused, a number has no value, or a page would not be right.
    """
    if kind == "short":
        return short.body(sized, paper, shopping)
    is_plain = kind == "plain"
    room = in_little(PAPERS[paper]) if is_plain else PAPERS[paper]
    own = {} if is_plain or cover is None else cover
    content = book_content(sized, room, shopping, prints(own))
    made = _set(content, paper, is_plain, own)
    less = on_one_page(content.layouts, room)
    if less is None:
        return made
    # Less high layouts are worth it only where they save a page.
    shorter = _set(book_content(sized, less, shopping, prints(own)), paper, is_plain, own)
    return min(made, shorter, key=pages_of)


def _set(content: Book, paper: PaperName, is_plain: bool, own: Cover) -> bytes:
    html = markup("documents/book.html", {"book": content, "is_plain": is_plain})
    if UNKNOWN in html:
        raise DocumentError("A template of the book names what its content does not hold.")
    sheets = [style(PAPERS[paper].sheet), style("book.css"), *([style("plain.css")] if is_plain else [])]
    figures = content.figures
    if is_plain:
        figures = {address: in_black_and_white(svg) for address, svg in figures.items()}
    return mend(
        render(html, sheets, figures, _identifier(html, *pictures(own).values()), pictures=pictures(own))
    )


def _identifier(html: str, *shown: bytes) -> bytes:
    """shown: the customer's own pictures; without them it is as it always was."""
    digest = hashlib.sha256(html.encode())
    for each in shown:
        digest.update(hashlib.sha256(each).digest())
    return digest.digest()[:16]
