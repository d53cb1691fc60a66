import logging
import subprocess
import sys
from io import BytesIO

import pikepdf
import pytest

from patterns.documents.book import body
from patterns.documents.errors import DocumentError
from patterns.documents.render import render
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 40 30">'
    '<title>A square</title><rect width="9" height="9"/>{}</svg>'
)
PAGE = '<html lang="en"><head><title>Trial</title>{head}</head><body><h1>Trial</h1>{body}</body></html>'


def made(head="", body="", figures=None, sheets=None, **options):
    return render(PAGE.format(head=head, body=body), sheets or [], figures or {}, b"trial", **options)


def test_a_plain_page_is_made_and_asks_to_be_printed_at_full_size():
    with pikepdf.open(BytesIO(made(body="<p>Seven</p>"))) as pdf:
        assert len(pdf.pages) == 1
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle is True


def test_only_our_own_fonts_are_used():
    with pikepdf.open(BytesIO(made(body='<p style="font-family: Arial, serif">7 1⁄2</p>'))) as pdf:
        names = {str(font.BaseFont).partition("+")[2] for font in pdf.pages[0].Resources.Font.values()}
    assert names
    assert all(name.startswith("Workroom") for name in names)


def test_figures_are_found_by_their_address_and_sheets_count_in_their_order():
    document = made(
        body='<img src="mem:1.svg" alt="A square"/>',
        figures={"mem:1.svg": SVG.format("")},
        sheets=["@page { size: 90mm 90mm }", "@page { size: 100mm 50mm }"],
    )
    with pikepdf.open(BytesIO(document)) as pdf:
        assert [round(float(number), 2) for number in pdf.pages[0].mediabox] == [0, 0, 283.46, 141.73]


def words_of(document):
    command = ["/usr/bin/pdftotext", "-", "-"]
    return subprocess.run(command, input=document, capture_output=True, check=True).stdout.decode()


REACHING_OUT = {
    "file": '<img src="file:///etc/hostname" alt="x"/>',
    "http": '<img src="http://127.0.0.1:9/x.png" alt="x"/>',
    "data": '<img src="data:image/png;base64,iVBORw0KGgo=" alt="x"/>',
    "another figure": '<img src="mem:2.svg" alt="x"/>',
    "relative": '<img src="secret.svg" alt="x"/>',
    "object": '<object data="file:///etc/hostname"></object>',
    "embed": '<embed src="file:///etc/hostname"/>',
    "background": '<p style="background: url(file:///etc/hostname)">x</p>',
    "list": '<ul><li style="list-style-image: url(file:///etc/hostname)">x</li></ul>',
    "content": "<style>p::before { content: url(file:///etc/hostname) }</style><p>x</p>",
    "import": "<style>@import url(file:///etc/hostname);</style>",
    "font": "<style>@font-face { font-family: x; src: url(file:///etc/hostname) }</style><p>x</p>",
    "sheet": '<link rel="stylesheet" href="file:///etc/hostname"/>',
    "attachment": '<link rel="attachment" href="file:///etc/hostname"/>',
    "attached link": '<a rel="attachment" href="file:///etc/hostname">x</a>',
}


@pytest.mark.parametrize("markup", REACHING_OUT.values(), ids=REACHING_OUT)
def test_nothing_is_fetched_that_was_not_handed_in(markup):
    with pytest.raises(DocumentError):
        made(body=markup)


@pytest.mark.parametrize("element", ['<image href="{}" width="9" height="9"/>', '<use href="{}#it"/>'])
def test_a_figure_shows_nothing_from_elsewhere(element, tmp_path):
    secret = tmp_path / "secret.svg"
    secret.write_text(SVG.format('<text id="it" y="20">Leaked</text>'))
    figures = {"mem:1.svg": SVG.format(element.format(secret.as_uri()))}
    try:
        document = made(body='<img src="mem:1.svg" alt="x"/>', figures=figures)
    except DocumentError:
        return
    assert "Leaked" not in words_of(document)


@pytest.mark.parametrize(
    ("complaint", "markup"),
    [
        ("unknown property", '<p style="no-such-thing: 1">x</p>'),
        ("alt", '<img src="mem:1.svg"/>'),
        ("glyph", "<p>王</p>"),
    ],
    ids=["property", "alt", "glyph"],
)
def test_what_the_renderer_complains_about_fails_the_document(complaint, markup):
    with pytest.raises(DocumentError, match="complained"):
        made(body=markup, figures={"mem:1.svg": SVG.format("")})


def test_a_silenced_log_is_heard_all_the_same():
    logger = logging.getLogger("weasyprint")
    before = logger.disabled, logger.level
    logger.disabled = True
    logger.setLevel(logging.CRITICAL)
    try:
        with pytest.raises(DocumentError):
            made(body='<p style="no-such-thing: 1">x</p>')
        assert (logger.disabled, logger.level) == (True, logging.CRITICAL)
    finally:
        logger.disabled, logger.level = before


def test_a_sheet_that_is_complained_about_fails_every_document():
    for _ in range(2):
        with pytest.raises(DocumentError, match="no-such-thing"):
            made(body="<p>x</p>", sheets=["p { no-such-thing: 1 }"])


def test_markup_that_is_not_well_formed_is_told():
    with pytest.raises(DocumentError, match="not well formed: mismatched tag: line 1, column"):
        made(body="<p>one<p>two")


def pages_of(document):
    command = ["/usr/bin/pdftoppm", "-r", "50", "-gray", "-"]
    shown = subprocess.run(command, input=document, capture_output=True, check=True).stdout
    return shown.count(b"P5\n"), shown


def test_what_is_taken_out_of_the_renderers_hands_changes_nothing(monkeypatch):
    """A book by an unknown version of the renderer, which gets everything as it is, looks the same."""
    sized = size(read_starter("round-bucket"), "round-bucket", Units.CENTIMETRES)
    (count, ours), _ = (
        pages_of(body(sized, "a4")),
        monkeypatch.setattr("patterns.documents.render.KNOWN", "none"),
    )
    theirs = pages_of(body(sized, "a4"))
    assert theirs[0] == count
    differing = sum(abs(one - other) > 100 for one, other in zip(ours, theirs[1], strict=True))
    assert differing < len(ours) / 100_000


def test_bytes_are_equal_twice():
    assert made(body="<p>Seven</p>") == made(body="<p>Seven</p>")


def test_the_room_imports_without_loading_the_renderer():
    code = "import sys, patterns.documents.render; sys.exit('weasyprint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
