import subprocess

import pytest

from patterns.documents.render import render
from patterns.documents.typeset import UNKNOWN, for_print, markup, numbers, sentence


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("sew 7 1⁄2 in wide", "sew 7\u00a01⁄2\u00a0in wide"),
        ("≈ 19.1 cm", "≈\u00a019.1\u00a0cm"),
        ("9 in × 6 in", "9\u00a0in\u00a0×\u00a06\u00a0in"),
        ("panel × 2, 2 × width", "panel\u00a0×\u00a02, 2 × width"),
        ("½", "½"),
        ("step 7 inside, 7 inside", "step\u00a07 inside, 7 inside"),
        ("Steps 3, 5 and 7", "Steps\u00a03, 5 and\u00a07"),
        ("it holds ≈ 4.14 l", "it holds ≈\u00a04.14\u00a0l"),
        ("64 in³", "64\u00a0in³"),
        ("a <b> & 'c'", "a &lt;b&gt; &amp; &#x27;c&#x27;"),
        ("2 1⁄2 + 6", "2\u00a01⁄2 + 6"),
    ],
)
def test_numbers_are_kept_together_and_text_is_escaped(text, held):
    assert numbers(text) == held


def test_a_sentence_begins_with_a_capital_and_stays_as_it_is():
    assert sentence("zip with 2 sliders") == "Zip with 2 sliders"
    assert sentence("") == ""


def test_a_name_that_means_nothing_shows_itself():
    assert UNKNOWN in markup("documents/licence.html", {"line": "x", "width": "1"})


@pytest.mark.parametrize("length", ["12 in", "7 1⁄2 in"])
@pytest.mark.parametrize("width", [94.0, 98.2, 104.5, 104.9, 107.3, 111.5])
def test_a_line_is_not_broken_after_its_first_word(length, width):
    """Widths at which the renderer did so before the spaces were placed as they are."""
    words = f"From the exterior fabric cut one panel along the straight grain, <span>{length}</span> wide."
    style = f'p {{ width: {width}mm; font: 11.5pt "Workroom Text" }}'
    html = f'<html lang="en"><head><title>x</title><style>{style}</style></head>'
    made = render(f"{html}<body><p>{for_print(words)}</p></body></html>", [], {}, b"x", variant=None)
    shown = subprocess.run(["/usr/bin/pdftotext", "-", "-"], input=made, capture_output=True, check=True)
    assert len(shown.stdout.decode().splitlines()[0]) > 40
