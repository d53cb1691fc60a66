"""What a piece of a layout is called on the drawing: its name and size on it, or a number with a key."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from patterns.drafting.units import Units

from . import words
from .geometry import Box, Spot
from .labels import Block, Placed, TextLine, Turned, first_free, wrapped
from .laid_cloth import LaidPiece
from .metrics import text_width
from .outline import Outline
from .tokens import INK, LEAST_LETTERS, QUIET_INK

# Page, micrometres. 2,900 is 8.2 pt.
NAME = 2900
SMALLER = LEAST_LETTERS + 30
# From a label to the edge of its piece.
INSET = 500
# Where a label is tried, in hundredths of the piece: the middle first.
_SHARES = (50, 38, 62, 26, 74)
_ALONG = (50, 25, 75, 0, 100)


@dataclass(frozen=True, slots=True)
class Label:
    """number: where name and size found no room. placed: None where not even the number did."""

    placed: Placed | Turned | None
    number: int = 0


@dataclass(slots=True)
class Numbered:
    """The numbers of pieces whose names find no room: one for all that are called alike."""

    units: Units
    numbers: dict[str, int] = field(default_factory=dict)

    def of(self, piece: LaidPiece) -> int:
        return self.numbers.setdefault(words_of(piece, self.units), len(self.numbers) + 1)

    def key(self, labels: Sequence[Label]) -> list[str]:
        """Return a line for each number: `1: strap, 2 × 20 in, 3 of them`."""
        counts = {number: sum(label.number == number for label in labels) for number in self.numbers.values()}
        return [
            f"{number}: {text}{f', {counts[number]} of them' if counts[number] > 1 else ''}"
            for text, number in self.numbers.items()
        ]


def words_of(piece: LaidPiece, units: Units) -> str:
    """Return a piece's name, cut size and whether it is turned: `strap, 2 × 20 in, turned`."""
    turned = ", turned" if piece.turned else ""
    return f"{piece.name}, {piece.size_words(units)}{turned}"


def label_of(
    piece: LaidPiece, outline: Outline, numbered: Numbered, taken: Sequence[Box], units: Units
) -> Label:
    """Return what stands on a piece: name and size level, then upright, then a number. taken: by others."""
    inside = outline.box.grown(-INSET)
    outside = [*(box.grown(INSET) for box in outline.outside), *taken]
    size = words.label(piece.size_words(units))
    for letters in (NAME, SMALLER):
        # What is not free at its full width may be where it is broken into more lines, as on a circle.
        for most in (inside.width, inside.width * 2 // 3):
            block = _block(piece, size, letters, most)
            if block is not None and (placed := _placed(block, inside, outside)):
                return Label(placed)
    for letters in (NAME, SMALLER):
        for upright in _upright(words.label(words_of(piece, units)), letters, inside):
            if not any(upright.box.overlaps(box) for box in outside):
                return Label(upright)
    number = numbered.of(piece)
    edges = [*outline.outside, *taken]
    return Label(_placed(Block((TextLine(str(number), SMALLER),)), outline.box.grown(-100), edges), number)


def _block(piece: LaidPiece, size: str, letters: int, most: int) -> Block | None:
    """Name over size; None where a word would have to be broken."""
    texts = [(piece.name, INK), (size, INK), *([("turned", QUIET_INK)] if piece.turned else [])]
    broken = [word for text, _ in texts[:1] for word in text.split() if text_width(word, letters) > most]
    if broken or any(text_width(text, letters) > most for text, _ in texts[1:]):
        return None
    return Block(tuple(each for text, colour in texts for each in wrapped(text, letters, most, colour)))


def _placed(block: Block, inside: Box, outside: Sequence[Box]) -> Placed | None:
    return first_free(block, _corners(block, inside), outside, inside)


def _corners(block: Block, box: Box) -> Iterator[Spot]:
    for down in _SHARES:
        for across in _SHARES:
            x = box.left + box.width * across // 100 - block.width // 2
            yield Spot(x, box.top + box.height * down // 100 - block.height // 2)


def _upright(text: str, letters: int, inside: Box) -> Iterator[Turned]:
    """Yield a line along a narrow piece: in its middle, then nearer to its ends."""
    line = TextLine(text, letters)
    free = inside.height - line.width
    if free < 0 or line.height > inside.width:
        return
    left = inside.middle.x - line.height // 2
    for share in _ALONG:
        top = inside.top + free * share // 100
        yield Turned(line, Box(left, top, left + line.height, top + line.width))
