"""The customer's own cloth on the cover of a book."""

import dataclasses
from fractions import Fraction
from io import BytesIO

import pikepdf
import pytest

from patterns.documents import book
from patterns.documents.check import check
from patterns.documents.cloth_cover import ClothPicture, from_json, to_json
from patterns.documents.errors import DocumentError
from patterns.documents.render import render
from tests.pictures import jpeg

COVER = {
    "exterior": ClothPicture(Fraction(1143, 10), Fraction(381, 5), jpeg(600, 400)),
    "lining": ClothPicture(Fraction(90), Fraction(90), jpeg(300, 300)),
}


def test_json_and_back():
    assert from_json(to_json(COVER)) == COVER


@pytest.mark.parametrize("slug", ["fold-flat-basket", "round-bucket"])
def test_book_opens_with_it(make_sized, slug):
    sized = make_sized(slug)
    made = book.body(sized, "a4", cover=COVER)
    assert made == book.body(sized, "a4", cover=COVER)
    assert check(made) == ()
    plain = book.body(sized, "a4")
    assert plain == book.body(sized, "a4", cover={})
    assert made != plain
    with pikepdf.open(BytesIO(made)) as pdf, pikepdf.open(BytesIO(plain)) as before:
        assert len(pdf.pages) == len(before.pages)
        pictures = {
            each.objgen
            for each in pdf.objects
            if isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Image"
        }
        assert len(pictures) == 2
    other = {**COVER, "lining": dataclasses.replace(COVER["lining"], content=jpeg(310, 310))}
    assert book.body(sized, "a4", cover=other)[-1000:] != made[-1000:]  # another identifier as well


def test_black_ink_stays_drawn(make_sized):
    sized = make_sized("fold-flat-basket")
    assert book.body(sized, "a4", kind="plain", cover=COVER) == book.body(sized, "a4", kind="plain")


@pytest.mark.parametrize("address", ["file:///etc/hostname", "http://127.0.0.1/x.jpg", "mem:other.jpg"])
def test_a_drawing_reaches_nothing_but_what_was_handed_in(address):
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><pattern id="p" width="9" height="9" '
        f'patternUnits="userSpaceOnUse"><image href="{address}" width="9" height="9"/></pattern>'
        '<path d="M0 0L9 0L9 9Z" fill="url(#p)"/></svg>'
    )
    html = '<html lang="en"><title>x</title><body><img alt="x" src="mem:1.svg"/></body></html>'
    with pytest.raises(DocumentError, match="not part of it"):
        render(html, [], {"mem:1.svg": svg}, b"1" * 16, pictures={"mem:own-exterior.jpg": jpeg()})
