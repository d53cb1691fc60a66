"""Documents of one page or two: a chart, a worksheet, a short form. They are set as large as these allow."""

import hashlib
from collections.abc import Mapping, Sequence
from io import BytesIO

from pikepdf import Pdf

from .errors import DocumentError
from .mends import mend
from .render import render
from .typeset import UNKNOWN, markup, style


def one_sheet(
    name: str,
    settings: Sequence[str],
    content: Mapping[str, object],
    figures: Mapping[str, str],
    pages: int = 1,
) -> bytes:
    """Return a PDF/UA-1 on so many pages, or on more where even the closest setting needs them.

    name: of the template and of its style sheet. settings: classes of the body, `upright-a4 roomy`, from the
    roomiest to the closest: whatever fits one of them fits all that follow. content: for the template, words
    already. figures: SVG by address. The same arguments give the same bytes.
    Raises DocumentError: a page would not be right.
    """
    made: dict[int, bytes] = {}
    first, last = 0, len(settings) - 1
    while first < last:
        middle = (first + last) // 2
        made[middle] = _set(name, {**content, "setting": settings[middle]}, figures)
        if pages_of(made[middle]) <= pages:
            last = middle
        else:
            first = middle + 1
    return mend(made.get(first) or _set(name, {**content, "setting": settings[first]}, figures))


def _set(name: str, content: dict[str, object], figures: Mapping[str, str]) -> bytes:
    html = markup(f"documents/{name}.html", content)
    if UNKNOWN in html:
        raise DocumentError(f"The template of the {name} names what its content does not hold.")
    sheets = [style("sheet.css"), style(f"{name}.css")]
    return render(html, sheets, figures, hashlib.sha256(html.encode()).digest()[:16])


def pages_of(made: bytes) -> int:
    """Return how many pages a PDF has."""
    with Pdf.open(BytesIO(made)) as pdf:
        return len(pdf.pages)
