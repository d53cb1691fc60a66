import re
from html import unescape

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from patterns.publishing import publish
from patterns.starters import text_of

from .conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}


def words(html):
    """The words of a page, as a person reads them."""
    html = re.sub(r"<(title|desc|script)\b.*?</\1>|</?span[^>]*>", "", html, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def address(slug="fold-flat-basket"):
    return reverse("patterns:pattern-sizes", args=[slug])


@pytest.fixture
def get(client, basket):
    def get(query="", headers=None):
        response = client.get(f"{address()}?{query}", headers=headers or {})
        return response, response.content.decode()

    return get


def test_page_shows_every_named_size_with_its_pieces(get):
    response, html = get("units=in")
    text = words(html)
    assert response.status_code == 200
    assert "<title>Sizes of Fold-flat basket – The pattern room</title>" in html
    assert "A hand, about 7 in, to the same scale For the hall table For yarn For hand towels" in text
    assert "Width 5 in 8 in 11 in 13 in" in text
    assert "Exterior panel cut 1 from exterior fabric 9 in × 10 in 15 in × 21 in 20 in × 25 in" in text
    assert "Light interfacing one piece is enough 9 in × 20 in 15 in × 42 in" in text
    assert "The triangle leaves room under the top edge. In order In order In order In order" in text


def test_each_size_links_to_the_pattern_at_that_size(get, client):
    _, html = get("units=cm&interfacing=heavy")
    links = re.findall(r'href="(/patterns/fold-flat-basket/\?[^"]*)">For yarn</a>', html)
    assert len(links) == 1
    page = words(client.get(unescape(links[0])).content.decode())
    assert "Drawn at width 20 cm, height 18 cm, depth 15 cm, seam allowance 1 cm." in page
    assert "Heavy interfacing panel heavy interfacing 1 35 cm 51 cm" in page


def test_drawings_say_which_size_they_show(get):
    _, html = get("units=in")
    assert "<title>For yarn: 8 in wide, 7 in high, 6 in deep</title>" in html
    assert html.count('<svg xmlns="http://www.w3.org/2000/svg" role="img"') == 5


def test_other_units_keep_the_choices_and_convert_nothing(get):
    _, html = get("units=in&interfacing=none&lining-print=one-way")
    (link,) = re.findall(r'<a href="\?([^"]*)">Show it in centimetres</a>', html)
    _, other = get(unescape(link))
    text = words(other)
    assert "Width 13 cm 20 cm 28 cm 33 cm" in text
    assert "Lining half panel cut 2 from lining fabric 23 cm × 14 cm" in text
    assert not re.search(r"\d in\b", text)


def test_choices_are_asked_with_the_chosen_one_first_seen(get):
    _, html = get("interfacing=heavy")
    assert '<option value="heavy" selected>Heavy</option>' in html
    assert html.count(" selected>") == 3
    assert "Heavy interfacing panel cut 1 from heavy interfacing" in words(html)


def test_part_is_what_htmx_swaps(get):
    response, part = get("units=in&interfacing=none", HTMX)
    _, page = get("units=in&interfacing=none")
    assert part.strip().startswith('<div id="size-chart">')
    assert "<html" not in part
    assert words(page[page.index('<div class="scroll-x"') : page.index("None of these?")]) in words(part)
    assert '<p id="chart-news" hx-swap-oob="innerHTML">Size chart with interfacing none, exterior' in part
    assert {"HX-Request", "HX-Boosted", "HX-History-Restore-Request"} <= set(response["Vary"].split(", "))


@pytest.mark.parametrize("header", ["HX-Boosted", "HX-History-Restore-Request"])
def test_whole_page_where_htmx_wants_one(get, header):
    assert "<html" in get("", {**HTMX, header: "true"})[1]


@pytest.mark.parametrize("typed", ["tin", "<b>tin</b>", "t" * 400, "\x00", ""])
def test_mistake_is_named_and_the_default_stands_in(get, typed):
    response, html = get(f"units=in&interfacing={typed}")
    assert response.status_code == 200
    assert "Left out:" in words(html)
    assert "is not one of the choices. Choose none, light or heavy." in words(html)
    assert '<option value="light" selected>' in html
    assert "<b>tin" not in html


def test_strangers_in_the_address_are_named(get):
    text = words(get("units=yd&colour=red")[1])
    assert "Left out: the units “yd” are not in or cm, so this is in inches." in text
    assert "Left out: this pattern has no measure or option “colour”." in text


def test_measures_in_the_address_take_no_part(get):
    plain, other = get("units=in")[1], get("units=in&width=seven&seam-allowance=1")[1]
    assert words(other) == words(plain)


def test_advice_is_told_under_the_table(client, make_pattern):
    text = SHELF_TEXT.replace('height = "5", depth = "4"', 'height = "4", depth = "5"')
    make_pattern("shelf-box", text)
    shown = words(client.get(address("shelf-box")).content.decode())
    assert "The box is at least as high as it is deep. Advice" in shown
    assert "Advice, For tins: With a height of 4 in the box looks squat." in shown


def test_pattern_page_links_to_the_chart_with_its_choices(client, basket):
    html = client.get(f"{basket.get_absolute_url()}?units=cm&interfacing=none").content.decode()
    (link,) = re.findall(rf'href="({address()}\?[^"]*)"', html)
    choices = "interfacing=none&exterior-print=no-direction&lining-print=no-direction"
    assert unescape(link) == f"{address()}?units=cm&{choices}"


@pytest.mark.parametrize("headers", [{}, HTMX], ids=["page", "part"])
def test_pattern_without_named_sizes_says_so_and_leads_back(client, make_pattern, headers):
    pattern = make_pattern("shelf-box", SHELF_TEXT[: SHELF_TEXT.index("[sizes.")])
    response = client.get(f"{address('shelf-box')}?units=cm", headers=headers)
    html = response.content.decode()
    assert response.status_code == 200
    assert "This pattern has no named sizes, so there is no chart of them: you choose every" in words(html)
    assert f'href="{pattern.get_absolute_url()}?units=cm' in html
    assert "<table" not in html


def test_pattern_without_named_sizes_has_no_link_to_a_chart(client, make_pattern):
    pattern = make_pattern("shelf-box", SHELF_TEXT[: SHELF_TEXT.index("[sizes.")])
    assert address("shelf-box") not in client.get(pattern.get_absolute_url()).content.decode()


def test_stranger_gets_404_and_the_owner_does_not(client, make_pattern, owner):
    make_pattern("hidden-box", is_listed=False)
    assert client.get(address("hidden-box")).status_code == 404
    client.force_login(owner)
    assert client.get(address("hidden-box")).status_code == 200


@pytest.mark.parametrize("slug", ["no-such-pattern", "unpublished"])
def test_unknown_pattern_gets_404(client, make_pattern, slug):
    make_pattern("unpublished", text=None)
    assert client.get(address(slug)).status_code == 404


@pytest.mark.parametrize("method", ["post", "put", "delete"])
def test_wrong_method_gets_405(client, basket, method):
    assert getattr(client, method)(address()).status_code == 405


def test_queries_do_not_grow(client, basket, make_pattern, django_assert_num_queries):
    client.get(address())  # so that the recipe is kept ready
    with CaptureQueriesContext(connection) as one:
        client.get(address())
        count = len(one)
    for number in range(9):
        make_pattern(f"box-{number}")
        publish(basket, f"{text_of('fold-flat-basket')}# {number}\n")
    client.get(address())
    with django_assert_num_queries(count):
        client.get(address())
