"""Choosing a size in a real browser, under the shop's own content policy."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

pytestmark = pytest.mark.django_db(transaction=True)
WIDE, NARROW = {"width": 1440, "height": 900}, {"width": 390, "height": 844}


@pytest.fixture
def address(live_server):
    pattern = Pattern.objects.create(slug="fold-flat-basket", is_listed=True)
    publish(pattern, text_of("fold-flat-basket"))
    return live_server.url + pattern.get_absolute_url()


@pytest.fixture
def opened(page: Page, address: str, complaints: list[str]):
    page.goto(address)
    return page


@pytest.mark.parametrize("height", [844, 667, 640])
def test_refused_size_is_read_on_a_phone(page: Page, address: str, height: int) -> None:
    """Its letters are large enough, and the mend stays in sight over the box that was typed in."""
    page.set_viewport_size({"width": 390, "height": height})
    page.goto(f"{address}?height=2")
    letters = page.locator(".size-sight .on-narrow svg text").evaluate_all(
        "all => all.map((text) => parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().a)"
    )
    assert min(letters) >= 12
    page.locator("#id_seam-allowance").focus()
    expect(page.get_by_role("link", name=re.compile("^Make the height"))).to_be_in_viewport(ratio=1)
    expect(page.locator("#id_seam-allowance")).to_be_in_viewport(ratio=1)


@pytest.fixture
def without_script(new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(address)
    return page


def caption(page):
    return page.locator("#size-side figcaption")


def verdict(page):
    return page.locator("#size-verdict")


def test_typed_size_is_drawn_and_stands_in_the_address(opened):
    opened.fill("#id_width", "8 1/2")
    expect(caption(opened)).to_contain_text("width 8 1⁄2 in")
    expect(opened.locator("#size-news")).to_contain_text("Drawn at width 8 1⁄2 in")
    expect(opened.locator("#id_width")).to_be_focused()
    expect(opened).to_have_url(re.compile("width=8%201%2F2"))
    expect(opened.get_by_role("cell", name="14 1⁄2 in")).to_have_count(3)
    opened.reload()
    expect(opened.locator("#id_width")).to_have_value("8 1/2")
    expect(caption(opened)).to_contain_text("width 8 1⁄2 in")


def test_box_and_slider_keep_in_step(opened):
    slider = opened.locator("#id_depth-slider")
    slider.focus()
    slider.press("ArrowLeft")
    expect(opened.locator("#id_depth")).to_have_value("4 3/4")
    expect(slider).to_have_attribute("aria-valuetext", "4 3/4 in")
    expect(caption(opened)).to_contain_text("depth 4 3⁄4 in")
    expect(slider).to_be_focused()
    opened.fill("#id_depth", "19 cm")
    expect(slider).to_have_js_property("value", "22")  # 7 1/2 in is the nearest of its steps from 2 in
    opened.fill("#id_depth", "6½")
    expect(slider).to_have_js_property("value", "18")


def test_half_a_number_is_left_in_peace(opened):
    with opened.expect_response(lambda answer: answer.status == 204):
        opened.fill("#id_width", "8 1/")
    expect(opened.locator("#id_width-error")).to_be_empty()
    expect(caption(opened)).to_contain_text("width 9 in")


def test_bad_value_is_answered_at_its_box_and_the_rest_stays(opened):
    opened.fill("#id_width", "seven")
    opened.press("#id_width", "Tab")
    expect(opened.locator("#id_width-error")).to_contain_text("“seven” is not a length.")
    expect(opened.locator("#id_width")).to_have_attribute("aria-invalid", "true")
    expect(opened.locator("#id_width")).to_have_value("seven")
    expect(verdict(opened)).to_contain_text("Not yet: Mend the width first.")
    expect(opened.get_by_role("link", name="Get this size")).to_have_count(0)
    expect(caption(opened)).to_contain_text("width 9 in")
    opened.fill("#id_width", "7")
    expect(opened.locator("#id_width-error")).to_be_empty()
    expect(opened.locator("#id_width")).not_to_have_attribute("aria-invalid", "true")
    expect(opened.get_by_role("link", name="Get this size")).to_be_visible()


def test_mend_is_applied(opened):
    opened.fill("#id_height", "2")
    expect(verdict(opened)).to_contain_text("Refused: A height of 2 in leaves no room")
    opened.get_by_role("link", name="Make the height 3 in").click()
    expect(opened.locator("#id_height")).to_have_value("3")
    expect(caption(opened)).to_contain_text("height 3 in")
    expect(verdict(opened)).not_to_contain_text("Refused")
    expect(verdict(opened)).to_be_focused()


def test_open_working_stays_open(opened):
    opened.get_by_text("How each number was worked out").click()
    opened.fill("#id_height", "7")
    expect(opened.locator("#workings")).to_contain_text("2 × 7 + 5 + 2 × 1⁄2 = 20 in")
    expect(opened.locator("#workings")).to_have_attribute("open", "")


def test_scroll_is_kept(opened):
    opened.locator("#id_interfacing_2").scroll_into_view_if_needed()
    before = opened.evaluate("scrollY")
    opened.locator("#id_interfacing_2").check()
    expect(opened.get_by_role("rowheader", name="Heavy interfacing panel")).to_be_attached()
    assert opened.evaluate("scrollY") == before


def test_mistakes_of_an_address_leave_the_summary_as_they_are_mended(page, address, complaints):
    page.goto(f"{address}?width=seven&depth=99")
    expect(page.locator("#error-summary")).to_be_focused()
    page.get_by_role("link", name="Width: “seven” is not a length.").click()
    expect(page.locator("#id_width")).to_be_focused()
    page.keyboard.type("8")
    page.fill("#id_width", "8")
    page.press("#id_width", "Enter")
    expect(page.locator("#error-summary li")).to_have_count(1)
    page.get_by_role("link", name="Make it 12 in").click()
    expect(page.locator("#error-summary")).to_have_count(0)
    expect(caption(page)).to_contain_text("width 8 in, height 6 in, depth 12 in")


def test_other_units_start_from_their_own_size(opened):
    opened.get_by_role("link", name="Use centimetres instead").click()
    expect(opened.locator("#id_width")).to_have_value("23")
    expect(opened.locator("#id_seam-allowance")).to_have_value("1")
    expect(caption(opened)).to_contain_text("width 23 cm")
    opened.locator("#id_seam-allowance-slider").press("ArrowRight")
    expect(opened.locator("#id_seam-allowance")).to_have_value("1.1")


def test_option_sets_what_an_empty_box_stands_for(page, live_server, address, complaints):
    pouch = Pattern.objects.create(slug="zip-pouch", is_listed=True)
    publish(pouch, text_of("zip-pouch"))
    page.goto(live_server.url + pouch.get_absolute_url())
    slider = page.locator("#id_zip-tape-width-slider")
    page.get_by_role("radio", name="No. 5 coil").check()
    expect(page.locator("#id_zip-tape-width-hint")).to_contain_text("Leave it empty for 1 1⁄4 in")
    expect(slider).to_have_attribute("aria-valuetext", "1 1/4 in")
    expect(caption(page)).to_contain_text("zip tape width 1 1⁄4 in")
    slider.focus()
    slider.press("ArrowRight")
    expect(page.locator("#id_zip-tape-width")).to_have_value("1 3/8")
    expect(caption(page)).to_contain_text("zip tape width 1 3⁄8 in")
    expect(slider).to_be_focused()


def test_keyboard_alone(opened):
    """From the top of the page to the order: skip, type a size, choose, mend, go on."""
    opened.keyboard.press("Tab")
    expect(opened.get_by_role("link", name="Skip to the page")).to_be_focused()
    opened.keyboard.press("Enter")
    for _ in range(30):
        opened.keyboard.press("Tab")
        if opened.evaluate("document.activeElement.id") == "id_height":
            break
    opened.keyboard.press("Control+a")
    opened.keyboard.type("2")
    opened.keyboard.press("Enter")
    mend = opened.get_by_role("link", name="Make the height 3 in")
    expect(mend).to_be_visible()
    while not mend.evaluate("link => link === document.activeElement"):
        opened.keyboard.press("Tab")
    opened.keyboard.press("Enter")
    expect(opened.locator("#id_height")).to_have_value("3")
    opened.locator("#id_interfacing_1").focus()
    opened.keyboard.press("ArrowDown")
    expect(opened.get_by_role("rowheader", name="Heavy interfacing panel")).to_be_attached()
    get = opened.get_by_role("link", name="Get this size")
    while not get.evaluate("link => link === document.activeElement"):
        opened.keyboard.press("Tab")
    opened.keyboard.press("Enter")
    expect(opened).to_have_url(re.compile(r"/order/\?units=in&width=9&height=3&.*interfacing=heavy"))


@pytest.mark.parametrize("is_drawn", [True, False], ids=["drawn", "not yet drawn"])
def test_a_press_takes_the_size_that_is_written(opened, is_drawn):
    """Leaving the box asks for the size again; the link under the finger waits until it is let go."""
    opened.locator("#id_width").fill("8")
    if is_drawn:
        expect(caption(opened)).to_contain_text("width 8 in")
    opened.get_by_role("link", name="Get this size").hover()
    opened.mouse.down()
    opened.wait_for_timeout(400)
    opened.mouse.up()
    expect(opened).to_have_url(re.compile(r"/order/\?units=in&width=8&height=6&"))


def test_whole_without_script(without_script):
    page = without_script
    expect(page.locator("#id_width-slider")).to_be_hidden()
    page.fill("#id_width", "8 1/2")
    page.fill("#id_height", "2")
    page.get_by_role("button", name="Show this size").click()
    expect(caption(page)).to_contain_text("width 8 1⁄2 in, height 2 in")
    page.get_by_role("link", name="Make the height 3 in").click()
    expect(page.locator("#id_width")).to_have_value("8 1/2")
    expect(page.locator("#id_height")).to_have_value("3")
    page.fill("#id_depth", "seven")
    page.get_by_role("button", name="Show this size").click()
    expect(page).to_have_title(re.compile("^Error: "))
    expect(page.get_by_role("link", name="Depth: “seven” is not a length.")).to_be_visible()
    expect(page.locator("#id_depth")).to_have_value("seven")


def test_letters_of_the_drawing_are_read_on_a_telephone(page, address):
    page.set_viewport_size(NARROW)
    page.goto(address)
    shown = page.locator(".size-sight svg:visible")
    expect(shown).to_have_count(1)
    heights = shown.evaluate(
        """svg => {
            const scale = svg.getScreenCTM().a;
            return [...svg.querySelectorAll("text")].map((text) => text.getAttribute("font-size") * scale);
        }"""
    )
    assert min(heights) >= 12


@pytest.mark.parametrize("size", [WIDE, NARROW], ids=["wide", "narrow"])
@pytest.mark.parametrize(
    "query", ["", "?height=2", "?width=seven&depth=99&interfacing=no", "?height=4&diameter=2"]
)
def test_no_axe_violations(page, address, size, query):
    page.set_viewport_size(size)
    page.goto(address + query)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("size", [WIDE, NARROW], ids=["wide", "narrow"])
@pytest.mark.parametrize("path", ["/", "/patterns/no-such-bag/"])
def test_no_axe_violations_on_list_and_error_page(page, live_server, address, size, path):
    page.set_viewport_size(size)
    page.goto(live_server.url + path)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("query", ["", "?height=2", "?width=seven&depth=99"])
def test_no_sideways_scroll_at_320(page, address, query):
    page.set_viewport_size({"width": 320, "height": 600})
    page.goto(address + query)
    assert page.evaluate("document.documentElement.scrollWidth") == 320


def test_targets_are_large_enough(page, address):
    """24 px in both directions; links within a sentence are exempt (WCAG 2.2, 2.5.8)."""
    page.set_viewport_size(NARROW)
    page.goto(address)
    small = page.evaluate(
        """() => [...document.querySelectorAll("main a, main button, main input, main summary, header a")]
        .filter((target) => target.checkVisibility() && !target.closest("p, dd"))
        .filter((target) => { const box = target.getBoundingClientRect();
                              return box.height && (box.width < 24 || box.height < 24); })
        .map((target) => target.outerHTML)"""
    )
    assert small == []
