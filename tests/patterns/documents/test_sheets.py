"""The documents of one page, as PDF: size chart and worksheet."""

import os
import subprocess
import sys
from dataclasses import replace
from io import BytesIO
from itertools import product

import page
import pytest
from pikepdf import Pdf

from patterns.documents import chart, worksheet
from patterns.documents.chart_content import chart_content
from patterns.documents.check import check
from patterns.documents.errors import DocumentError, NoDocumentError
from patterns.documents.one_sheet import one_sheet
from patterns.documents.worksheet_content import worksheet_content
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs
from tests.recipes import IN, make_recipe

CASES = list(product(["chart", "worksheet"], ["a4", "letter"], slugs(), ["in", "cm"]))
# mm; ISO 216 and ANSI/ASME Y14.1. 1 pt is 1/72 in (ISO 32000, user space unit).
SIZES = {"a4": (210, 297), "letter": (215.9, 279.4)}
LEAST_POINTS = 8
# The choices of the starters that make the most lines.
ONE_WAY, BOTH_WAYS = {"exterior print": "one way"}, {"exterior print": "one way", "lining print": "one way"}
CROWDED = [
    (chart.body, "window-pouch", {"interfacing": "light", **ONE_WAY}),
    (chart.body, "window-pouch", {"interfacing": "light", **BOTH_WAYS}),
    (worksheet.body, "window-pouch", {"interfacing": "heavy", "zip size": "No. 5 coil", **ONE_WAY}),
    (worksheet.body, "packable-tote", {"interfacing": "light", **ONE_WAY}),
]


def words_of(document: bytes) -> str:
    """All its words, one space between them, in reading order."""
    command = ["/usr/bin/pdftotext", "-raw", "-", "-"]
    text = subprocess.run(command, input=document, capture_output=True, check=True).stdout.decode()
    return " ".join(text.split())


def plain(text: str) -> str:
    return " ".join(text.split())


@pytest.fixture(params=CASES, ids="-".join, scope="module")
def which(request):
    return request.param


@pytest.fixture(scope="module")
def made(which, make_sheet):
    return make_sheet(*which)


@pytest.fixture(scope="module")
def words(made):
    return words_of(made)


def test_it_is_one_page_of_its_paper(made, which):
    points = sorted(side * 72 / 25.4 for side in SIZES[which[1]])
    with Pdf.open(BytesIO(made)) as pdf:
        (only,) = pdf.pages
        left, bottom, *corner = (float(number) for number in only.mediabox)
    assert (left, bottom) == (0, 0)
    assert sorted(corner) == pytest.approx(points, abs=0.001)


def test_it_conforms_to_pdf_ua(made):
    report = page.validate_pdf_bytes(made, profile="ua1")
    assert [failure.message for failure in report.failures] == []
    assert report.is_compliant
    assert check(made) == ()


def test_title_language_and_date_are_in_the_file(made, which):
    kind, _, slug, units = which
    recipe = read_starter(slug)
    name = {"chart": "size chart", "worksheet": "worksheet"}[kind]
    with Pdf.open(BytesIO(made)) as pdf:
        in_words = {"in": "inches", "cm": "centimetres"}[units]
        assert str(pdf.docinfo.Title) == f"{recipe.title}: {name} in {in_words}"
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.docinfo.CreationDate) == f"D:{recipe.revised:%Y%m%d}"


def test_all_of_its_content_is_on_the_page(words, which):
    kind, _, slug, units = which
    recipe = read_starter(slug)
    if kind == "chart":
        content = chart_content(recipe, Units(units))
        for row in (row for group in content.groups for row in group.rows):
            assert " ".join(cell.text for cell in row.cells) in words
        assert all(each.name in words for each in content.sizes)
        assert all(remark in words for remark in content.remarks)
    else:
        sheet = worksheet_content(recipe, Units(units))
        assert all(plain(each.says) in words for each in sheet.asked)
        for line in sheet.lines:
            assert plain(f"= {line.formula}") in words.replace("⁄", "/")
            assert plain(f"Example: {line.example}") in words
        for rule in sheet.rules:
            assert plain(rule.says) in words
            assert plain(f"Example: {rule.example}") in words
        assert all(plain(told) in words for told in (*sheet.cuts, *sheet.buys))
        assert f"to the nearest {sheet.precision}, halves up" in words


def test_nothing_is_too_small_to_read(made):
    """Labels in the boxes are 7 pt, all else is larger; a word's box is a fifth higher than its letters."""
    command = ["/usr/bin/pdftotext", "-bbox", "-", "-"]
    text = subprocess.run(command, input=made, capture_output=True, check=True).stdout.decode()
    heights = [
        float(line.split('yMax="')[1].split('"')[0]) - float(line.split('yMin="')[1].split('"')[0])
        for line in text.splitlines()
        if line.strip().startswith("<word")
    ]
    assert min(heights) >= 7 * 1.2
    assert sorted(heights)[len(heights) // 2] >= LEAST_POINTS * 1.2


def test_the_same_sheet_has_the_same_bytes(make_sheet):
    pouch = read_starter("zip-pouch")
    assert chart.body(pouch, Units.CENTIMETRES, "a4") == make_sheet("chart", "a4", "zip-pouch", "cm")
    assert worksheet.body(pouch, Units.CENTIMETRES, "a4") == make_sheet("worksheet", "a4", "zip-pouch", "cm")


def test_another_process_makes_the_same_bytes(make_sheet):
    code = (
        "import sys; from patterns.documents import chart, worksheet;"
        "from patterns.drafting.units import Units; from patterns.starters import read_starter;"
        "recipe = read_starter('fold-flat-basket');"
        "sys.stdout.buffer.write(chart.body(recipe, Units('in'), 'a4'));"
        "sys.stdout.buffer.write(worksheet.body(recipe, Units('in'), 'a4'))"
    )
    environment = {**os.environ, "PYTHONHASHSEED": "4711", "TZ": "Asia/Tokyo"}
    ran = subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, check=True)
    assert ran.stdout == make_sheet("chart") + make_sheet("worksheet")


def test_options_make_another_sheet(make_sheet):
    basket = read_starter("fold-flat-basket")
    made = worksheet.body(basket, IN, "a4", {"interfacing": "heavy"})
    assert made != make_sheet("worksheet")
    assert "With interfacing “heavy”" in words_of(made)


@pytest.mark.parametrize(("units", "paper"), [("in", "letter"), ("cm", "a4")])
@pytest.mark.parametrize(("make", "slug", "options"), CROWDED)
def test_a_sheet_of_many_pieces_is_one_page_too(make, slug, options, units, paper):
    with Pdf.open(BytesIO(make(read_starter(slug), Units(units), paper, options))) as pdf:
        assert len(pdf.pages) == 1


def test_a_chart_of_many_sizes_shows_them_all():
    recipe = read_starter("fold-flat-basket")
    sizes = tuple(replace(recipe.sizes[0], name=f"Size {letter}") for letter in "ABCDEFGHIJ")
    words = words_of(chart.body(replace(recipe, sizes=sizes), IN, "a4"))
    assert all(each.name in words for each in sizes)


def test_names_and_words_of_a_recipe_are_never_markup():
    recipe = read_starter("fold-flat-basket")
    sizes = (replace(recipe.sizes[0], name="</style><b>&amp;"),)
    spoiled = replace(recipe, sizes=sizes, title="<i>Basket</i>")
    assert "</style><b>&amp;" in words_of(chart.body(spoiled, IN, "letter"))
    assert "<i>Basket</i>: worksheet" in words_of(worksheet.body(spoiled, IN, "letter"))


def test_a_recipe_without_sizes_has_no_chart():
    with pytest.raises(NoDocumentError):
        chart.body(make_recipe(), IN, "a4")


def test_a_template_that_wants_more_than_its_content_is_no_document():
    with pytest.raises(DocumentError, match="The template of the chart names what its content does not hold"):
        one_sheet("chart", ["across-a4 roomy"], {}, {})


def test_an_unfitting_sheet_takes_the_closest_setting_and_more_pages():
    recipe = make_recipe()
    checks = recipe.checks * 40
    with Pdf.open(BytesIO(worksheet.body(replace(recipe, checks=checks), IN, "a4"))) as pdf:
        assert len(pdf.pages) > 1
