import subprocess

import pytest

from patterns.documents.render import render
from patterns.documents.typeset import UNKNOWN, for_print, markup, numbers, sentence


@pytest.mark.parametrize(
    ("text", "markup"),
    [
        ("7 1⁄2 in", '<span class="n">7 <span class="q">1⁄2</span> in</span>'),
        ("≈ 19.1 cm", '<span class="n">≈ 19.1 cm</span>'),
        ("9 in × 6 in", '<span class="n">9 in</span> × <span class="n">6 in</span>'),
        ("½", "½"),
        ("step 7 inside", "step 7 inside"),
        ("64 in³", '<span class="n">64 in³</span>'),
        ("a <b> & 'c'", "a &lt;b&gt; &amp; &#x27;c&#x27;"),
        ("1⁄2 + 6", '<span class="n"><span class="q">1⁄2</span></span> + 6'),
    ],
)
def test_numbers_are_kept_together_and_text_is_escaped(text, markup):
    assert numbers(text) == markup


def test_a_sentence_begins_with_a_capital_and_stays_as_it_is():
    assert sentence("zip with 2 sliders") == "Zip with 2 sliders"
    assert sentence("") == ""


def test_a_name_that_means_nothing_shows_itself():
    assert UNKNOWN in markup("documents/licence.html", {"line": "x", "width": "1"})


def test_for_print_a_number_has_elements_only_where_it_has_a_fraction():
    assert for_print(f"sew {numbers('9 in wide')}") == "sew 9\u00a0in wide"
    assert (
        for_print(f"sew {numbers('7 1⁄2 in wide')}")
        == 'sew<span class="n"> 7\u00a0<span class="q">1⁄2</span>\u00a0in</span> wide'
    )


@pytest.mark.parametrize("length", ["12 in", "7 1⁄2 in"])
@pytest.mark.parametrize("width", [94.0, 98.2, 104.5, 104.9, 107.3, 111.5])
def test_a_line_is_not_broken_after_its_first_word(length, width):
    """Widths at which the renderer did so before the spaces were placed as they are."""
    words = f"From the exterior fabric cut one panel along the straight grain, {length} wide and more."
    style = f'p {{ width: {width}mm; font: 11.5pt "Workroom Text" }} .q {{ font-size: 1.18em }}'
    html = f"<html lang=en><head><title>x</title><style>{style}</style></head>"
    made = render(f"{html}<body><p>{for_print(numbers(words))}</p></body></html>", {}, {}, b"x", variant=None)
    shown = subprocess.run(["/usr/bin/pdftotext", "-", "-"], input=made, capture_output=True, check=True)
    assert len(shown.stdout.decode().splitlines()[0]) > 40
