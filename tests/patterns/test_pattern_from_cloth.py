import re
from fractions import Fraction
from html import unescape
from math import prod
from urllib.parse import parse_qs, urlencode

import pytest
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from patterns import cloth_page
from patterns.addresses import CLOTH_KEYS
from patterns.one_at_a_time import one_at_a_time
from patterns.publishing import PublishingError
from patterns.starters import text_of
from tests.drawn import assert_reads_well

from .conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
FAT_QUARTERS = {
    "units": "in",
    "width": "7",
    "height": "5",
    "depth": "5",
    "cloth-width": "21",
    "cloth-length": "18",
    "cloth-count": "2",
}


def words(html):
    """The words of a page, as a person reads them."""
    html = re.sub(r"<(title|desc|script|svg)\b.*?</\1>|</?span[^>]*>", "", html, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def links(html, text):
    """The addresses of the links with such words."""
    return [
        unescape(address)
        for address, inner in re.findall(r'<a [^>]*?href="([^"]*)"[^>]*>(.*?)</a>', html, re.DOTALL)
        if text in words(inner)
    ]


@pytest.fixture
def get(client, basket):
    return getter(client, basket)


def getter(client, pattern):
    """Ask for the part of the page where cloth is written; with no headers, for the whole page."""
    address = reverse("patterns:pattern-way", args=[pattern.slug, "cloth"])

    def get(query=FAT_QUARTERS, headers=HTMX):
        query = query if isinstance(query, str) else urlencode(query)
        path = address if headers else pattern.get_absolute_url()
        by = "" if headers else "&by=cloth"
        response = client.get(f"{path}?{query}{by}", headers=headers)
        return response, response.content.decode()

    return get


def test_shows_the_largest_size_and_why_it_is(get):
    """By 7 : 5 : 5 the next step, 10 3/4 × 7 1/2 × 7 1/2, would need 18 3/4 × 23 1/2 in."""
    response, html = get()
    text = words(html)
    assert response.status_code == 200
    assert "The largest size from 2 fat quarters: 9 1⁄4 × 6 1⁄2 × 6 1⁄2 in" in text
    assert "The next size, " in text
    assert "is not possible: its exterior panel, " in text
    assert "does not go on any of the cloth. Every size larger than that is ruled out as well." in text
    assert "Cloth 1: exterior fabric" in text
    assert "Cloth 2: lining fabric" in text
    drawings = re.findall(r"<svg.*?</svg>", html, re.DOTALL)
    assert len(drawings) == 2
    for drawing in drawings:
        assert_reads_well(drawing)
        assert ">selvedge</text>" in drawing


def test_link_puts_the_size_into_the_page(client, get, basket):
    _, html = get({**FAT_QUARTERS, "interfacing": "heavy", "exterior-print": "one-way"})
    (link,) = links(html, "Take ")
    page = client.get(f"{basket.get_absolute_url()}{link}").content.decode()
    assert re.search(r'value="heavy" checked', page)
    assert "Left out" not in words(page)
    assert "There is a problem" not in words(page)
    assert "The largest size from 2 fat quarters" in words(page)
    assert parse_qs(link.split("?")[1])["exterior-print"] == ["one-way"]


@pytest.mark.parametrize("keep", ["grow-width", "grow-height", "grow-depth"])
def test_two_measures_stay_and_the_third_grows(get, keep):
    _, html = get({**FAT_QUARTERS, "cloth-keep": keep})
    (link,) = links(html, "Take ")
    found = parse_qs(link.split("?")[1])
    grown = keep.removeprefix("grow-")
    for name in ("width", "height", "depth"):
        assert (found[name] == [FAT_QUARTERS[name]]) == (name != grown)


def test_the_most_room(get):
    _, html = get({**FAT_QUARTERS, "cloth-keep": "volume"})
    (link,) = links(html, "Take ")
    found = parse_qs(link.split("?")[1])
    sides = [sum(map(Fraction, found[name][0].split())) for name in ("width", "height", "depth")]
    # 9 1/4 × 6 1/2 × 6 1/2 in is the largest by the proportions.
    assert prod(sides) > Fraction(37, 4) * Fraction(13, 2) ** 2
    assert "is ruled out as well" in words(html) or "larger sizes are not ruled out" in words(html)


def test_other_cloth_counts_and_what_it_is_for(get):
    query = {
        **FAT_QUARTERS,
        "cloth-count": "1",
        "cloth-for": "exterior-fabric",
        "other-cloth-width": "30",
        "other-cloth-length": "30",
        "other-cloth-for": "lining-fabric",
    }
    _, html = get(query)
    text = words(html)
    assert (
        "from a fat quarter for the exterior fabric and a piece of 30 × 30 in for the lining fabric:" in text
    )
    assert "lengthwise grain" in html
    assert '<details id="other-cloth" open>' in html


def test_one_piece_for_two_fabrics_is_told(get):
    text = words(get({**FAT_QUARTERS, "cloth-count": "1"})[1])
    assert "No size from a fat quarter" in text
    assert (
        "It is cut from 2 fabrics, the exterior fabric and the lining fabric, and each piece of cloth" in text
    )
    assert "one piece cannot be enough." in text


def test_no_cloth_for_a_fabric_is_told(get):
    text = words(get({**FAT_QUARTERS, "cloth-for": "lining-fabric"})[1])
    assert "There is no cloth for the exterior fabric." in text


def test_cloth_that_is_not_needed_is_told(get):
    assert "Nothing is cut from cloth 3 and 4." in words(get({**FAT_QUARTERS, "cloth-count": "4"})[1])


def test_largest_of_the_pattern(get):
    query = {**FAT_QUARTERS, "cloth-width": "200", "cloth-length": "200"}
    assert "It is the largest size of this pattern." in words(get(query)[1])


def test_open_sizes_are_told(client, make_pattern):
    """A drawstring bag has outlines, of which not every layout can be tried."""
    pattern = make_pattern("drawstring-bag", text_of("drawstring-bag"))
    query = {"units": "in", "cloth-width": "21", "cloth-length": "18", "cloth-count": "3"}
    text = words(getter(client, pattern)(query)[1])
    assert "The largest size found from 3 fat quarters: 6 × 8 × 3 1⁄2 in" in text
    assert re.search(r"\d+ larger sizes were neither laid out nor ruled out; the first 10 are:", text)
    assert "is ruled out as well" not in text


def test_a_search_that_takes_too_long_says_what_it_found(get, monkeypatch):
    """Here it is ended before anything was found: nothing is claimed."""
    monkeypatch.setattr(cloth_page, "MOST_SECONDS", 0)
    text = words(get()[1])
    assert "No size found yet for 2 fat quarters" in text
    assert "ruled out" not in text


def test_nothing_is_asked_at_first_and_nothing_is_wrong(get):
    text = words(get({})[1])
    assert "There is a problem" not in text
    assert "Mend this" not in text
    assert "The largest size from" not in text


def test_presets_keep_what_is_written(get):
    _, html = get({**FAT_QUARTERS, "cloth-count": "3", "lining-print": "one-way", "units": "cm"})
    (link,) = links(html, "Half metre of cloth 110 cm wide")
    query = parse_qs(link.removeprefix("?"))
    assert query["cloth-width"] == ["107"]
    assert query["cloth-length"] == ["50"]
    assert query["cloth-count"] == ["3"]
    assert query["lining-print"] == ["one-way"]
    assert "half metres of cloth 110 cm wide" in words(get(link.removeprefix("?"))[1])


def test_page_leads_here(client, basket):
    page = client.get(f"{basket.get_absolute_url()}?units=cm&interfacing=none&width=20").content.decode()
    (link,) = links(page, "From the cloth you have")
    html = client.get(link).content.decode()
    assert "It begins from the size that is shown, 20 × 15 × 12 cm." in words(html)
    assert "Counted with interfacing none," in words(html)
    assert 'name="width" value="20"' in html


BAD = [
    ("cloth-width", "seven", "“seven” is not a length."),
    ("cloth-width", "", "There is no length here."),
    ("cloth-length", "0", "0 in is no piece of cloth. Write a length above 0, up to 400 in."),
    ("cloth-length", "401", "401 in is more than can be drawn."),
    ("cloth-length", "-3", "A size is never less than nothing."),
    ("cloth-width", "<b>7</b>", "“<b>7</b>” is not a length."),
    ("cloth-count", "25", "“25” is not a number of pieces. Write a whole number from 1 to 24."),
    ("cloth-count", "1.5", "“1.5” is not a number of pieces."),
    ("cloth-for", "tent", "“tent” is not one of the choices."),
    ("cloth-keep", "colour", "“colour” is not one of the choices."),
    ("other-cloth-width", "10", None),
]


@pytest.mark.parametrize(("key", "typed", "says"), BAD)
@pytest.mark.parametrize("headers", [None, HTMX], ids=["page", "part"])
def test_bad_input_is_answered_at_the_field(get, key, typed, says, headers):
    response, html = get({**FAT_QUARTERS, key: typed, "look": "for-size"}, headers)
    assert response.status_code == 200
    at = "other-cloth-length" if says is None else key
    error = re.search(rf'id="id_{at}-error">(.*?)</p>', html)[1]
    assert error.startswith("Mend this: ")
    assert (says or "Its other side is written, this one is not.") in unescape(error)
    is_radio = key in ("cloth-for", "cloth-keep")
    assert f'href="#id_{at}{"_0" if is_radio else ""}"' in html
    assert f'id="id_{at}{"_0" if is_radio else ""}"' in html
    assert "The largest size from" not in html
    assert "<b>7" not in html


@pytest.mark.parametrize(
    ("key", "typed", "says"),
    [
        ("width", "200", "Mend the width first."),
        ("exterior-print", "spots", "Mend the exterior print first."),
    ],
)
def test_size_that_cannot_be_read_is_mended_first(get, key, typed, says):
    text = words(get({**FAT_QUARTERS, key: typed})[1])
    assert f"Not yet: {says}" in text
    assert "The largest size from" not in text


def test_too_many_pieces_together(get):
    query = {**FAT_QUARTERS, "cloth-count": "20", "other-cloth-width": "9", "other-cloth-length": "9"}
    text = words(get({**query, "other-cloth-count": "5"})[1])
    assert "That is 25 pieces of cloth together. Write 24 or fewer." in text


def test_given_twice(get):
    text = words(get(f"{urlencode(FAT_QUARTERS)}&cloth-width=15")[1])
    assert "It is given 2 times: “21” and “15”. Write one." in text


def test_part_is_what_htmx_swaps(get):
    response, part = get(FAT_QUARTERS, HTMX)
    assert part.strip().startswith('<div class="size-way" id="size-way">')
    assert "<html" not in part
    news = re.search(r'<p id="way-news" hx-swap-oob="innerHTML">(.*?)</p>', part)[1]
    assert news.startswith("The largest size from 2 fat quarters: 9 1⁄4 × 6 1⁄2 × 6 1⁄2 in.")
    assert {"HX-Request", "HX-Boosted", "HX-History-Restore-Request"} <= set(response["Vary"].split(", "))


def test_one_search_at_a_time_for_a_visitor(get, rf):
    with one_at_a_time(rf.get("/")):
        html = get()[1]
    assert "Wait: a search of yours is still running." in words(html)
    assert 'name="cloth-width" value="21"' in html


anything = st.one_of(
    st.sampled_from(["", "0", "1", "2", "21", "1/3", "400", "any", "volume", "grow-depth", "proportions"]),
    st.text(max_size=12),
)


@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.dictionaries(st.sampled_from([*CLOTH_KEYS, "units", "width", "depth", "exterior-print"]), anything))
def test_never_an_error_of_ours(get, written):
    response, html = get({**FAT_QUARTERS, **written})
    assert response.status_code == 200
    assert "1 pieces" not in html


def test_a_pattern_without_fabric(client, make_pattern):
    pattern = make_pattern(
        text=SHELF_TEXT.replace('kind = "fabric"\ntint = "exterior"', 'kind = "vinyl"\ntint = "clear"')
    )
    assert getter(client, pattern)()[0].status_code == 404
    assert "From the cloth you have" not in client.get(pattern.get_absolute_url()).content.decode()


def test_a_pattern_of_one_fabric_does_not_ask_which(client, make_pattern):
    pattern = make_pattern()
    html = getter(client, pattern)({**FAT_QUARTERS, "cloth-count": "1"})[1]
    assert 'name="cloth-for"' not in html
    assert "The largest size from a fat quarter: " in words(html)
    assert "Cloth 1" not in words(html)


def test_a_measure_cannot_have_a_name_of_this_form(make_pattern):
    text = SHELF_TEXT.replace("[measures.handles]", '[measures."cloth width"]')
    with pytest.raises(PublishingError, match="“cloth width” is a word of the shop's own addresses"):
        make_pattern(text=text)
