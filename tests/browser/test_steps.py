"""The steps beside the machine and their taste on the pattern's page, in a real browser."""

import re
from io import BytesIO
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from pikepdf import Pdf
from playwright.sync_api import Browser, Page, expect

from orders.keys import new_key
from orders.placing import place_order
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)
NARROW, WIDE = {"width": 390, "height": 844}, {"width": 1440, "height": 900}
# Counts the locks of the screen, as the test's browser has no screen.
LOCKS = """
window.locks = [];
navigator.wakeLock.request = async (kind) => {
  const lock = new EventTarget();
  lock.kind = kind;
  lock.isHeld = true;
  lock.release = async () => { lock.isHeld = false; lock.dispatchEvent(new Event("release")); };
  window.locks.push(lock);
  return lock;
};
"""
HELD = "window.locks.filter((lock) => lock.isHeld).length"


@pytest.fixture
def address(live_server: Any) -> str:
    revision = publish(Pattern.objects.create(slug="zip-pouch", is_listed=True), text_of("zip-pouch"))
    sized = size(revision.recipe, "zip-pouch", Units.INCHES)
    who = {"name": "Ada Example", "email": "ada@example.org", "source": "s"}
    placed = place_order(revision, sized, **who, key=new_key(), now=revision.published_at)
    return f"{live_server.url}/orders/{placed.token}/"


def assert_well(page: Page) -> None:
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def assert_at(page: Page, number: int) -> None:
    """The step is there, its heading has the focus and begins with where it stands; so does the title."""
    heading = page.locator("#step-title")
    expect(heading).to_contain_text(f"Step {number} of 25")
    expect(heading).to_be_focused()
    expect(page).to_have_title(re.compile(f"^Step {number} of 25: "))
    assert page.url.endswith(f"?step={number}")


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_followed_with_script(page: Page, address: str, viewport: Any, complaints: list[str]) -> None:
    page.add_init_script(LOCKS)
    page.set_viewport_size(viewport)
    page.goto(address)
    page.get_by_role("link", name="Follow the steps on a phone").click()
    expect(page.locator("#step-title")).to_contain_text("Step 1 of 25")
    expect(page.locator("#steps-resume")).to_be_hidden()
    switch, state = page.get_by_role("switch", name="Keep the screen on"), page.locator("#keep-on-state")
    expect(switch).to_be_checked()
    expect(state).to_have_text("The screen stays on while this page is open.")
    assert_well(page)

    page.get_by_role("link", name="Next step 2").click()
    assert_at(page, 2)
    page.keyboard.press("ArrowRight")
    assert_at(page, 3)
    page.keyboard.press("ArrowLeft")
    assert_at(page, 2)
    for number in range(3, 8):
        page.keyboard.press("ArrowRight")
        assert_at(page, number)
    assert page.evaluate(HELD) == 1
    assert_well(page)
    page.go_back()
    assert_at(page, 6)
    expect(switch).to_be_checked()
    page.keyboard.press("ArrowRight")
    assert_at(page, 7)

    switch.uncheck()
    expect(state).to_have_text("The screen goes dark as your phone is set.")
    assert page.evaluate(HELD) == 0

    page.goto(f"{address}1/steps/")
    expect(page.get_by_role("switch", name="Keep the screen on")).not_to_be_checked()
    assert page.evaluate(HELD) == 0
    page.get_by_role("link", name="Go on at step 7").click()
    expect(page.locator("#step-title")).to_contain_text("Step 7 of 25")
    page.get_by_text("All 25 steps").click()
    page.get_by_role("link", name="Close the opening").click()
    expect(page.locator("#step-title")).to_contain_text("Step 24 of 25")


def test_arrow_key_held_down_turns_one_step_at_once(page: Page, address: str) -> None:
    page.goto(f"{address}1/steps/?step=2")
    for _ in range(5):
        page.keyboard.down("ArrowRight")
        page.wait_for_timeout(40)
    assert_at(page, 3)
    page.wait_for_timeout(300)
    assert_at(page, 3)
    page.keyboard.up("ArrowRight")


def test_screen_that_the_browser_lets_go_dark_is_said(page: Page, address: str) -> None:
    page.add_init_script(LOCKS)
    page.goto(f"{address}1/steps/?step=2")
    state = page.locator("#keep-on-state")
    expect(state).to_contain_text("stays on")
    page.evaluate("window.locks[0].release()")
    expect(state).to_contain_text("does not keep the screen on now")


def test_browser_that_cannot_keep_it_on_says_so(page: Page, address: str, complaints: list[str]) -> None:
    page.add_init_script("delete Navigator.prototype.wakeLock; delete window.localStorage;")
    page.goto(f"{address}1/steps/?step=2")
    expect(page.locator("#keep-on-state")).to_contain_text("cannot keep the screen on")
    expect(page.get_by_role("switch")).to_be_disabled()
    page.get_by_role("link", name="Next step 3").click()
    assert_at(page, 3)


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_whole_without_script(browser: Browser, address: str, viewport: Any) -> None:
    context = browser.new_context(java_script_enabled=False, viewport=viewport)
    page = context.new_page()
    page.goto(f"{address}1/steps/")
    page.get_by_role("link", name="Next step 2").click()
    page.get_by_role("link", name="Next step 3").click()
    expect(page.locator("#step-title")).to_contain_text("Step 3 of 25")
    expect(page.locator(".step-drawings svg").first).to_be_visible()
    page.get_by_role("link", name="Back to step 2").click()
    assert page.url.endswith("?step=2")
    expect(page.get_by_role("switch")).to_be_hidden()
    expect(page.locator("#steps-resume")).to_be_hidden()
    context.close()


def test_everything_is_read_from_afar_and_pressed_with_a_thumb(page: Page, address: str) -> None:
    page.set_viewport_size(NARROW)
    page.goto(f"{address}1/steps/?step=7")
    sizes = page.evaluate(
        """[...document.querySelectorAll("#step-screen :is(p, h1, h2, span, dt, dd, figcaption, a, summary)")]
           .map((each) => parseFloat(getComputedStyle(each).fontSize))"""
    )
    assert min(sizes) >= 20
    for button in page.locator(".step-way a").all():
        box = button.bounding_box()
        assert box is not None
        assert box["height"] >= 64


def test_a_step_is_printed_on_one_sheet_of_either_paper(page: Page, address: str) -> None:
    for number in (8, 9, 14):  # those with the most marks and cautions
        page.goto(f"{address}1/steps/?step={number}")
        for paper in ("A4", "Letter"):
            with Pdf.open(BytesIO(page.pdf(format=paper))) as printed:
                assert len(printed.pages) == 1, (number, paper)


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_taste_on_the_patterns_page_follows_the_size(page: Page, live_server: Any, viewport: Any) -> None:
    pattern = Pattern.objects.create(slug="fold-flat-basket", is_listed=True)
    publish(pattern, text_of("fold-flat-basket"))
    page.set_viewport_size(viewport)
    page.goto(f"{live_server.url}{pattern.get_absolute_url()}?units=in")
    making = page.locator("#making-answer")
    expect(making.get_by_role("img", name=re.compile("folded flat, 14 in by 6 in"))).to_be_visible()
    assert_well(page)
    page.get_by_label("Width", exact=True).fill("8")
    page.get_by_label("Width", exact=True).blur()
    page.locator("#making").scroll_into_view_if_needed()
    expect(making.get_by_role("img", name=re.compile("folded flat, 13 in by 6 in"))).to_be_visible()
    expect(page.locator("#making-news")).to_contain_text("drawn for width 8 in")
    page.get_by_label("Height", exact=True).fill("2")
    page.get_by_label("Height", exact=True).blur()
    expect(page.locator("#making-ask")).to_contain_text("cannot be sewn")
