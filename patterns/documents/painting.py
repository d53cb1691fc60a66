"""Our drawings, painted onto a page by ourselves.

The renderer takes a drawing for any SVG at all: it looks for styles, filters, masks and markers at each line,
and gives every letter a layout of its own. Painted here, a book is made in a fifth less time and is a smaller
file, and its labels are kerned as the words beside them are. What is not plain, as a picture of cloth is not,
is left to the renderer.
"""

from math import inf
from typing import Any, Final

from .operators import Label, NotPlainError, Plain, plain

PIXELS_PER_MM: Final = 96 / 25.4


class Painting:
    """A drawing as the renderer asks for an image: its size in pixels, and to draw itself."""

    def __init__(self, drawing: Plain, font_config: Any) -> None:
        self._drawing, self._font_config = drawing, font_config
        self._styles: dict[float, Any] = {}

    def get_intrinsic_size(self, _resolution: object, _font_size: object) -> tuple[float, float, float]:
        width, height = (side * PIXELS_PER_MM for side in self._drawing.printed)
        return width, height, width / height

    def draw(self, stream: Any, width: float, height: float, _style: object) -> None:
        """Paint it into a box of this width and height, as large as it fits, in the middle."""
        drawing = self._drawing
        scale = min(width / drawing.width, height / drawing.height)
        right = (width - scale * drawing.width) / 2 - scale * drawing.left
        down = (height - scale * drawing.height) / 2 - scale * drawing.top
        stream.push_state()
        stream.transform(scale, 0, 0, scale, right, down)
        for part in drawing.parts:
            if isinstance(part, bytes):
                stream.stream.append(part)
            else:
                self._write(stream, part)
        stream.pop_state()

    def _write(self, stream: Any, label: Label) -> None:
        from weasyprint.draw.text import draw_first_line
        from weasyprint.matrix import Matrix
        from weasyprint.svg.text import TextBox
        from weasyprint.text.line_break import create_layout, line_size

        style = self._style(label.size)
        layout = create_layout(label.text, style, None, inf, 0)
        line, _ = layout.get_first_line()
        width, _ = line_size(line, style)
        place = Matrix(d=-1, e=label.x - label.back * width, f=label.y)
        stream.begin_text()
        draw_first_line(stream, TextBox(layout, style), "none", "none", place)
        stream.end_text()

    def _style(self, size: float) -> Any:
        if size not in self._styles:
            from weasyprint.css.properties import INITIAL_VALUES
            from weasyprint.svg.text import Style

            style = self._styles[size] = Style(INITIAL_VALUES)
            style.font_config = self._font_config
            style.update(font_family=list(self._drawing.families), font_weight=400, font_size=size)
        return self._styles[size]


def painting(svg: str, font_config: Any) -> Painting | None:
    """Return a drawing that paints itself; None where the renderer is to do it."""
    try:
        return Painting(plain(svg), font_config)
    except NotPlainError:
        return None
