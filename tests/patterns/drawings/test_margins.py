from hypothesis import given
from hypothesis import strategies as st

from patterns.drawings.geometry import Spot
from patterns.drawings.labels import Block, TextLine
from patterns.drawings.margins import Led, column, rows

PIECE_RIGHT, PIECE_BOTTOM, PAGE = 70_000, 60_000, 118_500


def block(text: str) -> Block:
    return Block((TextLine(text, 2900), TextLine("12½ in from the bottom", 2900)))


def assert_apart(led: list[Led]) -> None:
    """No label on another, and no upright leader through a label."""
    for one in led:
        for other in led:
            if one is not other:
                assert not one.label.box.overlaps(other.label.box)
                (x, top), (_, bottom) = one.leader[0], one.leader[-1]
                box = other.label.box
                is_upright = len(one.leader) == 2
                assert not (is_upright and box.left < x < box.right and top < box.bottom and bottom > box.top)


def test_column_keeps_the_order_of_its_lines() -> None:
    entries = [(Spot(PIECE_RIGHT, y), block(str(y))) for y in (50_000, 10_000, 11_000)]
    led = column(entries, PIECE_RIGHT + 7000, 5000)
    assert [each.label.block.lines[0].text for each in led] == ["10000", "11000", "50000"]
    assert_apart(led)


def test_leader_runs_from_the_line_to_the_middle_of_the_label() -> None:
    (led,) = column([(Spot(PIECE_RIGHT, 30_000), block("fold"))], PIECE_RIGHT + 7000, 0)
    assert led.leader[0] == (PIECE_RIGHT, 30_000)
    assert led.leader[-1].y == led.label.box.middle.y == 30_000


@given(
    st.lists(st.integers(20_000, PIECE_RIGHT), max_size=8),
    st.lists(st.integers(20_000, PIECE_BOTTOM), max_size=9),
)
def test_labels_under_a_piece_meet_nothing(uprights: list[int], levels: list[int]) -> None:
    beside = column([(Spot(PIECE_RIGHT, y), block("level")) for y in levels], PIECE_RIGHT + 7000, 5000)
    entries = [(Spot(x, PIECE_BOTTOM), block("upright line")) for x in uprights]
    led = rows(entries, PIECE_BOTTOM + 2600, PAGE, beside)
    assert len(led) == len(uprights)
    assert_apart([*beside, *led])
