from collections.abc import Callable
from itertools import islice

import pytest

from patterns.drafting.sized import SizedMark, SizedPattern, SizedPiece
from patterns.drafting.units import Units
from patterns.drawings.small_piece import small_piece_svg
from patterns.starters import read_starter, slugs
from tests.drawn import assert_reads_well, page_of, root_of, words_of
from tests.starters import combinations_of, corners, sized_at

Maker = Callable[..., SizedPattern]
PieceMaker = Callable[..., SizedPiece]
Mark = Callable[..., SizedMark]
ROOMS = [(44_000, 52_000), (26_000, 44_000)]


def texts(svg: str) -> list[str]:
    return [words.text for words in words_of(svg)]


def test_names_stand_on_their_lines_and_the_rest_is_numbered(make_basket: Maker) -> None:
    sized = make_basket()
    said = texts(small_piece_svg(sized, sized.pieces[0], *ROOMS[0]))
    for name in ("front pleat line", "middle fold", "back pleat line", "↑ TOP"):
        assert name in said
    keys = [text for text in said if text[:1].isdigit() and " " in text]
    assert [text.split(maxsplit=1)[0] for text in keys] == [str(number) for number in range(1, len(keys) + 1)]
    assert {text.split(maxsplit=1)[0] for text in keys} <= set(said)


def test_every_mark_is_named_once(make_basket: Maker) -> None:
    sized = make_basket()
    for piece in sized.pieces:
        said = " ".join(texts(small_piece_svg(sized, piece, *ROOMS[0])))
        for mark in piece.marks:
            assert said.count(mark.name) == 1, mark.name


def test_upright_name_is_turned_along_its_line(
    make_basket: Maker, make_piece: PieceMaker, make_mark: Mark
) -> None:
    piece = make_piece(200, 300, (make_mark("centre line", "fold", across=100),))
    svg = small_piece_svg(make_basket(), piece, *ROOMS[0])
    assert 'transform="rotate(-90 ' in svg
    assert_reads_well(svg)


def test_where_numbers_would_leave_no_piece_there_are_none(make_basket: Maker) -> None:
    sized = make_basket()
    said = texts(small_piece_svg(sized, sized.pieces[0], *ROOMS[1]))
    assert "middle fold" in said
    assert not any(text[:1].isdigit() for text in said)
    assert "left side seam line" in (
        root_of(small_piece_svg(sized, sized.pieces[0], *ROOMS[1]))[1].text or ""
    )


@pytest.mark.parametrize(("width", "height"), ROOMS)
@pytest.mark.parametrize("slug", slugs())
def test_starters_fit_their_room_and_read_well(slug: str, width: int, height: int) -> None:
    recipe, units = read_starter(slug), Units.INCHES
    sizes, options = list(corners(recipe, units)), combinations_of(recipe)
    drawn = (
        sized_at(recipe, units, measures, options[place % len(options)])
        for place, measures in enumerate(sizes[:: 1 + len(sizes) // 40])
    )
    for sized in islice((each for each in drawn if not each.is_refused), 10):
        for piece in sized.pieces:
            svg = small_piece_svg(sized, piece, width, height)
            assert_reads_well(svg)
            assert page_of(svg)[0] == width / 1000
            assert page_of(svg)[1] <= height / 1000


def test_same_bytes_and_no_float(make_basket: Maker, no_floats: None) -> None:
    sized = make_basket()
    first, second = (small_piece_svg(sized, sized.pieces[1], *ROOMS[0]) for _ in range(2))
    assert first == second
