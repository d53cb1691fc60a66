"""Full-size templates from outside: measured in the file, glued together as pictures, read aloud."""

import subprocess
from io import BytesIO

import page
import pytest
from pikepdf import Pdf
from PIL import Image, ImageChops

from patterns.documents import templates
from patterns.documents.check import check
from patterns.documents.errors import DocumentError, NoDocumentError
from patterns.documents.stamp import stamp
from patterns.documents.templates import COMMON, PAGES, body, large_sheet, wanted
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings import sheet
from patterns.drawings.plates import plates
from patterns.starters import read_starter
from tests.patterns.documents.measured import line_lengths
from tests.patterns.documents.test_book import words_of

# 1 pt is 1/72 in, 1 in is 25.4 mm (ISO 32000; the international yard, 1959).
INCHES_4, MM_100 = 4 * 72, 100 * 72 / 25.4
PAPERS = {"a4": (210, 297), "letter": (215.9, 279.4)}
TEMPLATED = ("boxed-tote", "drawstring-bag", "round-bucket")
# At 254 dpi a millimetre is ten dots, so that windows begin and end between two dots.
DPI, DOTS = 254, 10


def ends_of(slug, units, end):
    recipe = read_starter(slug)
    return {measure.name: getattr(measure.scales[Units(units)], end) for measure in recipe.measures}


@pytest.fixture(
    scope="module", params=[("a4", "round-bucket", "in"), ("letter", "boxed-tote", "cm")], ids=str
)
def made(request, make_sized):
    paper, slug, units = request.param
    sized = make_sized(slug, units)
    return paper, sized, body(sized, paper)


def test_four_inches_and_a_hundred_millimetres_are_true_on_every_page(made):
    pages = line_lengths(made[2])
    assert len(pages) > 4
    for lengths in pages:
        assert min(abs(length - INCHES_4) for length in lengths) < 0.005
        assert min(abs(length - MM_100) for length in lengths) < 0.005


@pytest.mark.parametrize("slug", TEMPLATED)
def test_they_are_true_on_the_large_sheet(make_sized, slug):
    (lengths,) = line_lengths(large_sheet(make_sized(slug)))
    assert min(abs(length - INCHES_4) for length in lengths) < 0.005
    assert min(abs(length - MM_100) for length in lengths) < 0.005


def test_the_file_is_accessible_and_stamped(made):
    stamped = stamp(made[2], "Order 17 · made for Ada Example")
    assert check(stamped) == ()
    report = page.validate_pdf_bytes(stamped, profile="ua1")
    assert [failure.message for failure in report.failures] == []
    with Pdf.open(BytesIO(stamped)) as pdf:
        assert words_of(stamped).count("Order 17 · made for Ada Example") == len(pdf.pages)


def test_the_large_sheet_is_accessible_and_stamped(make_sized):
    stamped = stamp(large_sheet(make_sized("round-bucket", "cm")), "Order 17 · made for Ada Example")
    assert check(stamped) == ()
    assert page.validate_pdf_bytes(stamped, profile="ua1").is_compliant
    assert "Order 17 · made for Ada Example" in words_of(stamped)


def test_pages_are_of_their_paper_and_the_first_holds_all_its_words(made):
    paper, sized, document = made
    found = plates(wanted(sized), (COMMON, PAGES[paper].own))
    sheets = sum(len(plate.tiling.tiles) for plate in found)
    wide, high = (side * 72 / 25.4 for side in PAPERS[paper])
    with Pdf.open(BytesIO(document)) as pdf:
        assert len(pdf.pages) == 1 + sheets
        for each in pdf.pages:
            assert [float(number) for number in each.mediabox] == pytest.approx([0, 0, wide, high], abs=0.001)
    words = words_of(document)
    assert "Choose “Actual size” or 100 %" in words
    for plate in found:
        for tile in plate.tiling.tiles:
            assert f"Sheet {plate.name_of(tile)} of {sized.title}: {plate.title}" in words


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("window", [0, 1])
def test_every_window_leaves_the_printer_its_margin(paper, window):
    own = PAGES[paper]
    chosen = (COMMON, own.own)[window]
    assert (own.width - chosen.width) // 2000 * 1000 >= 9000
    assert min(templates.TOP, own.height - chosen.height - own.foot) >= 9000


def picture(document, number=1):
    command = ["/usr/bin/pdftoppm", "-gray", "-r", str(DPI), "-f", str(number), "-l", str(number), "-"]
    return Image.open(
        BytesIO(subprocess.run(command, input=document, capture_output=True, check=True).stdout)
    )


def glued(sized, paper, plate_number):
    """The sheets of one plate laid to each other, and where the template's corner lies in the picture."""
    found = plates(wanted(sized), (COMMON, PAGES[paper].own))
    plate, document = found[plate_number], body(sized, paper)
    before = 2 + sum(len(each.tiling.tiles) for each in found[:plate_number])
    window = plate.tiling.window.turned if plate.tiling.is_turned else plate.tiling.window
    left = (PAGES[paper].width - window.width) // 2000 * DOTS
    top = min(12, (PAGES[paper].height - window.height - 15_000) // 1000) * DOTS
    whole = plate.tiling.box
    result = Image.new("L", (whole.width // 100, whole.height // 100), 255)
    for number, tile in enumerate(plate.tiling.tiles):
        shown = picture(document, before + number).crop(
            (left, top, left + window.width // 100, top + window.height // 100)
        )
        if plate.tiling.is_turned:
            shown = shown.transpose(Image.Transpose.ROTATE_90)
        at = ((tile.box.left - whole.left) // 100, (tile.box.top - whole.top) // 100)
        area = (*at, at[0] + shown.width, at[1] + shown.height)
        result.paste(ImageChops.darker(result.crop(area), shown), area)
    return result, (-whole.left // 100, -whole.top // 100)


def both(sized, paper):
    """The sheets glued, and the same part of the large sheet."""
    together, (x, y) = glued(sized, paper, 0)
    box = wanted(sized)[0].box
    large = picture(large_sheet(sized))
    # The template's box begins at the margin of the large sheet; its corner lies inside that.
    left, top = (templates.MARGIN - box.left) // 100, (templates.MARGIN - box.top) // 100
    wide, high = box.width // 100, box.height // 100
    first = (x + box.left // 100, y + box.top // 100)
    shown = together.crop((*first, first[0] + wide, first[1] + high))
    return shown, large.crop(
        (
            left + box.left // 100,
            top + box.top // 100,
            left + box.left // 100 + wide,
            top + box.top // 100 + high,
        )
    )


@pytest.mark.parametrize(("slug", "paper"), [("boxed-tote", "a4"), ("drawstring-bag", "letter")])
def test_sheets_glued_are_the_large_sheet_dot_for_dot(make_sized, monkeypatch, slug, paper):
    """Without the pale guides, which the large sheet has none of."""
    monkeypatch.setattr(sheet, "_guides", lambda plate, tile: iter(()))
    together, large = both(make_sized(slug), paper)
    assert large.getextrema()[0] < 60
    assert ImageChops.difference(together, large).getbbox() is None


def test_guides_hide_no_line(make_sized):
    """What is dark on the large sheet is dark on the sheets that are glued, and nothing else is."""
    together, large = both(make_sized("boxed-tote", "cm"), "a4")
    for one, other in ((together, large), (large, together)):
        dark = one.point(lambda value: 255 if value < 64 else 0)
        pale = other.point(lambda value: 255 if value > 96 else 0)
        assert ImageChops.darker(dark, pale).getbbox() is None


def test_guides_are_paler_than_any_line(make_sized, monkeypatch):
    monkeypatch.setattr(templates, "sheet_svg", lambda plate, tile: sheet_svg_without_pieces(plate, tile))
    assert picture(body(make_sized("boxed-tote"), "a4"), 3).crop((0, 110, 2100, 2790)).getextrema()[0] > 96


def sheet_svg_without_pieces(plate, tile):
    from patterns.drawings.plates import Plate

    return sheet.sheet_svg(Plate((), plate.tiling, plate.first_row), tile)


@pytest.mark.parametrize("slug", TEMPLATED)
@pytest.mark.parametrize("units", ["in", "cm"])
@pytest.mark.parametrize("end", ["least", "default", "most"])
def test_no_sheet_is_empty_at_any_size(slug, units, end):
    """Something of a piece is drawn on every sheet, or it lies wholly inside the piece."""
    sized = size(read_starter(slug), slug, Units(units), ends_of(slug, units, end))
    if sized.is_refused:
        pytest.skip("refused")
    for paper in PAPERS:
        for plate in plates(wanted(sized), (COMMON, PAGES[paper].own)):
            for tile in plate.tiling.tiles:
                middle = tile.box.middle
                assert list(sheet.seen(plate.laid, tile.box)) or any(
                    way[0] < middle.x < way[1] for each in plate.laid for way in each.outline.across(middle.y)
                )


@pytest.mark.parametrize("slug", TEMPLATED)
@pytest.mark.parametrize(("units", "end"), [("in", "least"), ("cm", "most")])
def test_files_of_the_smallest_and_the_largest_size(slug, units, end):
    sized = size(read_starter(slug), slug, Units(units), ends_of(slug, units, end))
    if sized.is_refused:
        pytest.skip("refused")
    for document in (body(sized, "letter"), body(sized, "large")):
        assert check(document) == ()
        assert all(
            min(abs(length - MM_100) for length in lengths) < 0.005 for lengths in line_lengths(document)
        )


def test_every_piece_of_every_recipe_can_be_asked_for(make_sized):
    for slug in ("packable-tote", "window-pouch"):
        sized = make_sized(slug, "cm")
        assert check(body(sized, "a4", [piece.name for piece in sized.pieces])) == ()


def test_the_same_templates_have_the_same_bytes(made):
    paper, sized, document = made
    assert body(sized, paper) == document


def test_without_such_pieces_there_are_none(make_sized):
    with pytest.raises(NoDocumentError, match="No piece of Fold-flat basket needs a template"):
        body(make_sized(), "a4")


def test_a_refused_size_and_an_unknown_piece_are_told(make_sized):
    with pytest.raises(DocumentError, match="A size that is refused has no templates"):
        body(make_sized(height=2, depth=6), "a4")
    with pytest.raises(DocumentError, match=r"No piece “sail” is cut\. The pieces are: exterior panel, "):
        body(make_sized(), "a4", ["sail"])


def test_one_template_is_asked_for_by_name(make_sized):
    sized = make_sized("round-bucket")
    assert templates.one_template(sized, ["lining base"]).title == "lining base"
    with pytest.raises(DocumentError, match=r"there are 2: exterior side, .* Name one"):
        templates.one_template(sized)
