"""The whole road in a real browser: choose a size, order it, download the book; and the owner's pages."""

from pathlib import Path
from typing import Any

import pikepdf
import pytest
from axe_playwright_python.sync_playwright import Axe
from django.contrib.auth.models import User
from playwright.sync_api import Browser, BrowserContext, Page, expect

from orders.models import Order
from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

SIZE = "/patterns/fold-flat-basket/?units=in&width=8+1%2F2&height=6&depth=4+3%2F4"
NARROW, WIDE = {"width": 390, "height": 844}, {"width": 1440, "height": 900}
PASSWORD = "an owner in a test"


@pytest.fixture
def shop(live_server: Any) -> str:
    """The address of a shop that sells the basket."""
    publish(Pattern.objects.create(slug="fold-flat-basket", is_listed=True), text_of("fold-flat-basket"))
    return str(live_server.url)


def assert_no_violations(page: Page) -> None:
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def assert_fits(page: Page) -> None:
    """Nothing makes the page scroll sideways."""
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def download(page: Page, folder: Path, paper: str) -> Path:
    with page.expect_download() as started:
        page.get_by_role("link", name=f"Instruction book on {paper}").click()
    file = folder / started.value.suggested_filename
    started.value.save_as(file)
    return file


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_from_the_size_to_the_book(page: Page, shop: str, tmp_path: Path, viewport: Any) -> None:
    page.set_viewport_size(viewport)
    page.goto(shop + SIZE)
    page.get_by_role("link", name="Get this size").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Order this size")
    expect(page.locator("#ordered-size ~ dl")).to_contain_text("Width8")
    assert_no_violations(page)
    assert_fits(page)

    page.get_by_label("Name on the book").fill("Ada Example")
    page.get_by_label("E-mail address").fill("ada at example.org")
    page.get_by_role("button", name="Place the free order").click()
    expect(page.locator("#order-mistakes")).to_be_focused()
    expect(page).to_have_title("Error: Order Fold-flat basket – The pattern room")
    expect(page.get_by_label("Name on the book")).to_have_value("Ada Example")
    assert_no_violations(page)
    assert_fits(page)
    page.locator("#order-mistakes a").click()
    expect(page.get_by_label("E-mail address")).to_be_focused()

    page.get_by_label("E-mail address").fill("ada@example.org")
    page.get_by_role("button", name="Place the free order").click()
    order = Order.objects.get()
    expect(page.get_by_role("heading", level=1)).to_have_text(f"Order {order.number}")
    assert_no_violations(page)
    assert_fits(page)

    file = download(page, tmp_path, "A4")
    assert file.name == f"fold-flat-basket-book-a4-order-{order.number}.pdf"
    with pikepdf.open(file) as book:
        assert str(book.docinfo["/Licence"]) == f"Order {order.number} · made for Ada Example"
        pages = len(book.pages)
    page.reload()
    expect(page.get_by_text(f"PDF, {pages} pages")).to_be_visible()
    assert download(page, tmp_path / "again", "A4").read_bytes() == file.read_bytes()


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_without_script(browser: Browser, shop: str, tmp_path: Path, viewport: Any) -> None:
    context: BrowserContext = browser.new_context(java_script_enabled=False, viewport=viewport)
    page = context.new_page()
    page.goto(shop + SIZE)
    page.get_by_role("link", name="Get this size").click()
    page.get_by_role("button", name="Place the free order").click()
    expect(page.get_by_role("heading", name="There is a problem")).to_be_visible()
    assert_fits(page)
    page.get_by_label("Name on the book").fill("Ada Example")
    page.get_by_label("E-mail address").fill("ada@example.org")
    page.get_by_role("button", name="Place the free order").click()
    assert_fits(page)
    assert download(page, tmp_path, "US Letter").read_bytes().startswith(b"%PDF-")
    context.close()


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_keyboard_alone(page: Page, shop: str, viewport: Any) -> None:
    page.set_viewport_size(viewport)
    page.goto(shop + SIZE.replace("?", "order/?"))
    focus(page, page.get_by_label("Name on the book"))
    page.keyboard.type("Ada Example")
    page.keyboard.press("Tab")
    expect(page.get_by_label("E-mail address")).to_be_focused()
    page.keyboard.type("ada@example.org")
    page.keyboard.press("Enter")
    link = page.get_by_role("link", name="Instruction book on A4")
    focus(page, link)
    with page.expect_download():
        page.keyboard.press("Enter")


def focus(page: Page, target: Any) -> None:
    """Press Tab until the target has the focus."""
    expect(target).to_be_visible()
    for _ in range(40):
        page.keyboard.press("Tab")
        if target.evaluate("element => element === document.activeElement"):
            return
    raise AssertionError("Tab never came to it.")


def test_double_click_and_reload_make_one_order(page: Page, shop: str) -> None:
    page.goto(shop + SIZE.replace("?", "order/?"))
    page.get_by_label("Name on the book").fill("Ada Example")
    page.get_by_label("E-mail address").fill("ada@example.org")
    page.get_by_role("button", name="Place the free order").dblclick()
    page.wait_for_url("**/orders/*/")
    page.reload()
    assert Order.objects.count() == 1


def test_going_back_and_ordering_again_makes_one_order(page: Page, shop: str) -> None:
    page.goto(shop + SIZE.replace("?", "order/?"))
    for _ in range(2):
        page.get_by_label("Name on the book").fill("Ada Example")
        page.get_by_label("E-mail address").fill("ada@example.org")
        page.get_by_role("button", name="Place the free order").click()
        page.wait_for_url("**/orders/*/")
        page.go_back()
    assert Order.objects.count() == 1


def test_order_link_says_nothing_to_other_places(page: Page, shop: str) -> None:
    """The address is the key: a request from the page names the shop that it comes from, and not the page."""
    page.goto(shop + SIZE.replace("?", "order/?"))
    page.get_by_label("Name on the book").fill("Ada Example")
    page.get_by_label("E-mail address").fill("ada@example.org")
    page.get_by_role("button", name="Place the free order").click()
    page.wait_for_url("**/orders/*/")
    with page.expect_request(f"{shop}/") as followed:
        page.get_by_role("link", name="The pattern room").click()
    assert followed.value.all_headers()["referer"] == f"{shop}/"


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_owners_pages(page: Page, shop: str, viewport: Any) -> None:
    User.objects.create_superuser("owner", password=PASSWORD)
    page.set_viewport_size(viewport)
    page.goto(shop + SIZE.replace("?", "order/?"))
    page.get_by_label("Name on the book").fill("Ada Example")
    page.get_by_label("E-mail address").fill("ada@example.org")
    page.get_by_role("button", name="Place the free order").click()
    page.wait_for_url("**/orders/*/")

    page.goto(f"{shop}/workroom/orders/")
    page.locator("#id_username").fill("owner")
    page.locator("#id_password").fill(PASSWORD)
    page.locator("[type=submit]").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Orders")
    expect(page.get_by_role("cell", name="Ada Example")).to_be_visible()
    assert_no_violations(page)
    assert_fits(page)

    page.get_by_label("Find orders").fill("nobody")
    page.get_by_role("button", name="Find").click()
    expect(page.get_by_role("status")).to_have_text("0 orders with “nobody”")
    expect(page.get_by_label("Find orders")).to_have_value("nobody")
    expect(page).to_have_url(f"{shop}/workroom/orders/?q=nobody")
    assert_no_violations(page)

    page.get_by_role("link", name="Which sizes sell").click()
    expect(page.get_by_role("img", name="Fold-flat basket: width, in inches")).to_be_visible()
    expect(page.get_by_role("table", name="Width, in inches: how often each was ordered")).to_be_visible()
    assert_no_violations(page)
    assert_fits(page)
