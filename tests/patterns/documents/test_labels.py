"""A label of a drawing is laid out once, where the renderer's way with letters is known."""

from io import BytesIO
from types import SimpleNamespace

import pikepdf
import pytest

from patterns.documents.labels import is_plain, set_in_one_go
from patterns.documents.render import render, weasyprint

DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="20mm" viewBox="0 0 90 20" '
    'font-family="Workroom Text"><title>A label</title>'
    '<text x="40" y="10" font-size="4" text-anchor="middle"{}>front top seam line</text></svg>'
)
PAGE = '<html lang="en"><title>One</title><body><img src="mem:1.svg" alt="A label"></body></html>'


def shown(more: str) -> int:
    """How often words are shown in the file of a page with that one label."""
    made = render(PAGE, {}, {"mem:1.svg": DRAWING.format(more)}, b"0" * 16)
    with pikepdf.open(BytesIO(made)) as pdf:
        streams = [each for each in pdf.objects if isinstance(each, pikepdf.Stream)]
        drawn = [each for each in streams if b" TJ" in each.read_bytes()]
        return sum(each.read_bytes().count(b" TJ") for each in drawn)


def test_a_plain_label_is_shown_in_one_go_and_one_with_turned_letters_letter_by_letter():
    assert set_in_one_go(weasyprint())
    assert shown("") == 1
    assert shown(' rotate="5"') == len("front top seam line") - len("   ")


@pytest.mark.parametrize(
    "attributes",
    [{"x": "1 2 3", "y": "4"}, {"x": "1", "dx": "2"}, {"letter-spacing": "1"}, {"textLength": "20"}],
)
def test_what_is_said_of_letters_is_not_plain(attributes):
    assert not is_plain(attributes)


def test_another_version_of_the_renderer_keeps_its_own_way():
    def text(*_):
        raise AssertionError

    svg = SimpleNamespace(text=text, TAGS={"text": text})
    assert not set_in_one_go(SimpleNamespace(__version__="71.0", svg=svg))
    assert (svg.text, svg.TAGS) == (text, {"text": text})
