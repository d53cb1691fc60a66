"""What is painted on a page, against where a style sheet puts it. Points are 1/72 in (ISO 32000)."""

from io import BytesIO

import pytest
from pikepdf import Pdf

from patterns.documents.proofs.boxes import Box
from patterns.documents.proofs.painted import pages_of
from patterns.documents.proofs.reading import read
from patterns.documents.render import render
from patterns.drawings.metrics import text_width

HTML = """<html lang="en"><head><title>Trial</title><style>
@page { size: 100mm 100mm; margin: 10mm; @bottom-left { content: "foot" } }
body { margin: 0; font: 12pt/1 "Workroom Text" }
p { position: absolute; left: 20mm; margin: 0; top: 30mm }
div { background: black; height: 5mm; left: 0; position: absolute; top: 0; width: 10mm }
</style></head><body><h1>Trial</h1><p>Nine yards</p><div></div>
<img src="mem:1.svg" alt="A line"
style="position: absolute; left: 0; top: 60mm; width: 20mm"/></body></html>"""
SVG = """<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm" viewBox="0 0 10 10"
font-family="Workroom Text">
<path d="M0 5L20 5" stroke="#000000" stroke-width="1"/><text x="1" y="9" font-size="2">abc</text>
<text x="8" y="9" font-size="2" transform="rotate(-90 8 9)">up</text></svg>"""
MM = 72 / 25.4


@pytest.fixture(scope="module")
def document():
    return render(HTML, [], {"mem:1.svg": SVG}, b"trial")


@pytest.fixture(scope="module")
def page(document):
    with Pdf.open(BytesIO(document)) as pdf:
        (page,) = pages_of(pdf)
    return page


def one(page, text):
    (found,) = [each for each in page.texts if each.text == text]
    return found


def test_a_text_is_where_it_was_put_and_as_large(page):
    words = one(page, "Nine yards")
    assert words.size == pytest.approx(12, abs=0.01)
    assert words.box.left == pytest.approx(30 * MM, abs=0.1)
    assert (100 - 40) * MM - 13 < words.box.bottom < words.box.top < (100 - 40) * MM + 1
    assert words.box.right - words.box.left == pytest.approx(text_width("Nine yards", 12_000) / 1000, abs=0.6)


def test_a_path_is_where_it_was_put(page):
    boxes = [each.box for each in page.painted if not each.size and not each.text]
    wanted = (10 * MM, 85 * MM, 20 * MM, 90 * MM)
    assert any(tuple(box) == pytest.approx(wanted, abs=0.05) for box in boxes), boxes


def test_letters_of_a_drawing_are_read_together_at_their_printed_size(page):
    assert one(page, "abc").size == pytest.approx(2 * 20 / 10 * MM, abs=0.01)
    upright = one(page, "up").box
    assert upright.top - upright.bottom > upright.right - upright.left


def test_a_drawing_is_a_window(page):
    line = next(each for each in page.painted if each.box.right > 45 * MM and not each.text)
    assert line.seen.right == pytest.approx(30 * MM, abs=0.05)


def test_what_stands_at_the_foot_belongs_to_no_part():
    from patterns.documents.mends import mend

    with Pdf.open(BytesIO(mend(render(HTML, [], {"mem:1.svg": SVG}, b"trial")))) as pdf:
        (page,) = pages_of(pdf)
    assert one(page, "foot").number is None
    assert one(page, "Trial").number is not None


def test_reading_order_is_that_of_the_structure(document):
    blocks = [(block.kind, block.text, block.pages) for block in read(document).blocks]
    assert blocks == [("H1", "Trial", (1,)), ("P", "Nine yards", (1,)), ("Figure", "A line", (1,))]


def test_boxes_meet_or_do_not():
    box = Box(0, 0, 10, 10)
    assert box.meets(Box(9, 9, 20, 20), 0.5)
    assert not box.meets(Box(9.6, 0, 20, 20), 0.5)
    assert box.within(Box(1, 0, 10, 10), 1)
    assert box.cut_by(Box(20, 0, 30, 10)).is_empty
