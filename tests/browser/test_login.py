"""The owner's login in a real browser: the second factor is set up, used, replaced by a recovery code."""

from datetime import UTC, datetime
from typing import Any

import pytest
from allauth.mfa.totp.internal.auth import format_hotp_value, hotp_value
from axe_playwright_python.sync_playwright import Axe
from django.contrib.auth.models import User
from playwright.sync_api import Browser, Page, expect

from studio.models import SHOP_PK, Shop

NARROW, WIDE = {"width": 390, "height": 844}, {"width": 1440, "height": 900}
PASSWORD = "an owner in a test"


@pytest.fixture(autouse=True)
def owner_has_a_second_factor() -> None:
    """Here it is the owner's own business whether they have one."""


@pytest.fixture
def now(time_machine: Any) -> datetime:
    """Stop the clock, so that a code does not change while it is typed; the browser has the same hour."""
    moment = datetime.now(UTC)
    time_machine.move_to(moment, tick=False)
    return moment


@pytest.fixture
def shop(live_server: Any) -> str:
    User.objects.create_superuser("owner", password=PASSWORD)
    return str(live_server.url)


def code_of(letters: str, now: datetime, periods: int = 0) -> str:
    secret = letters.replace(" ", "")
    return format_hotp_value(hotp_value(secret, int(now.timestamp()) // 30 + periods))


def assert_well(page: Page) -> None:
    """Nothing that axe finds, and nothing that makes the page scroll sideways, wide and narrow."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    for viewport in (WIDE, NARROW):
        page.set_viewport_size(viewport)
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def log_in(page: Page, address: str) -> None:
    page.goto(address)
    page.get_by_label("Name").fill("owner")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Log in").click()


def type_code(page: Page, code: str, button: str) -> None:
    page.get_by_role("textbox", name="Code").fill(code)
    page.get_by_role("button", name=button).click()


def test_set_up_log_in_and_use_a_recovery_code(page: Page, shop: str, now: datetime) -> None:
    page.set_viewport_size(NARROW)
    page.goto(f"{shop}/workroom/orders/")
    expect(page.get_by_role("heading", level=1)).to_have_text("Log in to the workroom")
    assert_well(page)
    page.get_by_role("button", name="Log in").click()
    expect(page.locator("#order-mistakes")).to_be_focused()
    assert_well(page)

    log_in(page, f"{shop}/workroom/orders/")
    expect(page.get_by_role("heading", level=1)).to_have_text("Set up your second factor")
    square = page.get_by_role("img", name="The square that your app reads")
    assert square.evaluate("image => image.complete && image.naturalWidth > 0")  # the policy lets it be seen
    expect(page.get_by_role("button", name="Later")).to_have_count(0)
    assert_well(page)
    letters = page.locator("#factor-letters").inner_text()
    type_code(page, code_of(letters, now, periods=9), "Set it up")
    expect(page.locator("#order-mistakes")).to_be_focused()
    assert_well(page)
    type_code(page, code_of(letters, now), "Set it up")
    expect(page.get_by_role("heading", level=1)).to_have_text("Your recovery codes")
    recovery = page.locator(".recovery-codes code").all_inner_texts()
    assert_well(page)

    page.get_by_role("link", name="I have kept them").click()
    page.get_by_role("link", name="Your login").click()
    expect(page.get_by_text("10 codes left")).to_be_visible()
    assert_well(page)
    for link, heading in (
        ("Move to another phone", "Move to another phone"),
        ("Make new ones", "Make new recovery codes"),
    ):
        page.get_by_role("link", name=link).click()
        expect(page.get_by_role("heading", level=1)).to_have_text(heading)
        assert_well(page)
        page.get_by_role("link", name="Your login").click()

    page.get_by_role("button", name="Log out").click()
    log_in(page, f"{shop}/admin/")
    expect(page.get_by_role("heading", level=1)).to_have_text("Your code")
    assert_well(page)
    type_code(page, "12", "Log in")
    expect(page.locator("#order-mistakes")).to_be_focused()
    assert_well(page)
    type_code(page, code_of(letters, now), "Log in")
    page.wait_for_url(f"{shop}/admin/")

    page.context.clear_cookies()
    log_in(page, f"{shop}/workroom/orders/")
    type_code(page, recovery[0], "Log in")
    expect(page.get_by_role("heading", level=1)).to_have_text("Orders")


def test_without_script_and_by_keyboard_in_the_demo(browser: Browser, shop: str, now: datetime) -> None:
    Shop.objects.create(pk=SHOP_PK, is_demo=True)
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{shop}/workroom/orders/")
    page.get_by_label("Name").fill("owner")
    page.keyboard.press("Tab")
    page.keyboard.type(PASSWORD)
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Later").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("What waits for you today")
    page.get_by_role("link", name="Your login").click()
    page.get_by_role("link", name="Set up the second factor").click()
    type_code(page, code_of(page.locator("#factor-letters").inner_text(), now), "Set it up")
    expect(page.get_by_role("heading", level=1)).to_have_text("Your recovery codes")
    context.close()


def test_password_and_code_once_more(page: Page, shop: str) -> None:
    Shop.objects.create(pk=SHOP_PK, is_demo=True)
    log_in(page, f"{shop}/workroom/orders/")
    page.get_by_role("button", name="Later").click()
    page.goto(f"{shop}/workroom/login/password/")
    expect(page.get_by_role("heading", level=1)).to_have_text("Your password once more")
    assert_well(page)
    page.get_by_label("Password").fill("wrong")
    page.get_by_role("button", name="Go on").click()
    expect(page.locator("#order-mistakes")).to_be_focused()
    assert_well(page)
