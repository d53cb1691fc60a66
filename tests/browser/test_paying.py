"""Buying in a real browser: the basket, the page to check, both ways to pay, and the owner's pages of it."""

from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.utils import timezone
from playwright.sync_api import Browser, Page, expect

from orders.models import Order, Payment
from orders.paying import mark_paid
from orders.payment_sweep import sweep_payments
from patterns.models import Offer, Pattern
from patterns.publishing import publish
from patterns.starters import text_of
from studio.models import SHOP_PK, Shop
from tests.browser.test_order import NARROW, PASSWORD, WIDE, assert_fits, assert_no_violations, focus
from tests.orders.conftest import sell

SIZE = "/patterns/zip-pouch/?units=in&width=9&height=6&depth=4"


@pytest.fixture
def shop(live_server: Any) -> str:
    """The address of an invented shop that sells the pouch in every way."""
    pattern = Pattern.objects.create(slug="zip-pouch", is_listed=True)
    publish(pattern, text_of("zip-pouch"))
    for kind, price in ((Offer.Kind.ONE_SIZE, 650), (Offer.Kind.YEAR, 1900), (Offer.Kind.BATCH, 1200)):
        sell(pattern, kind, price)
    Shop.objects.create(pk=SHOP_PK, is_demo=True, transfer_details="An account\nAt an invented bank")
    return str(live_server.url)


def good(page: Page) -> None:
    assert_no_violations(page)
    assert_fits(page)


def to_check(page: Page, shop: str, way: str) -> None:
    """From the size to the page to check."""
    page.goto(shop + SIZE)
    page.get_by_role("link", name="Get this size").click()
    page.get_by_role("button", name="Put it in the basket").click()
    page.get_by_label("Name on the book").fill("Ada Example")
    page.get_by_label("E-mail address").fill("ada@example.org")
    page.get_by_label("Country").select_option("GB")
    page.get_by_label(way).check()
    page.get_by_role("button", name="Check your answers").click()


def agree(page: Page) -> None:
    page.get_by_label("I want my files as soon as I have paid").check()
    page.get_by_label("I know that I can then no longer withdraw").check()


def test_enter_takes_nothing_out_and_taking_out_keeps_what_is_typed(page: Page, shop: str) -> None:
    for size in (SIZE, SIZE.replace("width=9", "width=8")):
        page.goto(shop + size)
        page.get_by_role("link", name="Get this size").click()
        page.get_by_role("button", name="Put it in the basket").click()
    page.get_by_label("E-mail address").fill("ada@")
    page.get_by_label("E-mail address").press("Enter")
    expect(page.locator("#form-mistakes")).to_be_focused()
    lines = page.get_by_role("button", name="Take out")
    expect(lines).to_have_count(2)
    page.get_by_label("Name on the book").fill("Ada Example")
    lines.first.click()
    expect(lines).to_have_count(1)
    expect(page.get_by_label("Name on the book")).to_have_value("Ada Example")
    expect(page.get_by_label("E-mail address")).to_have_value("ada@")


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_card(page: Page, shop: str, viewport: Any, complaints: list[str]) -> None:
    page.set_viewport_size(viewport)
    page.goto(shop + SIZE)
    page.get_by_role("link", name="Get this size").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Buy this size")
    good(page)
    page.get_by_label("With a small-batch licence").check()
    page.get_by_role("button", name="Put it in the basket").click()
    good(page)
    page.get_by_role("button", name="Check your answers").click()
    expect(page.locator("#form-mistakes")).to_be_focused()
    good(page)
    page.get_by_role("link", name="There is no country.").click()
    expect(page.get_by_label("Country")).to_be_focused()
    page.get_by_label("Name on the book").fill("Ada Example")
    page.get_by_label("E-mail address").fill("ada@example.org")
    page.get_by_label("Country").select_option("GB")
    page.get_by_label("By card").check()
    page.get_by_role("button", name="Check your answers").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Check your answers")
    good(page)
    page.get_by_role("button", name="Pay £18.50").click()
    expect(page.locator("#form-mistakes")).to_be_focused()
    good(page)
    agree(page)
    page.get_by_role("button", name="Pay £18.50").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("A payment, as a demonstration")
    good(page)
    page.get_by_role("button", name="Pay £18.50").click()
    expect(page.get_by_role("link", name="Instruction book on A4")).to_be_visible()
    assert Order.objects.get().is_paid
    good(page)


def test_lost_message_leaves_the_order_waiting_and_the_page_says_when_it_comes(page: Page, shop: str) -> None:
    to_check(page, shop, "By card")
    agree(page)
    page.get_by_role("button", name="Pay £6.50").click()
    page.get_by_label("Lose the message about it").check()
    page.get_by_role("button", name="Pay £6.50").click()
    expect(page.get_by_role("heading", name="Not paid yet")).to_be_visible()
    good(page)
    assert sweep_payments(timezone.now() + timedelta(minutes=11)) == 1
    # The page asks by itself every few seconds.
    expect(page.get_by_role("link", name="Instruction book on A4")).to_be_visible(timeout=15_000)


def test_payers_bank_calls_it_back_and_its_message_is_lost(page: Page, shop: str) -> None:
    to_check(page, shop, "By card")
    agree(page)
    page.get_by_role("button", name="Pay £6.50").click()
    paid_at = page.url
    page.get_by_role("button", name="Pay £6.50").click()
    page.goto(paid_at)
    good(page)
    page.get_by_label("Lose the message about it").check()
    page.get_by_role("button", name="Call it back").click()
    page.goto(paid_at)
    good(page)
    assert sweep_payments(timezone.now() + timedelta(minutes=31)) == 1
    page.get_by_role("button", name="Decide for the payer").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Order")
    assert not Order.objects.get().is_paid
    page.goto(paid_at)
    expect(page.get_by_text("it was decided for the payer")).to_be_visible()
    good(page)


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_transfer_and_the_owners_pages(page: Page, shop: str, viewport: Any, complaints: list[str]) -> None:
    User.objects.create_superuser("owner", password=PASSWORD)
    page.set_viewport_size(viewport)
    to_check(page, shop, "By bank transfer")
    agree(page)
    page.get_by_role("button", name="Order and pay £6.50 by transfer").click()
    expect(page.get_by_role("heading", name="Waits for the transfer")).to_be_visible()
    expect(page.get_by_text("At an invented bank")).to_be_visible()
    good(page)
    order_page = page.url

    page.goto(f"{shop}/workroom/payments/")
    page.locator("#id_username").fill("owner")
    page.locator("#id_password").fill(PASSWORD)
    page.locator("[type=submit]").click()
    good(page)
    page.get_by_role("link", name="Order", exact=False).filter(has_text="Order ").last.click()
    good(page)
    page.get_by_label("The bank’s reference").fill("BANK 77")
    page.get_by_role("button", name="as paid").click()
    expect(page.get_by_text("its files are the customer’s")).to_be_visible()
    page.get_by_text("Give money back").click()
    page.get_by_text("What was heard of it").click()
    good(page)
    page.goto(order_page)
    expect(page.get_by_role("link", name="Instruction book on A4")).to_be_visible()

    page.goto(f"{shop}/workroom/prices/")
    good(page)
    page.get_by_role("link", name="Prices of").click()
    good(page)
    page.get_by_label("Price in GBP").first.fill("nothing")
    page.get_by_role("button", name="Keep these prices").click()
    expect(page.locator("#form-mistakes")).to_be_focused()
    good(page)


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
@pytest.mark.parametrize("way", ["By card", "By bank transfer"])
def test_without_script(browser: Browser, shop: str, way: str, viewport: Any) -> None:
    context = browser.new_context(java_script_enabled=False, viewport=viewport)
    page = context.new_page()
    to_check(page, shop, way)
    assert_fits(page)
    page.get_by_role("button", name="pay £6.50").click()
    expect(page.get_by_role("heading", name="There is a problem")).to_be_visible()
    assert_fits(page)
    agree(page)
    page.get_by_role("button", name="pay £6.50").click()
    if way == "By card":
        assert_fits(page)
        page.get_by_role("button", name="Pay £6.50").click()
    else:
        expect(page.get_by_role("heading", name="Waits for the transfer")).to_be_visible()
        assert_fits(page)
        mark_paid(Payment.objects.get(), "BANK 77", "owner", timezone.now())
        page.reload()
    expect(page.get_by_role("link", name="Instruction book on A4")).to_be_visible()
    assert_fits(page)
    context.close()


def test_double_click_and_going_back_make_one_order(page: Page, shop: str) -> None:
    to_check(page, shop, "By card")
    agree(page)
    page.get_by_role("button", name="Pay £6.50").dblclick()
    expect(page.get_by_role("heading", level=1)).to_have_text("A payment, as a demonstration")
    page.go_back()
    page.wait_for_load_state()
    assert Order.objects.count() == 1


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
@pytest.mark.parametrize("way", ["By card", "By bank transfer"])
def test_keyboard_alone(page: Page, shop: str, way: str, viewport: Any) -> None:
    page.set_viewport_size(viewport)
    page.goto(shop + SIZE.replace("?", "order/?"))
    focus(page, page.get_by_role("button", name="Put it in the basket"))
    page.keyboard.press("Enter")
    focus(page, page.get_by_label("Name on the book"))
    for text in ("Ada Example", "ada@example.org", "United K"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    page.keyboard.press("Shift+Tab")
    focus(page, page.get_by_label("By card"))
    page.keyboard.press("Space")
    if way != "By card":
        page.keyboard.press("ArrowDown")
    expect(page.get_by_label(way)).to_be_checked()
    page.keyboard.press("Enter")
    focus(page, page.get_by_label("I want my files"))
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    focus(page, page.get_by_role("button", name="pay £6.50"))
    page.keyboard.press("Enter")
    if way == "By card":
        focus(page, page.get_by_role("button", name="Pay £6.50"))
        page.keyboard.press("Enter")
        focus(page, page.get_by_role("link", name="Instruction book on A4"))
    else:
        expect(page.get_by_role("heading", name="Waits for the transfer")).to_be_visible()


def test_another_size_for_a_year(page: Page, shop: str) -> None:
    page.goto(shop + SIZE.replace("?", "order/?"))
    page.get_by_label("Any size, as often as wanted, for a year").check()
    page.get_by_role("button", name="Put it in the basket").click()
    page.get_by_label("Name on the book").fill("Ada Example")
    page.get_by_label("E-mail address").fill("ada@example.org")
    page.get_by_label("Country").select_option("US")
    page.get_by_label("By card").check()
    page.get_by_role("button", name="Check your answers").click()
    page.get_by_role("button", name="Pay £19.00").click()
    page.get_by_role("button", name="Pay £19.00").click()
    page.get_by_role("link", name="Choose another size").click()
    good(page)
    page.get_by_label("Width", exact=True).fill("10")
    page.get_by_role("button", name="Show this size").click()
    good(page)
    page.get_by_role("button", name="Add this size to the order").click()
    expect(page.get_by_role("link", name="Instruction book on A4")).to_have_count(2)


def test_order_that_was_declined_is_paid_from_its_own_page(page: Page, shop: str) -> None:
    """The page behind the link has a form: it must come from somewhere that the shop trusts."""
    to_check(page, shop, "By card")
    agree(page)
    page.get_by_role("button", name="Pay £6.50").click()
    page.get_by_role("button", name="Decline the card").click()
    expect(page.get_by_role("heading", name="Not paid yet")).to_be_visible()
    expect(page.get_by_text("no money was taken")).to_be_visible()
    good(page)
    page.get_by_role("button", name="Pay £6.50").click()
    page.get_by_role("button", name="Pay £6.50").click()
    expect(page.get_by_role("link", name="Instruction book on A4")).to_be_visible()
