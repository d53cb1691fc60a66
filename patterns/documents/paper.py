"""The papers a book is designed for, and how large a drawing may be on each."""

from dataclasses import dataclass, replace
from typing import Literal

from .figures import Box

PaperName = Literal["a4", "letter"]


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper and the room for each kind of drawing on it, in mm. Its margins stand in its style sheet.

    layout, half_layout, part_layout: how wide the drawing may be, and how high the cloth in it.
    text_height: from the upper margin to the lower one.
    """

    name: PaperName
    cover: Box
    flat: Box
    piece: Box
    step: Box
    half_step: Box
    layout: Box
    half_layout: Box
    part_layout: Box
    text_height: int

    @property
    def sheet(self) -> str:
        """The file of its own style sheet, beside book.css."""
        return f"book_{self.name}.css"


# Labels in a drawing of a piece are 8 pt at a width of 120 mm: at 108 mm they are 7.2 pt, the least.
PAPERS: dict[PaperName, Paper] = {
    "a4": Paper(
        "a4",
        cover=Box(174, 132),
        flat=Box(78, 62),
        piece=Box(108, 100),
        step=Box(56, 46),
        half_step=Box(26, 44),
        layout=Box(174, 54),
        half_layout=Box(80, 105),
        part_layout=Box(80, 94),
        text_height=255,
    ),
    "letter": Paper(
        "letter",
        cover=Box(179.9, 116),
        flat=Box(78, 58),
        piece=Box(108, 92),
        step=Box(56, 42),
        half_step=Box(26, 42),
        layout=Box(179.9, 58),
        half_layout=Box(82, 98),
        part_layout=Box(82, 86),
        text_height=240,
    ),
}

# The cover's drawing where it shares its page: its letters are still 7 pt there.
LITTLE_COVER = Box(122, 80)


def in_little(paper: Paper) -> Paper:
    """Return the same paper with a cover that leaves room for more on its page."""
    return replace(paper, cover=LITTLE_COVER)
