"""Layers of cloth lying on a table, seen from their side edge: where each lies, and what joins them.

A layer is a part of a strip that lies flat. Places are mm along the table, from left to right. The layers
are listed from the table up; of two that do not lie over each other the order says nothing.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from .errors import AmissError
from .strips import Strip

Side = Literal["right", "wrong"]


def other_side(side: Side) -> Side:
    return "wrong" if side == "right" else "right"


@dataclass(frozen=True, slots=True)
class Layer:
    """The part of a strip from `start` to `end` along it, mm from its front raw edge.

    at: where the strip's front raw edge lies, or would lie. way: 1 if the strip runs to the right from
    there, −1 if to the left. up: the side of the cloth that faces up.
    """

    strip: str
    start: Fraction
    end: Fraction
    at: Fraction
    way: Literal[1, -1]
    up: Side

    @property
    def down(self) -> Side:
        return other_side(self.up)

    def place(self, along: Fraction) -> Fraction:
        return self.at + along if self.way == 1 else self.at - along

    @property
    def left(self) -> Fraction:
        return min(self.place(self.start), self.place(self.end))

    @property
    def right(self) -> Fraction:
        return max(self.place(self.start), self.place(self.end))

    def over(self, place: Fraction) -> "Layer":
        """Return the layer turned over about a place: the reflection that a fold is."""
        return replace(self, at=2 * place - self.at, way=1 if self.way == -1 else -1, up=self.down)

    def parted(self, place: Fraction) -> "tuple[Layer | None, Layer | None]":
        """Return what of it lies left and what lies right of a place."""
        if self.right <= place:
            return self, None
        if self.left >= place:
            return None, self
        along = (place - self.at) * self.way
        first, second = replace(self, end=along), replace(self, start=along)
        return (first, second) if self.way == 1 else (second, first)


def folded_over(layers: Iterable[Layer], line: Fraction, is_right: bool, is_under: bool) -> tuple[Layer, ...]:
    """Return layers with all that lies right of a line, or left of it, folded over or under the rest.

    Raises AmissError: nothing else is there.
    """
    resting: list[Layer] = []
    moved: list[Layer] = []
    for layer in layers:
        left, right = layer.parted(line)
        stays, goes = (left, right) if is_right else (right, left)
        resting += [stays] if stays else []
        moved += [goes.over(line)] if goes else []
    if not resting:
        raise AmissError("nothing is left to fold it on.")
    moved.reverse()
    return (*moved, *resting) if is_under else (*resting, *moved)


# An end of a layer: the strip, and how far along it.
End = tuple[str, Fraction]


@dataclass(frozen=True, slots=True)
class Bond:
    """Where two layers go on into each other: over a fold, or over a seam.

    lower, upper: their numbers from the table up. place: where on the table. sides: on which side of the
    place each lies, −1 left and 1 right; a fold has both on one side.
    """

    lower: int
    upper: int
    place: Fraction
    sides: tuple[int, int]
    ends: frozenset[End]

    @property
    def is_fold(self) -> bool:
        return self.sides[0] == self.sides[1]


def bonds(layers: tuple[Layer, ...], seams: Iterable[frozenset[End]]) -> Iterator[Bond]:
    """Yield what joins the layers, each once. Raises AmissError: the ends of a seam or fold lie apart."""
    partner: dict[End, frozenset[End]] = {end: seam for seam in seams for end in seam}
    met: dict[frozenset[End], list[tuple[int, Fraction, int]]] = {}
    for number, layer in enumerate(layers):
        for along in (layer.start, layer.end):
            end = (layer.strip, along)
            place = layer.place(along)
            side = 1 if place == layer.left else -1
            met.setdefault(partner.get(end, frozenset([end])), []).append((number, place, side))
    for ends, found in met.items():
        for (lower, place, one), (upper, other_place, other) in pairwise(found):
            if place != other_place:
                names = " and the ".join(sorted({strip for strip, _ in ends}))
                raise AmissError(f"the {names} would have to tear: what is joined comes to lie apart.")
            yield Bond(lower, upper, place, (one, other), ends)


def look_for_crossings(layers: tuple[Layer, ...], seams: Iterable[frozenset[End]]) -> None:
    """Raise AmissError if a layer would have to pass through another.

    Source: the conditions on folds of one line of creases (Justin, 1997), from memory: no layer goes on
    over a fold of two others that it lies between, and folds at one place lie in each other or side by side.
    """
    found = list(bonds(layers, seams))
    for bond in found:
        for between in layers[bond.lower + 1 : bond.upper]:
            if between.left < bond.place < between.right:
                raise AmissError(f"the {between.strip} would have to pass through {_told(layers, bond)}.")
    for number, bond in enumerate(found):
        for other in found[number + 1 :]:
            if bond.place == other.place and _cross(bond, other):
                raise AmissError(
                    f"{_told(layers, bond)} and {_told(layers, other)} would have to pass through each other."
                )


def _cross(bond: Bond, other: Bond) -> bool:
    if not (bond.is_fold and other.is_fold and bond.sides == other.sides):
        return False
    first, second = sorted(((bond.lower, bond.upper), (other.lower, other.upper)))
    return first[0] < second[0] < first[1] < second[1]


def _told(layers: tuple[Layer, ...], bond: Bond) -> str:
    names = sorted({layers[bond.lower].strip, layers[bond.upper].strip})
    return f"the fold of the {names[0]}" if len(names) == 1 else f"the seam of {' and '.join(names)}"


def faces_amiss(layers: tuple[Layer, ...]) -> str:
    """Return what is wrong with the faces that touch, read round a side seam; "" if nothing is.

    Between a seam's neighbours, the last layer next to the first, like faces like: of one cloth right on
    right or wrong on wrong, of two cloths wrong on wrong, else a right side would end up inside for good.
    """
    for number, layer in enumerate(layers):
        above = layers[(number + 1) % len(layers)]
        if layer.up != above.down:
            return (
                f"the {layer.up} side of the {layer.strip} lies on the {above.down} side of the {above.strip}"
            )
        if layer.strip != above.strip and layer.up != "wrong":
            return f"the {layer.strip} lies right sides together on the {above.strip}"
    return ""


def places_of(layers: Iterable[Layer], strip: Strip, mark: str) -> set[Fraction]:
    """Return where a mark lies, in every layer that holds it. Raises AmissError: in none."""
    along = strip.place(mark)
    found = {
        layer.place(along)
        for layer in layers
        if layer.strip == strip.name and layer.start <= along <= layer.end
    }
    if not found:
        raise AmissError(f"the {mark} of the {strip.name} does not lie on the table.")
    return found


@dataclass(frozen=True, slots=True)
class Zone:
    """A stretch of the side edge in which the same layers lie over each other."""

    left: Fraction
    right: Fraction
    layers: tuple[Layer, ...]


def zones(layers: Iterable[Layer]) -> tuple[Zone, ...]:
    """Return the stretches of the side edge from left to right, each as long as its layers stay the same."""
    listed = [(layer, layer.left, layer.right) for layer in layers]
    places = sorted({place for _, *ends in listed for place in ends})
    found: list[Zone] = []
    for left, right in pairwise(places):
        there = tuple(layer for layer, start, end in listed if start <= left and right <= end)
        if found and found[-1].layers == there:
            found[-1] = replace(found[-1], right=right)
        else:
            found.append(Zone(left, right, there))
    return tuple(found)
