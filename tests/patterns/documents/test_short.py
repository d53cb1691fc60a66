"""The short form says in little what the book says at length, on two pages."""

from fractions import Fraction
from io import BytesIO

import page
import pytest
from pikepdf import Pdf

from patterns.documents.book import body
from patterns.documents.book_content import book_content
from patterns.documents.check import check
from patterns.documents.paper import PAPERS
from patterns.documents.short_content import short_content
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter
from tests.patterns.documents.test_book import words_of

CASES = [("zip-pouch", "cm", "a4"), ("fold-flat-basket", "in", "letter")]


@pytest.fixture(params=CASES, ids="-".join, scope="module")
def which(request):
    return request.param


@pytest.fixture(scope="module")
def sized(which, make_sized):
    return make_sized(*which[:2])


@pytest.fixture(scope="module")
def made(sized, which):
    return body(sized, which[2], kind="short")


def test_it_is_two_pages_that_read_well(made):
    with Pdf.open(BytesIO(made)) as pdf:
        assert len(pdf.pages) <= 2
    assert check(made) == ()
    assert [failure.message for failure in page.validate_pdf_bytes(made, profile="ua1").failures] == []


def test_the_longest_is_two_pages_too():
    """A window pouch with heavy interfacing and a one-way print has most pieces, steps and layouts."""
    options = {"interfacing": "heavy", "exterior print": "one way", "zip size": "No. 5 coil"}
    inches = {"width": 10, "height": 9, "depth": 4, "top band": 2, "lower border": Fraction(5, 4)}
    measures = {name: number * Units.INCHES.mm for name, number in inches.items()}
    sized = size(read_starter("window-pouch"), "window-pouch", Units.INCHES, measures, options)
    with Pdf.open(BytesIO(body(sized, "letter", kind="short"))) as pdf:
        assert len(pdf.pages) <= 2


def test_every_piece_mark_and_step_of_the_book_is_on_it(made, sized, which):
    book, words = book_content(sized, PAPERS[which[2]]), words_of(made)
    for row in book.cuts:
        assert f"{row.count} {row.width} {row.height}" in words
    for piece in book.marked:
        for mark in piece.marks:
            assert (
                f"{mark.name[1:]} {'begins ' if mark.distances[0].what else ''}{mark.distances[0].far}"
                in words
            )
    for step in book.steps:
        assert f"{step.title}. Right when" in words
    for caution in book.cautions:
        assert caution.title in words
    for need in (need for group in book.needs for need in group.needs if need.amount):
        assert f"{need.name[1:]} {need.amount}" in words


def test_marks_are_told_from_the_edge_that_they_are_measured_from(make_sized):
    short = short_content(make_sized("fold-flat-basket", "in"), PAPERS["a4"])
    marks = {mark.name: mark.value for mark in short.cuts[0].marks}
    assert marks["middle fold"] == "9 in from the top edge"
    assert marks["back top seam line"] == "1⁄2 in from the bottom edge"
    opening = marks["turning opening"]
    assert opening.startswith("1⁄2 in from the top edge, begins 5 in from the left edge")


def test_a_step_tells_only_how_to_see_that_it_is_right(make_sized):
    short = short_content(make_sized("fold-flat-basket", "in"), PAPERS["a4"])
    assert short.steps[5].title == "Draw the seam lines"
    assert short.steps[5].right.startswith("the side seam lines are 14 in apart")
