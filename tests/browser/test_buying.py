"""What to buy, on the pattern's own page, in a real browser, under the shop's own content policy."""

import re
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)
WIDE, NARROW = {"width": 1440, "height": 900}, {"width": 390, "height": 844}


def address_of(slug: str, live_server: Any) -> str:
    pattern = Pattern.objects.create(slug=slug, is_listed=True)
    publish(pattern, text_of(slug))
    return str(live_server.url) + pattern.get_absolute_url()


@pytest.fixture
def address(live_server: Any) -> str:
    return address_of("fold-flat-basket", live_server)


@pytest.fixture
def tote_address(live_server: Any) -> str:
    return address_of("boxed-tote", live_server)


def assert_well(page: Page) -> None:
    """Nothing that axe finds, and nothing that makes the page scroll sideways."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_chosen_live_and_carried_to_the_order(
    page: Page, address: str, viewport: Any, complaints: list[str]
) -> None:
    page.set_viewport_size(viewport)
    page.goto(f"{address}?units=in")
    bought = page.locator("#buying-answer")
    expect(bought).to_contain_text("1⁄2 yd, 44 in wide")
    expect(bought.get_by_role("img", name=re.compile("^exterior fabric, 42 × 18 in"))).to_be_visible()
    assert_well(page)

    cloth = page.get_by_label("Cloth", exact=True)
    cloth.focus()
    cloth.select_option(label="Fat quarter, of which 21 × 18 in can be used")
    expect(bought).to_contain_text("1 × fat quarter")
    expect(cloth).to_be_focused()
    expect(page.locator("#buying-news")).to_contain_text("exterior fabric: 1 × fat quarter.")
    assert "cloth=fat-quarter" in page.url

    page.get_by_label("How many to make").fill("2")
    page.get_by_label("How many to make").press("Enter")
    expect(bought).to_contain_text("2 of them, laid together")
    expect(bought).to_contain_text("2 × fat quarter")

    page.get_by_text("More about your cloth").click()
    assert_well(page)
    page.get_by_label("Price of the cloth").fill("3.50")
    page.get_by_label("Price of the cloth").blur()
    expect(bought).to_contain_text("At the prices given: £14.00, which is £7.00 for each of the 2.")
    page.get_by_label("Cut from edge to edge").check()
    expect(bought).to_contain_text("Every cut goes from edge to edge")
    page.get_by_label("The cloth shrinks").fill("ninety")
    page.get_by_label("The cloth shrinks").blur()
    expect(page.locator("#buying-ask")).to_contain_text("Mend the shrinkage first.")
    expect(page.get_by_label("The cloth shrinks")).to_have_attribute("aria-invalid", "true")
    expect(page.get_by_role("link", name="Get this size")).to_have_count(0)
    expect(bought).to_contain_text("2 × fat quarter")
    assert_well(page)
    page.get_by_label("The cloth shrinks").fill("")
    page.get_by_label("The cloth shrinks").blur()
    expect(page.locator("#buying-ask")).not_to_contain_text("Mend")

    page.get_by_label("Width", exact=True).fill("8")
    page.get_by_label("Width", exact=True).blur()
    page.locator("#buying").scroll_into_view_if_needed()
    expect(bought).to_contain_text("For width 8 in")
    page.get_by_role("link", name="on a page to print").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(
        "Cloth and everything else for Fold-flat basket"
    )
    assert_well(page)
    page.get_by_role("link", name="Back to the pattern").click()
    expect(page.get_by_label("How many to make")).to_have_value("2")
    page.get_by_role("link", name="Get this size").click()
    expect(page.locator("main")).to_contain_text(
        "Fat quarter; cut from edge to edge; cloth at £3.50 a piece; 2 to make"
    )


def test_looks_further_by_itself_where_nothing_is_proved(page: Page, tote_address: str) -> None:
    page.goto(f"{tote_address}?units=in&make=5")
    page.locator("#buying-search").scroll_into_view_if_needed()
    expect(page.locator("#buying-search")).to_contain_text("Looked further:", timeout=10_000)


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_whole_without_script(browser: Browser, address: str, viewport: Any) -> None:
    context = browser.new_context(java_script_enabled=False, viewport=viewport)
    page = context.new_page()
    page.goto(f"{address}?units=cm")
    page.get_by_text("More about your cloth").click()
    page.get_by_label("The cloth shrinks").fill("5")
    page.get_by_role("button", name="Show what to buy").click()
    expect(page.locator("#buying-answer")).to_contain_text("it shrinks 5 % along the cloth and 5 % across it")
    page.get_by_label("Or the width you measured").fill("wide")
    page.get_by_role("button", name="Show what to buy").click()
    expect(page.locator("#error-summary")).to_contain_text("Or the width you measured: “wide”")
    expect(page.get_by_label("Or the width you measured")).to_have_value("wide")
    expect(page.get_by_label("The cloth shrinks")).to_have_value("5")
    context.close()
