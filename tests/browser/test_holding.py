"""From what goes in, in a real browser, under the shop's own content policy."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)
WIDE, NARROW = {"width": 1440, "height": 900}, {"width": 390, "height": 844}
ASKED = "?units=cm&thing-width=14.8&thing-height=21&thing-depth=0.4&thing-count=12&thing-loose=&thing-turn="


@pytest.fixture
def address(live_server):
    pattern = Pattern.objects.create(slug="fold-flat-basket", is_listed=True)
    publish(pattern, text_of("fold-flat-basket"))
    return live_server.url + pattern.get_absolute_url()


def no_axe_violations(page):
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def test_from_the_pattern_to_a_size_and_back(page: Page, address):
    """Without a new page until the size is opened; keyboard focus and address are kept, all is announced."""
    complaints: list[str] = []
    page.on(
        "console", lambda line: complaints.append(line.text) if line.type in ("error", "warning") else None
    )
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.goto(f"{address}?units=cm")
    page.get_by_role("radio", name="Heavy").check()
    expect(page.locator("#holding-link a")).to_have_attribute("href", re.compile("interfacing=heavy"))
    page.get_by_role("link", name="Find the size from what goes in").click()
    expect(page.locator("main")).to_contain_text("Counted with interfacing heavy")
    no_axe_violations(page)

    page.get_by_role("link", name="A5 sheets").click()
    expect(page.get_by_label("Width of one")).to_have_value("148 mm")
    page.fill("#id_thing-count", "12")
    page.press("#id_thing-count", "Enter")
    expect(page.locator("#error-summary")).to_be_focused()
    expect(page.locator("#id_thing-depth")).to_have_attribute("aria-invalid", "true")
    no_axe_violations(page)

    page.fill("#id_thing-depth", "4 mm")
    page.press("#id_thing-depth", "Enter")
    expect(page.locator("#holding-news")).to_contain_text("Least fabric: 15 × 21 × 5 cm.")
    expect(page.locator("#id_thing-depth")).to_be_focused()
    expect(page).to_have_url(re.compile("thing-depth=4"))
    expect(page.get_by_role("img", name="12 things inside: 1 across, 12 deep, 1 high")).to_be_visible()
    page.reload()
    expect(page.get_by_role("heading", name="What holds 12 things")).to_be_visible()
    expect(page.get_by_role("heading", name="What your size holds, 23 × 15 × 12 cm")).to_be_visible()

    page.get_by_role("link", name="Open the pattern at 15 × 21 × 5 cm").click()
    expect(page.locator("#id_width")).to_have_value("15")
    expect(page.locator("#id_height")).to_have_value("21")
    expect(page.get_by_role("radio", name="Heavy")).to_be_checked()
    assert complaints == []


@pytest.mark.parametrize("size", [WIDE, NARROW], ids=["wide", "narrow"])
@pytest.mark.parametrize(
    "query", [f"{ASKED}any", f"{ASKED}over&thing-width=x", f"{ASKED}none&thing-count=999"]
)
def test_no_axe_violations_and_no_sideways_scroll(page, address, size, query):
    page.set_viewport_size(size)
    page.goto(f"{address}what-goes-in/{query}")
    no_axe_violations(page)
    assert page.evaluate("document.documentElement.scrollWidth") == size["width"]


def test_whole_without_script(new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}what-goes-in/?units=cm")
    for label, typed in (("Width of one", "14.8"), ("Height of one", "21"), ("Depth of one", "0.4")):
        page.get_by_label(label).fill(typed)
    page.get_by_label("How many").fill("twelve")
    page.get_by_role("button", name="Find the sizes").click()
    expect(page.get_by_role("link", name="How many: “twelve” is not a number.")).to_be_visible()
    expect(page.get_by_label("Width of one")).to_have_value("14.8")
    page.get_by_label("How many").fill("12")
    page.get_by_role("button", name="Find the sizes").click()
    page.get_by_role("link", name="Open the pattern at 15 × 21 × 5 cm").click()
    expect(page.locator("#id_width")).to_have_value("15")
