import re
from html import unescape
from urllib.parse import urlencode

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from patterns.publishing import publish

from .conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
TYPING = {**HTMX, "Still-Typing": "yes"}
BAD_VALUES = ["seven", "0", "-3", "1/0", "9e9", "7" * 400, "<b>7</b>", "7\x00", "٣"]


def words(html):
    """The words of a page, as a person reads them."""
    html = re.sub(r"<(title|desc|script)\b.*?</\1>|</?span[^>]*>", "", html, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def query_text(query):
    return query if isinstance(query, str) else urlencode(query)


@pytest.fixture
def get(client, basket):
    def get(query="", headers=None):
        response = client.get(f"{basket.get_absolute_url()}?{query_text(query)}", headers=headers or {})
        return response, response.content.decode()

    return get


SIZE = {"units": "in", "width": "8 1/2", "height": "6", "depth": "4 3/4", "seam-allowance": "1/2"}


def test_page_shows_the_size_of_the_address(get):
    response, html = get(SIZE)
    text = words(html)
    assert response.status_code == 200
    assert "<title>Fold-flat basket – The pattern room</title>" in html
    assert "Fold-flat basket, 8 1⁄2 in wide, 6 in high, 4 3⁄4 in deep" in html
    assert "Exterior panel exterior fabric 1 14 1⁄4 in 17 3⁄4 in" in text
    assert "8 1⁄2 + 4 3⁄4 + 2 × 1⁄2 = 14 1⁄4 in" in text
    assert "1⁄2 yd, 44 in wide Proved: the least there is to buy" in text
    assert "In order: this size can be sewn as it is." in text


def test_page_offers_the_order_with_the_same_size(get, basket):
    _, html = get(SIZE)
    order = reverse("orders:order-new", args=[basket.slug])
    assert f'href="{order}?units=in&amp;width=8+1%2F2&amp;height=6&amp;depth=4+3%2F4&amp;' in html


def test_default_size_without_a_query(get):
    assert "Drawn at width 9 in, height 6 in, depth 5 in, seam allowance 1⁄2 in." in words(get()[1])


def test_part_is_what_htmx_swaps(get):
    response, part = get(SIZE, HTMX)
    _, page = get(SIZE)
    assert part.strip().startswith('<div id="size-result">')
    assert "<html" not in part
    assert words(page[page.index("What it comes to") : page.index('<div id="cut-details"')]) in words(part)
    assert 'id="size-side" hx-swap-oob="true"' in part
    assert "Drawn at width 8 1⁄2 in, height 6 in, depth 4 3⁄4 in, seam allowance 1⁄2 in. In order." in part
    assert {"HX-Request", "HX-Boosted", "HX-History-Restore-Request"} <= set(response["Vary"].split(", "))


@pytest.mark.parametrize("header", ["HX-Boosted", "HX-History-Restore-Request"])
def test_whole_page_where_htmx_wants_one(get, header):
    assert "<html" in get(SIZE, {**HTMX, header: "true"})[1]


@pytest.mark.parametrize("typed", BAD_VALUES)
def test_mistake_keeps_what_was_typed_and_the_rest(get, typed):
    response, html = get({**SIZE, "width": typed})
    text = words(html)
    assert response.status_code == 200
    assert "<title>Error: Fold-flat basket" in html
    assert 'href="#id_width"' in html
    assert "There is a problem" in text
    assert re.search(r'id="id_width-error">Mend this: .+', html)
    assert 'id="id_width"' in html
    assert 'aria-invalid="true"' in html
    assert 'value="4 3/4"' in html
    assert "Not yet: Mend the width first." in text
    assert "The pattern’s own size stands in for: width." in text
    assert "Get this size" not in text
    assert "<b>7" not in html


@pytest.mark.parametrize("typed", BAD_VALUES)
def test_mistake_in_a_part_leaves_the_last_good_size(get, typed):
    response, part = get({**SIZE, "width": typed}, HTMX)
    assert response.status_code == 200
    assert response["HX-Reswap"] == "none"
    assert 'id="size-result"' not in part
    assert 'id="id_width-error" hx-swap-oob="true">Mend this: ' in part
    assert 'id="id_height-error" hx-swap-oob="true"></p>' in part
    assert "Then you can get this size." in part
    assert '<p id="size-news" hx-swap-oob="innerHTML">Width: ' in part


def test_half_a_number_is_no_mistake_while_somebody_types(get):
    response, part = get({**SIZE, "width": "8 1/"}, TYPING)
    assert (response.status_code, part) == (204, "")
    assert "Still-Typing" in response["Vary"]


def test_whole_number_is_shown_while_somebody_types(get):
    assert 'id="size-result"' in get(SIZE, TYPING)[1]


def test_refused_size_says_why_and_offers_the_nearest(get):
    _, html = get({**SIZE, "height": "2"})
    text = words(html)
    assert "Refused: A height of 2 in leaves no room" in text
    assert "Make the height 3 in" in text
    assert 'data-typed="{&quot;height&quot;: &quot;3&quot;}"' in html
    assert "This size cannot be sewn, so there is no book for it." in text
    assert "Pieces to cut" not in text
    href = unescape(re.search(r'class="button is-quiet" href="\?([^"]*)"', html)[1])
    assert "Get this size" in words(get(href)[1])


def test_refused_where_one_measure_is_not_enough(client, make_pattern):
    """Where nothing was found, a link looks further, and what it finds is offered in the same way."""
    narrow = SHELF_TEXT.replace(
        'holds = "height ≥ triangle point + seam allowance"',
        'holds = "height ≥ most ÷ 2 and width ≥ most ÷ 2"',
    ).replace("[amounts]", '[constants]\nmost = { in = "10", cm = "26" }\n\n[amounts]')
    pattern = make_pattern(text=narrow)
    page = client.get(f"{pattern.get_absolute_url()}?width=4&height=3").content.decode()
    assert "Changing one measure is not enough." in words(page)
    further = unescape(re.search(r'href="\?([^"]*look=further)"', page)[1])
    page = client.get(f"{pattern.get_absolute_url()}?{further}").content.decode()
    assert "Make the width 5 in and height 5 in" in words(page)


def test_advice_leaves_the_order_open(get):
    text = words(get({**SIZE, "height": "4", "depth": "5"})[1])
    assert "Advice: With a height of 4 in" in text
    assert "Get this size" in text


def test_field_of_another_pattern_is_said(get):
    text = words(get({**SIZE, "diameter": "4"})[1])
    assert "Left out: this pattern has no measure or option “diameter”." in text
    assert "Get this size" in text


def test_size_of_no_unit_system(get):
    assert "the units “ft” are not in or cm" in words(get({"units": "ft"})[1])


def test_unlisted_pattern_is_404_for_a_stranger_and_seen_by_the_owner(client, make_pattern, owner):
    pattern = make_pattern("secret", is_listed=False)
    assert client.get(pattern.get_absolute_url()).status_code == 404
    client.force_login(owner)
    assert client.get(pattern.get_absolute_url()).status_code == 200


def test_pattern_without_a_revision_is_404(client, make_pattern, owner):
    pattern = make_pattern("empty", text=None)
    client.force_login(owner)
    assert client.get(pattern.get_absolute_url()).status_code == 404


def test_unknown_slug_is_404(client):
    response = client.get(reverse("patterns:pattern-detail", args=["no-such-bag"]))
    assert response.status_code == 404
    assert "There is no such page" in response.content.decode()


def test_wrong_method(client, basket):
    assert client.post(basket.get_absolute_url()).status_code == 405


def test_newest_revision_is_shown(client, make_pattern):
    pattern = make_pattern()
    publish(pattern, SHELF_TEXT.replace("Shelf box", "Tall box"))
    assert "<h1>Tall box</h1>" in client.get(pattern.get_absolute_url()).content.decode()


def test_queries_do_not_grow_with_revisions(client, make_pattern, django_assert_num_queries):
    pattern = make_pattern()
    client.get(pattern.get_absolute_url())
    with CaptureQueriesContext(connection) as one:
        client.get(pattern.get_absolute_url())
    count = len(one)
    for number in range(9):
        publish(pattern, SHELF_TEXT.replace("Shelf box", f"Box {number}"))
    client.get(pattern.get_absolute_url())
    with django_assert_num_queries(count):
        client.get(pattern.get_absolute_url())


def test_drawings_and_workings_of_a_swap_come_a_moment_later(client, get, basket):
    _, part = get(SIZE, HTMX)
    address = unescape(re.search(r'id="cut-details"[^>]*hx-get="([^"]*)"', part)[1])
    details = client.get(address, headers=HTMX).content.decode()
    assert "How each number" not in part
    assert "8 1⁄2 + 4 3⁄4 + 2 × 1⁄2 = 14 1⁄4 in" in words(details)
    assert details.strip() in get(address.partition("?")[2])[1]


@pytest.mark.parametrize(("query", "headers"), [("height=7", {}), ("height=2", HTMX), ("height=seven", HTMX)])
def test_pieces_alone_lead_to_the_page(client, basket, query, headers):
    address = reverse("patterns:pattern-pieces", args=[basket.slug])
    response = client.get(f"{address}?{query}", headers=headers)
    target = response.headers.get("Location") or response["HX-Redirect"]
    assert target == f"{basket.get_absolute_url()}?{query}"


def test_no_style_or_script_in_the_page(get):
    """The content policy would block it."""
    html = get(SIZE)[1]
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*\s(?:src=|type=.application/ld))|\son[a-z]+=", html)
