"""Looking for a pattern in a real browser, under the shop's own content policy."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)
WIDE, NARROW = {"width": 1440, "height": 900}, {"width": 390, "height": 844}


@pytest.fixture
def address(live_server):
    for slug in ("zip-pouch", "fold-flat-basket"):
        publish(Pattern.objects.create(slug=slug, is_listed=True), text_of(slug))
    return f"{live_server.url}/"


@pytest.fixture
def opened(page, address, complaints):
    """The list, which complains of nothing."""
    page.goto(address)
    return page


def test_words_and_choices_change_the_list_and_the_address(opened, address):
    opened.locator("#id_words").press_sequentially("zips")
    expect(opened.locator("#catalogue-news")).to_have_text("1 of 2 patterns.")
    expect(opened.locator("#id_words")).to_be_focused()
    expect(opened).to_have_url(f"{address}?words=zips")
    opened.get_by_label("What it is").select_option("basket")
    expect(opened.get_by_role("heading", name="No pattern is all of that")).to_be_visible()
    opened.get_by_role("link", name="Without “zips”").click()
    expect(opened).to_have_url(f"{address}?kind=basket")
    expect(opened.get_by_role("heading", name="Fold-flat basket")).to_be_visible()


def test_a_press_on_what_was_found_opens_it(opened):
    """Leaving the box with the words in it does not take the link from under the finger."""
    opened.locator("#id_words").press_sequentially("zips")
    expect(opened.locator("#catalogue-news")).to_have_text("1 of 2 patterns.")
    opened.get_by_role("link", name="Zip pouch").hover()
    opened.mouse.down()
    opened.wait_for_timeout(400)
    opened.mouse.up()
    expect(opened.get_by_role("heading", name="Zip pouch", level=1)).to_be_visible()


def test_the_size_that_holds_a_thing_opens(opened):
    opened.get_by_label("What it holds").select_option("A4 sheets")
    expect(opened.locator("#catalogue-news")).to_have_text("1 of 2 patterns.")
    opened.get_by_role("link", name=re.compile("× 2 in")).click()
    expect(opened.locator("#id_width")).to_have_value("8 1/2")
    expect(opened.locator("#id_height")).to_have_value("11 3/4")


def test_without_script_the_button_does_it(new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(address)
    page.get_by_label("Words").fill("basket")
    page.get_by_role("button", name="Show these").click()
    expect(page.get_by_text("1 of 2 patterns")).to_be_visible()
    expect(page.get_by_label("Words")).to_have_value("basket")


def test_structured_data_stands_under_the_content_policy(opened):
    opened.get_by_role("link", name="Zip pouch").click()
    said = opened.locator('script[type="application/ld+json"]').evaluate(
        "block => JSON.parse(block.text).name"
    )
    assert said == "Zip pouch"


@pytest.mark.parametrize("size", [WIDE, NARROW], ids=["wide", "narrow"])
@pytest.mark.parametrize("query", ["?holds=a5-sheets&price=free", "?kind=moon&words=zip+basket"])
def test_no_axe_violations(page, address, size, query):
    page.set_viewport_size(size)
    page.goto(address + query)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
