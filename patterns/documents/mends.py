"""What the renderer leaves undone in a tagged PDF, done afterwards.

Three things, each seen in WeasyPrint 70: margin boxes (title and page number at the foot) are marked as
content that no part of the structure owns, header cells have no scope, and the box of a figure is
given in CSS pixels from the top of the page.
"""

import re
from collections.abc import Iterator
from io import BytesIO

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, Pdf

from .errors import DocumentError

# CSS pixels are 1/96 in, the points of a PDF 1/72 in.
POINTS_PER_PIXEL = 0.75


def mend(made: bytes) -> bytes:
    """Return the same document with its structure put right; the same bytes for the same document."""
    with Pdf.open(BytesIO(made)) as pdf:
        owned = set()
        for element in elements(pdf):
            owned.add(element.objgen)
            if element.S == Name.TH:
                _give_scope(element)
            elif Name.Figure == element.S:
                _place_box(element)
        _drop_orphans(pdf, owned)
        return saved(pdf)


def saved(pdf: Pdf) -> bytes:
    """Write a PDF in the one way that gives the same bytes every time."""
    target = BytesIO()
    pdf.save(
        target,
        deterministic_id=True,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
    )
    return target.getvalue()


def elements(pdf: Pdf) -> Iterator[Object]:
    """Every element of the structure, in reading order."""
    waiting = [pdf.Root.StructTreeRoot.K]
    while waiting:
        kid = waiting.pop()
        if isinstance(kid, Array):
            waiting.extend(reversed(list(kid)))
        elif isinstance(kid, Dictionary) and Name.S in kid:
            yield kid
            if Name.K in kid:
                waiting.append(kid.K)


def _give_scope(header: Object) -> None:
    """A header cell in the head of its table is of a column, another of its row."""
    in_head = Name.THead == header.P.P.S
    attributes = header.get(Name.A) or Dictionary(O=Name.Table)
    attributes.Scope = Name.Column if in_head else Name.Row
    header.A = attributes


def _place_box(figure: Object) -> None:
    left, top, right, bottom = (float(number) * POINTS_PER_PIXEL for number in figure.A.BBox)
    height = float(figure.Pg.MediaBox[3])
    box = (left, height - bottom, right, height - top)
    figure.A.BBox = Array([round(number, 3) for number in box])


def _drop_orphans(pdf: Pdf, owned: set[tuple[int, int]]) -> None:
    """Make artifacts of all marked content whose element hangs outside the structure."""
    numbers = pdf.Root.StructTreeRoot.ParentTree.Nums
    entries = {int(numbers[at]): numbers[at + 1] for at in range(0, len(numbers), 2)}
    for page in pdf.pages:
        parents = entries[int(page.StructParents)]
        orphans = {mcid for mcid, parent in enumerate(parents) if parent.objgen not in owned}
        if orphans:
            for mcid in orphans:
                parents[mcid] = None
            page.Contents.write(_with_artifacts(page.Contents.read_bytes(), orphans))


# How the renderer opens marked content. Nothing else in a page reads so: it writes text as glyph numbers.
OPENING = re.compile(rb"/\w+\s*<<\s*/MCID (\d+)\s*>>\s*BDC")
ARTIFACT = b"/Artifact << /Type /Pagination /Subtype /Footer >> BDC"


def _with_artifacts(content: bytes, orphans: set[int]) -> bytes:
    """Ten times as quick as reading the page's every instruction, and it counts what it did."""
    replaced = 0

    def opened(match: re.Match[bytes]) -> bytes:
        nonlocal replaced
        if int(match[1]) not in orphans:
            return match[0]
        replaced += 1
        return ARTIFACT

    content = OPENING.sub(opened, content)
    if replaced != len(orphans):
        raise DocumentError(f"{len(orphans) - replaced} margin boxes of a page were not found in it.")
    return content
