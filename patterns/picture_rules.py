"""Which pictures the shop takes, and what is made of them. Known to both processes; neither decodes here."""

from dataclasses import dataclass
from typing import Final, Literal

from patterns.limits import Limits

Format = Literal["webp", "jpg"]

MEGABYTE: Final = 1024 * 1024
# A picture of 9 KiB can open as 81 megapixels. No camera that people carry makes more than these by habit.
MOST_MEGAPIXELS: Final = 40
MOST_SIDE: Final = 12_000
KINDS: Final = "JPEG, PNG or WebP"
# One picture of that many pixels with transparency takes 160 MB, and turning it as many again.
PICTURE: Final = Limits(seconds=25, work_seconds=20, megabytes=1024)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is made of one upload.

    most_megabytes: of the upload. least_side: pixels of the part that is used, on its shorter side.
    longest: the longer side is at most so many times the shorter one. widths: in pixels; nothing is enlarged.
    hundredths: how much of each side is used, about the middle.
    """

    most_megabytes: int
    least_side: int
    longest: int
    widths: tuple[int, ...]
    formats: tuple[Format, ...]
    hundredths: int = 100

    @property
    def most_bytes(self) -> int:
        return self.most_megabytes * MEGABYTE

    @property
    def limits_words(self) -> str:
        """Say before the upload what is taken."""
        return (
            f"A {KINDS} file of at most {self.most_megabytes} MB and {MOST_MEGAPIXELS} megapixels, "
            f"{self.least_side} to {MOST_SIDE:,} pixels a side."
        )


PHOTOGRAPH: Final = Wanted(
    most_megabytes=20, least_side=480, longest=3, widths=(480, 960, 1600), formats=("webp", "jpg")
)

# What a customer shows of a cloth.
CLOTH: Final = Wanted(most_megabytes=5, least_side=200, longest=4, widths=(1000,), formats=("jpg",))


@dataclass(frozen=True, slots=True)
class MadeFile:
    """One encoded picture; width and height in pixels."""

    width: int
    height: int
    format: Format
    content: bytes
