import pytest

from patterns.documents.typeset import UNKNOWN, markup, numbers, sentence


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
