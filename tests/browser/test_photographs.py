"""Photographs in a real browser, under the shop's own content policy."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of
from tests.pictures import exif, jpeg

pytestmark = pytest.mark.django_db(transaction=True)
WIDE, NARROW = {"width": 1440, "height": 900}, {"width": 390, "height": 844}

DECODED = """async image => {
  await image.decode();
  return [image.naturalWidth, image.naturalHeight, image.currentSrc];
}"""


@pytest.fixture
def address(live_server):
    for slug in ("zip-pouch", "fold-flat-basket"):
        publish(Pattern.objects.create(slug=slug, is_listed=True), text_of(slug))
    return live_server.url


@pytest.fixture
def owners_page(page, address, client, django_user_model, complaints):
    client.force_login(django_user_model.objects.create_superuser("owner", password="an owner in a test"))
    cookie = client.cookies["session"]
    page.context.add_cookies([{"name": "session", "value": cookie.value, "url": address}])
    page.goto(f"{address}/workroom/photographs/")
    return page


def assert_well(page):
    for size in (WIDE, NARROW):
        page.set_viewport_size(size)
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def add(page, alt, **options):
    page.get_by_label("Photograph", exact=True).set_input_files(
        {"name": "one.jpg", "mimeType": "image/jpeg", "buffer": jpeg(**options)}
    )
    page.get_by_role("region", name="Add a photograph").get_by_label("What it shows").fill(alt)
    page.get_by_role("button", name="Add this photograph").click()
    expect(page.get_by_text(f"Customers now see the photograph: “{alt}”")).to_be_visible()


def test_from_the_workroom_to_the_list(owners_page, address):
    page = owners_page
    page.get_by_role("link", name="Photographs of Fold-flat basket").click()
    add(page, "The basket on a shelf", width=1800, height=1200)
    add(page, "The basket, turned", width=900, height=700, exif=exif(turned=6))
    assert_well(page)
    page.get_by_role("button", name="Show earlier “The basket, turned”").click()
    first = page.locator(".owner-photograph img").first
    expect(first).to_have_attribute("alt", "The basket, turned")
    page.goto(f"{address}/")
    shown = page.get_by_role("img", name="The basket, turned")
    size = shown.evaluate(DECODED)
    assert size[0] < size[1]
    assert size[2].endswith(".webp")
    assert_well(page)
    page.goto(f"{address}/patterns/fold-flat-basket/")
    expect(page.get_by_role("region", name="Made up").get_by_role("img")).to_have_count(2)
    assert_well(page)
