from xml.etree import ElementTree

import pytest

from orders.charts import bar_chart

SVG = "{http://www.w3.org/2000/svg}"


def drawn(*bars: tuple[str, int], title: str = "Width") -> ElementTree.Element:
    return ElementTree.fromstring(bar_chart("tray-1", title, bars))  # noqa: S314 - our own picture


def test_title_and_description_are_named() -> None:
    picture = drawn(("8 1⁄2", 3), ("9", 12))
    assert picture.attrib["role"] == "img"
    assert picture.attrib["aria-labelledby"] == "tray-1-title tray-1-desc"
    assert picture.find(f"{SVG}title").text == "Width"
    assert picture.find(f"{SVG}desc").text == "8 1⁄2: 3, 9: 12"


def test_bars_are_in_proportion() -> None:
    widths = [int(bar.attrib["width"]) for bar in drawn(("1", 5), ("2", 10), ("3", 0)).iter(f"{SVG}rect")]
    assert widths == [90, 180, 0]


def test_one_among_thousands_is_still_seen() -> None:
    widths = [int(bar.attrib["width"]) for bar in drawn(("1", 1), ("2", 100_000)).iter(f"{SVG}rect")]
    assert widths == [1, 180]


def test_nothing_sold_at_all_is_drawn() -> None:
    assert [bar.attrib["width"] for bar in drawn(("1", 0)).iter(f"{SVG}rect")] == ["0"]


@pytest.mark.parametrize("hostile", ["<script>alert(1)</script>", '"><b>', "&amp;", "]]>"])
def test_markup_in_a_label_is_text(hostile: str) -> None:
    picture = drawn((hostile, 1), title=hostile)
    assert picture.find(f"{SVG}title").text == hostile
    assert not [element for element in picture.iter() if element.tag.endswith(("script", "b"))]


def test_no_styles_and_no_script_that_the_content_policy_would_block() -> None:
    assert "style" not in bar_chart("a", "b", [("1", 1)])
