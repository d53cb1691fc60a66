"""What hands do while an answer is on its way, in a real browser: nothing of it is lost or undone."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def address_of(live_server: Any) -> Any:
    def make(slug: str) -> str:
        pattern = Pattern.objects.create(slug=slug, is_listed=True)
        publish(pattern, text_of(slug))
        return str(live_server.url) + pattern.get_absolute_url()

    return make


@pytest.fixture
def opened(page: Page, address_of: Any, complaints: list[str]) -> Page:
    page.goto(address_of("fold-flat-basket"))
    return page


class Held:
    """What a page asks of an address by itself: it waits for a test to let it through."""

    def __init__(self, page: Page, address: str) -> None:
        self.page, self.waiting, self.is_open = page, list[Route](), False
        page.route(re.compile(address), self._hold)

    def _hold(self, route: Route) -> None:
        if self.is_open or route.request.resource_type != "xhr":
            route.continue_()
        else:
            self.waiting.append(route)

    def has_come(self) -> None:
        for _ in range(100):
            if self.waiting:
                return
            self.page.wait_for_timeout(20)
        raise AssertionError("Nothing was asked.")

    def let_through(self) -> None:
        """What has come, and all that comes from now on."""
        self.has_come()
        self.is_open = True
        for route in self.waiting:
            route.continue_()


SIZE = r"/patterns/[^/]+/\?"


def drawn(page: Page) -> Any:
    return page.locator("#size-side figcaption")


def test_form_works_after_the_browsers_way_back(opened: Page) -> None:
    opened.get_by_role("link", name="From what goes in").click()
    expect(opened.get_by_label("Width of one")).to_be_visible()
    opened.go_back()
    expect(opened.get_by_label("Width of one")).to_have_count(0)
    opened.locator("#id_depth-slider").press("ArrowLeft")
    expect(opened.locator("#id_depth")).to_have_value("4 3/4")
    expect(drawn(opened)).to_contain_text("depth 4 3⁄4 in")
    opened.fill("#id_width", "8")
    opened.get_by_role("link", name="Get this size").click()
    expect(opened).to_have_url(re.compile(r"/order/\?units=in&width=8&"))


def test_way_back_finds_what_was_written(opened: Page) -> None:
    Held(opened, SIZE)
    opened.fill("#id_width", "8")
    opened.get_by_role("link", name="Get this size").click()
    expect(opened).to_have_url(re.compile("/order/"))
    opened.go_back()
    expect(opened.locator("#id_width")).to_have_value("8")
    expect(drawn(opened)).to_contain_text("width 8 in")


def test_way_that_waits_is_taken(opened: Page) -> None:
    """A change that comes after it does not take its place."""
    held = Held(opened, SIZE)
    opened.get_by_role("radio", name="Heavy").check()
    held.has_come()
    opened.get_by_role("link", name="From what goes in").click()
    opened.get_by_role("radio", name="None").check()
    held.let_through()
    expect(opened.get_by_label("Width of one")).to_be_visible()
    expect(opened).to_have_url(re.compile("by=contents.*interfacing=none"))


def test_last_way_that_was_pressed_is_shown(opened: Page) -> None:
    held = Held(opened, "/by/")
    for name in ("From the cloth you have", "From what goes in", "From the size chart", "From what goes in"):
        opened.get_by_role("link", name=name).click()
    held.let_through()
    expect(opened).to_have_url(re.compile("by=contents"))
    opened.wait_for_timeout(600)
    expect(opened.get_by_label("Width of one")).to_be_visible()


def test_earlier_answer_does_not_come_last(opened: Page) -> None:
    opened.set_viewport_size({"width": 390, "height": 844})
    held = Held(opened, r"/cloth/\?")
    opened.locator("[name=make]").fill("2")
    opened.locator("[name=make]").press("Tab")
    held.has_come()
    opened.fill("#id_width", "8")
    opened.press("#id_width", "Enter")
    opened.wait_for_timeout(600)
    held.let_through()
    expect(drawn(opened)).to_contain_text("width 8 in")
    expect(opened).to_have_url(re.compile("width=8&.*make=2"))
    opened.wait_for_timeout(600)
    expect(drawn(opened)).to_contain_text("width 8 in")


def test_box_of_a_search_keeps_what_is_typed_meanwhile(page: Page, address_of: Any) -> None:
    page.goto(f"{address_of('fold-flat-basket')}?by=contents&thing-width=6&thing-height=6&thing-depth=1")
    held, box = Held(page, "/by/contents/"), page.get_by_label("Width of one")
    page.get_by_role("button", name="Find the sizes").click()
    held.has_come()
    box.fill("5 1/2")
    box.press("ArrowLeft")
    held.let_through()
    expect(page.locator(".way-answer").first).to_be_visible()
    expect(box).to_have_value("5 1/2")
    expect(box).to_be_focused()
    assert box.evaluate("box => box.selectionStart") == 4


def test_usual_thing_leaves_the_other_boxes_as_they_are(page: Page, address_of: Any) -> None:
    page.goto(f"{address_of('fold-flat-basket')}?by=contents")
    count = page.get_by_label("How many", exact=True)
    count.fill("12")
    page.get_by_text("Things of a published size").click()
    page.get_by_role("link", name="A5 sheets").click()
    expect(page.get_by_label("Width of one")).to_have_value("148 mm")
    expect(count).to_have_value("12")


def test_box_that_an_option_sets_keeps_what_is_typed_meanwhile(page: Page, address_of: Any) -> None:
    page.goto(address_of("zip-pouch"))
    held, box = Held(page, SIZE), page.locator("#id_zip-tape-width")
    box.press_sequentially("1")
    held.has_come()
    box.press_sequentially(" 3/8")
    held.let_through()
    expect(drawn(page)).to_contain_text("zip tape width 1 3⁄8 in")
    expect(box).to_have_value("1 3/8")


def test_link_keeps_the_focus_when_it_is_swapped(opened: Page) -> None:
    get = opened.get_by_role("link", name="Get this size")
    opened.fill("#id_width", "8")
    get.focus()
    expect(drawn(opened)).to_contain_text("width 8 in")
    opened.wait_for_timeout(100)
    expect(get).to_be_focused()


def test_search_that_gave_way_to_a_mistake_goes_on(page: Page, address_of: Any) -> None:
    page.goto(address_of("boxed-tote"))
    held = Held(page, "look=for-cloth")
    page.locator("#buying-search").scroll_into_view_if_needed()
    held.has_come()
    page.get_by_text("More about your cloth").click()
    page.locator("[name=cloth-price]").fill("dear")
    page.locator("[name=cloth-price]").press("Tab")
    expect(page.locator("#buying-ask")).to_contain_text("Not yet:")
    held.let_through()
    expect(page.locator("#buying-search")).to_contain_text("Looked further")
