"""What is wrong with the pages of a book, told from the finished file: each fault with its name."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from patterns.documents.check import check

from .boxes import Box, Painted
from .painted import PageRead
from .reading import Block, Read, read

POINTS_PER_MM = 72 / 25.4
# Nothing but the lines at the foot stands nearer to an edge: printers leave up to 6 mm white, hands hold 12.
MARGIN = 12 * POINTS_PER_MM
# 7 pt, the least that is read from a printed page at arm's length, but for what rounding makes of it.
LEAST_LETTERS = 6.99
# What rounding and kerning may add to a box.
SLACK = 0.75
# A page whose words end in its upper quarter is next to empty; the last one may be.
LEAST_USED = 0.25
# The heading under which each heading is a step, as `book_steps.html` has it.
STEPS = "Step by step"


@dataclass(frozen=True, slots=True)
class Fault:
    """name: of the kind of fault, `small-letters`. page: from 1, or 0 where it is in the whole document."""

    name: str
    page: int
    says: str
    box: Box | None = None

    def __str__(self) -> str:
        where = f"page {self.page}: " if self.page else ""
        return f"{where}{self.says} [{self.name}]"


def faults(document: bytes) -> tuple[Fault, ...]:
    """Return everything that is wrong with a book; nothing where its pages are as they should be."""
    found = read(document)
    return (
        *(Fault("not-accessible", 0, says) for says in check(document)),
        *(fault for page in found.pages for fault in _on_page(page)),
        *_stranded(found.blocks),
        *_apart(found.blocks),
        *_nearly_empty(found),
    )


def _on_page(page: PageRead) -> Iterator[Fault]:
    roomy = page.box.shrunk(MARGIN)
    for each in page.painted:
        what = f"“{_short(each.text)}”" if each.text.strip() else "A line"
        if not each.seen.is_empty and not each.seen.within(page.box, SLACK):
            yield Fault("outside-the-page", page.number, f"{what} runs over the edge of the page.", each.box)
        elif each.text.strip() and not each.box.within(each.window, SLACK):
            yield Fault("cut-off", page.number, f"{what} is cut off.", each.box)
        elif each.number is not None and not each.seen.is_empty and not each.seen.within(roomy, SLACK):
            yield Fault("in-the-margin", page.number, f"{what} stands in the margin.", each.box)
    for each in page.texts:
        if each.size < LEAST_LETTERS:
            says = f"“{_short(each.text)}” is set in {each.size:.1f} pt."
            yield Fault("small-letters", page.number, says, each.box)
    for one, other in _overlapping(page.texts):
        says = f"“{_short(one.text)}” and “{_short(other.text)}” stand on each other."
        yield Fault("words-overlap", page.number, says, one.box)


def _overlapping(texts: Sequence[Painted]) -> Iterator[tuple[Painted, Painted]]:
    """Every two texts on each other, found from the top of the page to its foot."""
    standing: list[Painted] = []
    for each in sorted(texts, key=lambda text: -text.box.top):
        standing = [other for other in standing if other.box.bottom < each.box.top]
        yield from ((other, each) for other in standing if other.box.meets(each.box, SLACK))
        standing.append(each)


def _stranded(blocks: Sequence[Block]) -> Iterator[Fault]:
    """A heading whose text begins on another page, or that nothing follows."""
    for at, block in enumerate(blocks):
        if not block.is_heading or not block.pages:
            continue
        after = next((other for other in blocks[at + 1 :] if not other.is_heading and other.pages), None)
        if after is None or after.pages[0] != block.pages[-1]:
            says = f"The heading “{_short(block.text)}” stands apart from what it is over."
            yield Fault("heading-stranded", block.pages[0], says, block.box)


def _apart(blocks: Sequence[Block]) -> Iterator[Fault]:
    """A step that goes on over the page, so that its figure is not beside its words."""
    section, step = "", None
    for block in blocks:
        if block.kind in ("H1", "H2"):
            section, step = block.text, None
        elif block.kind == "H3":
            step = block
        elif section == STEPS and step is not None and set(block.pages) - set(step.pages):
            what = "The figure" if block.kind == "Figure" else f"“{_short(block.text)}”"
            says = f"{what} of the step “{_short(step.text)}” is not on its page."
            yield Fault("figure-apart", block.pages[0], says, block.box)


def _nearly_empty(found: Read) -> Iterator[Fault]:
    for page in found.pages[:-1]:
        feet = [each.seen.bottom for each in page.painted if each.number is not None]
        if not feet or page.box.top - min(feet) < LEAST_USED * (page.box.top - page.box.bottom):
            yield Fault("nearly-empty", page.number, "The page is nearly empty.")


def _short(text: str, most: int = 40) -> str:
    text = " ".join(text.split())
    return text if len(text) <= most else f"{text[:most]}…"
