"""An order's page in a real browser: files as they are made, other units, renewed links, ranges."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.contrib.auth.models import User
from playwright.sync_api import Browser, Page, expect

from orders import delivery_views, issuing
from orders.issuing import issue
from orders.keys import new_key
from orders.models import DownloadPass, IssuedDocument
from orders.models.documents import MOST_ATTEMPTS
from orders.placing import Placed, place_order
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of
from tests.orders.conftest import blank_page

NARROW, WIDE = {"width": 390, "height": 844}, {"width": 1440, "height": 900}


@pytest.fixture
def placed(live_server: Any) -> Placed:
    """An order for the bucket, which has templates: five files, none made yet."""
    pattern = Pattern.objects.create(slug="round-bucket", is_listed=True)
    revision = publish(pattern, text_of("round-bucket"))
    sized = size(revision.recipe, "round-bucket", Units.INCHES)
    who = {"name": "Ada Example", "email": "ada@example.org", "source": "s"}
    return place_order(revision, sized, **who, key=new_key(), now=revision.published_at)


@pytest.fixture
def address(live_server: Any, placed: Placed) -> str:
    return f"{live_server.url}/orders/{placed.token}/"


@pytest.fixture
def blank(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(issuing, "MAKERS", dict.fromkeys(IssuedDocument.Kind, lambda *_: blank_page()))
    monkeypatch.setattr(delivery_views, "made_apart", issuing.made_here)


def assert_well(page: Page) -> None:
    """axe finds nothing, and nothing makes the page scroll sideways."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_page_goes_on_by_itself_and_keeps_the_focus(
    page: Page, address: str, blank: None, viewport: Any
) -> None:
    page.set_viewport_size(viewport)
    page.goto(address)
    expect(page.get_by_role("status")).to_have_text("0 of 5 files made. Look again")
    assert_well(page)
    link = page.get_by_role("link", name="Full-size templates on one large sheet")
    link.focus()
    for document in IssuedDocument.objects.all():
        issue(document)
    expect(page.get_by_role("status")).to_have_text("All 5 files are made.")
    expect(link).to_be_focused()
    expect(page.get_by_role("link", name="Look again")).to_have_count(0)
    assert_well(page)


@pytest.mark.parametrize("has_script", [True, False], ids=["script", "no script"])
def test_other_units_and_renewed_links(
    browser: Browser, address: str, blank: None, tmp_path: Path, has_script: bool
) -> None:
    context = browser.new_context(java_script_enabled=has_script, viewport=NARROW)
    page = context.new_page()
    page.goto(address)
    page.get_by_role("link", name="Have it in centimetres as well").click()
    expect(page.get_by_role("row", name="Diameter")).to_contain_text("20 cm")
    page.get_by_role("button", name="Make my files in centimetres").click()
    expect(page.get_by_role("heading", name="Round bucket, in centimetres")).to_be_visible()
    with page.expect_download() as started:
        page.locator("#order-files-2").get_by_role("link", name="Instruction book on A4").click()
    started.value.save_as(tmp_path / "book.pdf")
    assert (tmp_path / "book.pdf").read_bytes().startswith(b"%PDF-")
    page.reload()
    expect(page.locator("#order-pass")).to_contain_text("1 of 25 downloads used.")

    DownloadPass.objects.update(used=25)
    page.reload()
    expect(page.get_by_role("link", name="Instruction book on A4")).to_have_count(0)
    page.get_by_role("button", name="Renew the links").click()
    expect(page.locator("#order-pass")).to_contain_text("0 of 25 downloads used.")
    expect(page.get_by_role("link", name="Instruction book on A4")).to_have_count(2)
    context.close()


@pytest.mark.parametrize("viewport", [NARROW, WIDE], ids=["narrow", "wide"])
def test_pages_are_well(
    page: Page, address: str, live_server: Any, blank: None, viewport: Any, client: Any
) -> None:
    """Other units, an ended pass, its dead link, a file that failed; and what the owner sees of it."""
    page.set_viewport_size(viewport)
    page.goto(f"{address}1/other-units/")
    assert_well(page)
    page.goto(address)
    link = page.get_by_role("link", name="Instruction book on A4").get_attribute("href")
    DownloadPass.objects.update(used=25)
    page.reload()
    assert_well(page)
    page.goto(f"{live_server.url}{link}")
    expect(page.get_by_role("heading", level=1)).to_have_text("This link has ended")
    assert_well(page)
    DownloadPass.objects.update(used=0)
    IssuedDocument.objects.update(failure="It took longer than 60 seconds.", attempts=MOST_ATTEMPTS)
    page.goto(address)
    assert_well(page)
    page.goto(f"{live_server.url}{link}")
    expect(page.get_by_role("heading", level=1)).to_have_text("This file is not made yet")
    assert_well(page)
    client.force_login(User.objects.create_superuser("owner"))
    page.context.add_cookies(
        [{"name": "session", "value": client.cookies["session"].value, "url": live_server.url}]
    )
    page.goto(f"{live_server.url}/workroom/orders/")
    assert_well(page)
    page.get_by_role("button", name="Try again").click()
    expect(page.get_by_text("could not be made")).to_have_count(0)


def test_download_that_broke_off_goes_on(page: Page, address: str, blank: None) -> None:
    """The rest of a file, as a browser asks for it, fits what came before."""
    page.goto(address)
    link = page.get_by_role("link", name="Instruction book on A4").get_attribute("href")
    assert link is not None
    get: Callable[..., Any] = page.request.get
    origin = address.split("/orders/")[0]
    whole = get(origin + link)
    rest = get(origin + link, headers={"Range": "bytes=200-", "If-Range": whole.headers["etag"]})
    assert (rest.status, whole.body()[:200] + rest.body()) == (206, whole.body())
    page.reload()
    expect(page.locator("#order-pass")).to_contain_text("1 of 25 downloads used.")
