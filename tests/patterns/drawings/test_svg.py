import pytest

from patterns.drawings.geometry import Spot
from patterns.drawings.svg import curve_through, document, element, millimetres, path_through, way_round
from tests.drawn import root_of


@pytest.mark.parametrize(
    ("micrometres", "written"),
    [
        (0, "0"),
        (10, "0.01"),
        (4, "0"),
        (5, "0.01"),
        (-4, "0"),
        (-12345, "-12.34"),
        (40_000, "40"),
        (1_500, "1.5"),
    ],
)
def test_millimetres_end_at_a_hundredth(micrometres: int, written: str) -> None:
    assert millimetres(micrometres) == written


def test_element_escapes_attributes() -> None:
    assert element("a", (("b", '"<&'), ("c", 1500))) == '<a b="&quot;&lt;&amp;" c="1.5"/>'


def test_path_is_open_or_closed() -> None:
    way = [Spot(0, 0), Spot(1000, -500)]
    assert path_through(way) == "M0 0L1 -0.5"
    assert path_through(way, is_closed=True) == "M0 0L1 -0.5Z"


def test_curve_meets_every_spot() -> None:
    assert curve_through([Spot(0, 0), Spot(6000, 0), Spot(6000, 6000)]) == ("M0 0C1 0 5 -1 6 0C7 1 6 5 6 6")


def test_document_says_what_it_shows_and_holds_no_markup_of_others() -> None:
    root = root_of(document(120_000, 80_000, "A <b>bag</b> & more", "Seen ]]> here", []))
    assert root.attrib["viewBox"] == "0 0 120 80"
    assert (root.attrib["width"], root.attrib["height"]) == ("120mm", "80mm")
    assert [child.text for child in root] == ["A <b>bag</b> & more", "Seen ]]> here"]


def test_way_round_bends_to_the_side_of_each_turn() -> None:
    """Every edge goes to its corner; the first begins at the last one."""
    way = way_round([(Spot(2000, 0), None), (Spot(4000, 2000), "right"), (Spot(0, 6000), "left")])
    assert way == "M2 0A2 2 0 0 1 4 2A4 4 0 0 0 0 6Z"
    assert way_round([(Spot(0, 0), "left"), (Spot(3000, 0), None), (Spot(3000, 3000), None)]) == (
        "M0 0L3 0L3 3A3 3 0 0 0 0 0Z"
    )
