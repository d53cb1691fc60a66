"""A PDF in the order in which it is read aloud: headings, paragraphs, figures, rows, with their pages."""

from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from pikepdf import Array, Dictionary, Name, Object, Pdf

from .boxes import Box, Painted
from .painted import PageRead, pages_of

BLOCKS = frozenset({"H1", "H2", "H3", "H4", "H5", "H6", "P", "Figure", "TR", "LI", "Caption"})


@dataclass(frozen=True, slots=True)
class Block:
    """A part that is read in one go. pages: where it stands. box: of what is on the first of them."""

    kind: str
    pages: tuple[int, ...]
    text: str
    box: Box | None

    @property
    def is_heading(self) -> bool:
        return self.kind.startswith("H")


@dataclass(frozen=True, slots=True)
class Read:
    """A document as it is printed, and as it is read."""

    pages: tuple[PageRead, ...]
    blocks: tuple[Block, ...]


def read(document: bytes) -> Read:
    """Read a tagged PDF. One that is not tagged has no blocks."""
    with Pdf.open(BytesIO(document)) as pdf:
        pages = pages_of(pdf)
        by_object = {page.obj.objgen: read for page, read in zip(pdf.pages, pages, strict=True)}
        if Name.StructTreeRoot not in pdf.Root:
            return Read(pages, ())
        return Read(pages, tuple(_blocks(pdf.Root.StructTreeRoot.K, by_object)))


def _blocks(kids: object, pages: dict[tuple[int, int], PageRead]) -> Iterator[Block]:
    for kid in kids if isinstance(kids, Array) else [kids]:
        if not isinstance(kid, Dictionary) or Name.S not in kid:
            continue
        kind = str(kid.S).removeprefix("/")
        if kind in BLOCKS:
            yield _block(kind, kid, pages)
        elif Name.K in kid:
            yield from _blocks(kid.K, pages)


def _block(kind: str, element: Object, pages: dict[tuple[int, int], PageRead]) -> Block:
    held = [(page, each) for page, number in _leaves(element, pages) for each in page.content.get(number, ())]
    numbers = tuple(dict.fromkeys(page.number for page, _ in held))
    text = str(element.get(Name.Alt, "")) if kind == "Figure" else " ".join(each.text for _, each in held)
    first = [each for page, each in held if page.number == numbers[0]]
    return Block(kind, numbers, " ".join(text.split()), _all_round(first))


def _leaves(element: Object, pages: dict[tuple[int, int], PageRead]) -> Iterator[tuple[PageRead, int]]:
    kids: Any = element.get(Name.K, Array())  # numbers come as int, which the stubs do not tell
    for kid in kids if isinstance(kids, Array) else [kids]:
        if isinstance(kid, int):
            yield pages[element.Pg.objgen], kid
        elif isinstance(kid, Dictionary) and Name.MCID in kid:
            yield pages[(kid.Pg if Name.Pg in kid else element.Pg).objgen], int(kid.MCID)
        elif isinstance(kid, Dictionary):
            yield from _leaves(kid, pages)


def _all_round(painted: list[Painted]) -> Box | None:
    boxes = [each.seen for each in painted]
    if not boxes:
        return None
    left, bottom, right, top = zip(*boxes, strict=True)
    return Box(min(left), min(bottom), max(right), max(top))
