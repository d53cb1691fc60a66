"""A customer's own cloth in a real browser, under the shop's own content policy."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of
from tests.pictures import jpeg

pytestmark = pytest.mark.django_db(transaction=True)
WIDE, NARROW = {"width": 1440, "height": 900}, {"width": 390, "height": 844}
LOADED = """async drawing => {
  const address = drawing.querySelector("pattern image").getAttribute("href");
  const picture = new Image();
  picture.src = address;
  await picture.decode();
  return picture.naturalWidth;
}"""


@pytest.fixture
def address(live_server):
    publish(Pattern.objects.create(slug="fold-flat-basket", is_listed=True), text_of("fold-flat-basket"))
    return f"{live_server.url}/patterns/fold-flat-basket/"


@pytest.fixture
def opened(page, address, complaints):
    """The pattern's page, which complains of nothing."""
    page.goto(address)
    return page


def send(page, strip="4 1/2"):
    page.get_by_label("Picture of the exterior cloth").set_input_files(
        {"name": "cloth.jpg", "mimeType": "image/jpeg", "buffer": jpeg(600, 400)}
    )
    page.locator("#id_exterior_strip").fill(strip)
    page.locator("#id_exterior_one_way").check()
    page.get_by_role("button", name="Show my cloth").click()


def tile(page):
    """How wide the first tile of the drawing is on the cloth, and how far on the page a mm of it goes."""
    shown = page.locator("#size-side .drawing pattern").first
    matrix = re.findall(r"-?[\d.]+", shown.get_attribute("patternTransform"))
    return shown.get_attribute("width"), float(matrix[0])


def assert_well(page):
    for size in (WIDE, NARROW):
        page.set_viewport_size(size)
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_it_follows_the_size_that_is_chosen(opened):
    opened.get_by_role("link", name="See it in your own cloth").click()
    opened.locator("#id_width").fill("7")
    opened.locator("#id_width").press("Tab")
    expect(opened.locator("#own-cloth-size")).to_have_value(re.compile("width=7&"))
    send(opened)
    expect(opened).to_have_url(re.compile("width=7&.*#size-sight"))
    assert opened.locator("#size-side .drawing").first.evaluate(LOADED) == 600
    width, scale = tile(opened)
    assert width == "114.3"
    opened.locator("#id_width").fill("14")
    opened.locator("#id_width").press("Tab")
    expect(opened.locator("#size-side figcaption").first).to_contain_text("width 14 in")
    wider, smaller = tile(opened)
    assert wider == width
    assert smaller < scale
    opened.get_by_role("link", name="Cut it one way instead").click()
    expect(opened.locator("#id_exterior-print_1, [name=exterior-print][value=one-way]").first).to_be_checked()
    expect(opened.get_by_text("stands upside down on one face")).to_have_count(0)
    assert_well(opened)
    opened.get_by_role("button", name="Take the exterior cloth off").click()
    expect(opened.locator("#size-side pattern")).to_have_count(0)


def test_mistakes_are_said(opened):
    send(opened, strip="wide")
    expect(opened.get_by_role("alert")).to_contain_text("“wide” is not a length")
    expect(opened.locator("#id_exterior_strip")).to_have_value("wide")
    assert_well(opened)


def test_without_script(new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}?units=cm&width=20")
    send(page, strip="10")
    expect(page.locator("#size-side .drawing pattern").first).to_have_attribute("width", "100")
    expect(page.locator("#id_width")).to_have_value("20")
