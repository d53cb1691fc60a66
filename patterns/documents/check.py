"""Our own look at a finished PDF: is it tagged as it should be, does it hold its fonts, can it be read aloud.

A validator of the standard runs beside it in the tests; this one also knows what that one passes over
(scope of header cells, boxes of figures, running titles), and what only our documents promise.
"""

import re
from collections.abc import Iterator
from io import BytesIO
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, Page, Pdf

from .mends import elements

HEADINGS = re.compile(r"/H([1-6])")
SHOWING = frozenset({"Tj", "TJ", "'", '"'})
PAINTING = SHOWING | frozenset({"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "INLINE IMAGE"})
OPENING = frozenset({"BMC", "BDC"})
# The kinds of parts that a reader knows (ISO 32000, 14.8.4).
KINDS = frozenset(
    (
        *("Document", "Part", "Art", "Sect", "Div", "BlockQuote", "Caption", "TOC", "TOCI", "Index"),
        *("NonStruct", "Private", "H", "H1", "H2", "H3", "H4", "H5", "H6", "P", "L", "LI", "Lbl", "LBody"),
        *("Table", "TR", "TH", "TD", "THead", "TBody", "TFoot", "Span", "Quote", "Note", "Reference"),
        *("BibEntry", "Code", "Link", "Annot", "Ruby", "RB", "RT", "RP", "Warichu", "WT", "WP"),
        *("Figure", "Formula", "Form"),
    )
)
# Parts, what they may stand in, and what is said where they stand in something else.
ASTRAY = (
    (("/TR",), ("/Table", "/THead", "/TBody", "/TFoot"), "A row of a table stands outside a table."),
    (("/TD", "/TH"), ("/TR",), "A cell of a table stands outside a row."),
    (("/LI",), ("/L",), "An item of a list stands outside a list."),
)
FONT_FILES = frozenset({"/FontFile", "/FontFile2", "/FontFile3"})
# A box may stand over the edge of its page by what rounding to thousandths of a point makes of it.
SLACK = 0.01


def check(document: bytes) -> tuple[str, ...]:
    """Return every fault of a document as a sentence; none when it is as it should be."""
    with Pdf.open(BytesIO(document)) as pdf:
        if Name.StructTreeRoot not in pdf.Root:
            return (*_catalogue(pdf), "The document is not tagged.")
        return (*_catalogue(pdf), *_structure(pdf), *_pages(pdf), *_links(pdf), *_fonts(pdf))


def _catalogue(pdf: Pdf) -> Iterator[str]:
    root = pdf.Root
    view = root.get(Name.ViewerPreferences, Dictionary())
    if not str(root.get(Name.Lang, "")):
        yield "The document names no language."
    if not str(pdf.docinfo.get(Name.Title, "")):
        yield "The document has no title."
    if not view.get(Name.DisplayDocTitle, False):
        yield "A viewer would show the file's name, not the title."
    if view.get(Name.PrintScaling) != Name("/None"):
        yield "A viewer may shrink the pages when it prints them."
    if not root.get(Name.MarkInfo, Dictionary()).get(Name.Marked, False):
        yield "The document does not say that it is tagged."
    if root.get(Name.MarkInfo, Dictionary()).get(Name.Suspects, False):
        yield "The document says that its tags may be wrong."
    metadata = root.Metadata.read_bytes() if Name.Metadata in root else b""
    if b"pdfuaid" not in metadata:
        yield "The metadata do not claim PDF/UA."
    if b"dc:title" not in metadata and b"purl.org/dc/elements/1.1/" not in metadata:
        yield "The metadata have no title."


def _structure(pdf: Pdf) -> Iterator[str]:
    level = 0
    for element in elements(pdf):
        kind = str(element.S)
        yield from _kind(pdf, kind, element)
        if kind == "/Figure":
            yield from _figure(element)
        elif heading := HEADINGS.fullmatch(kind):
            if int(heading[1]) > level + 1:
                yield f"A heading of level {heading[1]} follows one of level {level}."
            level = int(heading[1])
    if not level:
        yield "The document has no headings."


def _kind(pdf: Pdf, kind: str, element: Object) -> Iterator[str]:
    """Whether a part is of a kind that is known, and stands in one that it may stand in."""
    known = pdf.Root.StructTreeRoot.get(Name.RoleMap, Dictionary())
    if kind.removeprefix("/") not in KINDS and element.S not in known:
        yield f"A part is of a kind that no reader knows, {kind.removeprefix('/')}."
    for kinds, parents, fault in ASTRAY:
        if kind in kinds and str(element.P.S) not in parents:
            yield fault
    if kind == "/TH" and element.get(Name.A, Dictionary()).get(Name.Scope) not in (Name.Row, Name.Column):
        yield "A header cell has no scope."


def _figure(figure: Object) -> Iterator[str]:
    if not str(figure.get(Name.Alt, "")).strip():
        yield "A figure has no text in its place."
    box = figure.get(Name.A, Dictionary()).get(Name.BBox)
    if box is None:
        yield "A figure has no box."
        return
    left, bottom, right, top = (float(number) for number in box)
    x_min, y_min, x_max, y_max = (float(number) for number in figure.Pg.MediaBox)
    inside = x_min - SLACK <= left < right <= x_max + SLACK and y_min - SLACK <= bottom < top <= y_max + SLACK
    if not inside:
        yield "The box of a figure is not on its page."


def _pages(pdf: Pdf) -> Iterator[str]:
    owners = {element.objgen: _own_content(element) for element in elements(pdf)}
    parents = _parents(pdf)
    for number, page in enumerate(pdf.pages, 1):
        if page.obj.get(Name.Tabs) != Name.S:
            yield f"Page {number} is not walked in the order of its structure."
        owned = parents.get(int(page.obj.get(Name.StructParents, -1)))
        if owned is None:
            yield f"Page {number} is not in the structure."
            continue
        yield from (f"Page {number}: {fault}" for fault in _content(page, owned, owners))


def _parents(pdf: Pdf) -> dict[int, Object]:
    numbers = pdf.Root.StructTreeRoot.get(Name.ParentTree, Dictionary()).get(Name.Nums, Array())
    return {int(numbers[at]): numbers[at + 1] for at in range(0, len(numbers), 2)}


def _own_content(element: Object) -> frozenset[int]:
    """The numbers of the marked content that an element holds itself."""
    kids: Any = element.get(Name.K, Array())  # numbers come as int, which the stubs do not tell
    listed = kids if isinstance(kids, Array) else [kids]
    return frozenset(int(kid) for kid in listed if isinstance(kid, int))


def _content(page: Page, parents: Object, owners: dict[tuple[int, int], frozenset[int]]) -> Iterator[str]:
    """Everything painted belongs to an element that knows it, or is an artifact."""
    marked: list[str] = []
    for instruction in pikepdf.parse_content_stream(page):
        operator, operands = str(instruction.operator), instruction.operands
        if operator in OPENING:
            marked.append(str(operands[0]))
        elif operator == "EMC":
            marked.pop()
        elif operator in PAINTING and not marked:
            yield "something is painted that is neither tagged nor an artifact."
        if operator == "BDC" and Name.MCID in operands[1]:
            yield from _owned(int(operands[1].MCID), parents, owners)


def _owned(number: int, parents: Object, owners: dict[tuple[int, int], frozenset[int]]) -> Iterator[str]:
    parent = parents[number] if number < len(parents) else None
    if parent is None or number not in owners.get(parent.objgen, frozenset()):
        yield f"marked content {number} belongs to no part of the structure."


def _links(pdf: Pdf) -> Iterator[str]:
    """Every link can be read aloud, and is reached in reading order."""
    parents = _parents(pdf)
    for number, page in enumerate(pdf.pages, 1):
        for link in page.obj.get(Name.Annots, Array()):
            if link.get(Name.Subtype) != Name.Link:
                continue
            if not str(link.get(Name.Contents, "")).strip():
                yield f"Page {number}: a link has no text in its place."
            if parents.get(int(link.get(Name.StructParent, -1))) is None:
                yield f"Page {number}: a link is not in the structure."


def _fonts(pdf: Pdf) -> Iterator[str]:
    """Every font is in the file, and has a sign for each character that is shown in it."""
    for name, font in sorted(_all_fonts(pdf).items()):
        descriptor = font.DescendantFonts[0].FontDescriptor if Name.DescendantFonts in font else font
        if not FONT_FILES & set(descriptor.keys()):
            yield f"The font {name} is not in the file."
        if font.get(Name.Encoding) != Name("/Identity-H"):
            yield f"The font {name} lacks signs that are shown in it."
        if Name.ToUnicode not in font:
            yield f"What is written in the font {name} cannot be copied."
    for number, page in enumerate(pdf.pages, 1):
        if any(b"\0\0" in _pairs(text) for text in _shown(page.obj, page.obj.Resources)):
            yield f"Page {number}: a character is shown for which the font has no sign."


def _all_fonts(pdf: Pdf) -> dict[str, Object]:
    fonts: dict[str, Object] = {}
    for page in pdf.pages:
        for resources in (
            page.obj.Resources,
            *(form.get(Name.Resources, Dictionary()) for form in _forms(page.obj)),
        ):
            fonts |= {str(font.BaseFont): font for font in resources.get(Name.Font, Dictionary()).values()}
    return fonts


def _forms(page: Object) -> list[Object]:
    held = page.Resources.get(Name.XObject, Dictionary()).values()
    return [form for form in held if form.get(Name.Subtype) == Name.Form]


def _shown(content: Object, resources: Object) -> Iterator[bytes]:
    """The strings of glyph numbers that a page and the forms on it show."""
    for instruction in pikepdf.parse_content_stream(content):
        operator = str(instruction.operator)
        if operator == "TJ":
            yield from (bytes(part) for part in instruction.operands[0] if isinstance(part, pikepdf.String))
        elif operator in SHOWING:
            yield bytes(instruction.operands[-1])
        elif operator == "Do":
            form = resources.XObject[str(instruction.operands[0])]
            if form.get(Name.Subtype) == Name.Form:
                yield from _shown(form, form.get(Name.Resources, resources))


def _pairs(text: bytes) -> tuple[bytes, ...]:
    """Glyph numbers are two bytes each."""
    return tuple(text[at : at + 2] for at in range(0, len(text), 2))
