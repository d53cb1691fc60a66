import pytest

from patterns.drawings import tokens
from patterns.drawings.fills import Fabric, fill, ground_of
from patterns.drawings.geometry import Spot
from tests.drawn import lines_of

SQUARE = (Spot(0, 0), Spot(20_000, 0), Spot(20_000, 10_000), Spot(0, 10_000))
TRIANGLE = (Spot(0, 0), Spot(30_000, 5_000), Spot(10_000, 25_000))


def drawn(fabric: Fabric, outline: tuple[Spot, ...]) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg">{"".join(fill(fabric, outline))}</svg>'


def test_exterior_is_plain() -> None:
    assert len(fill(Fabric("exterior"), SQUARE)) == 1


def test_hatch_ends_on_the_outline_and_leans_as_told() -> None:
    for lean, slope in (("up", -1), ("down", 1)):
        ways = lines_of(drawn(Fabric("lining", lean=lean), SQUARE), stroke=tokens.LINING_HATCH)
        assert len(ways) == 11
        for (x, y), (end_x, end_y) in ways:
            assert (end_y - y) == pytest.approx(slope * (end_x - x), abs=0.02)
            for at_x, at_y in ((x, y), (end_x, end_y)):
                assert at_x in (0, 20) or at_y in (0, 10)


def test_hatch_stays_inside_any_convex_outline() -> None:
    for way in lines_of(drawn(Fabric("lining"), TRIANGLE), stroke=tokens.LINING_HATCH):
        assert all(0 <= x <= 30 and 0 <= y <= 25 for x, y in way)


def test_dots_are_level_rows_every_second_one_set_off() -> None:
    ways = lines_of(drawn(Fabric("interfacing"), SQUARE), stroke=tokens.INTERFACING_DOTS)
    assert [way[0] for way in ways[:2]] == [(1.9, 0.95), (0.95, 2.85)]
    assert all(start[1] == end[1] for start, end in ways)


def test_tiny_outline_is_only_filled() -> None:
    speck = (Spot(100, 100), Spot(200, 100), Spot(200, 150), Spot(100, 150))
    assert len(fill(Fabric("interfacing"), speck)) == 1


@pytest.mark.parametrize("tint", ["exterior", "lining", "interfacing"])
def test_wrong_side_is_paler(tint: str) -> None:
    def light(colour: str) -> int:
        return sum(int(colour[place : place + 2], 16) for place in (1, 3, 5))

    assert light(ground_of(Fabric(tint, is_pale=True))) > light(ground_of(Fabric(tint)))


def test_what_is_no_fabric_is_clear() -> None:
    assert ground_of(Fabric(None)) == ground_of(Fabric("clear")) == tokens.SHEET
