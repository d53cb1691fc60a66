"""A gap in a seam: left for turning, or for a cord."""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Opening:
    """A gap left in a seam: the cloth and its mark, mm from the left raw edge, or from the top one."""

    strip: str
    mark: str
    start: Fraction
    end: Fraction

    @property
    def length(self) -> Fraction:
        return self.end - self.start
