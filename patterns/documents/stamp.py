"""The licence line on every page of a body that was made once.

Set as one line by the renderer, so that any script is shaped as in the book, then laid on each page as
a Form XObject. It is marked as an artifact: it belongs to the page, not to the text that is read aloud.
"""

import hashlib
from io import BytesIO

from pikepdf import Dictionary, Name, Object, Page, Pdf

from .errors import DocumentError
from .mends import saved
from .names import missing_from
from .render import render
from .typeset import markup, style

Size = tuple[str, str]
"""Width and height of a page in points, as the PDF writes them."""


def stamp(body: bytes, licence_line: str) -> bytes:
    """Return the body with the line at the foot of every page; the same bytes for the same arguments.

    body: as `book.body` makes it. licence_line: from `names.licence_line`, in printable characters.
    Raises DocumentError: our fonts cannot write the line.
    """
    if missing := missing_from(licence_line):
        raise DocumentError(
            f"Our fonts have no sign for {' '.join(missing)}; names.licence_line leaves it out."
        )
    with Pdf.open(BytesIO(body)) as pdf:
        forms: dict[Size, tuple[str, Object]] = {}
        for page in pdf.pages:
            size = _size(page)
            if size not in forms:
                forms[size] = f"/Licence{len(forms)}", _form(pdf, size, licence_line)
            _lay(pdf, page, *forms[size])
        pdf.docinfo["/Licence"] = licence_line
        return saved(pdf)


def _size(page: Page) -> Size:
    left, bottom, right, top = page.mediabox
    return str(right - left), str(top - bottom)


def _form(pdf: Pdf, size: Size, line: str) -> Object:
    """Set the line on a page of that size, and make the page a form of this PDF."""
    width, height = size
    html = markup("documents/licence.html", {"line": line, "width": width, "height": height})
    made = render(html, [style("licence.css")], {}, b"licence", variant=None)
    with Pdf.open(BytesIO(made)) as single:
        form = pdf.copy_foreign(single.pages[0].as_form_xobject())
    _retag(form.Resources.Font)
    return form


def _retag(fonts: Object) -> None:
    """Give the line's fonts other subset tags than the body's, which hold other glyphs of the same fonts."""
    for font in fonts.values():
        descendant = font.DescendantFonts[0]
        for holder, key in (
            (font, Name.BaseFont),
            (descendant, Name.BaseFont),
            (descendant.FontDescriptor, Name.FontName),
        ):
            holder[key] = _other_tag(str(holder[key]))


def _other_tag(name: str) -> Name:
    """`/ABCDEF+Workroom-Text` with six other letters, always the same ones."""
    digest = hashlib.sha256(f"licence {name}".encode()).digest()
    letters = "".join(chr(ord("A") + number % 26) for number in digest[:6])
    return Name(f"/{letters}+{name.partition('+')[2]}")


def _lay(pdf: Pdf, page: Page, name: str, form: Object) -> None:
    """Draw the form over the page. The page's own drawing ends with another origin, so it is bracketed."""
    resources = page.obj.Resources
    if Name.XObject not in resources:
        resources.XObject = Dictionary()
    resources.XObject[name] = form
    before = pdf.make_stream(b"q\n")
    after = f"\nQ\n/Artifact <</Type /Pagination /Subtype /Footer>> BDC q {name} Do Q EMC\n"
    page.contents_add(before, prepend=True)
    page.contents_add(pdf.make_stream(after.encode()))
