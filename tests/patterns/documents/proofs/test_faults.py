"""Faults of a page, planted one at a time in one that has none: each is found by its name and its page."""

import pytest

from patterns.documents.mends import mend
from patterns.documents.proofs.faults import STEPS, faults
from patterns.documents.render import render
from patterns.documents.typeset import TEMPLATES

SOUND = """<html lang="en"><head><title>Trial</title><style>
@page { size: 120mm 100mm; margin: 15mm; @bottom-left { content: "Trial" } }
body { font: 9pt/1.3 "Workroom Text"; margin: 0 }
h1, h2, h3 { break-after: avoid; font-size: 10pt; margin: 0 }
p { margin: 0 } img { display: block; height: 20mm; width: 20mm }
.next { break-before: page }
</style></head><body><h1>Trial</h1><p>Words of the first page.</p><img src="mem:1.svg" alt="A square"/>
<h2 class="next">Step by step</h2>
<div class="step"><h3>Cut</h3><img src="mem:1.svg" alt="A panel"/><p>Cut it.</p></div>
<h3>Fold</h3><p>Fold it.</p></body></html>"""
SVG = """<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm" viewBox="0 0 20 20"
font-family="Workroom Text">
<rect x="1" y="1" width="18" height="18" fill="none" stroke="#000000"/>
<text x="3" y="8" font-size="3">one</text><text x="3" y="14" font-size="3">two</text></svg>"""

PLANTED = {
    "outside-the-page": ("<p>Words of", '<p style="margin-left: 85mm; white-space: nowrap">Words of', 1),
    "in-the-margin": ("<p>Words of", '<p style="margin-left: -8mm">Words of', 1),
    "cut-off": ('<text x="3" y="8"', '<text x="17" y="8"', 1),
    "small-letters": ('y="8" font-size="3"', 'y="8" font-size="2.4"', 1),
    "words-overlap": ('y="14"', 'y="9"', 1),
    "heading-stranded": ("<p>Fold it.", '<p class="next">Fold it.', 2),
    "figure-apart": ("<p>Cut it.", '<p class="next">Cut it.', 3),
    "nearly-empty": ('<img src="mem:1.svg" alt="A square"/>', "", 1),
    "not-accessible": ("<h3>Cut</h3>", "<h5>Cut</h5>", 0),
}


def made(html=SOUND, svg=SVG):
    return mend(render(html, [], {"mem:1.svg": svg}, b"trial"))


def test_a_sound_document_has_none():
    assert [str(fault) for fault in faults(made())] == []


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_fault_is_found_by_its_name_and_page(name):
    was, now, page = PLANTED[name]
    assert (was in SOUND) != (was in SVG)
    found = faults(made(SOUND.replace(was, now), SVG.replace(was, now)))
    assert (name, page) in {(fault.name, fault.page) for fault in found}, [str(fault) for fault in found]


def test_a_fault_says_where_and_what():
    found = faults(made(svg=SVG.replace('y="8" font-size="3"', 'y="8" font-size="2.4"')))
    assert "page 1: “one” is set in 6.8 pt. [small-letters]" in [str(fault) for fault in found]


def test_steps_are_known_by_the_heading_that_books_have():
    assert f"<h2>{STEPS}</h2>" in (TEMPLATES / "documents" / "book_steps.html").read_text(encoding="utf-8")
