"""The same book by us, by the bare renderer, and printed by a browser, in one run.

All three get the same words, drawings and style; the bare renderer and the browser get them as one text, with
the drawings in it, as a page without our room would be written. Aim: no slower than the bare renderer.

Run by hand: `.venv/bin/python -m pytest tests/benchmarks/test_bench_yardsticks.py -n 0 --benchmark-only`.
"""

import re

import pytest
from playwright.sync_api import sync_playwright

from patterns.documents.book import body
from patterns.documents.book_content import book_content
from patterns.documents.paper import PAPERS
from patterns.documents.render import weasyprint
from patterns.documents.typeset import markup, style
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter

ROUNDS = {"rounds": 5, "warmup_rounds": 1}


@pytest.fixture(scope="module")
def sized():
    return size(read_starter("fold-flat-basket"), "fold-flat-basket", Units.INCHES)


@pytest.fixture(scope="module")
def page(sized):
    """The book as one text: style sheets and drawings stand in it."""
    book = book_content(sized, PAPERS["a4"])
    html = markup("documents/book.html", {"book": book, "is_plain": False})
    sheets = f"<style>{style('book_a4.css')}{style('book.css')}</style>"
    html = html.replace("</head>", f"{sheets}</head>")
    html, count = re.subn(r'<img src="(mem:[^"]*)" alt="[^"]*"/>', _drawn(book.figures), html)
    assert count >= len(book.figures)
    return html


def _drawn(figures):
    def drawn(image):
        return figures[image[1]].replace("<svg ", '<svg style="display: block" ', 1)

    return drawn


def test_book(benchmark, sized):
    assert benchmark.pedantic(body, (sized, "a4"), **ROUNDS).startswith(b"%PDF")


def test_bare_renderer(benchmark, page):
    def make():
        return weasyprint().HTML(string=page, media_type="print").write_pdf(pdf_variant="pdf/ua-1")

    assert benchmark.pedantic(make, **ROUNDS).startswith(b"%PDF")


def test_browser(benchmark, page):
    """A browser that is running already; a page of it prints the text. Its time is another process's."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])

        def make():
            tab = browser.new_page()
            tab.set_content(page)
            made = tab.pdf(prefer_css_page_size=True, tagged=True)
            tab.close()
            return made

        made = benchmark.pedantic(make, **ROUNDS)
        browser.close()
    assert made.startswith(b"%PDF")
