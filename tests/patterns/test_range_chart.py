"""The designer's range chart: who sees it, what it shows, what is asked and how mistakes are answered."""

import re
from html import unescape
from typing import Any

import pytest
from django.contrib.auth.models import Permission, User
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from patterns.models import Pattern
from patterns.publishing import PublishingError, publish
from patterns.range_page import letter
from patterns.starters import text_of

from .conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
BAD_VALUES = ["seven", "0", "-3", "1/0", "9e9", "7" * 400, "<b>7</b>", "7\x00", "٣"]


def words(html: str) -> str:
    """The words of a page, as a person reads them."""
    html = re.sub(r"<(title|desc|script)\b.*?</\1>|</?span[^>]*>", "", html, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


@pytest.fixture
def page_of(client, owner):
    """What the owner gets: the answer, its markup, its words."""
    client.force_login(owner)

    def page_of(pattern: Pattern, query: Any = "", headers: Any = None) -> tuple[Any, str, str]:
        response = client.get(
            reverse("patterns:range-chart", args=[pattern.slug]), query, headers=headers or {}
        )
        html = response.content.decode()
        return response, html, words(html)

    return page_of


def axes(across: str, up: str, **more: str) -> dict[str, str]:
    return {
        "chart-across": across,
        "chart-up": up,
        **{key.replace("_", "-"): text for key, text in more.items()},
    }


def test_page_shows_the_width_by_the_depth(page_of, basket) -> None:
    response, html, text = page_of(basket)
    assert response.status_code == 200
    assert "<title>Range of Fold-flat basket – The pattern room</title>" in html
    assert "Fold-flat basket: the range of width by depth</title>" in html
    assert "2,829 sizes, each worked out" in text
    assert "Refused 276 Advised against 1,380 Good 1,173" in text
    assert "Height 6 in, seam allowance 1⁄2 in; interfacing light, exterior print no direction" in text
    assert (
        "A The triangle leaves room under the top edge. Refused from depth 11 1⁄4 in up, at every width."
        in text
    )
    assert "At 276 of the 2,829 sizes here." in text
    assert "Holds everywhere here The opening is wide enough to turn the basket through." in text
    assert "style=" not in html


def test_page_says_what_fits_a_fat_quarter(page_of, basket) -> None:
    _, _, text = page_of(basket)
    assert (
        "1,081 of the 2,553 sizes that are not refused can be cut from one fat quarter of each fabric" in text
    )
    assert "A fat quarter is 21 in across the cloth and 18 in along it" in text
    _, _, text = page_of(basket, {"units": "cm"})
    assert "A fat quarter is 55 cm across the cloth and 50 cm along it" in text


def test_address_chooses_measures_and_options(page_of, basket) -> None:
    query = axes("height", "depth", units="cm", width="30", exterior_print="one-way", seam_allowance="2.5")
    _, html, text = page_of(basket, query)
    assert "the range of height by depth</title>" in html
    assert "Width 30 cm, seam allowance 2.5 cm; interfacing light, exterior print one way" in text
    assert "The exterior’s base seam keeps clear of the pleat lines. Refused at depth 5 cm" in text
    assert '<option value="height" selected>Height</option>' in html
    assert 'name="width" value="30"' in html
    assert 'name="height"' not in html


def test_corner_cases_are_listed_by_name(page_of, basket) -> None:
    _, html, text = page_of(basket)
    assert "Least width and height, most depth 3 × 2 × 12 in Refused The triangle leaves room" in text
    assert "Most width, height and depth 20 × 20 × 12 in Good – Fits a fat quarter: No" in text
    size = (
        f"{basket.get_absolute_url()}?units=in&amp;width=3&amp;height=2&amp;depth=12&amp;seam-allowance=1%2F2"
    )
    assert f'href="{size}&amp;interfacing=light' in html


def test_default_and_named_sizes_are_listed_with_their_numbers(page_of, basket) -> None:
    _, html, text = page_of(basket)
    assert "Default 9 × 6 × 5 in Good – Fits a fat quarter: Yes" in text
    assert "4. For magazines 13 × 10 × 5 in Good – Fits a fat quarter: No" in text
    assert html.count("<circle") == 4


def test_thinned_picture_says_so(page_of, basket) -> None:
    _, _, text = page_of(basket, axes("width", "height"))
    assert "Of the height, one step in 2 is shown: 1⁄2 in from each to the next." in text
    assert "Both ends and the default are always among them." in text


def test_a_bare_number_can_be_an_axis(page_of, make_pattern) -> None:
    response, html, _ = page_of(make_pattern(), axes("handles", "tape-width"))
    assert response.status_code == 200
    assert "the range of handles by tape width</title>" in html


def test_one_axis_in_the_address_leaves_the_other_to_us(page_of, basket) -> None:
    _, html, _ = page_of(basket, {"chart-across": "depth"})
    assert "the range of depth by width</title>" in html
    _, html, _ = page_of(basket, {"chart-up": "Width"})
    assert "the range of depth by width</title>" in html


def test_values_of_the_axes_are_left_aside(page_of, basket) -> None:
    """A form that was drawn for other measures still sends theirs."""
    _, _, text = page_of(basket, axes("width", "depth", depth="abc", width="99"))
    assert "Mend this" not in text
    assert "2,829 sizes" in text


def test_other_pictures_are_linked(page_of, basket) -> None:
    _, html, text = page_of(basket, axes("width", "depth", height="8", seam_allowance="5/8"))
    assert "Width by height Width by depth Height by depth Other measures and options" in text
    link = "?chart-across=width&amp;chart-up=height&amp;units=in&amp;depth=5&amp;seam-allowance=5%2F8&amp;"
    assert f'href="{link}interfacing=light' in html
    assert html.count('aria-current="true"') == 1


def test_other_units_keep_measures_and_options(page_of, basket) -> None:
    _, html, _ = page_of(basket, axes("height", "depth", interfacing="heavy"))
    assert 'href="?chart-across=height&amp;chart-up=depth&amp;units=cm&amp;interfacing=heavy' in html


@pytest.mark.parametrize("bad", BAD_VALUES)
def test_bad_value_is_answered_at_its_box(page_of, basket, bad: str) -> None:
    response, html, text = page_of(basket, {"seam-allowance": bad})
    assert response.status_code == 200
    assert "<title>Error: Range of" in html
    assert re.search(r'id="id_seam-allowance-error">Mend this: ', html)
    assert 'aria-invalid="true"' in html
    assert "Not yet: the chart is drawn once what is marked is mended." in text
    assert "<b>7</b>" not in html


@pytest.mark.parametrize("bad", ["girth", "", "<b>", "width\x00", "w" * 500])
def test_unknown_measure_is_answered_at_its_list(page_of, basket, bad: str) -> None:
    response, html, text = page_of(basket, {"chart-up": bad})
    assert response.status_code == 200
    if bad:
        assert "is not a measure of this pattern. Choose width, height, depth or seam allowance." in text
        assert "<b>" not in html
    assert 'href="#id_chart-up"' in html


def test_same_measure_twice_is_answered(page_of, basket) -> None:
    _, html, text = page_of(basket, axes("depth", "depth"))
    assert "Mend this: The depth goes from left to right already. Choose another measure." in text
    assert html.count('<option value="depth" selected>') == 2


def test_key_given_twice_is_answered(page_of, basket) -> None:
    _, _, text = page_of(basket, {"chart-up": ["depth", "height"]})
    assert "From bottom to top: It is given twice. Choose one." in text


def test_unknown_choice_is_answered_and_strangers_are_named(page_of, basket) -> None:
    _, _, text = page_of(basket, {"interfacing": "steel", "colour": "red"})
    assert "“steel” is not one of the choices. Choose none, light or heavy." in text
    assert "Left out: this pattern has no measure or option “colour”." in text


def test_option_sets_a_measure_that_is_left_empty(page_of, make_pattern) -> None:
    _, _, text = page_of(make_pattern(), {"tape": "extra-wide", "tape-width": ""})
    assert "tape width 1 1⁄2 in" in text


def test_part_is_swapped_and_told(page_of, basket) -> None:
    response, html, _ = page_of(basket, axes("height", "depth"), HTMX)
    assert html.strip().startswith('<div id="range-part">')
    assert "HX-Request" in response.headers["Vary"]
    assert '<p id="range-news" hx-swap-oob="innerHTML">The chart is drawn. 2,993 sizes: ' in html
    _, html, _ = page_of(basket, axes("depth", "depth"), HTMX)
    assert 'id="range-mistakes" tabindex="-1" autofocus' in html


def test_nothing_bites(page_of, basket) -> None:
    _, _, text = page_of(basket, axes("width", "depth", height="20"))
    assert "Nothing bites here: every check holds at every size of the chart." in text
    assert "A line with a letter" not in text


def test_pattern_of_one_measure_has_no_chart(page_of, make_pattern) -> None:
    text = """\
title = "Mat"
language = "en"
summary = "A round mat."
skill = "Beginner"
time = "1 hour"
revised = "2026-11-20"

[finished]
form = "open basket"
width = "width"
height = "width"
depth = "width"

[measures.width]
role = "size"
says = "Across."
in = { least = "3", most = "20", default = "9", step = "1/4" }
cm = { least = "8", most = "50", default = "23", step = "0.5" }

[pieces.panel]
from = "cloth"
cut = "1"
width = "width"
height = "width"

[[truings]]
says = "both sides"
one = "panel width"
other = "panel height"

[materials.cloth]
kind = "fabric"
tint = "exterior"
says = "Canvas."

[[steps]]
title = "Hem"
does = "Hem it."
"""
    response, _, told = page_of(make_pattern("mat", text))
    assert response.status_code == 200
    assert "A chart has two measures, and this pattern has only one." in told


def test_names_of_the_axes_are_kept_from_recipes(make_pattern) -> None:
    spoiled = SHELF_TEXT.replace("measures.handles", 'measures."chart up"')
    with pytest.raises(PublishingError, match="“chart up” is a word of the shop's own addresses"):
        make_pattern(text=spoiled)


def test_letters_go_on_after_z() -> None:
    assert [letter(rank) for rank in (0, 25, 26, 51, 52)] == ["A", "Z", "AA", "AZ", "BA"]


# Who sees it, and where it is found


@pytest.mark.parametrize("name", ["range-chart", "range-list"])
def test_stranger_is_asked_to_log_in(client, basket, name: str) -> None:
    path = reverse(f"patterns:{name}", args=[basket.slug] if name == "range-chart" else [])
    response = client.get(path)
    assert response.status_code == 302
    assert response.headers["Location"] == f"{reverse('admin:login')}?next={path}"


def test_staff_needs_the_permission(client, basket) -> None:
    helper = User.objects.create_user("helper", is_staff=True)
    client.force_login(helper)
    path = reverse("patterns:range-chart", args=[basket.slug])
    assert client.get(path).status_code == 403
    assert b"Only you see this" not in client.get(basket.get_absolute_url()).content
    helper.user_permissions.add(Permission.objects.get(codename="view_pattern"))
    assert client.get(path).status_code == 200


def test_wrong_method_gets_405(client, owner, basket) -> None:
    client.force_login(owner)
    assert client.post(reverse("patterns:range-chart", args=[basket.slug])).status_code == 405


def test_unknown_and_unpublished_patterns_get_404(page_of, make_pattern) -> None:
    assert page_of(Pattern(slug="no-such"))[0].status_code == 404
    assert page_of(make_pattern("empty", None))[0].status_code == 404


def test_unlisted_pattern_is_shown_to_the_owner(page_of, make_pattern) -> None:
    assert page_of(make_pattern(is_listed=False))[0].status_code == 200


def test_newest_revision_is_shown(page_of, make_pattern) -> None:
    pattern = make_pattern()
    publish(pattern, SHELF_TEXT.replace('default = "9"', 'default = "10"'))
    assert "Default 10 × 6 × 5 in" in page_of(pattern)[2]


def test_list_leads_to_each_chart(client, owner, make_pattern) -> None:
    make_pattern()
    make_pattern("empty", None)
    client.force_login(owner)
    text = client.get(reverse("patterns:range-list")).content.decode()
    assert f'href="{reverse("patterns:range-chart", args=["shelf-box"])}"' in text
    assert "empty Not published yet" in words(text)
    Pattern.objects.filter(slug="empty").delete()


def test_empty_list_says_so(client, owner) -> None:
    client.force_login(owner)
    assert "There is no pattern yet." in words(client.get(reverse("patterns:range-list")).content.decode())


def test_it_is_found_from_where_patterns_are(client, owner, basket) -> None:
    client.force_login(owner)
    chart = f'href="{reverse("patterns:range-chart", args=[basket.slug])}"'
    ranges = f'href="{reverse("patterns:range-list")}"'
    assert chart in client.get(reverse("admin:patterns_pattern_changelist")).content.decode()
    assert chart in client.get(reverse("admin:patterns_pattern_change", args=[basket.pk])).content.decode()
    assert chart in client.get(basket.get_absolute_url()).content.decode()
    assert ranges in client.get(reverse("admin:index")).content.decode()
    assert ranges in client.get(reverse("orders:owner-orders")).content.decode()


def test_customers_see_no_link_to_it(client, basket) -> None:
    assert "/range/" not in client.get(basket.get_absolute_url()).content.decode()


def test_queries_do_not_grow(client, owner, make_pattern, django_assert_num_queries) -> None:
    client.force_login(owner)
    path = reverse("patterns:range-list")
    make_pattern()
    client.get(path)
    with CaptureQueriesContext(connection) as one:
        client.get(path)
    for at in range(9):
        make_pattern(f"shelf-box-{at}")
    with django_assert_num_queries(len(one)):
        client.get(path)


@pytest.mark.parametrize("slug", ["zip-pouch", "gift-bag", "packable-tote"])
def test_every_starter_has_a_chart(page_of, make_pattern, slug: str) -> None:
    response, html, _ = page_of(make_pattern(slug, text_of(slug)))
    assert response.status_code == 200
    assert "the range of width by depth</title>" in html
