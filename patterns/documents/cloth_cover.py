"""The customer's own cloth on the cover of a book: its pictures, handed to the renderer with the figures."""

from base64 import b64decode, b64encode
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from patterns.drafting.recipe import Tint
from patterns.drawings.prints import Print, Prints


@dataclass(frozen=True, slots=True)
class ClothPicture:
    """A JPEG of a strip of cloth, and how large the strip is, mm."""

    width: Fraction
    height: Fraction
    content: bytes


Cover = Mapping[Tint, ClothPicture]


def to_json(cover: Cover) -> dict[str, Any]:
    """Return the cover as it is handed to another process, and as the address of a book says it."""
    return {
        tint: {
            "width": str(each.width),
            "height": str(each.height),
            "picture": b64encode(each.content).decode(),
        }
        for tint, each in cover.items()
    }


def from_json(data: Mapping[str, Any]) -> Cover:
    tints: tuple[Tint, ...] = ("exterior", "lining")
    return {
        tint: ClothPicture(
            Fraction(data[tint]["width"]), Fraction(data[tint]["height"]), b64decode(data[tint]["picture"])
        )
        for tint in tints
        if tint in data
    }


def prints(cover: Cover) -> Prints:
    """Return how the drawing on the cover names the pictures."""
    return {tint: Print(_address(tint), each.width, each.height) for tint, each in cover.items()}


def pictures(cover: Cover) -> dict[str, bytes]:
    """Return the pictures by the addresses that the drawing names them by."""
    return {_address(tint): each.content for tint, each in cover.items()}


def _address(tint: Tint) -> str:
    return f"mem:own-{tint}.jpg"
