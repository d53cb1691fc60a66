"""What is painted on the pages of a PDF, and where: every text and every line in points of its page.

A second road to what the renderer was asked for: nothing here knows the markup or the drawings, only the
finished file, every transformation multiplied out.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from pikepdf import Page, Pdf

from .boxes import Box, Painted
from .streams import Font, Stream

# Letters of a drawing may be painted one by one: so near each other, in letter sizes, and seen through one
# window, which is the label's own, they are one text.
NEXT = 0.35


@dataclass(frozen=True)
class PageRead:
    """A page. number: from 1."""

    number: int
    box: Box
    painted: tuple[Painted, ...]

    @cached_property
    def texts(self) -> tuple[Painted, ...]:
        return tuple(each for each in self.painted if each.text.strip())

    @cached_property
    def content(self) -> dict[int, tuple[Painted, ...]]:
        """What belongs to each marked content."""
        found: dict[int, list[Painted]] = {}
        for each in self.painted:
            if each.number is not None:
                found.setdefault(each.number, []).append(each)
        return {number: tuple(parts) for number, parts in found.items()}


def pages_of(pdf: Pdf) -> tuple[PageRead, ...]:
    """Return all pages, with what is painted on each in the order of painting."""
    fonts: dict[tuple[int, int], Font] = {}
    return tuple(_page(number, page, fonts) for number, page in enumerate(pdf.pages, 1))


def _page(number: int, page: Page, fonts: dict[tuple[int, int], Font]) -> PageRead:
    left, bottom, right, top = (float(side) for side in page.mediabox)
    found: list[Painted] = []
    Stream(page.obj.Resources, fonts, found).read(page.obj)
    return PageRead(number, Box(left, bottom, right, top), tuple(_joined(found)))


def _joined(painted: Sequence[Painted]) -> Iterator[Painted]:
    """Letters that were painted one after the other become the texts they are read as."""
    last: Painted | None = None
    for each in painted:
        if last is not None and _goes_on(last, each):
            last = _together(last, each)
            continue
        if last is not None:
            yield last
        last = each
    if last is not None:
        yield last


def _goes_on(one: Painted, other: Painted) -> bool:
    if not (one.size and other.size) or abs(one.size - other.size) > 0.01 or one.number != other.number:
        return False
    if one.window != other.window:
        return False
    near = NEXT * one.size
    along = abs(one.box.bottom - other.box.bottom) < 0.01 and -near < other.box.left - one.box.right < near
    upright = abs(one.box.right - other.box.right) < 0.01 and -near < other.box.bottom - one.box.top < near
    return along or upright


def _together(one: Painted, other: Painted) -> Painted:
    box = Box(
        min(one.box.left, other.box.left),
        min(one.box.bottom, other.box.bottom),
        max(one.box.right, other.box.right),
        max(one.box.top, other.box.top),
    )
    return replace(one, box=box, text=one.text + other.text)
