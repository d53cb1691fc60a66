"""How it is made, on the pattern's page: the item open and flat, and the first steps of its book."""

import pytest
from django.urls import reverse

from patterns.documents.book_content import book_content
from patterns.documents.paper import PAPERS
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.flat import flat_svg
from patterns.starters import read_starter, text_of

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
MM = Units.INCHES.mm


def part(client, pattern, query):
    address = reverse("patterns:pattern-making", args=[pattern.slug])
    return client.get(f"{address}?{query}", headers=HTMX)


def test_page_has_both_drawings_and_three_steps_of_the_book(client, basket):
    page = client.get(f"{basket.get_absolute_url()}?units=in&width=8").content.decode()
    sized = size(read_starter(basket.slug), basket.slug, Units.INCHES, {"width": 8 * MM}, {})
    book = book_content(sized, PAPERS["a4"])
    assert flat_svg(sized) in page
    assert f"The first 3 of {len(book.steps)} steps" in page
    for step in book.steps[:3]:
        assert step.title in page
        assert all(book.figures[shown.figure.address] in page for shown in step.shows)
    assert book.steps[3].title not in page


def test_swap_brings_no_drawings_but_asks_for_them(client, basket):
    swap = client.get(f"{basket.get_absolute_url()}?units=in&width=8", headers=HTMX).content.decode()
    assert "making-answer" not in swap.replace('hx-target="#making-answer"', "")
    assert f'hx-get="{reverse("patterns:pattern-making", args=[basket.slug])}?units=in&amp;width=8' in swap


def test_part_is_for_the_size_in_the_address(client, basket):
    response = part(client, basket, "units=in&width=8&height=6&depth=4")
    text = response.content.decode()
    assert "folded flat, 12 in by 6 in" in text
    assert 'id="making-news"' in text
    assert "HX-Request" in response.headers["Vary"]


def test_what_stands_says_that_it_does_not_fold_flat(client, make_pattern):
    bucket = make_pattern("round-bucket", text_of("round-bucket"))
    text = part(client, bucket, "units=cm").content.decode()
    assert "does not fold flat" in text
    assert "Open." not in text


@pytest.mark.parametrize("query", ["units=in&height=2&depth=6", "units=in&width=seven"])
def test_no_drawings_of_what_cannot_be_sewn_or_read(client, basket, query):
    page = client.get(f"{basket.get_absolute_url()}?{query}").content.decode()
    assert "steps, as the book has them" not in page
    assert part(client, basket, query).headers["HX-Redirect"].startswith(basket.get_absolute_url())


def test_by_itself_it_leads_to_the_pattern(client, basket):
    response = client.get(reverse("patterns:pattern-making", args=[basket.slug]) + "?units=cm")
    assert (response.status_code, response.headers["Location"]) == (
        303,
        f"{basket.get_absolute_url()}?units=cm",
    )


def test_stranger_gets_404(client, make_pattern):
    assert part(client, make_pattern(is_listed=False), "").status_code == 404
