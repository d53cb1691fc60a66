"""What the section “How it is made” shows: the item open and flat, and the first steps of its book."""

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from patterns.documents.errors import DocumentError
from patterns.documents.step_screens import StepDrawn, first_steps
from patterns.drafting.sized import SizedPattern
from patterns.drawings.flat import flat_svg
from patterns.drawings.shut import shut_svg
from patterns.size_page import drawing

# A taste of the book, not the book.
FIRST_STEPS = 3


@dataclass(frozen=True, slots=True)
class MakingPage:
    """One size. flat: none where its base is sewn to stand. shut: drawn shut, of what has cords.

    count: of all steps in its book.

    steps: none where the cloth cannot do at this size what they tell.
    """

    size: str
    item: SafeString | None
    flat: SafeString | None
    shut: SafeString | None
    steps: tuple[StepDrawn, ...]
    count: int

    @property
    def news(self) -> str:
        """What somebody hears who does not see the page."""
        return f"The finished item and the first steps, drawn for {self.size}."


def making_page(sized: SizedPattern, size_words: str) -> MakingPage:
    """Return the section for a size that is not refused."""
    try:
        steps = first_steps(sized, FIRST_STEPS)
    except DocumentError:
        steps = ()
    return MakingPage(
        size=size_words,
        item=drawing(sized),
        flat=_safe(flat_svg(sized)),
        shut=_safe(shut_svg(sized)),
        steps=steps,
        count=len(sized.steps),
    )


def _safe(svg: str | None) -> SafeString | None:
    return None if svg is None else mark_safe(svg)  # noqa: S308 - our own drawing
