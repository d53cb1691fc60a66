"""The size chart in a real browser, under the shop's own content policy."""

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
    pattern = Pattern.objects.create(slug="zip-pouch", is_listed=True)
    publish(pattern, text_of("zip-pouch"))
    return f"{live_server.url}{pattern.get_absolute_url()}sizes/"


@pytest.fixture
def opened(page, address, complaints):
    """The page, which complains of nothing."""
    page.goto(f"{address}?units=in")
    return page


def test_a_choice_changes_the_chart_and_the_address(opened):
    opened.locator("#id_interfacing").focus()
    opened.select_option("#id_interfacing", "heavy")
    expect(opened.get_by_role("rowheader", name="Heavy interfacing panel")).to_be_visible()
    expect(opened.locator("#chart-news")).to_contain_text("Size chart with interfacing heavy")
    expect(opened.locator("#id_interfacing")).to_be_focused()
    expect(opened).to_have_url(re.compile("interfacing=heavy"))
    opened.get_by_role("link", name="Show it in centimetres").click()
    expect(opened.locator("#id_interfacing")).to_have_value("heavy")
    expect(opened.get_by_role("cell", name="20 cm", exact=True)).to_have_count(1)


def test_a_size_leads_to_the_pattern_at_that_size(opened):
    opened.get_by_role("link", name="For a wash kit").click()
    expect(opened.locator("#id_width")).to_have_value("10")
    opened.get_by_role("link", name="Size chart", exact=True).click()
    expect(opened.get_by_role("link", name="For a wash kit")).to_be_visible()


def test_without_script_the_button_does_it(new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(address)
    page.select_option("#id_zip-size", "no-5-coil")
    page.get_by_role("button", name="Show these sizes").click()
    expect(page.get_by_role("row", name=re.compile("Zip tape width"))).to_contain_text("1 1⁄4 in")


def test_names_stay_in_sight_while_the_sizes_scroll(opened):
    opened.set_viewport_size(NARROW)
    name = opened.get_by_role("rowheader", name="Zip tape width")
    before = name.bounding_box()
    opened.locator(".scroll-x").evaluate("region => region.scrollLeft = 200")
    assert name.bounding_box()["x"] == before["x"]
    assert opened.locator(".scroll-x").evaluate("region => region.scrollLeft") > 100


@pytest.mark.parametrize("size", [WIDE, NARROW], ids=["wide", "narrow"])
@pytest.mark.parametrize("query", ["", "?units=cm&interfacing=tin"])
def test_no_axe_violations(page, address, size, query):
    page.set_viewport_size(size)
    page.goto(address + query)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def test_no_sideways_scroll_at_320(page, address):
    page.set_viewport_size({"width": 320, "height": 600})
    page.goto(address)
    assert page.evaluate("document.documentElement.scrollWidth") == 320
