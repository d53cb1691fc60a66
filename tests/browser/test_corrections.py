"""A correction in a real browser: the owner publishes it, and the customer finds it with the order."""

import re
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.utils import timezone
from playwright.sync_api import Page, expect

from orders.correcting import sweep_corrections
from orders.keys import new_key
from orders.placing import Placed, place_order
from orders.posting import send_due
from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of
from tests.browser.test_order import NARROW, WIDE, assert_fits, assert_no_violations
from tests.orders.conftest import sized_as

# What slips into the base gets more play, in inches alone.
TEXT = text_of("fold-flat-basket")
MENDED = TEXT.replace('"board play" = { in = "1/4"', '"board play" = { in = "3/8"')


@pytest.fixture
def placed(live_server: Any, page: Page, client: Any) -> Placed:
    """An order in a shop whose owner is logged in."""
    revision = publish(Pattern.objects.create(slug="fold-flat-basket", is_listed=True), TEXT)
    client.force_login(User.objects.create_superuser("owner"))
    page.context.add_cookies(
        [{"name": "session", "value": client.cookies["session"].value, "url": live_server.url}]
    )
    who = {"name": "Ada Example", "email": "ada@example.org", "source": "s"}
    return place_order(revision, sized_as(revision), key=new_key(), now=timezone.now(), **who)


def well(page: Page) -> None:
    for viewport in (NARROW, WIDE):
        page.set_viewport_size(viewport)
        assert_fits(page)
    assert_no_violations(page)


def test_from_the_text_to_the_customer(page: Page, live_server: Any, placed: Placed) -> None:
    page.goto(f"{live_server.url}/workroom/")
    well(page)
    page.get_by_role("link", name="Corrections").click()
    well(page)
    page.get_by_role("link", name="Fold-flat basket").click()
    page.get_by_label("Recipe text").fill(MENDED)
    page.get_by_role("button", name="see whom it concerns").click()
    expect(page.locator("#form-mistakes")).to_be_focused()
    well(page)
    page.get_by_role("link", name="There is no reason").click()
    expect(page.get_by_label("Why it is revised")).to_be_focused()
    page.keyboard.type("The board in the base was too wide to slip in.")
    page.get_by_role("button", name="see whom it concerns").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Whom revision 2 of Fold-flat basket concerns")
    expect(page.get_by_role("region", name="The letter to order")).to_contain_text(
        "Base board: 8 5⁄8 in, was 8 3⁄4 in"
    )
    well(page)
    page.get_by_role("button", name="Publish revision 2").click()
    expect(page.get_by_text("Fold-flat basket, revision 2 is published.")).to_be_visible()
    while sweep_corrections(timezone.now()):
        pass
    send_due(timezone.now())
    page.reload()
    well(page)
    page.get_by_role("link", name="Who was told").click()
    page.locator("summary").click()
    well(page)

    page.goto(f"{live_server.url}/orders/{placed.token}/")
    well(page)
    page.get_by_role("link", name="the corrected one").click()
    expect(page).to_have_url(re.compile("#line-2$"))
    expect(page.locator("#correction-2")).to_contain_text("The board in the base was too wide to slip in.")
    page.get_by_role("link", name="What is kept, and how long").click()
    well(page)
    page.goto(f"{live_server.url}/workroom/kept/")
    well(page)
