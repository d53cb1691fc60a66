"""Having links sent again, in a real browser: from an order's page to the letter and back to the order."""

import re
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.core import mail
from django.utils import timezone
from playwright.sync_api import Browser, Page, expect

from orders.keys import new_key
from orders.models import Letter, Order
from orders.posting import send_due
from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of
from studio.demo import place_basket

NARROW, WIDE = {"width": 390, "height": 844}, {"width": 1440, "height": 900}


@pytest.fixture
def order(live_server: Any, settings: Any) -> Order:
    settings.SITE_URL = live_server.url
    publish(Pattern.objects.create(slug="fold-flat-basket", is_listed=True), text_of("fold-flat-basket"))
    return place_basket(new_key())


def assert_well(page: Page) -> None:
    """Nothing that axe finds, and nothing that makes the page scroll sideways, wide and narrow."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    for viewport in (WIDE, NARROW):
        page.set_viewport_size(viewport)
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def links_in(message: Any) -> list[str]:
    return re.findall(r"http://\S+/orders/[A-Za-z0-9_-]{43}/", message.body)


def test_from_a_lost_link_to_the_order(page: Page, live_server: Any, order: Order) -> None:
    page.set_viewport_size(NARROW)
    page.goto(live_server.url)
    page.get_by_role("contentinfo").get_by_role("link", name="Have your links sent again").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Have your links sent again")
    assert_well(page)
    page.get_by_label("E-mail address").fill("isolde at marchbank.example")
    page.get_by_role("button", name="Send my links").click()
    expect(page.locator("#order-mistakes")).to_be_focused()
    assert_well(page)
    page.get_by_label("E-mail address").fill(order.email)
    page.get_by_role("button", name="Send my links").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Look in your mail")
    assert_well(page)

    while send_due(timezone.now()):
        pass
    (link,) = links_in(mail.outbox[-1])
    page.goto(link)
    expect(page.get_by_role("heading", level=1)).to_have_text(f"Order {order.number}")
    page.goto("about:blank")  # a letter is read elsewhere, not under the shop's policy
    page.set_content(mail.outbox[-1].alternatives[0].content)
    assert_well(page)
    expect(page.get_by_role("link", name="Open this order")).to_have_attribute("href", link)


def test_without_script(browser: Browser, live_server: Any, order: Order) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{live_server.url}/orders/links/")
    page.get_by_label("E-mail address").fill("nobody@example.org")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Look in your mail")
    context.close()
    send_due(timezone.now())
    assert not Letter.objects.filter(to="nobody@example.org").exists()
