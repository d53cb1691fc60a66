"""The range chart in a real browser: found, read and changed, at both widths, with and without script."""

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.contrib.auth.models import User
from playwright.sync_api import Browser, Page, expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

NARROW, WIDE = {"width": 390, "height": 844}, {"width": 1440, "height": 900}
PASSWORD = "an owner in a test"
CHART = "/workroom/patterns/fold-flat-basket/range/"


@pytest.fixture
def shop(live_server: Any) -> str:
    """The address of a shop with the basket, and an owner."""
    publish(Pattern.objects.create(slug="fold-flat-basket", is_listed=True), text_of("fold-flat-basket"))
    User.objects.create_superuser("owner", password=PASSWORD)
    return str(live_server.url)


def log_in(page: Page, address: str) -> None:
    page.goto(address)
    page.locator("#id_username").fill("owner")
    page.locator("#id_password").fill(PASSWORD)
    page.locator("[type=submit]").click()


def assert_well(page: Page) -> None:
    """Nothing that axe finds, and nothing that makes the page scroll sideways."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_found_read_and_changed(page: Page, shop: str, viewport: Any) -> None:
    page.set_viewport_size(viewport)
    log_in(page, f"{shop}/workroom/orders/")
    page.get_by_role("link", name="Ranges of sizes").click()
    assert_well(page)
    page.get_by_role("link", name="Range of Fold-flat basket").click()
    expect(page.get_by_role("img", name="Fold-flat basket: the range of width by depth")).to_be_visible()
    expect(page.get_by_text("Refused from depth 11 1⁄4 in up, at every width.")).to_be_visible()
    assert_well(page)

    page.get_by_label("From left to right").select_option("Height")
    page.get_by_label("Seam allowance").fill("1/4")
    page.get_by_role("button", name="Draw the chart").click()
    expect(page.get_by_role("img", name="Fold-flat basket: the range of height by depth")).to_be_visible()
    expect(page.locator("#range-news")).to_contain_text("The chart is drawn.")
    expect(page.get_by_role("button", name="Draw the chart")).to_be_focused()
    assert "chart-across=height" in page.url
    assert "seam-allowance=1%2F4" in page.url
    expect(page.get_by_label("Width", exact=True)).to_have_value("9")
    assert_well(page)

    page.reload()
    expect(page.get_by_role("img", name="Fold-flat basket: the range of height by depth")).to_be_visible()
    expect(page.get_by_label("Seam allowance")).to_have_value("1/4")


def test_mistake_is_said_at_its_box_and_led_to(page: Page, shop: str) -> None:
    page.set_viewport_size(NARROW)
    log_in(page, shop + CHART)
    page.get_by_label("Seam allowance").fill("thick")
    page.get_by_role("button", name="Draw the chart").click()
    expect(page.locator("#range-mistakes")).to_be_focused()
    expect(page.get_by_label("Seam allowance")).to_have_value("thick")
    assert_well(page)
    page.locator("#range-mistakes a").click()
    expect(page.get_by_label("Seam allowance")).to_be_focused()


def test_without_script(browser: Browser, shop: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    log_in(page, shop + CHART)
    page.get_by_label("From bottom to top").select_option("Height")
    page.get_by_role("button", name="Draw the chart").click()
    expect(page.get_by_role("img", name="Fold-flat basket: the range of width by height")).to_be_visible()
    page.get_by_role("link", name="Use centimetres instead").click()
    expect(page.get_by_text("one step in 2 is shown: 1 cm from each to the next")).to_be_visible()
    page.get_by_role("link", name="8 × 5 × 30 cm").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Fold-flat basket")
    expect(page.get_by_text("Refused:")).to_be_visible()
    context.close()
