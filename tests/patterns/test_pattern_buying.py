import json
import re
from html import unescape
from urllib.parse import parse_qsl, urlencode

import pytest
from django.core.cache import caches
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from orders.models import OrderLine
from patterns import buying_page, buying_search
from patterns.addresses import BUYING_KEYS
from patterns.cutting.better import to_json
from patterns.cutting.wish import Wish, from_json
from patterns.drafting.sized_json import from_json as sized_from_json
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.one_at_a_time import one_at_a_time
from patterns.starters import read_starter, text_of

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
CHOSEN = {**HTMX, "HX-Trigger": "buying-fields"}
TOTES = {"units": "in", "make": "5"}
OPEN = {**TOTES, "look": "for-cloth"}
WISHED = {
    **{"cloth-price": "12.00", "print-repeat": "6", "repeat-on": "exterior-fabric"},
    **{"folded": "yes", "edge-to-edge": "yes", "make": "2"},
}


def words(html):
    html = re.sub(r"<(title|desc|script|svg)\b.*?</\1>|</?span[^>]*>", "", html, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


@pytest.fixture(autouse=True)
def no_layouts_kept():
    caches[buying_search.CACHE].clear()


@pytest.fixture(autouse=True)
def first_answer_by_work_alone(monkeypatch):
    """However busy the tests' machine is, a first answer is the same each time."""
    monkeypatch.setattr(buying_page, "FIRST_SECONDS", 60)


def getter(client, pattern):
    def get(query="", headers=None, name="patterns:pattern-buying"):
        query = query if isinstance(query, str) else urlencode(query)
        response = client.get(f"{reverse(name, args=[pattern.slug])}?{query}", headers=headers or {})
        return response, response.content.decode()

    return get


@pytest.fixture
def get(client, basket):
    return getter(client, basket)


@pytest.fixture
def get_tote(client, make_pattern):
    """Of a bag whose panels have corners cut out: for five of them the first answer is never proved."""
    return getter(client, make_pattern("boxed-tote", text_of("boxed-tote")))


@pytest.fixture
def searches(monkeypatch):
    """Stand in for the child process: which questions it was asked. It finds nothing."""
    asked = []
    monkeypatch.setattr(buying_search, "_run", lambda question: asked.append(question) or {})
    return asked


def test_page_has_the_whole_list(get):
    _, html = get({"units": "in"}, name="patterns:pattern-detail")
    text = words(html)
    assert "Cloth and everything else to buy" in text
    assert "1⁄2 yd, 44 in wide Proved: the least there is to buy 1 exterior panel of 15 × 18 in" in text
    assert "Sewing thread 1 spool of 109 yd" in text
    assert "exterior fabric, 42 × 18 in: 1 piece" in html
    assert f'href="{reverse("patterns:pattern-buying", args=["fold-flat-basket"])}?units=in' in html


def test_centimetres(get):
    text = words(get({"units": "cm", "cloth": "50-cm-cut", "make": "2"})[1])
    assert "2 × 50 cm cut" in text or "1 × 50 cm cut" in text
    assert "2 of them, laid together" in text
    assert " in wide" not in text


def test_swap_of_a_measure_only_asks_for_the_list(get):
    _, part = get({"units": "in", "width": "8", "cloth": "fat-quarter"}, HTMX, "patterns:pattern-detail")
    assert 'id="buying-ask" hx-swap-oob="true"' in part
    assert "cloth=fat-quarter" in part
    assert "buying-cloth" not in part
    assert 'name="cloth"' not in part  # its boxes are not touched


def test_other_cloth_swaps_the_list_the_address_and_the_links(get):
    response, part = get({"units": "in", "cloth": "fat-quarter"}, CHOSEN)
    assert part.strip().startswith('<div id="buying-answer">')
    assert response["HX-Replace-Url"] == "/patterns/fold-flat-basket/?units=in&cloth=fat-quarter"
    assert 'id="size-side" hx-swap-oob="true"' in part
    assert "cloth=fat-quarter" in re.search(r'href="(/patterns/[^"]*/order/[^"]*)"', part)[1]


@pytest.mark.parametrize(
    ("key", "typed", "says"),
    [
        ("cloth", "bolt", "“bolt” is not on the list. Choose 44 in wide, "),
        ("cloth", "110-cm-wide", "“110-cm-wide” is not on the list."),
        ("cloth-measured", "wide", "“wide”"),
        ("cloth-measured", "0", "“0” is no width of cloth. Write 1 to 200 in."),
        ("interfacing-roll", "fat-quarter", "“fat-quarter” is not on the list."),
        ("roll-measured", "9 km", "9 km"),
        ("shrinks", "51", "“51” is more than cloth shrinks. Write 0 to 50."),
        ("make", "2.5", "“2.5” cannot be made at once. Write a whole number from 1 to 100."),
        ("make", "101", "Write a whole number from 1 to 100."),
        ("cloth-price", "dear", "“dear” is not an amount. Write it like 6.50."),
        ("roll-price", "1.234", "“1.234” has too many decimals"),
        ("print-repeat", "0", "“0” is no repeat of a print. Write a length above 0, up to 80 in."),
        ("repeat-on", "felt", "“felt” is none of its fabrics. Choose exterior fabric or lining fabric."),
        ("folded", "twice", "“twice” is no tick. Write yes, or leave it out."),
    ],
)
def test_mistake_is_at_its_box_and_nothing_is_lost(get, key, typed, says):
    asked = {"units": "in", "width": "8", key: typed}
    response, html = get(asked, name="patterns:pattern-detail")
    text = words(html)
    assert response.status_code == 200
    assert says in text
    assert "There is a problem" in text
    assert "Drawn at width 8 in" in text
    assert f'href="#id_{key}"' in html
    assert ('<details class="buying-more" id="buying-more" open>' in html) == (key not in ("cloth", "make"))
    if key not in ("cloth", "interfacing-roll", "repeat-on", "folded"):
        assert f'value="{typed}"' in html
    assert "Get this size" not in text
    _, part = get(asked, CHOSEN)
    assert f'id="id_{key}-error" hx-swap-oob="true">Mend this: ' in part


def test_whole_piece_with_a_width_or_folded(get):
    query = {"units": "in", "cloth": "fat-quarter", "cloth-measured": "20", "folded": "yes"}
    text = words(get(query, name="patterns:pattern-detail")[1])
    assert "A fat quarter has a width of its own." in text
    assert "A fat quarter is laid open." in text


def test_more_about_the_cloth_is_laid_so_and_costed(get):
    """Half a yard of each fabric, at 12.00 a yard, for two baskets."""
    html = get({**WISHED, "units": "in"})[1]
    text = words(html)
    assert "At the prices given: £12.00, which is £6.00 for each of the 2." in text
    assert "begin at the same place in the repeat" in text
    assert "Every cut goes from edge to edge" in text
    assert "cut double, the cloth folded along its length" in text
    page = get({**WISHED, "units": "in", "width": "8"}, name="patterns:pattern-detail")[1]
    order = unescape(re.search(r'href="([^"]*/order/[^"]*)"', page)[1])
    assert dict(parse_qsl(order.partition("?")[2])).items() >= WISHED.items()
    assert 'id="id_folded" name="folded" value="yes" form="measure-form" checked' in page


def test_other_units_keep_what_holds_in_them(get):
    page = get({**WISHED, "units": "in"}, name="patterns:pattern-detail")[1]
    other = dict(parse_qsl(unescape(re.search(r'href="\?([^"]*)">Use centimetres', page)[1])))
    assert (other["folded"], other["edge-to-edge"], other["make"]) == ("yes", "yes", "2")
    assert not {"cloth-price", "print-repeat"} & set(other)


def test_cloth_that_is_too_small(get):
    text = words(get({"units": "in", "cloth": "precut-5-in-square"}, name="patterns:pattern-detail")[1])
    assert "Not with this cloth: exterior panel: 15 × 18 in does not fit on precut 5 in square cloth" in text
    assert "Get this size" in text


def test_what_is_not_proved_says_how_much_is_certainly_needed(get_tote):
    text = words(get_tote(TOTES, name="patterns:pattern-detail")[1])
    assert re.search(r"The best found; at least [0-9⁄ ]+ yd is needed", text)


def test_same_question_is_searched_once(get_tote, searches):
    _, part = get_tote(OPEN, HTMX)
    assert "Looked further: nothing better was found." in words(part)
    assert 'id="buying-answer"' not in part
    get_tote(OPEN, HTMX)
    assert "Looked further" in words(get_tote(OPEN, name="patterns:pattern-detail")[1])
    assert len(searches) == 1
    get_tote({**OPEN, "width": "10"}, HTMX)
    assert len(searches) == 2


def test_without_being_asked_nothing_is_searched(get_tote, searches):
    _, html = get_tote(TOTES, name="patterns:pattern-detail")
    assert "Look for a better layout" in words(html)
    assert searches == []


def test_better_one_is_swapped_in(get_tote, monkeypatch):
    def better(question):
        """What the first answer found, as if it were proved."""
        asked = json.loads(question)
        sized, wish = sized_from_json(asked["sized"]), from_json(asked["wish"])
        found = to_json(buying_page.first_list(sized, wish))
        return {material: {**cloth, "least": cloth["buy"]} for material, cloth in found.items()}

    monkeypatch.setattr(buying_search, "_run", better)
    response, part = get_tote(OPEN, HTMX)
    assert response["HX-Retarget"] == "#buying-answer"
    assert part.strip().startswith('<div id="buying-answer">')
    assert "a layout was found that is proved the least" in words(part)


def test_one_search_at_a_time(get_tote, rf, searches):
    with one_at_a_time(rf.get("/")):
        response, part = get_tote(OPEN, HTMX)
    assert response.status_code == 200
    assert "a search of yours is still running" in part
    assert searches == []


def test_child_process_answers(monkeypatch):
    monkeypatch.setattr(buying_search, "MOST_SECONDS", 60)  # however busy the tests' machine is
    found = buying_search.searched(buying_search.question_of(_sized(), Wish()))
    assert set(found) == {"exterior fabric", "lining fabric", "light interfacing"}


def test_child_process_that_is_slow_is_ended(monkeypatch):
    monkeypatch.setattr(buying_search, "MOST_SECONDS", 0.001)
    assert buying_search.searched(buying_search.question_of(_sized(), Wish())) == {}


def _sized():
    return size(read_starter("fold-flat-basket"), "fold-flat-basket", Units.INCHES)


@pytest.mark.parametrize("query", ["width=seven", "height=2&depth=12", "shrinks=x"])
def test_by_itself_without_a_size_leads_to_the_page(get, query):
    response, _ = get(f"units=in&{query}")
    assert response.status_code == 303
    assert response["Location"].startswith("/patterns/fold-flat-basket/?units=in&")


def test_order_keeps_the_wish(client, basket):
    address = reverse("orders:order-new", args=[basket.slug])
    query = "units=in&cloth=fat-quarter&shrinks=2.5&make=3"
    html = client.get(f"{address}?{query}").content.decode()
    assert "Fat quarter; the cloth shrinks 2.5 %; 3 to make" in words(html)
    hidden = dict(re.findall(r'name="(key|revision)" value="([^"]*)"', html))
    sent = {"name": "Ada", "email": "ada@example.org", **hidden}
    assert client.post(f"{address}?{query}", sent).status_code == 303
    wish = OrderLine.objects.get().wish
    assert json.loads(json.dumps(wish)) == wish
    assert from_json(wish) == Wish(
        "fat quarter", shrinkage=from_json({"shrinkage": "5/2"}).shrinkage, count=3
    )


def test_order_of_the_usual_cloth_keeps_none(client, basket):
    address = f"{reverse('orders:order-new', args=[basket.slug])}?units=in"
    hidden = dict(re.findall(r'name="(key|revision)" value="([^"]*)"', client.get(address).content.decode()))
    client.post(address, {"name": "Ada", "email": "ada@example.org", **hidden})
    assert OrderLine.objects.get().wish is None


def test_order_with_a_mistake_in_the_cloth_goes_back(client, basket):
    response = client.get(f"{reverse('orders:order-new', args=[basket.slug])}?units=in&make=none")
    assert response.status_code == 303
    assert response["Location"].endswith("units=in&make=none")


@pytest.mark.parametrize("slug", ["fold-flat-basket", "window-pouch"])
def test_anything_typed_is_answered(client, make_pattern, slug):
    """Whatever stands in the boxes, a page comes, with the list or with what to mend."""
    pattern = make_pattern(slug, text_of(slug))
    typed = st.one_of(
        st.sampled_from(
            ["", "fat-quarter", "44-in-wide", "precut-2-1-2-in-strip", "20", "7 1/2", "50", "100"]
        ),
        st.text(max_size=12),
    )

    @settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
    @given(st.dictionaries(st.sampled_from(BUYING_KEYS), typed), st.sampled_from(["in", "cm"]))
    def answered(given, units):
        query = urlencode({"units": units, **given}, errors="replace")
        response = client.get(f"{pattern.get_absolute_url()}?{query}")
        assert response.status_code == 200
        assert 'id="buying-answer"' in response.content.decode()

    answered()
