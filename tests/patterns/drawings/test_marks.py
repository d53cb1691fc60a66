from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from patterns.drafting.sized import SizedMark, SizedPiece
from patterns.drafting.units import Units
from patterns.drawings.errors import DrawingError
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.lines import Line
from patterns.drawings.marks import drawn, laid, room, rooms
from patterns.drawings.page import Placing
from patterns.starters import read_starter
from tests.drawn import lines_of
from tests.starters import sized_at

PLACING = Placing(Fraction(200), Spot(10_000, 20_000))
PIECE = Box(10_000, 20_000, 50_000, 40_000)
Mark = Callable[..., SizedMark]


@pytest.fixture
def piece(make_piece: Callable[..., SizedPiece]) -> SizedPiece:
    return make_piece(200, 100)


def shown(parts: list[str]) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg">{"".join(parts)}</svg>'


def test_level_line_runs_from_edge_to_edge(make_mark: Mark, piece: SizedPiece) -> None:
    mark = laid(make_mark("fold", "fold", down=25), piece, PLACING, Units.CENTIMETRES)
    assert (mark.way, mark.start, mark.end) == ("level", (10_000, 25_000), (50_000, 25_000))
    assert mark.distances == ("2.5 cm from the top",)


def test_upright_line_is_limited_by_its_ends(make_mark: Mark, piece: SizedPiece) -> None:
    line = make_mark("seam", "stitch", across=180, start=10, end=60)
    mark = laid(line, piece, PLACING, Units.CENTIMETRES)
    assert (mark.way, mark.start, mark.end) == ("upright", (46_000, 22_000), (46_000, 32_000))
    assert mark.distances == ("2 cm from the right",)


def test_point_is_measured_both_ways(make_mark: Mark, piece: SizedPiece) -> None:
    mark = laid(make_mark("snap", "place", down=0, across=50), piece, PLACING, Units.CENTIMETRES)
    assert (mark.way, mark.start) == ("point", mark.end)
    assert mark.distances == ("5 cm from the left", "on the top edge")


def test_opening_says_how_long_it_is(make_mark: Mark, piece: SizedPiece) -> None:
    opening = make_mark("opening", "opening", down=10, start=50, end=150)
    assert laid(opening, piece, PLACING, Units.CENTIMETRES).distances == ("10 cm long",)


def test_distance_is_in_the_units_to_the_cutting_precision(make_mark: Mark, piece: SizedPiece) -> None:
    mark = laid(make_mark("fold", "fold", down=25), piece, PLACING, Units.INCHES)
    assert mark.distances == ("≈ 1 in from the top",)


def test_mark_off_its_piece_is_an_error(make_mark: Mark, piece: SizedPiece) -> None:
    with pytest.raises(DrawingError, match="The mark fold lies off the piece exterior panel at this size"):
        laid(make_mark("fold", "fold", down=101), piece, PLACING, Units.CENTIMETRES)


def test_mark_without_a_place_is_an_error(make_mark: Mark, piece: SizedPiece) -> None:
    with pytest.raises(DrawingError, match="The mark fold has no place"):
        laid(make_mark("fold", "fold"), piece, PLACING, Units.CENTIMETRES)


def test_opening_cuts_a_gap_and_its_bracket_turns_inwards(make_mark: Mark, piece: SizedPiece) -> None:
    for down, bracket in ((10, 23.9), (90, 36.1)):
        opening = make_mark("opening", "opening", down=down, start=50, end=150)
        mark = laid(opening, piece, PLACING, Units.CENTIMETRES)
        parts = drawn(mark, PIECE, "#ffffff")
        (way,) = lines_of(shown(parts), stroke=Line.OPENING.value.colour)
        level = 20 + down / 5
        assert way == [(20, level), (20, bracket), (40, bracket), (40, level)]
        assert parts[0] == f'<rect x="20" y="{level - 0.35:g}" width="20" height="0.7" fill="#ffffff"/>'
        assert room(mark, PIECE).holds(Box(20_000, 24_000 if down == 10 else 36_100, 40_000, 24_000))


@pytest.mark.parametrize(
    ("down", "across", "tick"),
    [
        (0, 50, [(20, 20), (20, 22.2)]),
        (100, 50, [(20, 40), (20, 37.8)]),
        (50, 0, [(10, 30), (12.2, 30)]),
        (50, 200, [(50, 30), (47.8, 30)]),
    ],
)
def test_clip_is_a_tick_inwards_from_the_nearest_edge(
    make_mark: Mark, piece: SizedPiece, down: int, across: int, tick: list[tuple[float, float]]
) -> None:
    mark = laid(make_mark("clip", "clip", down=down, across=across), piece, PLACING, Units.CENTIMETRES)
    assert lines_of(shown(drawn(mark, PIECE, "")), stroke_width="0.5") == [tick]


def test_short_clip_is_drawn_long_enough_to_be_seen(make_mark: Mark, piece: SizedPiece) -> None:
    left = laid(make_mark("clip", "clip", down=50, start=0, end=1), piece, PLACING, Units.CENTIMETRES)
    right = laid(make_mark("clip", "clip", down=50, start=199, end=200), piece, PLACING, Units.CENTIMETRES)
    for mark, way in ((left, [(10, 30), (11.1, 30)]), (right, [(48.9, 30), (50, 30)])):
        assert lines_of(shown(drawn(mark, PIECE, "")), stroke_width="0.5") == [way]


def test_place_is_a_cross(make_mark: Mark, piece: SizedPiece) -> None:
    mark = laid(make_mark("snap", "place", down=50, across=100), piece, PLACING, Units.CENTIMETRES)
    assert lines_of(shown(drawn(mark, PIECE, ""))) == [
        [(28.7, 30), (31.3, 30)],
        [(30, 28.7), (30, 31.3)],
    ]


@pytest.fixture
def panel() -> SizedPiece:
    """A boxed tote's panel, 50 × 41 cm, a square of 6 cm out of both lower corners, 1 cm of allowance."""
    return sized_at(read_starter("boxed-tote"), Units.CENTIMETRES, {}, {}).pieces[0]


@pytest.fixture
def base() -> SizedPiece:
    """A round bucket's base, 22 cm across."""
    sized = sized_at(read_starter("round-bucket"), Units.CENTIMETRES, {}, {})
    return next(piece for piece in sized.pieces if piece.name == "exterior base")


def test_line_all_round_follows_the_cut_outs(panel: SizedPiece) -> None:
    mark = laid(panel.marks[0], panel, Placing(Fraction(100), Spot(0, 0)), Units.CENTIMETRES)
    assert mark.way == "round"
    assert mark.distances == ("1 cm inside the edge",)
    assert mark.line is not None
    assert {spot for spot, _ in mark.line.corners} == {
        *((1000, 1000), (49_000, 1000), (49_000, 34_000), (43_000, 34_000)),
        *((43_000, 40_000), (7000, 40_000), (7000, 34_000), (1000, 34_000)),
    }
    (way,) = lines_of(shown(drawn(mark, PIECE, "")), stroke_width="0.26")
    assert len(way) == 8


def test_line_all_round_takes_room_along_itself_only(panel: SizedPiece) -> None:
    mark = laid(panel.marks[0], panel, Placing(Fraction(100), Spot(0, 0)), Units.CENTIMETRES)
    boxes = rooms(mark, PIECE)
    assert len(boxes) == 8
    assert any(box.overlaps(Box(900, 5000, 1100, 6000)) for box in boxes)
    assert not any(box.overlaps(Box(5000, 5000, 45_000, 30_000)) for box in boxes)


def test_line_all_round_a_circle_is_a_circle(base: SizedPiece) -> None:
    mark = laid(base.marks[0], base, Placing(Fraction(100), Spot(0, 0)), Units.CENTIMETRES)
    assert mark.line is not None
    assert mark.line.box == Box(1000, 1000, 21_000, 21_000)
    assert "".join(drawn(mark, PIECE, "")).count("A10 10 ") == 4


def test_line_all_round_that_has_no_room_is_an_error(make_mark: Mark, base: SizedPiece) -> None:
    wide = replace(base.marks[0], inside=base.height)
    with pytest.raises(DrawingError, match="The piece exterior base has no room for the mark seam line"):
        laid(wide, base, PLACING, Units.CENTIMETRES)


def test_line_without_ends_stops_at_the_outline(make_mark: Mark, panel: SizedPiece, base: SizedPiece) -> None:
    placing = Placing(Fraction(100), Spot(0, 0))
    low = laid(make_mark("fold", "fold", down=380), panel, placing, Units.CENTIMETRES)
    assert (low.start, low.end) == ((6000, 38_000), (44_000, 38_000))
    left = laid(make_mark("fold", "fold", across=30), panel, placing, Units.CENTIMETRES)
    assert (left.start, left.end) == ((3000, 0), (3000, 35_000))
    ended = laid(make_mark("fold", "fold", down=380, start=100), panel, placing, Units.CENTIMETRES)
    assert (ended.start, ended.end) == ((10_000, 38_000), (44_000, 38_000))
    level = laid(base.marks[1], base, placing, Units.CENTIMETRES)
    assert (level.start, level.end) == ((0, 11_000), (22_000, 11_000))
