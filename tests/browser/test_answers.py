"""A shop that does not answer, in a real browser: it is said, nothing is lost, and it goes on by itself."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def opened(page: Page, live_server: Any) -> Page:
    pattern = Pattern.objects.create(slug="fold-flat-basket", is_listed=True)
    publish(pattern, text_of("fold-flat-basket"))
    page.goto(live_server.url + pattern.get_absolute_url())
    return page


class Away:
    """A server that answers nothing that the page asks by itself, or only with an error, until it is back."""

    def __init__(self, page: Page, status: int = 0) -> None:
        self.page, self.status = page, status
        page.route(re.compile("/patterns/"), self._refuse)

    def _refuse(self, route: Route) -> None:
        if route.request.resource_type != "xhr":
            route.continue_()
        elif self.status:
            route.fulfill(status=self.status)
        else:
            route.abort("connectionrefused")

    def is_back(self) -> None:
        self.page.unroute(re.compile("/patterns/"))


def said(page: Page) -> Any:
    return page.locator("#no-answer [aria-live]")


def drawn(page: Page) -> Any:
    return page.locator("#size-side figcaption")


def test_change_without_answer_is_tried_again(opened: Page) -> None:
    away = Away(opened)
    opened.fill("#id_width", "8")
    expect(said(opened)).to_contain_text("The shop does not answer")
    again = opened.get_by_role("button", name="Try again")
    again.click()
    expect(said(opened)).to_contain_text("The shop does not answer")
    expect(opened.locator("#id_width")).to_have_value("8")
    away.is_back()
    opened.fill("#id_depth", "4")
    opened.locator("#id_depth").evaluate("box => box.value = '4 1/2'")  # written, and not yet asked for
    again.click()
    expect(drawn(opened)).to_contain_text("width 8 in")
    expect(drawn(opened)).to_contain_text("depth 4 1⁄2 in")
    expect(said(opened)).to_be_empty()
    expect(again).to_be_hidden()


@pytest.mark.parametrize(
    ("status", "words"), [(502, "does not answer"), (429, "asked too often"), (404, "no longer has")]
)
def test_next_change_brings_what_was_asked_in_vain(opened: Page, status: int, words: str) -> None:
    away = Away(opened, status)
    opened.get_by_role("link", name="From what goes in").click()
    expect(said(opened)).to_contain_text(words)
    away.is_back()
    opened.fill("#id_width", "8")
    expect(drawn(opened)).to_contain_text("width 8 in")
    expect(opened.get_by_label("Width of one")).to_be_visible()
    expect(said(opened)).to_be_empty()


def test_connection_that_is_back_is_tried_at_once(opened: Page) -> None:
    opened.context.set_offline(True)
    opened.fill("#id_width", "8")
    expect(said(opened)).to_contain_text("What you wrote is still here")
    opened.context.set_offline(False)
    expect(drawn(opened)).to_contain_text("width 8 in")
    expect(said(opened)).to_be_empty()
