"""Read a PDF as a printer has it: how long its lines are in points, every transformation multiplied out."""

from collections.abc import Iterator
from io import BytesIO
from math import hypot

import pikepdf
from pikepdf import Name, Object, Pdf

Matrix = tuple[float, float, float, float, float, float]
PLAIN: Matrix = (1, 0, 0, 1, 0, 0)


def line_lengths(document: bytes) -> list[list[float]]:
    """Page by page, the length of every straight line of a path, in points."""
    with Pdf.open(BytesIO(document)) as pdf:
        return [list(_lengths(page.obj, page.obj.Resources, PLAIN)) for page in pdf.pages]


def _lengths(content: Object, resources: Object, ctm: Matrix) -> Iterator[float]:
    kept: list[Matrix] = []
    here = (0.0, 0.0)
    for instruction in pikepdf.parse_content_stream(content):
        operator, operands = str(instruction.operator), instruction.operands
        if operator == "q":
            kept.append(ctm)
        elif operator == "Q":
            ctm = kept.pop()
        elif operator == "cm":
            ctm = _times(tuple(map(float, operands)), ctm)
        elif operator == "Do":
            form = resources.XObject[str(operands[0])]
            if form.get(Name.Subtype) == Name.Form:
                inner = tuple(map(float, form.get(Name.Matrix, PLAIN)))
                yield from _lengths(form, form.get(Name.Resources, resources), _times(inner, ctm))
        elif operator in ("m", "l"):
            there = _moved(tuple(map(float, operands)), ctm)
            if operator == "l":
                yield hypot(there[0] - here[0], there[1] - here[1])
            here = there


def _times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m


def _moved(place: tuple[float, float], by: Matrix) -> tuple[float, float]:
    x, y = place
    a, b, c, d, e, f = by
    return a * x + c * y + e, b * x + d * y + f
