"""Faults planted one at a time in a book that has none: each is found, and by what it is."""

from collections.abc import Callable
from io import BytesIO

import page
import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, Pdf

from patterns.documents.check import check
from patterns.documents.mends import elements, mend, saved
from patterns.documents.render import render

HTML = """<html lang="en"><head><title>Trial</title>
<style>
@page { size: 120mm 160mm; @bottom-left { content: "Trial" } @bottom-right { content: counter(page) } }
</style>
</head><body><h1>Trial</h1><h2>Chart</h2>
<table><thead><tr><th scope="col">Piece</th><th scope="col">Width</th></tr></thead>
<tbody><tr><th scope="row">panel</th><td>7 1⁄2 in</td></tr></tbody></table>
<ul><li>one</li></ul><img src="mem:1.svg" alt="A square" style="width: 20mm"/></body></html>"""
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9">'
    '<rect width="9" height="9"/></svg>'
)


@pytest.fixture(scope="module")
def raw() -> bytes:
    return render(HTML, [], {"mem:1.svg": SVG}, b"trial")


@pytest.fixture(scope="module")
def sound(raw: bytes) -> bytes:
    return mend(raw)


def test_the_mended_document_has_no_fault(sound):
    assert check(sound) == ()
    report = page.validate_pdf_bytes(sound, profile="ua1")
    assert [failure.message for failure in report.failures] == []


def test_what_the_renderer_leaves_undone_is_found(raw):
    faults = check(raw)
    assert faults.count("A header cell has no scope.") == 3
    assert sum("belongs to no part" in fault for fault in faults) == 2


def test_mending_keeps_text_and_tags(raw, sound):
    with Pdf.open(BytesIO(raw)) as before, Pdf.open(BytesIO(sound)) as after:
        assert [str(element.S) for element in elements(before)] == [
            str(element.S) for element in elements(after)
        ]
    assert mend(raw) == sound


def test_header_cells_are_of_their_column_or_row(sound):
    with Pdf.open(BytesIO(sound)) as pdf:
        scopes = [str(element.A.Scope) for element in elements(pdf) if element.S == Name.TH]
    assert scopes == ["/Column", "/Column", "/Row"]


def test_the_box_of_a_figure_is_where_it_is_drawn(sound):
    with Pdf.open(BytesIO(sound)) as pdf:
        (figure,) = [element for element in elements(pdf) if Name.Figure == element.S]
        left, bottom, right, top = (float(number) for number in figure.A.BBox)
    side = 20 * 72 / 25.4
    assert right - left == pytest.approx(side, abs=0.01)
    assert top - bottom == pytest.approx(side, abs=0.01)
    assert left > 0
    assert top < 160 * 72 / 25.4


def first(pdf: Pdf, kind: str) -> pikepdf.Object:
    return next(element for element in elements(pdf) if str(element.S) == kind)


def plant_no_language(pdf: Pdf) -> None:
    del pdf.Root.Lang


def plant_no_title(pdf: Pdf) -> None:
    del pdf.docinfo.Title


def plant_file_name_shown(pdf: Pdf) -> None:
    pdf.Root.ViewerPreferences.DisplayDocTitle = False


def plant_shrinking(pdf: Pdf) -> None:
    del pdf.Root.ViewerPreferences.PrintScaling


def plant_not_marked(pdf: Pdf) -> None:
    del pdf.Root.MarkInfo


def plant_suspects(pdf: Pdf) -> None:
    pdf.Root.MarkInfo.Suspects = True


def plant_no_title_in_metadata(pdf: Pdf) -> None:
    metadata = pdf.Root.Metadata.read_bytes()
    pdf.Root.Metadata.write(
        metadata.replace(b"purl.org/dc/elements", b"example.org/dc").replace(b"dc:title", b"x:y")
    )


def plant_no_claim(pdf: Pdf) -> None:
    del pdf.Root.Metadata


def plant_no_tree(pdf: Pdf) -> None:
    del pdf.Root.StructTreeRoot


def plant_no_scope(pdf: Pdf) -> None:
    del first(pdf, "/TH").A.Scope


def plant_no_alternative(pdf: Pdf) -> None:
    del first(pdf, "/Figure").Alt


def plant_no_box(pdf: Pdf) -> None:
    del first(pdf, "/Figure").A


def plant_box_off_the_page(pdf: Pdf) -> None:
    first(pdf, "/Figure").A.BBox = Array([0, 800, 50, 900])


def plant_skipped_heading(pdf: Pdf) -> None:
    first(pdf, "/H2").S = Name.H4


def plant_no_headings(pdf: Pdf) -> None:
    for element in list(elements(pdf)):
        if str(element.S) in ("/H1", "/H2", "/H3"):
            element.S = Name.P


def plant_row_astray(pdf: Pdf) -> None:
    first(pdf, "/THead").S = Name.Div


def plant_item_astray(pdf: Pdf) -> None:
    first(pdf, "/L").S = Name.Div


def plant_cell_astray(pdf: Pdf) -> None:
    first(pdf, "/TR").S = Name.Div


def plant_unknown_kind(pdf: Pdf) -> None:
    first(pdf, "/P").S = Name.Paragraph


def link_on(pdf: Pdf, **more: object) -> None:
    link = Dictionary(Type=Name.Annot, Subtype=Name.Link, Rect=Array([90, 90, 120, 120]), **more)
    pdf.pages[0].obj.Annots = Array([pdf.make_indirect(link)])


def plant_link_without_words(pdf: Pdf) -> None:
    link_on(pdf, StructParent=0)


def plant_link_outside(pdf: Pdf) -> None:
    link_on(pdf, Contents=pikepdf.String("The shop"))


def plant_no_parents(pdf: Pdf) -> None:
    del pdf.Root.StructTreeRoot.ParentTree


def plant_alternative_of_spaces(pdf: Pdf) -> None:
    first(pdf, "/Figure").Alt = pikepdf.String("  ")


def plant_no_tab_order(pdf: Pdf) -> None:
    del pdf.pages[0].obj.Tabs


def plant_page_outside(pdf: Pdf) -> None:
    del pdf.pages[0].obj.StructParents


def plant_wrong_parent(pdf: Pdf) -> None:
    parents = pdf.Root.StructTreeRoot.ParentTree.Nums[1]
    parents[0], parents[1] = parents[1], parents[0]


def plant_untagged_text(pdf: Pdf) -> None:
    contents = pdf.pages[0].Contents.read_bytes()
    font = next(iter(pdf.pages[0].Resources.Font.keys())).encode()
    pdf.pages[0].Contents.write(contents + b"\nBT " + font + b" 9 Tf <0020> Tj ET\n")


def plant_untagged_line(pdf: Pdf) -> None:
    pdf.pages[0].Contents.write(pdf.pages[0].Contents.read_bytes() + b"\n0 0 9 9 re f\n")


def plant_missing_sign(pdf: Pdf) -> None:
    font = next(iter(pdf.pages[0].Resources.Font.keys())).encode()
    shown = b"\n/Artifact BMC BT " + font + b" 9 Tf [<0000>] TJ ET EMC\n"
    pdf.pages[0].Contents.write(pdf.pages[0].Contents.read_bytes() + shown)


def fonts_of(pdf: Pdf) -> list[pikepdf.Object]:
    return list(pdf.pages[0].Resources.Font.values())


def plant_font_not_held(pdf: Pdf) -> None:
    descriptor = fonts_of(pdf)[0].DescendantFonts[0].FontDescriptor
    for key in [key for key in descriptor.keys() if key.startswith("/FontFile")]:  # noqa: SIM118 - not a dict
        del descriptor[key]


def plant_font_with_own_encoding(pdf: Pdf) -> None:
    fonts_of(pdf)[0].Encoding = pdf.make_stream(b"", Dictionary(Type=Name.CMap))


def plant_font_not_copied(pdf: Pdf) -> None:
    del fonts_of(pdf)[0].ToUnicode


PLANTED: dict[Callable[[Pdf], None], str] = {
    plant_no_language: "names no language",
    plant_no_title: "has no title",
    plant_file_name_shown: "not the title",
    plant_shrinking: "may shrink",
    plant_not_marked: "does not say that it is tagged",
    plant_suspects: "tags may be wrong",
    plant_no_claim: "do not claim",
    plant_no_title_in_metadata: "metadata have no title",
    plant_no_tree: "is not tagged",
    plant_no_scope: "has no scope",
    plant_no_alternative: "no text in its place",
    plant_no_box: "has no box",
    plant_box_off_the_page: "not on its page",
    plant_skipped_heading: "level 4 follows one of level 1",
    plant_no_headings: "has no headings",
    plant_row_astray: "row of a table stands outside",
    plant_item_astray: "item of a list stands outside",
    plant_cell_astray: "cell of a table stands outside",
    plant_unknown_kind: "that no reader knows, Paragraph",
    plant_link_without_words: "link has no text in its place",
    plant_link_outside: "link is not in the structure",
    plant_no_parents: "Page 2 is not in the structure",
    plant_alternative_of_spaces: "no text in its place",
    plant_no_tab_order: "order of its structure",
    plant_page_outside: "is not in the structure",
    plant_wrong_parent: "belongs to no part",
    plant_untagged_text: "neither tagged nor an artifact",
    plant_untagged_line: "neither tagged nor an artifact",
    plant_missing_sign: "for which the font has no sign",
    plant_font_not_held: "is not in the file",
    plant_font_with_own_encoding: "lacks signs",
    plant_font_not_copied: "cannot be copied",
}


@pytest.mark.parametrize(("plant", "found"), PLANTED.items(), ids=[plant.__name__ for plant in PLANTED])
def test_a_fault_planted_in_a_real_book_is_found(make_body, plant, found):
    with Pdf.open(BytesIO(make_body())) as pdf:
        plant(pdf)
        faults = check(saved(pdf))
    assert any(found in fault for fault in faults), faults
