"""The ways to choose a size, on the pattern's own page, in a real browser, under the content policy."""

import re
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)
WIDE, NARROW = {"width": 1440, "height": 900}, {"width": 390, "height": 844}
STATES = {
    "chart": "?by=chart&width=8&height=7&depth=6",
    "contents": "?by=contents&units=cm&thing-width=14.8&thing-height=21&thing-depth=0.4&thing-count=12",
    "contents-wrong": "?by=contents&look=for-size&thing-width=x&thing-turn=over",
    "cloth": "?by=cloth&width=7&height=5&depth=5&cloth-width=21&cloth-length=18&cloth-count=2",
    "cloth-wrong": "?by=cloth&look=for-size&width=wide&cloth-width=21&cloth-count=many&other-cloth-width=9",
}


@pytest.fixture
def address(live_server: Any) -> str:
    pattern = Pattern.objects.create(slug="fold-flat-basket", is_listed=True)
    publish(pattern, text_of("fold-flat-basket"))
    return str(live_server.url) + pattern.get_absolute_url()


def assert_well(page: Page) -> None:
    """Nothing that axe finds, and nothing that makes the page scroll sideways."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_error_pushes_no_box_out_of_line(page: Page, address: str) -> None:
    page.set_viewport_size(WIDE)
    page.goto(f"{address}?by=contents&look=for-size&thing-width=x&thing-height=6&thing-depth=1")
    expect(page.locator("#id_thing-width-error")).to_contain_text("“x” is not a length")
    for part in ("label", "input"):
        one, beside = (
            page.locator(f"#id_thing-{name}-field {part}").bounding_box() for name in ("width", "height")
        )
        assert one["x"] < beside["x"]
        assert one["y"] == beside["y"]


@pytest.mark.parametrize("viewport", [WIDE, NARROW], ids=["wide", "narrow"])
def test_each_way_leads_to_the_one_result(
    page: Page, address: str, viewport: Any, complaints: list[str]
) -> None:
    """Without a new page; focus and address are kept, all is announced, nothing that was typed is lost."""
    page.set_viewport_size(viewport)
    page.emulate_media(reduced_motion="reduce")  # no scroll is still under way when the next one begins
    page.goto(f"{address}?units=cm")
    drawn, news = page.locator("#size-side figcaption"), page.locator("#way-news")
    page.evaluate("window.isSamePage = true")

    page.get_by_role("link", name="From the size chart").click()
    expect(page.get_by_role("link", name="From the size chart")).to_be_focused()
    page.get_by_role("link", name="For yarn").click()
    expect(page.get_by_role("link", name="For yarn")).to_have_attribute("aria-current", "true")
    expect(page.get_by_role("link", name="For yarn")).to_be_focused()
    expect(drawn).to_contain_text("width 20 cm")
    expect(page).to_have_url(re.compile("by=chart.*width=20"))

    page.get_by_role("radio", name="Heavy").check()
    page.get_by_role("link", name="From what goes in").click()
    expect(page.locator("main")).to_contain_text("Counted with interfacing heavy")
    page.get_by_text("Things of a published size").click()
    page.get_by_role("link", name="A5 sheets").click()
    expect(page.get_by_label("Width of one")).to_have_value("148 mm")
    expect(page.get_by_label("Depth of one")).to_be_focused()
    page.get_by_label("How many", exact=True).fill("12")
    page.get_by_label("How many", exact=True).press("Enter")
    expect(page.locator("#way-errors")).to_be_focused()
    expect(page.get_by_label("Depth of one")).to_have_attribute("aria-invalid", "true")
    assert_well(page)
    page.get_by_label("Depth of one").fill("4 mm")
    page.get_by_label("Depth of one").press("Enter")
    expect(news).to_contain_text("Least fabric: 15 × 21 × 5 cm.")
    expect(page.get_by_label("Depth of one")).to_be_focused()
    expect(page.get_by_role("heading", name=re.compile("^What holds 12"))).to_be_in_viewport()
    page.get_by_role("link", name="Take 15 × 21 × 5 cm").click()
    expect(drawn).to_contain_text("width 15 cm, height 21 cm, depth 5 cm")
    expect(page.locator("#size-news")).to_contain_text("Drawn at width 15 cm")
    expect(page.get_by_label("Width", exact=True)).to_have_value("15")
    expect(page.get_by_role("radio", name="Heavy")).to_be_checked()

    page.get_by_role("link", name="From the cloth you have").click()
    page.get_by_label("One piece, across").fill("60")
    page.get_by_label("One piece, along").fill("50")
    page.get_by_role("button", name="Find the largest size").click()
    expect(news).to_contain_text("The largest size from 2 pieces of 60 × 50 cm: ")
    page.get_by_role("link", name=re.compile("^Take ")).click()
    expect(drawn).not_to_contain_text("width 15 cm")
    assert page.evaluate("window.isSamePage")

    page.reload()
    expect(page.get_by_label("One piece, across")).to_have_value("60")
    page.get_by_role("link", name="From what goes in").click()
    expect(page.get_by_label("Depth of one")).to_have_value("4 mm")
    page.go_back()
    expect(page.get_by_label("One piece, across")).to_have_value("60")
    get = page.get_by_role("link", name="Get this size")
    page.get_by_label("Depth", exact=True).scroll_into_view_if_needed()
    expect(get).to_be_in_viewport()
    expect(get).to_have_attribute("href", re.compile(r"/order/\?units=cm&width=[^&]*&height=[^&]*&depth="))


@pytest.mark.parametrize("viewport", [WIDE, NARROW], ids=["wide", "narrow"])
def test_no_axe_violations_in_any_state(page: Page, address: str, viewport: Any) -> None:
    page.set_viewport_size(viewport)
    for query in STATES.values():
        page.goto(address + query)
        assert_well(page)


def test_whole_without_script(new_context: Any, address: str) -> None:
    page = new_context(java_script_enabled=False, viewport=NARROW).new_page()
    page.goto(f"{address}?units=cm")
    page.get_by_role("link", name="From what goes in").click()
    page.get_by_label("Width", exact=True).fill("21")
    page.get_by_label("Width", exact=True).press("Enter")
    expect(page.locator("#size-side figcaption")).to_contain_text("width 21 cm")
    expect(page.locator("#error-summary")).to_have_count(0)
    for label, typed in (("Width of one", "14.8"), ("Height of one", "21"), ("Depth of one", "0.4")):
        page.get_by_label(label).fill(typed)
    page.get_by_label("How many", exact=True).fill("twelve")
    page.get_by_role("button", name="Find the sizes").click()
    expect(page.get_by_role("link", name="How many: “twelve” is not a number.")).to_be_visible()
    expect(page.get_by_label("Width of one")).to_have_value("14.8")
    page.get_by_label("How many", exact=True).fill("12")
    page.get_by_role("button", name="Find the sizes").click()
    page.get_by_role("link", name="Take 15 × 21 × 5 cm").click()
    expect(page.get_by_label("Width", exact=True)).to_have_value("15")

    page.get_by_role("link", name="From the cloth you have").click()
    page.get_by_label("One piece, across").fill("60")
    page.get_by_label("One piece, along").fill("90")
    page.get_by_text("Other cloth, of another size").click()
    page.get_by_label("The other piece, across").fill("50")
    page.get_by_label("The other piece, along").fill("40")
    page.get_by_role("radio", name="The largest height").check()
    page.get_by_role("button", name="Find the largest size").click()
    expect(page.get_by_role("heading", name="2 pieces of 60 × 90 cm and a piece of 50")).to_be_visible()
    page.get_by_role("link", name=re.compile("^Take ")).click()
    expect(page.get_by_label("Width", exact=True)).to_have_value("15")

    page.get_by_role("link", name="From the size chart").click()
    page.get_by_role("link", name="For yarn").click()
    expect(page.get_by_label("Width", exact=True)).to_have_value("20")
