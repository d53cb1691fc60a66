"""Every number of a chart is that of the sized pattern, size by size."""

import re
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest

from patterns.documents.chart_content import Chart, ChartRow, chart_content
from patterns.documents.errors import NoDocumentError
from patterns.documents.needs import enough_words
from patterns.documents.words import Words
from patterns.drafting.formulas.formula import Formula
from patterns.drafting.lists import listed
from patterns.drafting.recipe import NamedSize, Recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import SizingError, size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs
from tests.recipes import CM, IN, make_recipe

CASES = [
    (slug, units, {"interfacing": choice.name})
    for slug, units in product(slugs(), Units)
    for choice in read_starter(slug).option("interfacing").choices
]
NAMES = {IN: "in", CM: "cm"}


@pytest.fixture(
    params=CASES, ids=[f"{slug}-{units}-{options['interfacing']}" for slug, units, options in CASES]
)
def case(request) -> tuple[Recipe, Units, dict[str, str]]:
    slug, units, options = request.param
    return read_starter(slug), units, options


@pytest.fixture
def chart(case) -> Chart:
    return chart_content(*case)


@pytest.fixture
def sizes(case) -> list[SizedPattern]:
    recipe, units, options = case
    return [size(recipe, "", units, named.values[units], options) for named in recipe.sizes]


def rows(chart: Chart, title: str) -> tuple[ChartRow, ...]:
    return next((group.rows for group in chart.groups if group.title == title), ())


def texts(row: ChartRow) -> list[str]:
    return [cell.text for cell in row.cells]


def all_words(chart: Chart) -> str:
    cells = [cell.text for group in chart.groups for row in group.rows for cell in row.cells]
    names = [f"{row.name} {row.says}" for group in chart.groups for row in group.rows]
    return " ; ".join([*names, *cells, *chart.remarks, *(note.says for note in chart.notes)])


def test_every_named_size_has_its_column_and_drawing(chart, case):
    recipe, units, _ = case
    assert [(each.name, each.values) for each in chart.sizes] == [
        (named.name, named.values[units]) for named in recipe.sizes
    ]
    assert all(each.drawing for each in chart.sizes)
    assert all(len(row.cells) == len(recipe.sizes) for group in chart.groups for row in group.rows)


def test_measures_are_those_of_the_size(chart, sizes):
    for at, measure in enumerate(sizes[0].measures):
        row = rows(chart, "Measures")[at]
        assert (row.name, texts(row)) == (
            measure.name,
            [Words(sized).chosen(sized.measures[at]) for sized in sizes],
        )


def test_pieces_are_cut_as_the_sized_pattern_says(chart, sizes):
    found = rows(chart, "Pieces to cut")
    assert [row.name for row in found] == [piece.name for piece in sizes[0].pieces]
    for at, row in enumerate(found):
        pieces = [sized.pieces[at] for sized in sizes]
        assert row.says == f"cut {pieces[0].cut} from {pieces[0].material}"
        assert texts(row) == [
            f"{Words(sized).number(piece.width)} across"
            if piece.shape == "circle"
            else f"{Words(sized).number(piece.width)} × {Words(sized).number(piece.height)}"
            for sized, piece in zip(sizes, pieces, strict=True)
        ]


def test_cloth_is_what_the_book_calls_enough(chart, sizes):
    cloth = [row for row in rows(chart, "What it needs") if row.says == "one piece is enough"]
    assert [row.name for row in cloth] == [
        each.name
        for each in sizes[0].materials
        if any(piece.material == each.name for piece in sizes[0].pieces)
    ]
    for row in cloth:
        for cell, sized in zip(row.cells, sizes, strict=True):
            pieces = [piece for piece in sized.pieces if piece.material == row.name]
            width, length = cell.text.split(" × ")
            assert f"One piece {width} wide and {length} long is enough" in enough_words(pieces, Words(sized))


def test_lengths_to_buy_are_those_of_the_materials(chart, sizes):
    """A zip is sold in lengths of its own."""
    lengths = [row for row in rows(chart, "What it needs") if row.says != "one piece is enough"]
    assert all((row.says == "at least so long") == (row.name == "zip") for row in lengths)
    bought = {row.name: texts(row) for row in lengths}
    assert bought == {
        each.name: [Words(sized).number(sized.materials_by_name[each.name].amount) for sized in sizes]
        for each in sizes[0].materials
        if each.amount
    }


def test_every_material_is_in_the_table_or_named_under_it(chart, sizes):
    (also,) = [remark for remark in chart.remarks if remark.startswith("Every size needs besides: ")]
    in_table = {row.name for row in rows(chart, "What it needs")}
    others = [material.name for material in sizes[0].materials if material.name not in in_table]
    assert also == f"Every size needs besides: {listed(others, 'and')}."


def test_checks_are_those_of_the_size(chart, sizes):
    for row in rows(chart, "Checked"):
        for cell, sized in zip(row.cells, sizes, strict=True):
            (check,) = [each for each in sized.checks if each.says == row.name]
            assert (cell.text == "In order") == (check.holds is True)
    assert [row.name for row in rows(chart, "Checked")] == [
        check.says for check in sizes[0].checks if check.measure is None
    ]


def test_words_are_of_their_own_system_only(chart, case):
    _, units, _ = case
    words = all_words(chart)
    assert not re.search(rf"\d {NAMES[IN if units is CM else CM]}\b", words)
    assert " mm" not in words
    assert not re.search(r"\b1 \w+s\b", words)
    if units is IN:
        assert not re.search(r"\d\.\d+ in\b(?!³)", words)
    else:
        assert "⁄" not in words


@pytest.mark.parametrize(("units", "step"), [(IN, "1⁄8 in"), (CM, "0.1 cm")])
def test_rounding_is_explained_where_something_was_rounded(units, step):
    told = f"≈ stands before a number that is rounded to the nearest {step}."
    recipe = make_recipe(sizes=(named(width=20, height=15),))
    assert told not in chart_content(recipe, units).remarks
    sevenths = tuple(replace(piece, width=Formula.read("width ÷ 7")) for piece in recipe.pieces)
    assert told in chart_content(replace(recipe, pieces=sevenths), units).remarks


def named(**values: int) -> NamedSize:
    lengths = {name: Fraction(value) for name, value in values.items()}
    return NamedSize(
        f"w{values['width']}", {each: {name: n * each.mm for name, n in lengths.items()} for each in (IN, CM)}
    )


def test_a_size_to_advise_against_says_why():
    chart = chart_content(make_recipe(sizes=(named(width=9, height=6), named(width=8, height=12))), IN)
    (row,) = [row for row in rows(chart, "Checked") if row.name == "It is wider than high."]
    assert [(cell.text, cell.mood) for cell in row.cells] == [("In order", "well"), ("Advice", "advice")]
    assert [(note.size, note.word, note.says) for note in chart.notes] == [
        ("w8", "Advice", "It is higher than wide.")
    ]


def test_a_refused_size_says_why_and_what_is_cut_is_not_told():
    chart = chart_content(make_recipe(sizes=(named(width=9, height=6), named(width=9, height=5))), IN)
    assert [texts(row) for row in rows(chart, "Pieces to cut")] == [["10 in × 7 in", "–"]]
    assert texts(rows(chart, "What it needs")[0]) == ["10 in × 14 in", "–"]
    assert [(note.size, note.word, note.says) for note in chart.notes] == [
        ("w9", "Refused", "A fold of ≈ 1 5⁄8 in is too small.")
    ]


def test_a_size_out_of_range_has_the_range_among_its_checks():
    chart = chart_content(make_recipe(sizes=(named(width=9, height=6), named(width=30, height=6))), IN)
    (row,) = [row for row in rows(chart, "Checked") if row.name.startswith("The width is between")]
    assert texts(row) == ["In order", "Refused"]


def test_pieces_that_are_not_cut_equally_often_say_so_in_each_column():
    recipe = make_recipe(sizes=(named(width=9, height=6), named(width=9, height=12, folds=4)))
    pieces = tuple(
        replace(piece, cut=Formula.read("folds")) if piece.name == "mat" else piece for piece in recipe.pieces
    )
    sizes = tuple(
        replace(
            each, values={units: {**row, "folds": Fraction(number)} for units, row in each.values.items()}
        )
        for each, number in zip(recipe.sizes, (3, 4), strict=True)
    )
    chart = chart_content(replace(recipe, pieces=pieces, sizes=sizes), IN)
    (row,) = rows(chart, "Pieces to cut")
    assert (row.says, texts(row)) == ("from cloth", ["3 of 10 in × 7 in", "4 of 10 in × 13 in"])


def test_options_decide_what_is_cut():
    chart = chart_content(read_starter("fold-flat-basket"), IN, {"interfacing": "none"})
    assert "interfacing" not in " ".join(row.name for row in rows(chart, "Pieces to cut"))
    assert ("interfacing", "none") in [(choice.name, choice.value) for choice in chart.choices]


def test_unknown_option_is_refused():
    with pytest.raises(SizingError):
        chart_content(read_starter("fold-flat-basket"), IN, {"interfacing": "tin"})


def test_a_recipe_without_sizes_has_no_chart():
    with pytest.raises(NoDocumentError, match="“Folding mat” names no sizes, so it has no size chart"):
        chart_content(make_recipe(), IN)


def test_more_sizes_than_stand_abreast_come_in_parts():
    chart = chart_content(make_recipe(sizes=tuple(named(width=9, height=6 + n) for n in range(5))), CM)
    parts = chart.abreast(2)
    assert [len(part.sizes) for part in parts] == [2, 2, 1]
    for title in ("Measures", "Pieces to cut", "Checked"):
        for at, row in enumerate(rows(chart, title)):
            joined = tuple(cell for part in parts for cell in rows(part, title)[at].cells)
            assert joined == row.cells
    assert chart.abreast(6) == (chart,)


@pytest.mark.usefixtures("no_floats")
def test_no_number_is_made_a_float():
    chart_content(read_starter("zip-pouch"), CM)
