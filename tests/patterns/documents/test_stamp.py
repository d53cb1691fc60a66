import os
import re
import subprocess
import sys
from io import BytesIO

import page
import pytest
from pikepdf import Pdf

from patterns.documents.check import check
from patterns.documents.errors import DocumentError
from patterns.documents.names import licence_line
from patterns.documents.stamp import stamp

LINE = "Order 1042 · made for Ada Example"
NAMES = {
    "plain": "Ada Example",
    "accents": "Zoë Ünder-Żak",
    "Vietnamese": "Đặng Thị Ví Dụ",
    "Greek": "Άντα Παράδειγμα",
    "Cyrillic": "Ада Пример",
    "markup": "</p><img src=file:///etc/passwd><script>alert(1)</script>",
    "quotes": "\"Ada\" & 'Bea' {% now %} {{ line }}",
    "right to left": "Ada \u202edrawkcab Example",
    "newlines": "Ada\r\nExample\u2028x",
    "lone surrogate": "Ada \ud800Example",
    "NUL": "Ada\x00Example",
    "emoji": "😀" * 400,
    "Chinese": "王小明",
    "as long as may be": "W" * 600,
    "tower": "A" + "\u0301" * 100,
}


@pytest.fixture(scope="module")
def body(make_body):
    return make_body("a4", "fold-flat-basket", "in")


@pytest.fixture(scope="module")
def stamped(body):
    return stamp(body, LINE)


def words_of(document: bytes) -> str:
    command = ["/usr/bin/pdftotext", "-raw", "-", "-"]
    text = subprocess.run(command, input=document, capture_output=True, check=True).stdout.decode()
    return " ".join(text.split())


def test_the_line_is_on_every_page(stamped):
    with Pdf.open(BytesIO(stamped)) as pdf:
        assert words_of(stamped).count(LINE) == len(pdf.pages)


def test_the_line_is_in_the_file_too(stamped):
    with Pdf.open(BytesIO(stamped)) as pdf:
        assert str(pdf.docinfo["/Licence"]) == LINE


def test_everything_else_stays_as_it_was(body, stamped):
    assert words_of(stamped).replace(f" {LINE}", "") == words_of(body)
    with Pdf.open(BytesIO(body)) as before, Pdf.open(BytesIO(stamped)) as after:
        assert [one.mediabox for one in before.pages] == [one.mediabox for one in after.pages]
        assert before.docinfo.Title == after.docinfo.Title
    assert len(stamped) < len(body) + 25_000


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
def test_any_name_leaves_the_book_sound(body, name):
    line = licence_line("1042", name)
    stamped = stamp(body, line)
    assert check(stamped) == ()
    assert [failure.message for failure in page.validate_pdf_bytes(stamped, profile="ua1").failures] == []
    assert line.replace(" ", "") in words_of(stamped).replace(" ", "")


def test_a_line_that_cannot_be_written_is_refused(body):
    with pytest.raises(DocumentError, match="no sign for 王"):
        stamp(body, "Order 1042 · made for 王")


def test_the_line_stands_inside_the_page_and_under_the_title(body):
    stamped = stamp(body, licence_line("1042", "W" * 60))
    command = ["/usr/bin/pdftotext", "-bbox", "-f", "2", "-l", "2", "-", "-"]
    text = subprocess.run(command, input=stamped, capture_output=True, check=True).stdout.decode()
    boxes = [re.search(r'xMax="(.+?)" yMax="(.+?)">(.+?)<', line) for line in text.splitlines()]
    ends = [(float(box[1]), float(box[2]), box[3]) for box in boxes if box]
    right, bottom = max(end[0] for end in ends), max(end[1] for end in ends)
    foot = next(low for _, low, word in ends if word == "Order")
    title = next(low for _, low, word in ends if word == "page")
    assert title + 8 < foot
    assert right < 595 - 14
    assert bottom < 842 - 14


def test_subset_fonts_of_body_and_line_are_told_apart(stamped):
    with Pdf.open(BytesIO(stamped)) as pdf:
        resources = pdf.pages[0].obj.Resources
        own = {str(font.BaseFont) for font in resources.Font.values()}
        form = resources.XObject["/Licence0"]
        lines = {str(font.BaseFont) for font in form.Resources.Font.values()}
    assert lines
    assert not own & lines


def test_the_same_line_has_the_same_bytes(body, stamped):
    assert stamp(body, LINE) == stamped


def test_another_process_makes_the_same_bytes(body, stamped):
    code = (
        "import sys; from patterns.documents.stamp import stamp;"
        f"sys.stdout.buffer.write(stamp(sys.stdin.buffer.read(), {LINE!r}))"
    )
    environment = {**os.environ, "PYTHONHASHSEED": "99"}
    command = [sys.executable, "-c", code]
    made = subprocess.run(command, env=environment, input=body, capture_output=True, check=True).stdout
    assert made == stamped


def test_pages_of_several_sizes_get_the_line_each_at_its_foot(make_body):
    target = BytesIO()
    with (
        Pdf.open(BytesIO(make_body("a4", "fold-flat-basket", "in"))) as one,
        Pdf.open(BytesIO(make_body("letter", "fold-flat-basket", "cm"))) as other,
    ):
        one.pages.append(other.pages[0])
        one.save(target)
    assert words_of(stamp(target.getvalue(), LINE)).endswith(LINE)
