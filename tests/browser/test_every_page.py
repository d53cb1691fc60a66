"""Every page of the shop and the workroom in a real browser, narrow and wide, under the shop's own policy."""

from typing import Any

import pytest
from django.test import Client
from playwright.sync_api import Page

from tests.browser.test_order import NARROW, WIDE, assert_fits, assert_no_violations
from tests.busy_shop import busy_shop, customer_of, owner_of_it
from tests.walk import Walk, kind_of

pytestmark = pytest.mark.django_db(transaction=True)


def one_of_each(walk: Walk, *begins: str) -> list[str]:
    """Return the addresses of the first page of each name, and of all that the walk begins with."""
    first: dict[str, str] = {}
    for page in walk.pages(*begins):
        first.setdefault(str(kind_of(page.address)).split()[0], page.address)
    return list(dict.fromkeys((*begins, *first.values())))


# Of the smallest letters of a page's drawings, how large they come out, px.
LETTERS = """() => Math.min(...[...document.querySelectorAll("svg text")]
  .filter((text) => text.checkVisibility())
  .map((text) => [parseFloat(getComputedStyle(text).fontSize), text.getScreenCTM()])
  .map(([size, { a, b }]) => size * Math.hypot(a, b)), 1000)"""
LEAST_LETTERS = 11
# What is pressed apart from a line of words, and is smaller than a finger needs.
TOO_SMALL = """() => [...document.querySelectorAll("a[href], button, input, select, summary")]
  .filter((one) => one.checkVisibility() && !one.closest(".visually-hidden, .skip-link"))
  .filter((one) => getComputedStyle(one).display !== "inline")
  .filter((one) => one.offsetHeight < 24 || one.offsetWidth < 24)
  .map((one) => one.outerHTML.slice(0, 200))"""


def assert_read_and_pressed(page: Page) -> None:
    """On a phone the letters of drawings are read, and what is pressed is found with a thumb."""
    assert page.evaluate(LETTERS) >= LEAST_LETTERS
    assert page.evaluate(TOO_SMALL) == []


def faults_of(page: Page, base: str, client: Client, addresses: list[str]) -> list[str]:
    """Return what is wrong with the pages, as this client sees them."""
    page.context.clear_cookies()
    page.context.add_cookies(
        [{"name": name, "value": each.value, "url": base} for name, each in client.cookies.items()]
    )
    faults: list[str] = []
    page.on(
        "console", lambda line: faults.append(f"{page.url}: {line.text}") if line.type == "error" else None
    )
    for address in addresses:
        page.goto(base + address)
        for size in (WIDE, NARROW):
            page.set_viewport_size(size)
            try:
                assert_no_violations(page)
                assert_fits(page)
                if size is NARROW:
                    assert_read_and_pressed(page)
            except AssertionError as error:
                faults.append(f"{address} at {size['width']}: {str(error)[:1000]}")
    return faults


def test_every_page(page: Page, live_server: Any) -> None:
    customer, begins = customer_of(busy_shop("in"))
    owner = owner_of_it()
    shown = one_of_each(Walk(customer, sends_forms=False), *begins)
    kept = one_of_each(Walk(owner, sends_forms=False), "/workroom/")
    faults = faults_of(page, live_server.url, customer, shown)
    faults += faults_of(
        page, live_server.url, owner, [each for each in kept if each.startswith("/workroom/")]
    )
    assert not faults, "\n".join(faults)
