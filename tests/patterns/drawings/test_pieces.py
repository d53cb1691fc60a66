from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import islice

import pytest

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.sized import Quantity, SizedMark, SizedPattern, SizedPiece
from patterns.drafting.units import Units
from patterns.drawings.errors import DrawingError
from patterns.drawings.fills import Fabric, ground_of
from patterns.drawings.lines import Line
from patterns.drawings.pieces import piece_svg
from patterns.starters import read_starter, slugs
from tests.drawn import assert_reads_well, lines_of, page_of, root_of, words_crossed, words_of
from tests.starters import combinations_of, corners, sized_at

Maker = Callable[..., SizedPattern]
PieceMaker = Callable[..., SizedPiece]
Mark = Callable[..., SizedMark]


def texts(svg: str) -> list[str]:
    return [words.text for words in words_of(svg)]


def outline(svg: str) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of the piece: the last line with the pen of a cut."""
    way = lines_of(svg, stroke_width="0.45")[-1]
    return way[0][0], way[0][1], way[2][0], way[2][1]


def test_every_number_and_name_is_on_it(make_basket: Maker) -> None:
    sized = make_basket()
    said = texts(piece_svg(sized, sized.pieces[0]))
    assert said[-4:] == ["exterior panel", "cut 1 from exterior fabric", "14¼ in", "17¾ in"]
    assert "↑ TOP" in said
    for mark in sized.pieces[0].marks:
        assert mark.name in said
    for distance in ("6½ in from the top", "8⅞ in from the top", "½ in from the bottom", "5 in long"):
        assert distance in said


def test_length_that_is_exact_but_for_its_digits_is_not_marked_as_rounded() -> None:
    """Both ends of a bucket's opening hang on π, and between them are 6 in."""
    sized = sized_at(read_starter("round-bucket"), Units.INCHES, {"diameter": Fraction(10)}, {})
    side = next(piece for piece in sized.pieces if piece.name == "lining side")
    assert "6 in long" in texts(piece_svg(sized, side))


def test_piece_and_marks_are_to_one_scale(make_basket: Maker) -> None:
    sized = make_basket("9", "6", "5")
    svg = piece_svg(sized, sized.pieces[0])
    left, top, right, bottom = outline(svg)
    assert (right - left) / (bottom - top) == pytest.approx(15 / 18, rel=0.001)
    folds = lines_of(svg, stroke_width="0.26", stroke_dasharray="3.2 0.7 0.3 0.7")
    assert [round((way[0][1] - top) / (bottom - top) * 18, 2) for way in folds] == [6.5, 9, 11.5]
    assert all((way[0][0], way[1][0]) == (left, right) for way in folds)


def test_title_and_description_tell_the_marks(make_basket: Maker) -> None:
    sized = make_basket()
    root = root_of(piece_svg(sized, sized.pieces[0]))
    assert root[0].text == "exterior panel, cut 1, 14 1⁄4 in wide and 17 3⁄4 in high"
    assert (root[1].text or "").startswith(
        "The piece flat and to scale, of exterior fabric, right side up, its top edge at the top. "
        "Marks: top seam line of the front, a line of stitches, 1⁄2 in from the top; front pleat line,"
    )


def test_wrong_side_is_paler_and_says_so(make_basket: Maker) -> None:
    sized = make_basket()
    svg = piece_svg(sized, sized.pieces[0], "wrong")
    assert "cut 1 from exterior fabric, wrong side up" in texts(svg)
    assert ground_of(Fabric("exterior", is_pale=True)) in svg
    assert ground_of(Fabric("exterior")) not in svg


def test_print_that_stands_one_way_up_says_so(make_basket: Maker, make_piece: PieceMaker) -> None:
    svg = piece_svg(make_basket(), make_piece(300, 200, turns=False))
    assert "one way up" in texts(svg)
    assert "Its print stands one way up." in (root_of(svg)[1].text or "")


def test_tiny_piece_is_no_larger_than_life(make_basket: Maker, make_piece: PieceMaker) -> None:
    left, top, right, bottom = outline(piece_svg(make_basket(), make_piece(25, 20)))
    assert (right - left, bottom - top) == (pytest.approx(25), pytest.approx(20))


@pytest.mark.parametrize(("width", "height"), [(1600, 40), (40, 1600), (25, 20), (6, 6), (900, 900)])
def test_extremes_read_well(
    make_basket: Maker, make_piece: PieceMaker, make_mark: Mark, width: int, height: int
) -> None:
    third, half = Fraction(height, 3), Fraction(width, 2)
    marks = (
        make_mark("upper fold line", "fold", down=third),
        make_mark("lower fold line", "fold", down=2 * third),
        make_mark("left seam line", "stitch", across=Fraction(width, 20)),
        make_mark("right seam line", "stitch", across=Fraction(width * 19, 20)),
        make_mark("turning opening", "opening", down=third, start=half / 2, end=half),
        make_mark("snap", "place", down=Fraction(height, 2), across=half),
        make_mark("clip", "clip", down=0, across=half),
    )
    svg = piece_svg(make_basket(), make_piece(width, height, marks))
    assert_reads_well(svg)
    assert not words_crossed(svg, stroke_width="0.16")
    assert {mark.name for mark in marks} <= set(texts(svg))


def test_crowd_of_upright_lines_is_named_without_a_clash(
    make_basket: Maker, make_piece: PieceMaker, make_mark: Mark
) -> None:
    marks = [make_mark(f"pleat line {place}", "fold", across=20 + 3 * place) for place in range(9)]
    levels = [make_mark(f"seam line {place}", "stitch", down=20 + 3 * place) for place in range(9)]
    svg = piece_svg(make_basket(), make_piece(60, 60, (*marks, *levels)))
    assert_reads_well(svg)


def test_long_names_are_wrapped(make_basket: Maker, make_piece: PieceMaker, make_mark: Mark) -> None:
    long = "the fold that goes all the way round the upper edge of the inner pocket and back"
    svg = piece_svg(make_basket(), make_piece(300, 200, (make_mark(long, "fold", down=80),), name=long * 2))
    assert_reads_well(svg)


def refusing(sized: Iterator[SizedPattern]) -> Iterator[SizedPattern]:
    return (each for each in sized if not each.is_refused)


@pytest.mark.parametrize("slug", slugs())
@pytest.mark.parametrize("units", list(Units))
def test_starters_read_well_over_their_range(slug: str, units: Units) -> None:
    recipe = read_starter(slug)
    sizes, options = list(corners(recipe, units)), combinations_of(recipe)
    # Every seventh corner, each with the next combination of options: all pieces, at all kinds of size.
    chosen = enumerate(sizes[:: 1 + len(sizes) // 45])
    drawn = refusing(
        sized_at(recipe, units, measures, options[place % len(options)]) for place, measures in chosen
    )
    for sized in islice(drawn, 16):
        for piece in sized.pieces:
            svg = piece_svg(sized, piece)
            assert_reads_well(svg)
            assert not words_crossed(svg, stroke_width="0.16")


def test_clear_and_unknown_materials_are_left_white(make_basket: Maker, make_piece: PieceMaker) -> None:
    for material in ("clear vinyl", "something else"):
        assert 'fill="#ffffff"' in piece_svg(make_basket(), make_piece(200, 100, material=material))


def test_stitching_and_folds_differ_without_colour() -> None:
    dashes = [kind.value.dashes for kind in (Line.CUT, Line.FOLD, Line.STITCH)]
    assert len(set(dashes)) == 3


def test_same_bytes_and_no_float(make_basket: Maker, no_floats: None) -> None:
    sized = make_basket("3", "5/2", "7/3")
    for piece in sized.pieces:
        assert piece_svg(sized, piece) == piece_svg(make_basket("3", "5/2", "7/3"), piece)


@pytest.mark.parametrize("value", [None, Fraction(0), Fraction(-10)])
def test_piece_without_a_size_is_an_error(
    make_basket: Maker, make_piece: PieceMaker, value: Fraction | None
) -> None:
    piece = replace(make_piece(200, 100), width=Quantity(value, 1, Formula.read("width − depth")))
    with pytest.raises(DrawingError, match="width − depth"):
        piece_svg(make_basket(), piece)


@pytest.mark.parametrize(("width", "height"), [(108_000, 100_000), (108_000, 92_000), (100_000, 92_000)])
def test_drawing_fits_the_room_that_it_is_printed_in(make_basket: Maker, width: int, height: int) -> None:
    for sizes in (("9", "6", "5"), ("3", "20", "2"), ("20", "20", "12")):
        sized = make_basket(*sizes)
        for piece in sized.pieces:
            svg = piece_svg(sized, piece, width=width, height=height)
            assert_reads_well(svg)
            assert page_of(svg)[0] == width / 1000
            assert page_of(svg)[1] <= height / 1000


def test_room_too_small_still_gives_a_whole_drawing(make_basket: Maker) -> None:
    sized = make_basket()
    assert_reads_well(piece_svg(sized, sized.pieces[0], width=90_000, height=10_000))


def test_heading_is_left_out_where_the_page_has_it(make_basket: Maker) -> None:
    sized = make_basket()
    svg = piece_svg(sized, sized.pieces[0], is_headed=False)
    assert "exterior panel" not in texts(svg)
    assert_reads_well(svg)
