"""The ways to choose a size, and the one that has no search: the size chart."""

import re
from html import unescape

import pytest

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}


def chosen(html):
    """The names of what is marked as chosen, among the ways and the sizes of the chart."""
    return re.findall(r'<a [^>]*aria-current="true"[^>]*>([^<]*)</a>', html)


def test_each_way_keeps_the_size_the_cloth_and_what_was_typed(client, basket):
    query = "units=cm&width=20&cloth=fat-quarter&thing-width=14.8"
    html = client.get(f"{basket.get_absolute_url()}?{query}").content.decode()
    assert chosen(html) == ["By its measures"]
    for by in ("chart", "contents", "cloth"):
        link = unescape(re.search(rf'id="way-{by}"[^>]* href="([^"]*)"', html)[1])
        page = client.get(link).content.decode()
        assert re.search(r'name="width" value="20"', page)
        assert re.search(r'name="thing-width" value="14.8"', page)
        assert 'value="fat-quarter" selected' in page
        assert f'<input type="hidden" name="by" value="{by}">' in page


def test_chart_puts_a_size_in_and_marks_it(client, make_pattern):
    pattern = make_pattern()
    html = client.get(f"{pattern.get_absolute_url()}?by=chart&seam-allowance=3/8").content.decode()
    assert chosen(html) == ["From the size chart"]
    link = re.search(r'id="chart-size-1" href="([^"]*)" data-typed="([^"]*)"', html)
    assert unescape(link[2]) == '{"width": "8", "height": "5", "depth": "4"}'
    page = client.get(f"{pattern.get_absolute_url()}{unescape(link[1])}").content.decode()
    assert chosen(page) == ["From the size chart", "For tins"]
    assert 'name="seam-allowance" value="3/8"' in page
    part = client.get(f"{pattern.get_absolute_url()}{unescape(link[1])}", headers=HTMX).content.decode()
    assert 'id="size-way" hx-swap-oob="true"' in part
    assert chosen(part) == ["For tins"]


def test_way_that_is_none_is_by_measures(client, make_pattern):
    html = client.get(f"{make_pattern().get_absolute_url()}?by=colour").content.decode()
    assert chosen(html) == ["By its measures"]
    assert "Left out" not in html


def test_way_back_to_the_measures(client, basket):
    """Its part says no way, and keeps what was typed for the others."""
    address = f"{basket.get_absolute_url()}by/measures/?by=contents&thing-width=14.8"
    part = client.get(address, headers=HTMX)
    assert part.status_code == 200
    assert 'name="thing-width" value="14.8"' in part.content.decode()
    assert 'name="by"' not in part.content.decode()
    assert part.headers["HX-Push-Url"] == f"{basket.get_absolute_url()}?thing-width=14.8"
