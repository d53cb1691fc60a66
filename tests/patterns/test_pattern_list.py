import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from patterns.catalogue import plain
from patterns.models import Offer, Pattern
from patterns.starters import text_of
from studio.models import Shop

pytestmark = pytest.mark.django_db
LIST = reverse("patterns:pattern-list")


def page(client, **query):
    return client.get(LIST, query).content.decode()


def found(client, **query):
    """The titles that are found, in the order of the list."""
    return [entry.pattern.title for entry in client.get(LIST, query).context["page"].entries]


@pytest.fixture
def three(make_pattern):
    """A basket that is free, a pouch at a price, and a tied bag of which one size is free."""
    for slug in ("fold-flat-basket", "zip-pouch", "gift-bag"):
        make_pattern(slug, text_of(slug))
    free = Offer.objects.filter(kind=Offer.Kind.FREE)
    free.filter(pattern__slug="zip-pouch").update(kind="one-size", price_minor=400, currency="GBP")
    free.filter(pattern__slug="gift-bag").update(
        kind="one-free", size_name="Small", price_minor=650, currency="GBP"
    )


def test_pattern_stands_on_the_list(client, basket):
    html = page(client)
    assert f'<a href="{basket.get_absolute_url()}">Fold-flat basket</a>' in html
    assert "<title>Fold-flat basket, 9 in wide, 6 in high, 5 in deep</title>" in html
    assert "width 3 to" in html


def test_units_are_the_shops(client, make_pattern):
    Shop.objects.create(pk=1, units="cm")
    make_pattern()
    assert "23 cm wide" in page(client)


def test_unlisted_and_unpublished_are_not_shown(client, make_pattern):
    make_pattern("secret", is_listed=False)
    make_pattern("empty", text=None)
    html = page(client)
    assert "secret" not in html
    assert "empty" not in html
    assert "There is no pattern here yet" in html
    assert 'id="catalogue-search"' not in html


def test_wrong_method(client):
    assert client.post(LIST).status_code == 405


@pytest.mark.parametrize(
    ("query", "titles"),
    [
        ({}, ["Fold-flat basket", "Gift bag", "Zip pouch"]),
        ({"words": "ZÍPS"}, ["Zip pouch"]),  # an accent, capitals and the ending of many make no difference
        ({"words": "baskets stands"}, ["Fold-flat basket"]),
        ({"kind": "bag"}, ["Gift bag"]),
        ({"price": "free"}, ["Fold-flat basket", "Gift bag"]),
        ({"price": "paid"}, ["Gift bag", "Zip pouch"]),
        ({"price": "paid", "kind": "pouch", "words": "lined"}, ["Zip pouch"]),
        ({"holds": "a4-sheets"}, ["Fold-flat basket", "Gift bag"]),  # no zip pouch is 297 mm high inside
        ({"words": "", "kind": "", "holds": "", "price": ""}, ["Fold-flat basket", "Gift bag", "Zip pouch"]),
    ],
)
def test_what_is_looked_for_is_found(client, three, query, titles):
    assert found(client, **query) == titles


def test_prices_are_said(client, three):
    html = page(client)
    assert "<dd>Free</dd>" in html
    assert "<dd>£4.00</dd>" in html
    assert "<dd>Size “Small” free, others £6.50</dd>" in html


def test_a_batch_licence_alone_is_no_price(client, three):
    Offer.objects.create(
        pattern=Pattern.objects.get(slug="fold-flat-basket"), kind="batch", price_minor=900, currency="GBP"
    )
    assert "Fold-flat basket" not in found(client, price="paid")


def test_the_size_that_holds_a_thing_is_offered_and_is_not_refused(client, three):
    """A5 is 148 × 210 mm; 6 in are 152.4 mm and 8 1/2 in are 215.9 mm."""
    page = client.get(LIST, {"holds": "a5-sheets", "kind": "basket"}).context["page"]
    assert "a pile of them 1 cm thick" in page.holds_words
    entry = page.entries[0]
    assert entry.fit.words == "6 × 8 1⁄2 × 2 in"
    shown = client.get(f"{entry.pattern.get_absolute_url()}?{entry.fit.query}").context["page"]
    assert not shown.refusals


def test_nothing_found_says_what_to_leave_out(client, three):
    html = page(client, words="zip", kind="bag", price="paid")
    assert "No pattern is all of that" in html
    assert '<a href="/?kind=bag&amp;price=paid">Without “zip”</a>: 1 pattern<' in html
    assert '<a href="/?words=zip&amp;price=paid">Without bag</a>: 1 pattern<' in html
    assert "Without paid" not in html  # it finds nothing either
    assert "Show all 3 patterns" in html


def test_words_that_name_a_thing_lead_to_what_holds_it(client, three):
    html = page(client, words="A5 book", kind="basket")
    assert '<a href="/?kind=basket&amp;holds=a5-sheets">What holds A5 sheets</a>: 1 pattern<' in html


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("kind", "<b>hat", "“&lt;b&gt;hat” is not in the list, so it was not looked for."),
        ("holds", "moon", "“moon” is not in the list"),
        ("words", "x" * 81, "is more than can be looked for. Write words of 80 letters at most together."),
        ("words", "a\0b", "“a\ufffdb” is more than can be looked for"),
    ],
)
def test_what_cannot_be_read_is_left_out_and_said(client, three, key, value, says):
    response = client.get(LIST, {key: value})
    assert says in response.content.decode()
    assert len(response.context["page"].entries) == 3


def test_a_part_is_the_list_and_its_news(client, three):
    response = client.get(LIST, {"words": "", "kind": "pouch"}, headers={"HX-Request": "true"})
    html = response.content.decode()
    assert "<html" not in html
    assert '<p id="catalogue-news" hx-swap-oob="innerHTML">1 of 3 patterns.</p>' in html
    assert response["HX-Replace-Url"] == "/?kind=pouch"
    assert "HX-Request" in response["Vary"]


def test_form_of_a_pattern_follows_its_recipe(three):
    pouch = Pattern.objects.get(slug="zip-pouch")
    assert (pouch.form, pouch.kind) == ("zip-top pouch", "pouch")


def test_plain_leaves_other_scripts_readable():
    assert plain("Ёлка Straße") == "елка strasse"


@pytest.mark.parametrize("query", [{}, {"holds": "a6-sheets", "price": "free", "words": "box"}])
def test_queries_do_not_grow(client, make_pattern, django_assert_num_queries, query):
    make_pattern("one")
    page(client, **query)
    with CaptureQueriesContext(connection) as one:
        page(client, **query)
    count = len(one)
    for number in range(9):
        make_pattern(f"more-{number}")
    page(client, **query)
    with django_assert_num_queries(count):
        page(client, **query)


def test_no_migration_is_missing():
    call_command("makemigrations", "patterns", check=True, dry_run=True)
