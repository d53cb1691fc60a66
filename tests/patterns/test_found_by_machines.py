"""What search engines and feed readers are told: page heads, structured data, sitemap, feed, robots.txt."""

import json
import re
from datetime import datetime
from xml.etree import ElementTree

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from patterns.models import Offer
from patterns.publishing import publish
from patterns.structured import data_block
from studio.models import Shop
from tests.patterns.conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
SITE = "https://patterns.example"
ATOM = {"a": "http://www.w3.org/2005/Atom"}
MAP = {"s": "http://www.sitemaps.org/schemas/sitemap/0.9"}


@pytest.fixture(autouse=True)
def site(settings):
    settings.SITE_URL = SITE


def head(html, name):
    """The description or the canonical address of a page."""
    found = re.search(rf'<(?:meta name="{name}" content|link rel="{name}" href)="([^"]*)"', html)
    return found and found[1]


def block(html):
    found = re.search(r'<script type="application/ld\+json">(.*?)</script>', html)
    return found and json.loads(found[1])


def public_pages(slug):
    names = ("pattern-detail", "pattern-sizes")
    own = [reverse(f"patterns:{name}", args=[slug]) for name in names]
    return [reverse("patterns:pattern-list"), *own, reverse("orders:links-again")]


def test_each_public_page_has_a_title_a_description_and_one_address(client, basket):
    pages = public_pages(basket.slug)
    asked = {path: client.get(path, {"units": "cm"}).content.decode() for path in pages}
    assert [head(html, "canonical") for html in asked.values()] == [SITE + path for path in pages]
    for take in (lambda html: head(html, "description"), lambda html: re.search("<title>(.*?)<", html)[1]):
        assert len({take(html) for html in asked.values()} - {None, ""}) == len(pages)
    assert not [path for path, html in asked.items() if "noindex" in html]


@pytest.mark.parametrize("name", ["orders:basket", "account_login"])
def test_other_pages_are_not_to_be_listed(client, name):
    html = client.get(reverse(name)).content.decode()
    assert '<meta name="robots" content="noindex">' in html
    assert head(html, "canonical") is None


def test_what_only_the_owner_sees_is_not_to_be_listed(client, make_pattern, owner):
    hidden = make_pattern(is_listed=False)
    client.force_login(owner)
    for path in public_pages(hidden.slug)[1:3]:
        assert '<meta name="robots" content="noindex">' in client.get(path).content.decode()


def test_product_says_what_the_page_says(client, basket):
    offer = Offer.objects.get(pattern=basket)
    offer.kind, offer.price_minor, offer.currency = "one-size", 450, "GBP"
    offer.save()
    Offer.objects.create(pattern=basket, kind="chart", price_minor=1200, currency="GBP")
    Offer.objects.create(pattern=basket, kind="batch", price_minor=900, currency="GBP")
    said = block(client.get(basket.get_absolute_url()).content.decode())
    assert (said["@type"], said["name"], said["description"]) == ("Product", basket.title, basket.summary)
    assert said["url"] == SITE + basket.get_absolute_url()
    assert [(each["name"], each["price"], each["priceCurrency"]) for each in said["offers"]] == [
        ("This size", "4.50", "GBP"),
        ("The whole size chart", "12.00", "GBP"),
    ]
    facts = {each["name"]: each["value"] for each in said["additionalProperty"]}
    assert facts["Time to make"] == "2 to 3 hours"
    assert facts["width"].startswith("3 to ")


def test_free_costs_nothing_and_yen_have_no_decimals(client, basket):
    Shop.objects.create(pk=1, currency="JPY")
    (offer,) = block(client.get(basket.get_absolute_url()).content.decode())["offers"]
    assert (offer["price"], offer["priceCurrency"]) == ("0", "JPY")


def test_what_is_not_sold_has_no_offer(client, basket):
    Offer.objects.update(is_on_sale=False)
    assert "offers" not in block(client.get(basket.get_absolute_url()).content.decode())


def test_a_refused_size_is_no_product(client, basket):
    html = client.get(
        basket.get_absolute_url(), {"units": "in", "height": "2", "depth": "12"}
    ).content.decode()
    assert block(html) is None
    assert head(html, "canonical") == SITE + basket.get_absolute_url()


@pytest.mark.parametrize("text", ["</script><b>", "<!--<script>", "a & b", "\u2028“é”"])
def test_no_text_ends_the_block(text):
    written = str(data_block({"name": text}))
    inside = written.removeprefix('<script type="application/ld+json">').removesuffix("</script>")
    assert not set("<>&") & set(inside)
    assert json.loads(inside) == {"name": text}


def test_sitemap_names_the_list_and_each_listed_pattern(client, basket, make_pattern):
    make_pattern("hidden", is_listed=False)
    make_pattern("empty", text=None)
    root = ElementTree.fromstring(client.get("/sitemap.xml").content)  # noqa: S314 - our own
    assert [each.text for each in root.iterfind("s:url/s:loc", MAP)] == [
        f"{SITE}/",
        SITE + basket.get_absolute_url(),
    ]
    (changed,) = root.iterfind("s:url/s:lastmod", MAP)
    assert changed.text == f"{basket.latest_revision.published_at:%Y-%m-%d}"


def test_feed_tells_of_new_and_corrected_patterns(client, basket, make_pattern):
    shelf = make_pattern()
    publish(shelf, SHELF_TEXT.replace("An open box", "A plain & <open> box"))
    make_pattern("hidden", is_listed=False)
    response = client.get(reverse("patterns:feed"))
    assert response["Content-Type"].startswith("application/atom+xml")
    root = ElementTree.fromstring(response.content)  # noqa: S314 - our own
    titles = [each.text for each in root.iterfind("a:entry/a:title", ATOM)]
    assert titles == [
        "Shelf box: corrected, revision 2",
        "Shelf box: new pattern",
        "Fold-flat basket: new pattern",
    ]
    ids = [each.text for each in root.iterfind("a:entry/a:id", ATOM)]
    assert ids[0] == f"{SITE}{shelf.get_absolute_url()}#revision-2"
    assert len(set(ids)) == 3
    links = [each.get("href") for each in root.iter(f"{{{ATOM['a']}}}link")]
    assert all(link.startswith(SITE) for link in links)
    said = [each.text for each in root.iterfind("a:entry/a:summary", ATOM)]
    assert said[0].startswith("The recipe was corrected.")
    assert said[1].startswith("A plain &amp; &lt;open&gt; box")  # readers take it for HTML
    updated = datetime.fromisoformat(root.find("a:updated", ATOM).text)
    assert updated == shelf.latest_revision.published_at


def test_feed_of_an_empty_shop(client):
    assert client.get(reverse("patterns:feed")).status_code == 200
    assert client.get("/sitemap.xml").status_code == 200


@pytest.mark.parametrize("path", ["/feed/", "/sitemap.xml"])
def test_queries_do_not_grow(client, make_pattern, django_assert_num_queries, path):
    make_pattern("one")
    with CaptureQueriesContext(connection) as one:
        client.get(path)
    for number in range(9):
        make_pattern(f"more-{number}")
    with django_assert_num_queries(len(one)):
        client.get(path)


def test_robots_are_shown_the_sitemap_and_kept_from_sizes(client):
    text = client.get("/robots.txt").content.decode()
    assert f"Sitemap: {SITE}/sitemap.xml\n" in text
    assert "Disallow: /*?\n" in text
    assert "Disallow: /admin/\n" in text
    assert "Disallow: /\n" not in text
    assert "/orders/" not in text  # its pages say it themselves; named here, nobody would read that


def test_an_invented_shop_is_left_alone(client):
    Shop.objects.create(pk=1, is_demo=True)
    assert client.get("/robots.txt").content.decode() == "User-agent: *\nDisallow: /\n"
