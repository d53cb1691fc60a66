import json
import os
import re
import subprocess
import sys
from html import unescape
from urllib.parse import urlencode

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from patterns import holding_page
from patterns.holding_form import COUNT, DEPTH, HEIGHT, LOOSE, TURN, WIDTH
from patterns.one_at_a_time import one_at_a_time
from patterns.publishing import PublishingError, publish
from patterns.starters import text_of
from studio.env import PROJECT

from .conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
SHEETS = {"units": "cm", WIDTH: "14.8", HEIGHT: "21", DEPTH: "0.4", COUNT: "12", LOOSE: "", TURN: "upright"}


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
def address(basket):
    return reverse("patterns:pattern-way", args=[basket.slug, "contents"])


@pytest.fixture
def get(client, address, basket):
    """Ask for the part of the page where contents are written; with no headers, for the whole page."""

    def get(query=SHEETS, headers=HTMX):
        query = query if isinstance(query, str) else urlencode(query)
        path = address if headers else basket.get_absolute_url()
        by = "" if headers else "&by=contents"
        response = client.get(f"{path}?{query}{by}", headers=headers)
        return response, response.content.decode()

    return get


def test_shows_the_sizes_best_first(get):
    response, html = get()
    text = words(html)
    assert response.status_code == 200
    assert "What holds 12 things of 14.8 × 21 × 0.4 cm 15 × 21 × 5 cm least fabric Left over:" in text
    assert "Left over: width 0.2 cm, depth 0.2 cm. Fabric to cut: 2156 cm²." in text
    assert text.index("15 × 21 × 5 cm") < text.index("8 × 21 × 15 cm")
    assert "Fold-flat basket, 12 things inside: 1 across, 12 deep, 1 high" in html
    assert html.count('role="img"') == 2


def test_a_bucket_is_asked_too(client, basket):
    publish(basket, text_of("round-bucket"))
    address = reverse("patterns:pattern-way", args=[basket.slug, "contents"])
    size = {"diameter": "20", "height": "23"}
    html = client.get(f"{address}?{urlencode({**SHEETS, **size})}", headers=HTMX).content.decode()
    text = words(html)
    assert "Left over: width ≈ 0.5 cm or depth ≈ 1.3 cm. Fabric to cut: ≈ 3052 cm²." in text
    assert "inside: 1 across, 12 deep, 1 high" in html
    assert "of them go in. Left over: width" in text
    tiny = {**SHEETS, **size, WIDTH: "0.001", DEPTH: "0.001"}
    html = client.get(f"{address}?{urlencode(tiny)}", headers=HTMX).content.decode()
    assert "Things so small are not counted on a round floor" in words(html)


def test_link_puts_the_size_into_the_page_and_keeps_the_search(client, get, basket):
    _, html = get({**SHEETS, "interfacing": "heavy", "seam-allowance": "1.5", "cloth-width": "60"})
    (link,) = links(html, "Take 15 × 21 × 5 cm")
    boxes = json.loads(unescape(re.search(r'data-typed="([^"]*)"', html)[1]))
    assert boxes == {
        **{"width": "15", "height": "21", "depth": "5", "seam-allowance": "1.5", "interfacing": "heavy"},
        **{"exterior-print": "no-direction", "lining-print": "no-direction"},
    }
    html = client.get(f"{basket.get_absolute_url()}{link}").content.decode()
    page = words(html)
    assert "Drawn at width 15 cm, height 21 cm, depth 5 cm, seam allowance 1.5 cm." in page
    assert "Heavy interfacing panel" in page
    assert "Left out" not in page
    assert "What holds 12 things of 14.8 × 21 × 0.4 cm" in page
    assert '<input type="hidden" name="cloth-width" value="60">' in html
    order = re.search(r'href="([^"]*/order/[^"]*)"', html)[1]
    assert "thing" not in order
    assert "by=" not in order


def test_at_most_five_sizes(get):
    _, html = get({**SHEETS, WIDTH: "3", HEIGHT: "4", DEPTH: "2", COUNT: "24", TURN: "any"})
    assert html.count('role="img"') == 6


def test_options_and_making_measures_come_along_and_count(get):
    query = {**SHEETS, "exterior-print": "one-way", "seam-allowance": "2"}
    _, html = get(query)
    assert "exterior print one way" in words(html)
    assert "seam allowance 2 cm." in words(html)
    # Two halves of 24 × 27.5 cm, and a panel of 24 × 51 cm.
    assert "Fabric to cut: 2544 cm²." in words(html)


class TestTheSizeSomebodyCameFrom:
    def test_says_what_it_holds_and_shows_it(self, get):
        """23 × 15 × 12 cm: what stands 21 high goes in lying on its long side, 30 deep."""
        _, html = get({**SHEETS, TURN: "any", "width": "23", "height": "15", "depth": "12"})
        text = words(html)
        assert "What 23 × 15 × 12 cm holds 30 of them go in. Left over: width 2 cm, height" in text
        assert "Fold-flat basket, 30 things inside: 1 across, 30 deep, 1 high" in html

    def test_does_not_move_the_sizes_that_are_found(self, get):
        found = [
            html.split('<ol class="holding-sizes')[1].split("</ol>")[0]
            for _, html in (get(), get({**SHEETS, "width": "40"}))
        ]
        assert found[0] == found[1]

    def test_holds_not_even_one(self, get):
        _, html = get({**SHEETS, "width": "10", "depth": "10"})
        assert "What 10 × 15 × 10 cm holds Not one of them goes in." in words(html)

    def test_that_is_refused_is_told(self, get):
        text = words(get({**SHEETS, "height": "5", "depth": "20"})[1])
        assert "That size cannot be sewn, so nothing goes in. It fails this: The triangle leaves room" in text

    def test_that_cannot_be_read_is_mended_first(self, get):
        for width in ("wide", "900"):
            text = words(get({**SHEETS, "width": width})[1])
            assert "Not yet: Mend the width first." in text
            assert "What holds" not in text


def test_nothing_is_asked_at_first_and_nothing_is_wrong(get):
    _, html = get({})
    text = words(html)
    assert "There is a problem" not in text
    assert "Mend this" not in text
    assert "What holds" not in text
    assert 'value="1"' in html
    assert re.search(r'value="upright" checked', html)


def test_button_without_a_thing_says_what_is_missing(get):
    text = words(get({"look": "for-size"})[1])
    assert "Width of one: There is no length here." in text


def test_page_leads_here_with_its_options(client, basket):
    page = client.get(f"{basket.get_absolute_url()}?units=cm&interfacing=none").content.decode()
    (link,) = links(page, "From what goes in")
    text = words(client.get(link).content.decode())
    assert "In centimetres" in text
    assert "Counted with interfacing none," in text


@pytest.mark.parametrize(
    ("path", "by"), [("by/contents", "contents"), ("what-goes-in", "contents"), ("from-cloth", "cloth")]
)
def test_by_itself_it_leads_to_the_page(client, basket, path, by):
    response = client.get(f"{basket.get_absolute_url()}{path}/?units=cm&by=chart&thing-count=2")
    assert response.status_code == 303
    assert response["Location"] == f"{basket.get_absolute_url()}?units=cm&by={by}&thing-count=2"


class TestPresets:
    def test_fill_in_what_is_published(self, get, address):
        _, html = get({"units": "in", COUNT: "20", TURN: "any"})
        assert "A5 sheets 148 × 210 mm, ISO 216" in words(html)
        (link,) = links(html, "A5 sheets")
        _, html = get(link.removeprefix("?"))
        assert 'id="id_thing-width" name="thing-width" value="148 mm"' in html
        assert 'id="id_thing-height" name="thing-height" value="210 mm"' in html
        assert 'id="id_thing-depth" name="thing-depth" value=""' in html
        assert 'id="id_thing-count" name="thing-count" value="20"' in html
        assert re.search(r'value="any" checked', html)
        assert "Mend this" not in html

    def test_with_a_published_thickness_answer_at_once(self, get):
        _, html = get({"units": "cm", COUNT: "200"})
        (link,) = links(html, "ID-1 cards")
        text = words(get(link.removeprefix("?"))[1])
        assert "What holds 200 things of 8.56 × 5.398 × 0.076 cm" in text

    def test_in_inches_are_told_in_millimetres(self, get):
        _, html = get({**SHEETS, "units": "in", WIDTH: "148 mm", HEIGHT: "210 mm", DEPTH: "4 mm"})
        assert "What holds 12 things of 148 × 210 × 4 mm 6 × 8 1⁄2 × 2 in" in words(html)


BAD = [
    (WIDTH, "seven", "“seven” is not a length."),
    (WIDTH, "", "There is no length here."),
    (HEIGHT, "0", "A thing of 0 takes no room."),
    (DEPTH, "-3", "A size is never less than nothing."),
    (DEPTH, "<b>7</b>", "“<b>7</b>” is not a length."),
    (LOOSE, "a lot", "“a lot” is not a length."),
    (COUNT, "1001", "“1001” is not a number of things. Write a whole number from 1 to 1,000."),
    (COUNT, "0", "“0” is not a number of things."),
    (COUNT, "1.5", "“1.5” is not a number of things."),
    (COUNT, "9" * 30, "has more than"),
    (
        TURN,
        "over",
        "“over” is not one of the choices. Choose Stand upright, Stand or lie or Stay as measured.",
    ),
]


@pytest.mark.parametrize(("key", "typed", "says"), BAD)
@pytest.mark.parametrize("headers", [None, HTMX], ids=["page", "part"])
def test_bad_input_is_answered_at_the_field(get, key, typed, says, headers):
    response, html = get({**SHEETS, key: typed, "look": "for-size"}, headers)
    assert response.status_code == 200
    error = re.search(rf'id="id_{key}-error">(.*?)</p>', html)[1]
    assert error.startswith("Mend this: ")
    assert f'href="#id_{key}{"_0" if key == TURN else ""}"' in html
    assert "What holds" not in html
    assert "<b>7" not in html
    if says != "has more than":
        assert says in unescape(error)
    if key == COUNT:
        assert 'value="14.8"' in html


def test_title_says_that_there_is_a_mistake(get):
    assert "<title>Error: Fold-flat basket" in get({**SHEETS, WIDTH: "x"}, None)[1]


def test_given_twice(get):
    text = words(get(f"{urlencode(SHEETS)}&{WIDTH}=15")[1])
    assert "It is given 2 times: “14.8” and “15”. Write one." in text


def test_nothing_holds_them(get):
    text = words(get({**SHEETS, COUNT: "1000", LOOSE: "40"})[1])
    assert "No size holds 1,000 things of 14.8 × 21 × 0.4 cm" in text


def test_part_is_what_htmx_swaps(get):
    response, part = get(SHEETS, HTMX)
    assert part.strip().startswith('<div class="size-way" id="size-way">')
    assert "<html" not in part
    news = re.search(r'<p id="way-news" hx-swap-oob="innerHTML">(.*?)</p>', part)[1]
    assert news == "2 sizes hold 12 things of 14.8 × 21 × 0.4 cm. Least fabric: 15 × 21 × 5 cm."
    assert {"HX-Request", "HX-Boosted", "HX-History-Restore-Request"} <= set(response["Vary"].split(", "))
    assert response["HX-Push-Url"].endswith("&by=contents")
    page = get(SHEETS, None)[1]
    assert '<p class="visually-hidden" role="status" id="way-news"></p>' in page
    assert words(part.partition('<p id="way-news"')[0]) in words(page)


@pytest.mark.parametrize("header", ["HX-Boosted", "HX-History-Restore-Request"])
def test_whole_page_where_htmx_wants_one(get, header):
    response, _ = get(SHEETS, {**HTMX, header: "true"})
    assert (response.status_code, response["Location"].partition("?")[0]) == (
        303,
        "/patterns/fold-flat-basket/",
    )


def test_one_search_at_a_time_for_a_visitor(get, rf):
    with one_at_a_time(rf.get("/")):
        response, html = get(SHEETS, None)
        assert response.status_code == 429
        assert "Wait: a search of yours is still running." in words(html)
        assert 'value="14.8"' in html
        assert "What holds" not in html
        response, part = get()
        assert response.status_code == 200
        assert "A search of yours is still running." in part
    assert "What holds" in words(get()[1])


def test_another_visitor_need_not_wait(get, rf):
    with one_at_a_time(rf.get("/", REMOTE_ADDR="203.0.113.9")):
        assert "What holds" in words(get()[1])


def test_another_process_has_the_visitor_wait_as_well(rf):
    """The web server answers from several processes."""
    code = (
        "import django, sys; django.setup()\n"
        "from django.test import RequestFactory\n"
        "from patterns.one_at_a_time import BusyError, one_at_a_time\n"
        "try:\n"
        "    with one_at_a_time(RequestFactory().get('/', REMOTE_ADDR=sys.argv[1])): print('free')\n"
        "except BusyError: print('busy')\n"
    )

    def elsewhere(address):
        done = subprocess.run(
            [sys.executable, "-c", code, address],
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "DJANGO_SETTINGS_MODULE": "studio.settings"},
            cwd=PROJECT,
        )
        return done.stdout.strip()

    with one_at_a_time(rf.get("/")):
        assert elsewhere("127.0.0.1") == "busy"
        assert elsewhere("192.0.2.1") == "free"
    assert elsewhere("127.0.0.1") == "free"


def test_a_search_that_takes_too_long_is_ended_and_told(get, monkeypatch):
    monkeypatch.setattr(holding_page, "MOST_SECONDS", 0)
    text = words(get()[1])
    assert "No size holds 12 things of 14.8 × 21 × 0.4 cm" not in text
    assert "Looking for the sizes took too long, so it was ended. Ask for fewer things" in text


def test_a_search_that_fails_leaves_no_one_waiting(rf):
    with pytest.raises(ZeroDivisionError), one_at_a_time(rf.get("/")):
        raise ZeroDivisionError
    with one_at_a_time(rf.get("/")):
        pass


def test_a_pattern_that_does_not_say_what_it_holds(client, make_pattern):
    pattern = make_pattern()
    assert client.get(reverse("patterns:pattern-way", args=[pattern.slug, "contents"])).status_code == 404
    page = client.get(f"{pattern.get_absolute_url()}?by=contents").content.decode()
    assert "From what goes in" not in page
    assert 'id="way-measures"' in page


def test_too_many_sizes_to_look_through_are_told(client, make_pattern):
    fine = SHELF_TEXT.replace('step = "1/4"', 'step = "1/1000"').replace(
        "[measures.width]",
        '[holds]\nwidth = "width"\nheight = "height"\ndepth = "depth"\n\n[measures.width]',
        1,
    )
    pattern = make_pattern(text=fine)
    address = reverse("patterns:pattern-way", args=[pattern.slug, "contents"])
    query = urlencode({**SHEETS, "units": "in"})
    text = words(client.get(f"{address}?{query}", headers=HTMX).content.decode())
    assert "The width has too many steps to look through: 17,000." in text


def test_unlisted_pattern_is_404_for_a_stranger(client, make_pattern, owner):
    pattern = make_pattern("secret", text_of("zip-pouch"), is_listed=False)
    address = reverse("patterns:pattern-way", args=[pattern.slug, "contents"])
    assert client.get(address, headers=HTMX).status_code == 404
    client.force_login(owner)
    assert client.get(address, headers=HTMX).status_code == 200


@pytest.mark.parametrize("args", [("no-such-bag", "contents"), ("fold-flat-basket", "colour")])
def test_unknown_pattern_or_way_is_404(client, basket, args):
    assert client.get(reverse("patterns:pattern-way", args=args), headers=HTMX).status_code == 404


def test_wrong_method(client, address):
    assert client.post(address).status_code == 405


def test_queries_do_not_grow_with_revisions(client, address, basket, get, django_assert_num_queries):
    get()
    with CaptureQueriesContext(connection) as one:
        get()
    count = len(one)
    for number in range(9):
        publish(basket, text_of("fold-flat-basket").replace("Fold-flat basket", f"Basket {number}", 1))
    get()
    with django_assert_num_queries(count):
        get()


def test_a_measure_cannot_have_a_name_of_this_form(make_pattern):
    text = SHELF_TEXT.replace("[measures.handles]", '[measures."thing count"]')
    with pytest.raises(PublishingError, match="“thing count” is a word of the shop's own addresses"):
        make_pattern(text=text)
