"""Pages of a PDF as pictures: all on one contact sheet, or one by itself with what is wrong in a frame."""

import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

from PIL import Image, ImageDraw

from patterns.documents.proofs.boxes import Box
from patterns.drafting.errors import DraftingError

# The page printer of Poppler, a program of the machine.
PRINTER = "pdftoppm"
ABREAST = 5
GAP = 8
GROUND = "#8a9296"
FRAME = "#a8452c"
SHEET_DPI, PAGE_DPI = 50, 110
# No page takes longer; a document that does is broken.
SECONDS = 120


class PictureError(DraftingError):
    """A page cannot be made a picture; the text says what is missing."""


def contact_sheet(document: Path, target: Path) -> int:
    """Write all pages of a PDF as one picture; return how many pages they are."""
    with tempfile.TemporaryDirectory() as folder:
        pages = _printed(document, Path(folder), SHEET_DPI)
        with Image.open(pages[0]) as first:
            wide, high = first.width + GAP, first.height + GAP
        rows = -(-len(pages) // ABREAST)
        sheet = Image.new("RGB", (wide * ABREAST + GAP, high * rows + GAP), GROUND)
        for at, page in enumerate(pages):
            with Image.open(page) as picture:
                sheet.paste(picture, (GAP + at % ABREAST * wide, GAP + at // ABREAST * high))
        # The pages have few colours; so written the sheet takes a third.
        sheet.quantize(128).save(target, optimize=True)
        return len(pages)


def framed_page(document: Path, number: int, boxes: Sequence[Box], target: Path) -> None:
    """Write one page as a picture, with a frame round each box."""
    with tempfile.TemporaryDirectory() as folder:
        (page,) = _printed(document, Path(folder), PAGE_DPI, "-f", str(number), "-l", str(number))
        with Image.open(page) as picture:
            scale = PAGE_DPI / 72
            drawing = ImageDraw.Draw(picture)
            for box in boxes:
                corners = (
                    box.left,
                    picture.height / scale - box.top,
                    box.right,
                    picture.height / scale - box.bottom,
                )
                left, top, right, bottom = (side * scale for side in corners)
                drawing.rectangle((left - 4, top - 4, right + 4, bottom + 4), outline=FRAME, width=3)
            picture.save(target)


def _printed(document: Path, folder: Path, dpi: int, *pages: str) -> list[Path]:
    command = [PRINTER, "-r", str(dpi), "-png", *pages, str(document), str(folder / "page")]
    try:
        subprocess.run(command, check=True, capture_output=True, timeout=SECONDS)  # noqa: S603 - our own words
    except FileNotFoundError:
        raise PictureError(
            f"{PRINTER} makes the pictures, and is not on this machine: install poppler-utils."
        ) from None
    except subprocess.SubprocessError as error:
        raise PictureError(f"{document.name} could not be made pictures: {error}.") from error
    return sorted(folder.glob("page-*.png"))
