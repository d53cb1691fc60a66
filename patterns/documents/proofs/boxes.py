"""Boxes on a page, and what was painted in them."""

from dataclasses import dataclass
from typing import NamedTuple


class Box(NamedTuple):
    """A box on a page, in points from its lower left corner."""

    left: float
    bottom: float
    right: float
    top: float

    def meets(self, other: "Box", slack: float) -> bool:
        """Whether they share more than a strip of that width."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > slack
            and min(self.top, other.top) - max(self.bottom, other.bottom) > slack
        )

    def within(self, other: "Box", slack: float = 0) -> bool:
        return (
            self.left >= other.left - slack
            and self.bottom >= other.bottom - slack
            and self.right <= other.right + slack
            and self.top <= other.top + slack
        )

    def cut_by(self, other: "Box") -> "Box":
        left, bottom = max(self.left, other.left), max(self.bottom, other.bottom)
        return Box(
            left, bottom, max(left, min(self.right, other.right)), max(bottom, min(self.top, other.top))
        )

    def shrunk(self, by: float) -> "Box":
        return Box(self.left + by, self.bottom + by, self.right - by, self.top - by)

    @property
    def is_empty(self) -> bool:
        return self.right <= self.left or self.top <= self.bottom


# What is cut to nothing smaller.
EVERYWHERE = Box(-1e6, -1e6, 1e6, 1e6)


@dataclass(frozen=True, slots=True)
class Painted:
    """One text, or one path. number: of its marked content; None: it is an artifact.

    size: the letters' height as printed, in points; 0 for a path. window: what it is cut to.
    colour: as the file gives it, one to four numbers.
    """

    box: Box
    window: Box
    number: int | None
    text: str = ""
    size: float = 0
    colour: tuple[float, ...] = ()

    @property
    def seen(self) -> Box:
        return self.box.cut_by(self.window)
