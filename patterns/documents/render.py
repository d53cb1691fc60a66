"""HTML to PDF: the one place where pages are drawn.

The markup comes from our own templates only. The renderer can reach nothing but what it is handed:
neither a file nor the network; and whatever it complains about fails the document.
"""

import gc
import logging
import os
import re
import threading
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import cache
from typing import Any
from xml.etree import ElementTree

from . import fonts
from .errors import DocumentError
from .painting import painting

# The renderer whose insides are known. With any other, nothing is taken out of its hands.
KNOWN = "70."

# What the renderer's own style sheet gives to each element, and our pages never show: notes, and markers
# outside lists.
_NOTES = re.compile(r"^::(?:foot)?note[^{]*{[^}]*}$", re.MULTILINE)
_MARKERS = re.compile(r"^::marker", re.MULTILINE)

# WeasyPrint keeps state in C libraries and reports to one logger: one document at a time in a process.
_one_at_a_time = threading.Lock()


@cache
def weasyprint() -> Any:
    """Import the renderer, with our fonts and no others.

    Fontconfig reads FONTCONFIG_FILE when it is first asked for a font, so it is set before the import;
    the import costs half a second, so it waits for the first document.
    """
    os.environ["FONTCONFIG_FILE"] = str(fonts.fontconfig_file())
    import weasyprint
    import weasyprint.text.fonts

    return weasyprint


@cache
def _closed_fetcher_class() -> type:
    """A fetcher that knows what it was handed and nothing else."""
    weasyprint()
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class ClosedFetcher(URLFetcher):
        def __init__(self, known: Mapping[str, tuple[str, bytes]]) -> None:
            super().__init__(allowed_protocols=())
            self.known = known
            self.refused: list[str] = []

        def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
            if url not in self.known:
                self.refused.append(url)
                raise ValueError(f"{url} is not part of this document.")
            mime_type, content = self.known[url]
            return URLFetcherResponse(url, content, {"Content-Type": mime_type})

    return ClosedFetcher


@cache
def _page_class() -> Any:
    """A page as the renderer takes one: read as XML, and without styles for six more elements of each.

    Together they save a seventh of a book's time.
    """
    import cssselect2
    from weasyprint.css.counters import CounterStyle
    from weasyprint.html import UA

    kept = _MARKERS.sub("li::marker", _NOTES.sub("", UA))
    usual = weasyprint().CSS(string=kept, counter_style=CounterStyle())

    class Page(weasyprint().HTML):  # type: ignore[misc]
        def __init__(self, html: str, fetcher: Any) -> None:
            self.base_url, self.url_fetcher, self.media_type = None, fetcher, "print"
            root = ElementTree.fromstring(html)  # noqa: S314 - our own markup
            self.wrapper_element = cssselect2.ElementWrapper.from_html_root(root, content_language=None)
            self.etree_element = self.wrapper_element.etree_element

        def _ua_stylesheets(self, forms: bool = False) -> list[Any]:
            return super()._ua_stylesheets(forms) if forms else [usual]

    return Page


def make_ready() -> None:
    """Load the renderer and read what every page needs: a process that forks does so once for them all."""
    _page_class()


def _page(html: str, fetcher: Any) -> Any:
    if not weasyprint().__version__.startswith(KNOWN):
        return weasyprint().HTML(string=html, url_fetcher=fetcher, media_type="print")
    try:
        return _page_class()(html, fetcher)
    except ElementTree.ParseError as slip:
        raise DocumentError(f"The markup of a document is not well formed: {slip}.") from None


class _Complaints(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.lines.append(record.getMessage())


@contextmanager
def _heard() -> Iterator[list[str]]:
    """Everything that the renderer complains about, whatever logging is set up to do."""
    logger = logging.getLogger("weasyprint")
    before = logger.disabled, logger.level, logger.propagate
    complaints = _Complaints()
    logger.addHandler(complaints)
    logger.disabled, logger.propagate = False, False
    logger.setLevel(logging.WARNING)
    try:
        yield complaints.lines
    finally:
        logger.removeHandler(complaints)
        logger.disabled, logger.propagate = before[0], before[2]
        logger.setLevel(before[1])


@cache
def _sheet(text: str) -> Any:
    """Read a style sheet, once for all documents: one that the renderer complains about is not kept."""
    with _heard() as complaints:
        sheet = weasyprint().CSS(string=text, url_fetcher=_closed_fetcher_class()({}), media_type="print")
    if complaints:
        raise DocumentError("The renderer complained: " + "; ".join(complaints))
    return sheet


@contextmanager
def _without_pauses() -> Iterator[None]:
    """Put off the search for dead objects: it walks all boxes again and again, and frees next to none."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _print_at_full_size(_document: object, pdf: Any) -> None:
    """Ask the viewer not to shrink the page to the printer's margins: lengths on it are true."""
    from pydyf import Dictionary

    pdf.catalog.setdefault("ViewerPreferences", Dictionary())["PrintScaling"] = "/None"


def render(
    html: str,
    sheets: Sequence[str],
    figures: Mapping[str, str],
    identifier: bytes,
    variant: str | None = "pdf/ua-1",
    pictures: Mapping[str, bytes] | None = None,
) -> bytes:
    """Turn a page of our own markup into a PDF; the same arguments give the same bytes.

    html: a whole document, well formed as XML is. sheets: its style sheets, in order. figures: SVG by the
    address (`mem:3.svg`) that the markup names them by. identifier: goes into the file as its identifier.
    variant: PDF/UA-1, or None for untagged.
    pictures: JPEGs of our own making, by the address that a figure names them by.
    Raises DocumentError: something was fetched that was not handed in, or the renderer complained.
    """
    known = {url: ("image/svg+xml; charset=utf-8", text.encode()) for url, text in figures.items()}
    known |= {url: ("image/jpeg", content) for url, content in (pictures or {}).items()}
    fetcher = _closed_fetcher_class()(known)
    with _one_at_a_time, _without_pauses(), _heard() as complaints:
        renderer = weasyprint()
        font_config = renderer.text.fonts.FontConfiguration()
        painted = {url: painting(svg, font_config) for url, svg in figures.items()}
        made: bytes = _page(html, fetcher).write_pdf(
            font_config=font_config,
            stylesheets=[_sheet(text) for text in sheets],
            cache={url: found for url, found in painted.items() if found},
            pdf_variant=variant,
            pdf_identifier=identifier,
            finisher=_print_at_full_size,
            uncompressed_pdf=True,
        )
    if fetcher.refused:
        raise DocumentError(f"The document asked for what is not part of it: {', '.join(fetcher.refused)}.")
    if complaints:
        raise DocumentError("The renderer complained: " + "; ".join(complaints))
    return made
