import json
import os
import re
import subprocess
import sys
from io import BytesIO

import page
import pikepdf
import pytest
from pikepdf import Pdf

from patterns.documents.book import body
from patterns.documents.book_content import book_content
from patterns.documents.check import check
from patterns.documents.errors import DocumentError
from patterns.documents.paper import PAPERS
from patterns.drafting.sized_json import from_json, to_json

BOOKS = [
    ("a4", "fold-flat-basket", "in"),
    ("letter", "fold-flat-basket", "cm"),
    ("letter", "zip-pouch", "in"),
    ("a4", "zip-pouch", "cm"),
    ("letter", "packable-tote", "in"),
    ("a4", "gift-bag", "cm"),
    ("a4", "boxed-tote", "cm"),
    ("letter", "window-pouch", "in"),
]
# mm; ISO 216 and ANSI/ASME Y14.1. 1 pt is 1/72 in (ISO 32000, user space unit).
SIZES = {"a4": (210, 297), "letter": (215.9, 279.4)}


def words_of(document: bytes) -> str:
    """All its words, one space between them, in reading order."""
    command = ["/usr/bin/pdftotext", "-raw", "-", "-"]
    text = subprocess.run(command, input=document, capture_output=True, check=True).stdout.decode()
    return " ".join(text.split())


@pytest.fixture(params=BOOKS, ids="-".join, scope="module")
def which(request):
    return request.param


@pytest.fixture(scope="module")
def book(which, make_body):
    return make_body(*which)


@pytest.fixture(scope="module")
def content(which, make_sized):
    paper, slug, units = which
    return book_content(make_sized(slug, units), PAPERS[paper])


@pytest.fixture(scope="module")
def words(book):
    return words_of(book)


def test_every_page_has_the_exact_size_of_its_paper(book, which):
    wide, high = (side * 72 / 25.4 for side in SIZES[which[0]])
    with Pdf.open(BytesIO(book)) as pdf:
        for each in pdf.pages:
            assert [float(number) for number in each.mediabox] == pytest.approx([0, 0, wide, high], abs=0.001)


def test_it_conforms_to_pdf_ua(book):
    report = page.validate_pdf_bytes(book, profile="ua1")
    assert [failure.message for failure in report.failures] == []
    assert report.is_compliant


def test_our_own_check_finds_no_fault(book):
    assert check(book) == ()


def test_title_language_and_date_are_in_the_file(book, content):
    with Pdf.open(BytesIO(book)) as pdf:
        assert str(pdf.docinfo.Title) == f"{content.title}: instruction book"
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.docinfo.CreationDate) == f"D:{content.revised.replace('-', '')}"


def test_every_page_says_which_it_is(book, words, content):
    with Pdf.open(BytesIO(book)) as pdf:
        count = len(pdf.pages)
    for number in range(1, count + 1):
        assert f"{content.title} page {number} of {count}" in words


def test_every_number_and_word_of_the_content_is_on_its_pages(words, content):
    for row in content.cuts:
        assert f"{row.material} {row.count} {row.width} {row.height}" in words
    for piece in content.workings:
        assert all(side.numbers in words for side in piece.sides)
    for piece in content.marked:
        for mark in piece.marks:
            assert all(f"{distance.far} {distance.working}" in words for distance in mark.distances)
    for step in content.steps:
        assert f"{step.number} {step.title}" in words
        assert words.count(step.does) == 1
        assert not step.again or f"Take care again: {' '.join(step.again.split())}." in words
    for caution in content.cautions:
        assert words.count(caution.says) >= 1 + sum(caution in step.cautions for step in content.steps)
    for group in content.needs:
        assert all(need.amount in words and need.reason in words for need in group.needs)
    for layout in content.layouts:
        assert f"{layout.material[:1].upper()}{layout.material[1:]}: {layout.amount} {layout.says}" in words


def test_no_page_is_nearly_empty(book):
    with Pdf.open(BytesIO(book)) as pdf:
        count = len(pdf.pages)
    for number in range(2, count + 1):
        command = ["/usr/bin/pdftotext", "-f", str(number), "-l", str(number), "-", "-"]
        text = subprocess.run(command, input=book, capture_output=True, check=True).stdout.decode()
        assert len(text.split()) > 60, f"page {number} of {count}"


def test_a_step_is_on_one_page_with_its_title(book, content):
    pages = [words_of_page(book, number) for number in range(1, page_count(book) + 1)]
    for step in content.steps:
        assert any(f"{step.number} {step.title}" in text and step.does in text for text in pages), step.title


def page_count(book: bytes) -> int:
    with Pdf.open(BytesIO(book)) as pdf:
        return len(pdf.pages)


def words_of_page(book: bytes, number: int) -> str:
    with Pdf.open(BytesIO(book)) as pdf, Pdf.new() as single:
        single.pages.append(pdf.pages[number - 1])
        target = BytesIO()
        single.save(target)
    return words_of(target.getvalue())


def test_steps_are_set_in_eleven_points_or_more(book, content):
    """Where the first words of a step stand, the letters are at least 11 pt high."""
    command = ["/usr/bin/pdftotext", "-bbox-layout", "-", "-"]
    text = subprocess.run(command, input=book, capture_output=True, check=True).stdout.decode()
    first = content.steps[-1].does.split()[0]
    heights = [
        float(line.split('yMax="')[1].split('"')[0]) - float(line.split('yMin="')[1].split('"')[0])
        for line in text.splitlines()
        if line.strip().startswith("<word") and f">{first}<" in line
    ]
    assert max(heights) >= 11


def test_every_figure_says_what_it_shows(book, content):
    with Pdf.open(BytesIO(book)) as pdf:
        kinds = [str(element.S) for element in elements_of(pdf)]
    layouts = sum(len(row) for layout in content.layouts for row in layout.rows)
    shown = sum(len(step.shows) for step in content.steps)
    finished = 1 if content.flat is None else 2
    samples = len(content.lines)
    assert kinds.count("/Figure") == finished + layouts + len(content.marked) + shown + samples


def test_a_layout_is_on_one_page_with_its_heading_and_words(book, content):
    pages = [words_of_page(book, number) for number in range(1, page_count(book) + 1)]
    for layout in content.layouts:
        heading = f"{layout.material[1:]}: {layout.amount} {layout.says}"
        (page,) = (text for text in pages if heading in text)
        piece = next(row.name for row in content.cuts if row.material == layout.material)
        assert piece.split()[0] in page.split(heading)[1]


def test_no_letters_in_a_layout_are_smaller_than_seven_points(content):
    """A drawing's units are thousandths of a mm; 7 pt are 2.47 mm."""
    for layout in content.layouts:
        for figure in (drawn.figure for row in layout.rows for drawn in row):
            svg = content.figures[figure.address]
            across = float(re.search(r'viewBox="\S+ \S+ (\S+)', svg)[1])
            least = min(float(size) for size in re.findall(r'font-size="([\d.]+)"', svg))
            assert least * figure.width_mm / across * 72 / 25.4 >= 7


def elements_of(pdf: Pdf):
    from patterns.documents.mends import elements

    return list(elements(pdf))


def test_the_same_book_has_the_same_bytes(make_sized, make_body):
    assert body(make_sized("zip-pouch", "cm"), "a4") == make_body("a4", "zip-pouch", "cm")


def test_another_process_makes_the_same_bytes(make_body, tmp_path):
    code = (
        "import sys; from patterns.documents.book import body; from patterns.drafting.sizing import size;"
        "from patterns.drafting.units import Units; from patterns.starters import read_starter;"
        "sized = size(read_starter('fold-flat-basket'), 'fold-flat-basket', Units('in'), {}, {});"
        "sys.stdout.buffer.write(body(sized, 'a4'))"
    )
    environment = {**os.environ, "PYTHONHASHSEED": "4711", "TZ": "Asia/Tokyo"}
    made = subprocess.run(
        [sys.executable, "-c", code], env=environment, capture_output=True, check=True
    ).stdout
    assert made == make_body("a4", "fold-flat-basket", "in")


def test_a_refused_size_has_no_book(make_sized):
    with pytest.raises(DocumentError, match="A size that is refused has no book"):
        body(make_sized(height=2, depth=6), "a4")


def test_every_font_in_it_is_ours(book):
    with pikepdf.open(BytesIO(book)) as pdf:
        names = {str(font.BaseFont).partition("+")[2] for font in pdf.pages[0].Resources.Font.values()}
    assert {name.split("-")[0] for name in names} == {"Workroom"}


def test_a_kept_size_gives_the_same_content(make_sized):
    """What an order keeps is JSON: the book made from it says and draws the same."""
    sized = make_sized("zip-pouch", "cm", width=20, exterior_print="one way")
    kept = from_json(json.loads(json.dumps(to_json(sized))))
    assert book_content(kept, PAPERS["a4"]) == book_content(sized, PAPERS["a4"])
