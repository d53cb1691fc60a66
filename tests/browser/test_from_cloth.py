"""From the cloth somebody has, in a real browser, under the shop's own content policy."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)
WIDE, NARROW = {"width": 1440, "height": 900}, {"width": 390, "height": 844}
ASKED = "?units=in&width=7&height=5&depth=5&cloth-width=21&cloth-length=18&cloth-count="


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
    page.goto(f"{address}?units=in&width=7&height=5&depth=5")
    page.get_by_role("radio", name="Heavy").check()
    expect(page.locator("#cloth-link a")).to_have_attribute("href", re.compile("interfacing=heavy"))
    page.get_by_role("link", name="Find the size from the cloth you have").click()
    expect(page.locator("main")).to_contain_text("Counted with interfacing heavy")
    expect(page.locator("#id_width")).to_have_value("7")
    no_axe_violations(page)

    page.get_by_role("link", name="Fat quarter").click()
    expect(page.get_by_label("Across, of one")).to_have_value("21")
    expect(page.locator("#cloth-news")).to_contain_text("The largest size from 2 fat quarters: 9 1⁄4 × 6 1⁄2")
    page.fill("#id_cloth-count", "two")
    page.press("#id_cloth-count", "Enter")
    expect(page.locator("#error-summary")).to_be_focused()
    expect(page.locator("#id_cloth-count")).to_have_attribute("aria-invalid", "true")
    no_axe_violations(page)

    page.fill("#id_cloth-count", "2")
    page.press("#id_cloth-count", "Enter")
    expect(page.get_by_role("img", name="Cloth 1: exterior fabric, 21 × 18 in: 1 piece")).to_be_visible()
    expect(page.locator("#id_cloth-count")).to_be_focused()
    expect(page).to_have_url(re.compile("cloth-count=2"))
    page.reload()
    page.get_by_role("link", name="Open the pattern at").click()
    expect(page.locator("#id_width")).to_have_value("9 1/4")
    expect(page.get_by_role("radio", name="Heavy")).to_be_checked()
    assert complaints == []


@pytest.mark.parametrize("size", [WIDE, NARROW], ids=["wide", "narrow"])
@pytest.mark.parametrize("query", [f"{ASKED}2", f"{ASKED}many&cloth-for=x&other-cloth-width=9", f"{ASKED}1"])
def test_no_axe_violations_and_no_sideways_scroll(page, address, size, query):
    page.set_viewport_size(size)
    page.goto(f"{address}from-cloth/{query}")
    no_axe_violations(page)
    assert page.evaluate("document.documentElement.scrollWidth") == size["width"]


def test_whole_without_script(new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}from-cloth/?units=cm")
    page.get_by_label("Across, of one").fill("60")
    page.get_by_label("Along, of one").fill("ninety")
    page.get_by_role("button", name="Find the largest size").click()
    expect(page.get_by_role("link", name="Along, of one: “ninety” is not a length.")).to_be_visible()
    expect(page.get_by_label("Across, of one")).to_have_value("60")
    page.get_by_label("Along, of one").fill("90")
    page.get_by_text("Other cloth, of another size").click()
    page.get_by_label("Across, of the other").fill("50")
    page.get_by_label("Along, of the other").fill("40")
    page.get_by_role("radio", name="The largest height").check()
    page.get_by_role("button", name="Find the largest size").click()
    expect(page.get_by_role("heading", name="2 pieces of 60 × 90 cm and a piece of 50")).to_be_visible()
    page.get_by_role("link", name="Open the pattern at").click()
    expect(page.locator("#id_width")).to_have_value("23")
