"""Questions for layouts: a bag-maker's hundred, and panels cut to pieces, whose least length is known."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from patterns.cutting.sheets import Rectangle

INCH = Fraction(127, 5)
EIGHTH_YARD = Fraction(9, 2)
# What can be used of the usual cloths, in.
WIDTHS = (21, 42, 54, 58)


@dataclass(frozen=True, slots=True)
class Case:
    """pieces on cloth of a width, in inches. best: the least length, where it is known."""

    name: str
    width: Fraction
    pieces: tuple[Rectangle, ...]
    best: Fraction | None = None


def bag_cases(count: int = 100, seed: int = 41) -> Iterator[Case]:
    """Yield cases as bags have them: panels, linings and pockets in pairs, straps, tabs; 2 to 24 pieces."""
    lot = Random(seed)
    for number in range(count):
        width, turns = WIDTHS[number % 4], number // 4 % 2 == 0
        wanted = lot.randint(2, 24)
        pieces: list[Rectangle] = []
        while len(pieces) < wanted:
            times = min(lot.choice((1, 2, 2, 2, 4)), wanted - len(pieces))
            pieces += [Rectangle(*_sides(lot, width), turns)] * times
        yield Case(f"bag {number}", Fraction(width), tuple(pieces))


def _sides(lot: Random, width: int) -> tuple[Fraction, Fraction]:
    what = lot.random()
    if what < 0.45:  # a panel
        sides = lot.randint(32, 80), lot.randint(32, 88)
    elif what < 0.7:  # a pocket
        sides = lot.randint(20, 48), lot.randint(16, 40)
    elif what < 0.85:  # a strap
        sides = lot.randint(8, 20), lot.randint(80, 160)
    else:  # a tab, a loop, a binding
        sides = lot.randint(6, 16), lot.randint(8, 32)
    across, along = (Fraction(side, 4) for side in sides)
    return min(across, Fraction(width)), along


# Pieces, width and length of a panel, whole inches, as in the panels of many publications; and finer ones.
_PANELS = ((10, 40, 40), (17, 20, 20), (25, 40, 15), (29, 60, 30), (40, 80, 80), (49, 60, 60), (60, 50, 100))
_LARGER = ((73, 60, 90), (97, 80, 120), (140, 70, 150), (200, 160, 240))
_FINER = ((16, 42, 50), (40, 42, 90), (100, 54, 180))
_QUARTERS = 4


def cut_panels(turns: bool, seed: int = 7) -> Iterator[Case]:
    """Yield panels cut to pieces without waste, edge to edge and not."""
    panels = [(*each, 1) for each in (*_PANELS, *_LARGER)] + [(*each, _QUARTERS) for each in _FINER]
    for number, (count, width, length, parts) in enumerate(panels):
        for pinwheels in (False, True):
            lot = Random(seed * 1000 + number * 10 + pinwheels)
            boxes = _cut(lot, width * parts, length * parts, count, pinwheels)
            pieces = [_piece(lot, *box, parts, turns) for box in boxes]
            lot.shuffle(pieces)
            how = "pinwheels" if pinwheels else "edge to edge"
            yield Case(f"{count} {how}", Fraction(width), tuple(pieces), Fraction(length))


def _piece(lot: Random, wide: int, high: int, parts: int, turns: bool) -> Rectangle:
    if turns and lot.random() < 0.5:
        wide, high = high, wide
    return Rectangle(Fraction(wide, parts), Fraction(high, parts), turns)


def _cut(lot: Random, width: int, length: int, count: int, pinwheels: bool) -> list[tuple[int, int]]:
    """Cut a box to pieces: the largest in two at random, or in five that no straight cut parts."""
    boxes = [(width, length)]
    while len(boxes) < count:
        boxes.sort(key=lambda box: box[0] * box[1] * (1 + lot.random()))
        wide, high = boxes.pop()
        if pinwheels and len(boxes) + 5 <= count and min(wide, high) >= 5 and lot.random() < 0.7:
            left, right = sorted(lot.sample(range(1, wide), 2))
            low, top = sorted(lot.sample(range(1, high), 2))
            boxes += [(right, low), (wide - right, top), (wide - left, high - top), (left, high - low)]
            boxes.append((right - left, top - low))
        elif wide >= high:
            at = round(wide * lot.uniform(0.2, 0.8)) or 1
            boxes += [(at, high), (wide - at, high)]
        else:
            at = round(high * lot.uniform(0.2, 0.8)) or 1
            boxes += [(wide, at), (wide, high - at)]
    return boxes
