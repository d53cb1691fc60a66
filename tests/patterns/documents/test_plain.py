"""The book in black and white: the same words, no colour on any page, and the ink it saves."""

from io import BytesIO

import pytest
from pikepdf import Pdf

from patterns.documents.book import body
from patterns.documents.check import check
from patterns.documents.proofs.painted import pages_of
from tests.patterns.documents.test_book import words_of


@pytest.fixture(scope="module")
def plain(make_sized):
    return body(make_sized("fold-flat-basket", "in"), "a4", kind="plain")


def colours_of(document: bytes) -> set[tuple[float, ...]]:
    with Pdf.open(BytesIO(document)) as pdf:
        return {each.colour for page in pages_of(pdf) for each in page.painted}


def test_every_colour_on_its_pages_is_a_grey(plain, make_body):
    assert all(len(set(colour)) == 1 for colour in colours_of(plain))
    assert not all(len(set(colour)) == 1 for colour in colours_of(make_body()))


def test_it_says_every_word_of_the_book(plain, make_body):
    words = sorted(set(words_of(make_body()).split()))
    said = set(words_of(plain).split())
    assert [word for word in words if word not in said and not word.isdigit()] == []


def test_it_is_no_longer_than_the_book_and_as_accessible(plain, make_body):
    with Pdf.open(BytesIO(plain)) as one, Pdf.open(BytesIO(make_body())) as other:
        assert len(one.pages) <= len(other.pages)
    assert check(plain) == ()
